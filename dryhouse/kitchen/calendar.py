"""Days of the person's own calendar, and the moments they begin at (a day may have 23 or 25 hours)."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.typed_moments import EARLIEST_YEAR, read_day
from dryhouse.science.errors import InputProblem

_LATEST_YEAR = 2199


def today(kitchen: Kitchen) -> date:
    """The day it is where the person is."""
    return kitchen.local(kitchen.now()).date()


def day_of(kitchen: Kitchen, moment: datetime) -> date:
    """The day a moment falls on where the person is."""
    return kitchen.local(moment).date()


def start_of(kitchen: Kitchen, day: date) -> datetime:
    """The moment a day begins, in UTC."""
    midnight = datetime.combine(day, time())
    here = midnight.replace(tzinfo=kitchen.zone) if kitchen.zone is not None else midnight.astimezone()
    return here.astimezone(UTC)


def end_of_day(kitchen: Kitchen, day: date) -> datetime:
    """The last second of a day, in UTC."""
    return start_of(kitchen, day + timedelta(days=1)) - timedelta(seconds=1)


def read_date(kitchen: Kitchen, text: str, field: str = "") -> date:
    """A day as typed. Raises InputProblem saying how to write one."""
    day = read_day(text, today(kitchen))
    if day is None or not EARLIEST_YEAR <= day.year <= _LATEST_YEAR:
        raise InputProblem(f"“{text.strip()}” is not a day; write it like 2026-11-20, 20 Nov or yesterday.", field)
    return day
