"""Meals, the trips they are cooked on, and what the pot taught."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from dryhouse.kitchen.records.describing import MOST_G, MOST_MINUTES, MOST_ML, about
from dryhouse.science.quantities import Length, Mass, Temperature, Volume

NO_SOAK, SHORT_SOAK, REST, COLD_SOAK = "no soak", "short soak", "boil and rest", "cold soak"
WAYS = (NO_SOAK, SHORT_SOAK, REST, COLD_SOAK)
"""The ways to bring a pot back, the one that takes the most fuel first."""
NO_POT = "no pot"
"""Eaten as it is, or stirred into cold water: a snack, a lunch, a drink."""
COOKING_STYLES = (*WAYS, NO_POT)

DRY, STEW, SOUP = "dry", "stew", "soup"
LIQUID_STYLES = (DRY, STEW, SOUP)

MOST_SERVINGS = 500
HIGHEST_MM = 4572e3
"""15,000 ft: as far up as boiling points are published."""
_LABEL = about("Figure of the label", entry="label", low=0, high=1e6)
_ALTITUDE = about(
    "Altitude",
    low=0.0,
    high=HIGHEST_MM,
    says="The altitude lies between 0 and 15,000 ft, where boiling points are published.",
)


@dataclass(frozen=True, slots=True)
class Meal:
    """A meal: its servings, how it is cooked (or that it needs no pot), how wet it should be."""

    name: str = field(metadata=about("Meal", needed=True, says="A meal needs a name."))
    servings: float = field(
        default=1.0,
        metadata=about(
            "Servings",
            positive=True,
            high=MOST_SERVINGS,
            says="A meal serves someone: write servings such as 1, 2 or 4, at most 500.",
        ),
    )
    cooking: str = field(default=SHORT_SOAK, metadata=about("Cooked by", choices=COOKING_STYLES, needed=True))
    liquid: str = field(default=STEW, metadata=about("Style", choices=LIQUID_STYLES, needed=True))
    cook_minutes: float | None = field(
        default=None,
        metadata=about("Minutes", low=0, high=MOST_MINUTES, says="Cooking takes between 0 minutes and a day."),
    )
    """Her own minutes over the flame, once it boils; None leaves them to what goes in."""
    pot_diameter: Length | None = field(
        default=None,
        metadata=about("Pot width", low=20.0, high=2000.0, says="A pot is between 2 cm and 2 m across."),
    )
    boil_off_ml_per_min: float | None = field(
        default=None,
        metadata=about(
            "Evaporation, ml/min",
            entry="boil_off",
            low=0,
            high=1000,
            says="Evaporation lies between 0 and 1000 ml a minute.",
        ),
    )
    """Her own measured boil-off; None means the program's stated assumption is used and named."""
    method: str = field(default="", metadata=about("Method"))
    notes: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class MealPart:
    """One ingredient of a meal: home-dried by mass or measure, or a bought staple with its label."""

    meal: int
    position: int
    name: str = field(metadata=about("Name", needed=True, says="An ingredient needs a name."))
    food: str = ""
    """Slug of a dried food of the handbook or her own; empty for a staple."""
    staple: str = ""
    """Slug of a staple of the handbook; empty for a home-dried food or an own label."""
    lot: int | None = None
    mass: Mass | None = field(default=None, metadata=about("Weight", low=0.0, high=MOST_G))
    volume: Volume | None = field(default=None, metadata=about("Measure", low=0.0, high=MOST_ML))
    portion: Mass | None = field(default=None, metadata=about("Portion on the label", positive=True, high=MOST_G))
    """The label's portion, to which the figures below belong; None means 100 g."""
    label_energy_kcal: float | None = field(default=None, metadata=_LABEL)
    label_protein_g: float | None = field(default=None, metadata=_LABEL)
    label_fat_g: float | None = field(default=None, metadata=_LABEL)
    label_carbohydrate_g: float | None = field(default=None, metadata=_LABEL)
    label_sodium_mg: float | None = field(default=None, metadata=_LABEL)
    label_water: Volume | None = field(default=None, metadata=about("Water for a portion", low=0.0, high=MOST_ML))
    label_minutes: float | None = field(
        default=None, metadata=about("Minutes of the label", low=0, high=MOST_MINUTES)
    )
    id: int = 0


