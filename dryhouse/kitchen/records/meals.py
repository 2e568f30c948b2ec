"""Meals, the trips they are cooked on, and what the pot taught."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from dryhouse.science.quantities import Length, Mass, Temperature, Volume

SIMMER, REST, COLD_SOAK = "simmer", "boil and rest", "cold soak"
COOKING_STYLES = (SIMMER, REST, COLD_SOAK)

DRY, STEW, SOUP = "dry", "stew", "soup"
LIQUID_STYLES = (DRY, STEW, SOUP)


@dataclass(frozen=True, slots=True)
class Meal:
    """A one-pot meal: its servings, how it is cooked, how wet it should be."""

    name: str
    servings: float = 1.0
    cooking: str = SIMMER
    liquid: str = STEW
    cook_minutes: float | None = None
    pot_diameter: Length | None = None
    boil_off_ml_per_min: float | None = None
    """Her own measured boil-off; None means the program's stated assumption is used and named."""
    method: str = ""
    notes: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class MealPart:
    """One ingredient of a meal: home-dried by mass or measure, or a bought staple with its label."""

    meal: int
    position: int
    name: str
    food: str = ""
    """Slug of a dried food of the handbook or her own; empty for a staple."""
    staple: str = ""
    """Slug of a staple of the handbook; empty for a home-dried food or an own label."""
    lot: int | None = None
    mass: Mass | None = None
    volume: Volume | None = None
    portion: Mass | None = None
    """The label's portion, to which the figures below belong; None means 100 g."""
    label_energy_kcal: float | None = None
    label_protein_g: float | None = None
    label_fat_g: float | None = None
    label_carbohydrate_g: float | None = None
    label_sodium_mg: float | None = None
    label_water: Volume | None = None
    label_minutes: float | None = None
    id: int = 0


@dataclass(frozen=True, slots=True)
class Trip:
    """Days away: who, how long, how hungry, how warm on the way, how high."""

    name: str
    starts_on: date
    ends_on: date
    people: int = 1
    energy_kcal_per_person_day: float | None = None
    temperature: Temperature | None = None
    """What the food will stand at on the way."""
    altitude: Length | None = None
    spoilage_margin_pct: float = 0.0
    notes: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class TripMeal:
    """One meal on one day. `servings` None means one for each person."""

    trip: int
    meal: int
    on: date
    slot: str = "dinner"
    servings: float | None = None
    id: int = 0


HARD, RIGHT, SOUPY = "hard", "right", "soupy"
CAME_BACK = (HARD, RIGHT, SOUPY)


@dataclass(frozen=True, slots=True)
class CookingNote:
    """How a meal came out: water used, minutes, altitude, and what to change next time."""

    meal: int
    on: date
    servings: float = 1.0
    water: Volume | None = None
    soak_minutes: float | None = None
    cook_minutes: float | None = None
    altitude: Length | None = None
    came_back: str = ""
    """`hard`, `right`, `soupy`, or empty where not noted."""
    change: str = ""
    rating: int | None = None
    id: int = 0


@dataclass(frozen=True, slots=True)
class CookingNotePart:
    """How one ingredient came back."""

    note: int
    name: str
    came_back: str
    food: str = ""
    id: int = 0
