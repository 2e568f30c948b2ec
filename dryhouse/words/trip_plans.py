"""A trip's plan as it is read: runs of the dryers, what is bought, and the bags, in the window and on the command
line."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from dryhouse.science.display import counted
from dryhouse.words.dates import clock, short_day, weekday_clock, weekday_words
from dryhouse.words.names import capital

INTO_FREEZER = "into the freezer once it is cool, until you leave"
KEEP_COLD = "keep it cold until the trip: in a warm room it would be past its keep-by"
OWN_FUEL = "own fuel for a liter boiled"
NO_LOADS = "Nothing has to be dried."


def from_to(start: datetime, end: datetime) -> str:
    """`Fri 6 Aug 18:00 to Sat 07:00`, `Sat 7 Aug 07:00 to 15:30`."""
    if start.date() == end.date():
        return f"{weekday_clock(start)} to {clock(end)}"
    return f"{weekday_clock(start)} to {weekday_words(end)[:3]} {clock(end)}"


def takes(hours: float, low: float | None, high: float | None) -> str:
    """`9 h (6 to 12)`."""
    ends = "" if low is None or high is None or low == high else f" ({low:.0f} to {high:.0f})"
    return f"{hours:.0f} h{ends}"


def on_trays(amount: str, trays: int) -> str:
    """`3 lb 2 oz on 4 trays`."""
    return f"{amount} on {counted(trays, 'tray')}"


def conditioned(days: int, ready: date) -> str:
    """`condition 10 days, ready Tue 17 Aug`."""
    return f"condition {days} days, ready {weekday_words(ready)}"


def fuel_weighed(amount: str) -> str:
    """`9 oz of fuel, by what you weighed for a liter`."""
    return f"{amount} of fuel, by what you weighed for a liter"


def fuel_not_weighed(heat_kj: float, burnt_kj: float, efficiency: float) -> str:
    """`boiling takes 9.5 MJ of heat, 19 MJ of fuel if half of it ends in the water (assumed)`."""
    heat, fuel = (f"{kj / 1000:.1f} MJ" for kj in (heat_kj, burnt_kj))
    return f"boiling takes {heat} of heat: {fuel} of fuel if {efficiency:g} % of it ends in the water (assumed)"


def in_calendar(
    trip: str,
    where: str,
    foods: Sequence[str],
    loads: Sequence[str],
    after: Sequence[str],
    stops: Sequence[str],
) -> tuple[str, str]:
    """A run as an entry of a calendar: its heading, and what stands below it."""
    lines = [f"{where}, for {trip}.", *(f"{load}." for load in loads), *(f"{line}." for line in after)]
    lines += [f"STOP: {stop}" for stop in dict.fromkeys(stops)]
    return f"Dry {', '.join(foods)}", "\n".join(lines)


def jars_are_conditioned(name: str) -> str:
    """`Apple is conditioned: look at the jars and seal them`."""
    return f"{capital(name)} is conditioned: look at the jars and seal them"


def days_of_bags(days: Sequence[date]) -> str:
    """`Sat 21 Aug`, `9 days, 21 Aug to 29 Aug`, `21, 24 and 27 Aug`."""
    if len(days) == 1:
        return weekday_words(days[0])
    if (days[-1] - days[0]).days == len(days) - 1:
        return f"{len(days)} days, {short_day(days[0])} to {short_day(days[-1])}"
    return f"{', '.join(short_day(day) for day in days[:-1])} and {short_day(days[-1])}"
