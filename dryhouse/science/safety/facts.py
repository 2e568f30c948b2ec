"""What is known of a food, a batch, a lot or a meal. None means not known, and is never read as passed."""

from __future__ import annotations

from dataclasses import dataclass

ANIMAL_KINDS = frozenset({"meat", "poultry", "fish", "egg", "dairy"})
_LOW_ACID = frozenset({"vegetable", "mushroom", "legume", "grain", "animal", "garlic", "herb"})
_OPAQUE = frozenset({"mixed", "other", "mix"})
UNKNOWN_ANIMAL, UNKNOWN_FOOD = "unknown animal", "unknown food"


@dataclass(frozen=True, slots=True)
class FoodFacts:
    """A food, or a mix with its ingredients."""

    name: str = ""
    category: str | None = None
    traits: frozenset[str] = frozenset()
    parts: tuple[FoodFacts, ...] | None = None

    @property
    def own_kinds(self) -> frozenset[str]:
        """The kinds of this food alone, its ingredients left out."""
        kinds = set(self.traits)
        if self.parts:
            kinds.discard(UNKNOWN_FOOD)
        if self.category is not None:
            kinds.add(self.category)
        for held in ("egg", "dairy"):
            if held in self.traits and self.category not in (held, None, *_OPAQUE):
                kinds.discard(held)
                kinds.add(f"holds {held}")
        if kinds & (ANIMAL_KINDS | {"animal", "ground", "jerky", "game", "pork"}):
            kinds.add("animal")
        if "animal" in kinds and not kinds & ANIMAL_KINDS:
            kinds.add("meat" if kinds & {"game", "pork"} else UNKNOWN_ANIMAL)
        if kinds & _LOW_ACID and "acid" not in kinds:
            kinds.add("low_acid")
        if not self.parts and (self.category is None or (self.category in _OPAQUE and not self.traits - _OPAQUE)):
            kinds |= {UNKNOWN_FOOD, "low_acid"}
        return frozenset(kinds)

    @property
    def kinds(self) -> frozenset[str]:
        """The union over the food and everything in it."""
        return self.own_kinds.union(*(part.kinds for part in self.parts or ()))


@dataclass(frozen=True, slots=True)
class BatchFacts:
    """A batch as far as it is recorded. Temperatures in °C, thickness in mm."""

    food: FoodFacts
    made_from: str | None = None
    pretreatment: str | None = None
    precook_method: str | None = None
    precook_temperature_c: float | None = None
    precook_measured: bool | None = None
    """True where a thermometer was read, False where the temperature was only supposed."""
    precook_held_min: float | None = None
    """How long it was held at that temperature."""
    finish_temperature_c: float | None = None
    """Of an oven the dried food was heated in afterwards, and for how many minutes. It answers no rule."""
    finish_min: float | None = None
    identified: str | None = None
    """Who knows the mushrooms: `bought`, or by whom they were identified."""
    set_temperature_c: float | None = None
    thickness_mm: float | None = None

    @property
    def kinds(self) -> frozenset[str]:
        """The kinds of what was dried."""
        return self.food.kinds


@dataclass(frozen=True, slots=True)
class LotFacts:
    """A jar or bag on the shelf. Where it was not bought it was dried at home, and `batch` may still be unknown."""

    food: FoodFacts
    batch: BatchFacts | None = None
    bought: bool = False
    package: str | None = None
    airless: bool | None = None
    """Whether the package shuts air out (vacuum, oxygen absorber)."""
    in_oil: bool | None = None
    sealed: bool | None = None
    opened: bool | None = None
    dry_enough: bool | None = None
    """By weight; None where the weights don't tell."""
    conditioned_days: int | None = None
    pasteurised: bool | None = None
    temperature_c: float | None = None
    """Of the place it is in now."""
    checked: bool | None = None
    moist: bool | None = None
    """At the last check, unless it was dried again since."""
    mould: bool | None = None
    smell: bool | None = None

    @property
    def kinds(self) -> frozenset[str]:
        """The kinds of what is in the package."""
        return self.food.kinds


@dataclass(frozen=True, slots=True)
class MealFacts:
    """A meal as it is cooked: what goes in (lots where they are known), and how it is soaked."""

    parts: tuple[FoodFacts | LotFacts, ...] = ()
    cooking: str | None = None
    soak_minutes: float | None = None
    soak_temperature_c: float | None = None
    """What the soaking food stands at."""
    altitude_m: float | None = None

    @property
    def kinds(self) -> frozenset[str]:
        """The union over everything in the pot."""
        none: frozenset[str] = frozenset()
        return none.union(*(part.kinds for part in self.parts))


Facts = FoodFacts | BatchFacts | LotFacts | MealFacts
