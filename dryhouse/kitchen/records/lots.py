"""A lot on the shelf: one jar or bag, where it has been, what was drawn, what was found."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime

from dryhouse.kitchen.records.describing import MOST_G, MOST_ML, about
from dryhouse.science.quantities import Mass, Volume

PACKAGES = ("jar", "bag", "vacuum bag", "tin", "jar with absorber", "open container")

HOME, BOUGHT = "home", "bought"
ORIGINS = (HOME, BOUGHT)


@dataclass(frozen=True, slots=True)
class Lot:
    """Dried food packed on one day in one package; dried at home, or bought."""

    food: str
    packed_on: date = field(metadata=about("Packed on"))
    name: str = field(default="", metadata=about("Name"))
    batch: int | None = None
    package: str = field(
        default="jar",
        metadata=about(
            "Package",
            choices=PACKAGES,
            needed=True,
            says=f"“{{shown}}” is no package here; choose one of {', '.join(PACKAGES)}.",
        ),
    )
    sealed: bool = True
    mass: Mass | None = field(default=None, metadata=about("Weight", low=0.0, high=MOST_G))
    volume: Volume | None = field(default=None, metadata=about("Volume", low=0.0, high=MOST_ML))
    conditioned_from: date | None = field(default=None, metadata=about("Conditioning began"))
    conditioned_to: date | None = field(default=None, metadata=about("Conditioning ended"))
    pasteurised: str = field(default="", metadata=about("What was done"))
    """How dried fruit was pasteurised, in words; empty where nothing is recorded."""
    opened_on: date | None = None
    bought_keep_by: date | None = field(default=None, metadata=about("Date on the package"))
    """The date printed on the package of bought food."""
    redried_on: date | None = None
    origin: str = field(default=HOME, metadata=about("Where it came from", choices=ORIGINS, needed=True))
    """`home` or `bought`: a lot that lost its batch was dried at home all the same."""
    in_oil: bool | None = field(default=None, metadata=about("Packed in oil", answers=True))
    """Whether it is packed in oil; None where nobody has said."""
    notes: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class LotMove:
    """From this moment on the lot is in this place."""

    lot: int
    place: int = field(metadata=about("To"))
    at: datetime = field(metadata=about("When"))
    id: int = 0


COOKED, GIVEN, THROWN_OUT = "cooked", "given", "thrown out"
DRAW_KINDS = (COOKED, GIVEN, THROWN_OUT)


@dataclass(frozen=True, slots=True)
class LotDraw:
    """Some of the lot (or all of it, where mass is None) left the shelf."""

    lot: int
    on: date
    purpose: str = field(default=COOKED, metadata=about("What for", choices=DRAW_KINDS, needed=True))
    mass: Mass | None = field(default=None, metadata=about("Weight", low=0.0, high=MOST_G))
    meal: int | None = None
    note: str = field(default="", metadata=about("Note"))
    at: datetime | None = field(default=None, metadata=about("Moment"))
    """The moment, where it was told on its own day: whether it was taken before or after the lot was weighed."""
    id: int = 0


@dataclass(frozen=True, slots=True)
class LotCheck:
    """What was found when someone looked: None means it was not looked at."""

    lot: int
    on: date
    mass: Mass | None = field(default=None, metadata=about("Weighs", low=0.0, high=MOST_G))
    moist: bool | None = field(default=None, metadata=about("Moisture"))
    mould: bool | None = field(default=None, metadata=about("Mold"))
    smell: str = field(default="", metadata=about("Odd smell"))
    note: str = field(default="", metadata=about("Note"))
    at: datetime | None = field(default=None, metadata=about("Moment"))
    """The moment, where it was told on its own day."""
    id: int = 0
