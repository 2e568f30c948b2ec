"""The handbook as the rest of the program sees it: its foods, finding one of them, and its sources."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, cached_property
from typing import TYPE_CHECKING

from dryhouse.handbook.foods import load_foods, load_names
from dryhouse.handbook.reading import Source, sources
from dryhouse.handbook.spelling import words
from dryhouse.handbook.staples import staple_foods
from dryhouse.handbook.tables import Food
from dryhouse.science.errors import InputProblem

if TYPE_CHECKING:
    from dryhouse.handbook.finder import Finder


@dataclass(frozen=True)
class Handbook:
    """Published figures. Nothing is read before it is asked for."""

    _given: Mapping[str, Food] | None = field(default=None, repr=False)
    """Other foods than the shipped ones, for tests."""

    @cached_property
    def foods(self) -> Mapping[str, Food]:
        """Every food by slug."""
        return load_foods() if self._given is None else self._given

    def name(self, slug: str) -> str | None:
        """What the food of this slug is called, without reading anything else of it; None where it is unknown."""
        if self._given is None:
            return load_names().get(slug)
        return self._given[slug].name if slug in self._given else None

    @cached_property
    def finder(self) -> Finder:
        """The index over the names of all foods."""
        from dryhouse.handbook.finder import Finder

        return Finder(self.foods.values())

    def finder_with(self, own: tuple[Hashable, ...], make: Callable[[], Sequence[Food]]) -> Finder:
        """The index over these foods, the handbook's and the staples that are none of them.

        `own` tells one set of foods from another; `make` makes them. The last index is kept.
        """
        from dryhouse.handbook.finder import Finder

        kept = self._with_own.get(own)
        if kept is None:
            bought = staple_foods() if self._given is None else ()
            kept = Finder((*make(), *self.foods.values()), besides=bought)
            self._with_own.clear()
            self._with_own[own] = kept
        return kept

    @cached_property
    def _with_own(self) -> dict[tuple[Hashable, ...], Finder]:
        return {}

    @cached_property
    def _animal_names(self) -> tuple[tuple[frozenset[str], Food], ...]:
        animals = (food for food in self.foods.values() if food.animal)
        return tuple((frozenset(words(name)), food) for food in animals for name in (food.name, *food.other_names))

    def animal_named(self, text: str, *, exactly: bool = False) -> Food | None:
        """An animal food one of whose names stands in the text (or is the text); None where there is none.

        For things known by their name alone: it would rather see an animal food too many than miss one.
        """
        said = set(words(text))
        return next(
            (food for name, food in self._animal_names if (said == name if exactly else said >= name)),
            None,
        )

    @property
    def sources(self) -> Mapping[str, Source]:
        """Every source by id."""
        return sources()

    def food(self, slug: str) -> Food:
        """The food of this slug. `InputProblem` where there is none."""
        try:
            return self.foods[slug]
        except KeyError:
            raise InputProblem(f"The handbook has no food “{slug}”.", field="food") from None

    def find(self, text: str, limit: int = 8) -> list[Food]:
        """The foods that could be meant by `text`, best first."""
        return self.finder.find(text, limit)

    def identify(self, text: str) -> Food:
        """The one food of this name; `InputProblem` naming the near ones where it is not certain."""
        return self.finder.identify(text)


@cache
def handbook() -> Handbook:
    """The handbook shipped with the program."""
    return Handbook()
