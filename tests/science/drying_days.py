"""Days at the dryers, for tests: a household that is up from 7 to 22 and away on workdays, in UTC."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from dryhouse.science.drying_calendar import Calendar, Household, calendar
from dryhouse.science.drying_hours import AtHand, Hours
from dryhouse.science.drying_runs import Asked, Busy, Machine
from dryhouse.science.provisioning import Recipe, Span, to_dry

MIDNIGHT = datetime(2026, 8, 1, tzinfo=UTC)
"""A Saturday."""
NOW = MIDNIGHT + timedelta(hours=8)
READY = datetime(2026, 8, 19, tzinfo=UTC)
"""The midnight before a Wednesday."""
SHELF, BOX = Machine(1, "shelf dryer", 6, watts=500.0), Machine(2, "box dryer", 10)
BOTH = {1: 400.0, 2: 400.0, 3: 400.0}


def recipe(food: str = "corn", hours: float = 10.0, **more: object) -> Recipe:
    given = {"tray_grams": BOTH, "company": "mild vegetables at 60 °C", "temperature_c": 60.0} | more
    return Recipe(food, Span(4.0, 3.0, 5.0), hours=Span(hours, max(hours - 2, 1.0), hours), **given)  # type: ignore[arg-type]


def at_home(days: int = 18, *, away: bool = True, nights: bool = True, first: datetime = MIDNIGHT) -> Hours:
    """Up from 7 to 22; away from 8 to 17:30 on workdays."""
    stretches: list[AtHand] = []
    for n in range(days):
        day = first + timedelta(days=n)
        up, bed = day + timedelta(hours=7), day + timedelta(hours=22)
        if away and day.weekday() < 5:
            stretches.append(AtHand(up, day + timedelta(hours=8), starts=False))
            up = day + timedelta(hours=17, minutes=30)
        stretches.append(AtHand(up, bed))
    still = [] if nights else [(s.end, s.end + timedelta(hours=9)) for s in stretches if s.end.hour == 22]
    return Hours(tuple(stretches), tuple(still))


def household(hours: Hours | None = None, **more: object) -> Household:
    given: dict[str, object] = {"midnight": MIDNIGHT, "now": NOW, "ready_by": READY} | more
    return Household(hours or at_home(), **given)  # type: ignore[arg-type]


def asked(grams: float, how: Recipe, earliest: datetime | None = None, late: int = 0) -> Asked:
    return Asked(to_dry(grams, how), how, earliest, late)


def made(
    *wanted: Asked, machines: tuple[Machine, ...] = (SHELF,), hours: Hours | None = None, **more: object
) -> Calendar:
    return calendar(wanted, machines, household(hours, **more))


def awake(moment: datetime) -> bool:
    """Whether somebody is up at a moment."""
    return 7 <= moment.hour + moment.minute / 60 <= 22


def taken(machine: int, begin: float, end: float) -> Busy:
    return Busy(machine, NOW + timedelta(hours=begin), NOW + timedelta(hours=end))
