"""What the handbook holds, as frozen rows. The reader makes them; nobody else does.

A food's numbers are facts by name, so that a new kind of figure is a row and not a field:

    water             % wet basis, fresh or as loaded        energy         kcal per 100 g
    protein, fat, carbohydrate, fibre   g per 100 g          sodium         mg per 100 g
    refuse            % of as-purchased mass                 target_moisture % wet basis
    drying_temperature  °C                                   drying_hours   h (low, high)
    blanch_steam, blanch_water  min                          tray_load      kg per m²
    dried_water         % wet basis of the article sold dried: a yardstick, never a target
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from dryhouse.science.safety.facts import UNKNOWN_FOOD
from dryhouse.science.values import UNCHECKED, Basis, Fact

ANIMAL_CATEGORIES = frozenset({"meat", "poultry", "fish", "egg", "dairy"})
CATEGORIES = (
    "vegetable",
    "fruit",
    "herb",
    "mushroom",
    "legume",
    "grain",
    "meat",
    "poultry",
    "fish",
    "egg",
    "dairy",
    "mixed",
    "other",
)


@dataclass(frozen=True, slots=True)
class Saying:
    """A published statement in words (a dryness test, a pretreatment), in our own wording."""

    text: str
    source: str
    how: str = "read"

    @property
    def basis(self) -> Basis:
        """The basis of whatever repeats this statement."""
        return Basis("handbook", self.source + (UNCHECKED if self.how == "recalled" else ""))


@dataclass(frozen=True, slots=True)
class HouseholdMeasure:
    """What a household measure of a food weighs: `grams` in `ml` of measure, for one state and cut."""

    state: str
    """`fresh`, `cooked` or `dried`."""
    cut: str
    ml: float
    grams: float
    source: str
    how: str = "read"

    @property
    def density(self) -> float:
        """Bulk density in grams per millilitre."""
        return self.grams / self.ml


@dataclass(frozen=True, slots=True)
class Food:
    """One food a person dries, with what is published about it."""

    slug: str
    name: str
    other_names: tuple[str, ...]
    category: str
    facts: Mapping[str, Fact] = field(default_factory=dict)
    sayings: Mapping[str, Saying] = field(default_factory=dict)
    measures: tuple[HouseholdMeasure, ...] = ()
    traits: frozenset[str] = frozenset()
    """What the safety rules ask about: `animal`, `ground`, `jerky`, `low_acid`, `raw_bean`, `mushroom`,
    `garlic`, `cooked_starch`, `fruit`, `game` …; all of them in `foods.TRAITS`."""

    @property
    def animal(self) -> bool:
        """Meat, poultry, fish, egg or dairy: the foods whose cautions are always shown. Food of which nobody knows
        what is in it is treated as one of them."""
        return self.category in ANIMAL_CATEGORIES or bool(self.traits & {"animal", UNKNOWN_FOOD})

    def fact(self, name: str) -> Fact | None:
        """The fact of that name, or None where nothing is published: missing stays missing."""
        return self.facts.get(name)

    def saying(self, name: str) -> Saying | None:
        """The statement of that name (`dryness_test`, `pretreatment`, `cut`, `blanch`, `note`), or None."""
        return self.sayings.get(name)

    def measures_for(self, state: str) -> tuple[HouseholdMeasure, ...]:
        """The household measures published for `fresh`, `cooked` or `dried`.

        A food that goes on the trays cooked (beans, rice) has none fresh: its cooked ones stand in.
        """
        found = tuple(m for m in self.measures if m.state == state)
        return found or (self.measures_for("cooked") if state == "fresh" else ())
