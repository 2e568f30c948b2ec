"""From the trip's meals back to the shelf: what will still be good, what has to be dried, and by when.

Everything here is arithmetic over plain values; masses are grams of dried food.

1. Cover. Needs are met day by day from the lots that are good on that day, the lot that goes off first
   drawn first. As every lot is good from now until its own last day, this leaves later days all that can
   be left to them: no other order covers more.
2. Margin. The share the person expects to lose (crumbs, spoilage) is not counted on: a lot counts for
   mass × (1 − margin), and what is short is dried as short ÷ (1 − margin).
3. To dry. What is short, through the yield to the prepared and through the refuse to the as-purchased mass.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

_CRUMB = 1e-9


@dataclass(frozen=True, slots=True)
class Need:
    """So many grams of a dried food eaten on a day; `lot` where the meal names one."""

    day: date
    food: str
    grams: float
    meal: str = ""
    lot: int | None = None
    bag: int = 0
    """Whatever number tells the caller's bags apart."""


@dataclass(frozen=True, slots=True)
class Supply:
    """A lot on the shelf: its mass, and the last day it may serve. None: it may not serve at all."""

    lot: int
    food: str
    grams: float
    last_day: date | None


@dataclass(frozen=True, slots=True)
class Draw:
    """What one lot gives one need."""

    lot: int
    need: Need
    grams: float


@dataclass(frozen=True, slots=True)
class Cover:
    """Which lots serve what, and what is left short (needs with the missing grams)."""

    draws: tuple[Draw, ...]
    short: tuple[Need, ...]

    def short_of(self, food: str) -> float:
        """Grams of a food the shelf does not cover."""
        return sum(need.grams for need in self.short if need.food == food)

    @property
    def short_foods(self) -> tuple[str, ...]:
        """The foods that have to be dried, in the order they are first missed."""
        return tuple(dict.fromkeys(need.food for need in self.short))


def cover(needs: Iterable[Need], shelf: Iterable[Supply], margin: float = 0.0) -> Cover:
    """Meet the needs from the shelf. `margin` is the share (0 up to, not with, 1) that is not counted on.

    A lot a meal names serves that meal before any other; where it may not serve on the day or runs out,
    other lots of the food step in.
    """
    if not 0 <= margin < 1:
        raise ValueError("a margin lies between 0 and below 1")
    left = {s.lot: s.grams * (1.0 - margin) for s in shelf}
    lots = sorted((s for s in shelf if s.last_day is not None), key=lambda s: (s.last_day, s.lot))
    wanted = sorted(needs, key=lambda n: (n.day, n.food, n.bag, n.meal))
    draws: list[Draw] = []
    missing: dict[int, float] = {i: need.grams for i, need in enumerate(wanted)}

    def draw(i: int, supply: Supply) -> None:
        need = wanted[i]
        may = supply.food == need.food and supply.last_day is not None and supply.last_day >= need.day
        grams = min(missing[i], left[supply.lot]) if may else 0.0
        if grams > _CRUMB:
            draws.append(Draw(supply.lot, need, grams))
            left[supply.lot] -= grams
            missing[i] -= grams

    by_lot = {s.lot: s for s in lots}
    for i, need in enumerate(wanted):
        if need.lot in by_lot:
            draw(i, by_lot[need.lot])
    for i in range(len(wanted)):
        for supply in lots:
            if missing[i] <= _CRUMB:
                break
            draw(i, supply)
    short = tuple(replace(need, grams=missing[i]) for i, need in enumerate(wanted) if missing[i] > _CRUMB)
    return Cover(tuple(draws), short)


@dataclass(frozen=True, slots=True)
class Span:
    """A number with the range it may lie in."""

    value: float
    low: float
    high: float

    def times(self, factor: float) -> Span:
        """Everything scaled."""
        return Span(self.value * factor, self.low * factor, self.high * factor)


@dataclass(frozen=True, slots=True)
class Recipe:
    """How a food is dried: fresh grams per dried gram, refuse, tray loads and hours, as far as known."""

    food: str
    fresh_per_dried: Span | None
    refuse: float | None = None
    """Share of the as-purchased mass that is not dried, 0 to below 1."""
    tray_grams: Mapping[int, float] = field(default_factory=dict)
    """Prepared grams one tray takes, by the number of the dryer; a dryer that is not there is not used."""
    hours: Span | None = None
    conditioning_days: int = 0
    company: str = ""
    """Foods of the same company (heat and smell) may share a run; one of none is dried alone."""
    temperature_c: float | None = None
    """What the dryer is set to."""


@dataclass(frozen=True, slots=True)
class ToDry:
    """What has to be dried of one food: dried, prepared and as-purchased grams."""

    food: str
    dried: float
    prepared: Span | None
    purchased: Span | None


def to_dry(short: float, recipe: Recipe, margin: float = 0.0) -> ToDry:
    """The batch that makes up a shortage, with the margin on top."""
    dried = short / (1.0 - margin)
    prepared = None if recipe.fresh_per_dried is None else recipe.fresh_per_dried.times(dried)
    bought = prepared.times(1.0 / (1.0 - recipe.refuse)) if prepared and recipe.refuse is not None else None
    return ToDry(recipe.food, dried, prepared, bought)