@dataclass(frozen=True, slots=True)
class Trip:
    """Days away: who, how long, how hungry, how warm on the way, how high."""

    name: str = field(metadata=about("Trip", needed=True, says="A trip needs a name."))
    starts_on: date = field(metadata=about("First day"))
    ends_on: date = field(metadata=about("Last day"))
    people: int = field(
        default=1, metadata=about("People", low=1, high=200, says="Between 1 and 200 people eat on a trip.")
    )
    energy_kcal_per_person_day: float | None = field(
        default=None,
        metadata=about(
            "Energy, kcal per person and day",
            entry="energy",
            positive=True,
            high=20_000,
            says="The energy per person and day is between 1 and 20,000 kcal.",
        ),
    )
    temperature: Temperature | None = field(
        default=None,
        metadata=about(
            "Trail temperature", low=-40.0, high=60.0, says="Food on the way stands between −40 and 60 °C."
        ),
    )
    """What the food will stand at on the way."""
    altitude: Length | None = field(default=None, metadata=_ALTITUDE)
    spoilage_margin_pct: float = field(
        default=0.0,
        metadata=about(
            "Spare, %",
            entry="margin",
            low=0,
            high=90,
            says="The margin for spoilage lies between 0 and 90 %.",
        ),
    )
    notes: str = ""
    dry_from: date | None = None
    """The day from which its loads are spread; None means from now."""
    spare_days: int = field(
        default=0,
        metadata=about(
            "Spare days", entry="spare", low=0, high=30, says="Food is carried for between 0 and 30 spare days."
        ),
    )
    """Days after the last for which food is carried, too."""
    layovers: str = field(default="", metadata=about("Layover days"))
    """The days, by their number, on which nobody travels: `3 6`."""
    id: int = 0


@dataclass(frozen=True, slots=True)
class TripPerson:
    """One of those who go: how hungry beside the others, what they don't eat, whether they fall ill more easily."""

    trip: int
    name: str = field(metadata=about("Name", needed=True, says="Say who that is, or what to call them."))
    appetite_pct: float = field(
        default=100.0,
        metadata=about(
            "Appetite",
            entry="appetite",
            low=10,
            high=300,
            says="An appetite lies between 10 and 300 % of a usual one.",
        ),
    )
    avoids: str = field(default="", metadata=about("Does not eat", hint="meat, onion, nuts"))
    """Foods or kinds of food, separated by commas."""
    at_risk: bool = field(default=False, metadata=about("At risk"))
    """Under 5, pregnant, older, or with a weak immune system."""
    id: int = 0


@dataclass(frozen=True, slots=True)
class TripMeal:
    """One meal on one day. `servings` None means one for each person."""

    trip: int
    meal: int
    on: date
    slot: str = "dinner"
    servings: float | None = field(
        default=None,
        metadata=about(
            "Servings",
            positive=True,
            high=MOST_SERVINGS,
            says="Say how many servings, such as 4, or leave it empty for one each.",
        ),
    )
    id: int = 0


@dataclass(frozen=True, slots=True)
class AfterTrip:
    """What one meal taught on a trip: what of it came back uneaten, what was short, what to change."""

    trip: int
    meal: int
    uneaten: float = field(
        default=0.0,
        metadata=about(
            "Came back uneaten",
            entry="uneaten",
            low=0.0,
            high=MOST_SERVINGS,
            says="Say how many servings came back uneaten, such as 4, or leave it empty.",
        ),
    )
    """Servings, of all its bags."""
    short: float = field(
        default=0.0,
        metadata=about(
            "Was short",
            entry="short",
            low=0.0,
            high=MOST_SERVINGS,
            says="Say how many more servings were wanted, such as 2, or leave it empty.",
        ),
    )
    """Servings that were wanted and not there, of all its bags."""
    change: str = field(default="", metadata=about("What to change"))
    id: int = 0


HARD, RIGHT, SOUPY = "hard", "right", "soupy"
CAME_BACK = (HARD, RIGHT, SOUPY)


@dataclass(frozen=True, slots=True)
class CookingNote:
    """How a meal came out: water used, minutes, altitude, and what to change next time."""

    meal: int
    on: date = field(metadata=about("Cooked on"))
    servings: float = field(
        default=1.0,
        metadata=about(
            "Servings cooked",
            positive=True,
            high=MOST_SERVINGS,
            says="Say how many servings were cooked, such as 2.",
        ),
    )
    water: Volume | None = field(default=None, metadata=about("Water used", low=0.0, high=MOST_ML))
    soak_minutes: float | None = field(
        default=None, metadata=about("Soaked, minutes", low=0, high=7 * MOST_MINUTES)
    )
    cook_minutes: float | None = field(default=None, metadata=about("Boiled, minutes", low=0, high=MOST_MINUTES))
    """Minutes over the flame, once it boiled."""
    altitude: Length | None = field(default=None, metadata=_ALTITUDE)
    came_back: str = field(default="", metadata=about("It came back", choices=CAME_BACK))
    """`hard`, `right`, `soupy`, or empty where not noted."""
    change: str = field(default="", metadata=about("What to change"))
    rating: int | None = field(
        default=None, metadata=about("Rating", low=1, high=5, says="A rating is from 1 to 5.")
    )
    cooking: str = field(default="", metadata=about("Cooked by", choices=COOKING_STYLES))
    """How it was cooked that time; empty where that was not noted."""
    id: int = 0


@dataclass(frozen=True, slots=True)
class CookingNotePart:
    """How one ingredient came back."""

    note: int
    name: str
    came_back: str = field(metadata=about("It came back", choices=CAME_BACK))
    food: str = ""
    id: int = 0
