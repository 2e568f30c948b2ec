"""What is known of a food, a batch, a lot or a meal. None means not known, and is never read as passed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

ANIMAL_KINDS = frozenset({"meat", "poultry", "fish", "egg", "dairy"})
KNOWN_KINDS = ANIMAL_KINDS | {"vegetable", "fruit", "herb", "mushroom", "legume", "grain", "mixed", "other"}
"""The kinds a food may be of. Any other word is as good as none: the food is unknown."""
BOUGHT_KINDS = frozenset({"label", "staple"})
"""What is known of a bought ingredient that is no food of the handbook."""
_LOW_ACID = frozenset({"vegetable", "mushroom", "legume", "grain", "animal", "garlic", "herb"})
_OPAQUE = frozenset({"mixed", "other", "mix"})
_HUNTED = frozenset({"game", "wild"})
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
        kinds = self._told_kinds()
        if kinds & (ANIMAL_KINDS | {"animal", "ground", "jerky", "game", "pork"}):
            kinds.add("animal")
        if "animal" in kinds and not kinds & ANIMAL_KINDS:
            kinds.add("meat" if kinds & {"game", "pork"} else UNKNOWN_ANIMAL)
        if "meat" in kinds and not kinds & _HUNTED:
            kinds.add("livestock")
        if kinds & {"mixed", "mix"} and "acid" not in kinds:
            kinds.add("whole meal")
        if kinds & _LOW_ACID and "acid" not in kinds:
            kinds.add("low_acid")
        return frozenset(kinds)

    def _told_kinds(self) -> set[str]:
        """What name, category and traits say themselves, before anything follows from it."""
        kinds = {*self.traits, *(f"named {word}" for word in _words(self.name))}
        if self.parts:
            kinds.discard(UNKNOWN_FOOD)
        known = self.category in KNOWN_KINDS or self.category in BOUGHT_KINDS
        if self.category is not None and known:
            kinds.add(self.category)
        for held in ("egg", "dairy"):
            if held in self.traits and known and self.category not in (held, *_OPAQUE):
                kinds.discard(held)
                kinds |= set() if "cooked_starch" in kinds else {f"holds {held}"}
        opaque = self.category in _OPAQUE and not self.traits - _OPAQUE
        if not self.parts and (not known or opaque or UNKNOWN_FOOD in kinds):
            kinds |= {UNKNOWN_FOOD, "animal"}
        return kinds

    @property
    def kinds(self) -> frozenset[str]:
        """The union over the food and everything in it."""
        return self.own_kinds.union(*(part.kinds for part in self.parts or ()))


@lru_cache(maxsize=4096)
def _words(name: str) -> frozenset[str]:
    """The words of a name in the singular, and every two that stand together."""
    said = [_singular(word) for word in "".join(c if c.isalpha() else " " for c in name.casefold()).split()]
    return frozenset(said) | {f"{one} {two}" for one, two in pairwise(said)}


def _singular(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word


COOKED_THROUGH = frozenset({"simmered or steamed", "roasted in an oven"})
"""The ways of heating that count as cooked before drying; the air of a dryer, and what nobody said, do not."""


@dataclass(frozen=True, slots=True)
class BatchFacts:
    """A batch as far as it is recorded. Temperatures in °C, thickness in mm."""

    food: FoodFacts
    made_from: str | None = None
    pretreatment: str | None = None
    precook_method: str | None = None
    """How it was heated before it was dried; `COOKED_THROUGH` has the answers that count."""
    precook_temperature_c: float | None = None
    precook_measured: bool | None = None
    """True where a thermometer was read, False where the temperature was only supposed."""
    precook_held_min: float | None = None
    """How long it was held at that temperature, in minutes."""
    finish_temperature_c: float | None = None
    """Of an oven the dried food was heated in afterwards, and for how many minutes. It answers no rule."""
    finish_min: float | None = None
    identified: str | None = None
    """Who knows the mushrooms: `bought`, or by whom they were identified."""
    set_temperature_c: float | None = None
    thickness_mm: float | None = None
    off_dryer: bool = False
    """Whether it has come off the dryer and is not packed yet."""
    dry_enough: bool | None = None
    """By weight and by hand; None where they don't tell."""
    dry_doubted: bool = False
    """Whether it was weighed, and it may be dry and may not."""
    warm_min: float | None = None
    """Minutes it has stood above 40 °F since it came off the dryer, counted no further than a day; and of them
    above 90 °F. None where nobody knows. Asked only of food that is not dry."""
    hot_min: float | None = None

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
    """By weight and by hand; None where they don't tell."""
    dry_doubted: bool = False
    """Whether it was weighed, and it may be dry and may not."""
    conditioned_days: int | None = None
    pasteurised: bool | None = None
    temperature_c: float | None = None
    """Of the place it is in now."""
    checked: bool | None = None
    moist: bool | None = None
    """Found moist, and not dried again since; False where it was looked at and found dry."""
    ever_moist: bool = False
    """Found moist at any look, whatever was done since."""
    warm_min: float | None = None
    """Minutes it has stood above 40 °F since it came off the dryer, counted no further than a day; and of them
    above 90 °F. None where nobody knows. Asked only of food that is not dry."""
    hot_min: float | None = None
    mould: bool | None = None
    smell: bool | None = None

    @property
    def kinds(self) -> frozenset[str]:
        """The kinds of what is in the package."""
        return self.food.kinds

    @property
    def found_dry(self) -> bool:
        """Looked at and found dry, and never moist."""
        return self.moist is False and not self.ever_moist

    @property
    def in_doubt(self) -> bool:
        """Dried at home and weighed, it may be dry and may not, and no look answered that."""
        return not self.bought and self.dry_enough is None and self.dry_doubted and not self.found_dry


@dataclass(frozen=True, slots=True)
class MealFacts:
    """A meal as it is cooked: what goes in (lots where they are known), and how it is soaked."""

    parts: tuple[FoodFacts | LotFacts, ...] = ()
    cooking: str | None = None
    soak_minutes: float | None = None
    soak_temperature_c: float | None = None
    """What the soaking food stands at."""
    altitude_m: float | None = None
    dry: bool = False
    """Known to be eaten as it is: no water goes on it."""

    @property
    def kinds(self) -> frozenset[str]:
        """The union over everything in the pot."""
        none: frozenset[str] = frozenset()
        return none.union(*(part.kinds for part in self.parts))

    @property
    def home_parts(self) -> tuple[FoodFacts | LotFacts, ...]:
        """What goes in, without what was bought."""
        return tuple(part for part in self.parts if not (isinstance(part, LotFacts) and part.bought))


Facts = FoodFacts | BatchFacts | LotFacts | MealFacts
