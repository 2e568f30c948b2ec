"""The hours she keeps: when she is up and at home, on which days she dries, and whether a dryer runs at night.

Kept as one setting of the journal. Until she says otherwise an assumption stands, and is shown as one.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta

from dryhouse.handbook.pot import pot
from dryhouse.kitchen.calendar import read_date, today
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done
from dryhouse.kitchen.records import Preference
from dryhouse.kitchen.settings import preference, set_preference
from dryhouse.science.drying_hours import SLOT, AtHand, Hours
from dryhouse.science.errors import InputProblem
from dryhouse.words.dates import MONTHS, WEEKDAYS

KEY = "drying_hours"
EVERY_DAY = tuple(range(7))
WORKDAYS, WEEKEND = tuple(range(5)), (5, 6)
Span = tuple[time, time]


@dataclass(frozen=True, slots=True)
class DryingHours:
    """When she is up, when she is away on workdays, on which days she starts loads (0 is Monday), and the
    nights."""

    awake: Span = (time(7), time(22))
    away: Span | None = (time(8), time(17, 30))
    """On workdays; loads are started after it, and taken off before and after."""
    days: tuple[int, ...] = EVERY_DAY
    nights: bool = True
    """Whether a load may run through the night, where it is done when she gets up or shortly before."""
    assumed: bool = True
    """Whether nobody has said so yet."""


def drying_hours(kitchen: Kitchen) -> DryingHours:
    """Her hours, or what is assumed until she says."""
    text = preference(kitchen, KEY)
    return _read(text) if text else DryingHours()


def set_drying_hours(kitchen: Kitchen, hours: DryingHours) -> Done[Preference]:
    """Remember her hours."""
    return set_preference(kitchen, KEY, _written(hours))


def changed(
    hours: DryingHours,
    *,
    awake: str | None = None,
    away: str | None = None,
    days: str | None = None,
    nights: str | None = None,
) -> DryingHours:
    """The hours with what was typed in its place; what is None stays. Raises InputProblem naming the field."""
    if awake is not None:
        hours = replace(hours, awake=_span(awake, "awake"))
    if away is not None:
        none = away.strip().casefold() in ("", "none", "no", "never")
        hours = replace(hours, away=None if none else _span(away, "away"))
    if days is not None:
        hours = replace(hours, days=_days(days))
    if nights is not None:
        hours = replace(hours, nights=_yes(nights))
    if hours.away is not None and not hours.awake[0] <= hours.away[0] < hours.away[1] <= hours.awake[1]:
        raise InputProblem("The hours away lie within the hours you are up, such as 8:00-17:30.", "away")
    same = (awake, away, days, nights) == (None,) * 4
    return hours if same else replace(hours, assumed=False)


def read_month(kitchen: Kitchen, text: str) -> date:
    """The first day of a month as typed (`2027-05`, `May 2027`, `May`: the next one), or a day. Raises
    InputProblem."""
    typed, now = text.strip(), today(kitchen)
    if found := re.fullmatch(r"(\d{4})-(\d{1,2})", typed):
        year, month = int(found[1]), int(found[2])
        if 1 <= month <= len(MONTHS):
            return date(year, month, 1)
    name, _, after = typed.casefold().partition(" ")
    known = [n for n, word in enumerate(MONTHS, 1) if len(name) >= len("may") and word.casefold().startswith(name)]
    if len(known) == 1 and (not after or re.fullmatch(r"\d{4}", after)):
        return date(int(after) if after else now.year + (known[0] < now.month), known[0], 1)
    try:
        return read_date(kitchen, typed, "begin")
    except InputProblem:
        raise InputProblem(f"“{typed}” is no month; write it like 2027-05 or May 2027.", "begin") from None


def hours_words(hours: DryingHours) -> str:
    """`up 7:00 to 22:00, away 8:00 to 17:30 on workdays, dries every day, loads may run through the night`."""
    away = "" if hours.away is None else f", away {_said(hours.away)} on workdays"
    nights = "loads may run through the night" if hours.nights else "no dryer runs at night"
    on = "" if hours.days == EVERY_DAY else "on "
    return f"up {_said(hours.awake)}{away}, dries {on}{days_words(hours.days)}, {nights}"


def days_words(days: Sequence[int]) -> str:
    """`every day`, `weekends`, `Mon, Wed, Sat`."""
    named = {EVERY_DAY: "every day", WEEKEND: "weekends", WORKDAYS: "workdays"}
    return named.get(tuple(days)) or ", ".join(WEEKDAYS[day][:3] for day in days)


def span_words(span: Span | None) -> str:
    """`7:00-22:00`, as it is typed; empty for none."""
    return "" if span is None else "-".join(f"{at.hour}:{at.minute:02}" for at in span)


def tended(kitchen: Kitchen, hours: DryingHours, first: date, last: date) -> Hours:
    """The stretches in which loads are started and taken off, from a day to another, on her own clock.

    She is done with the dryer half an hour before she leaves, and before she goes to bed.
    """
    stretches: list[AtHand] = []
    still: list[tuple[datetime, datetime]] = []
    for n in range((last - first).days + 1):
        day = first + timedelta(days=n)
        up, bed = (_moment(kitchen, day, at) for at in hours.awake)
        starts = day.weekday() in hours.days
        if hours.away is None or day.weekday() in WEEKEND:
            stretches.append(AtHand(up, bed - SLOT, starts))
        else:
            leaves, back = (_moment(kitchen, day, at) for at in hours.away)
            stretches += [AtHand(up, leaves - SLOT, False), AtHand(back, bed - SLOT, starts)]
        if not hours.nights:
            still.append((bed, _moment(kitchen, day + timedelta(days=1), hours.awake[0])))
    slack = timedelta(hours=pot("past_finish").value)
    return Hours(tuple(stretches), tuple(still), slack)


def _moment(kitchen: Kitchen, day: date, at: time) -> datetime:
    here = datetime.combine(day, at)
    placed = here.replace(tzinfo=kitchen.zone) if kitchen.zone is not None else here.astimezone()
    return placed.astimezone(UTC)


# --- what is typed ---------------------------------------------------------------------------------------


def _said(span: Span) -> str:
    return " to ".join(f"{at.hour}:{at.minute:02}" for at in span)


_SPAN = re.compile(r"(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm)?\s*(?:-|–|to)\s*(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm)?")


def _span(text: str, field: str) -> Span:
    found = _SPAN.fullmatch(text.strip().casefold())
    try:
        assert found is not None
        begin, end = (_clock(*found.groups()[n : n + 3]) for n in (0, 3))
        assert begin < end
    except (AssertionError, ValueError):
        example = "7:00-22:00" if field == "awake" else "8:00-17:30"
        raise InputProblem(
            f"“{text.strip()}” is no stretch of a day; write the earlier and the later hour, such as {example}.",
            field,
        ) from None
    return begin, end


def _clock(hour: str, minute: str | None, half: str | None) -> time:
    clock = int(hour)
    if half is not None:
        if not 1 <= clock <= 12:
            raise ValueError(hour)
        clock = clock % 12 + (12 if half == "pm" else 0)
    return time(clock, int(minute or 0))


def _days(text: str) -> tuple[int, ...]:
    words = text.casefold().replace(",", " ").replace("–", "-").split()
    named = {"every": EVERY_DAY, "all": EVERY_DAY, "daily": EVERY_DAY, "day": (), "weekends": WEEKEND}
    named |= {"weekend": WEEKEND, "workdays": WORKDAYS, "weekdays": WORKDAYS}
    days: set[int] = set()
    for word in words:
        first, dash, last = word.partition("-")
        if word in named:
            days.update(named[word])
        elif dash and (begin := _weekday(first)) is not None and (end := _weekday(last)) is not None:
            days.update((begin + n) % 7 for n in range((end - begin) % 7 + 1))
        elif (one := _weekday(word)) is not None:
            days.add(one)
        else:
            days.clear()
            break
    if not days:
        raise InputProblem(
            f"“{text.strip()}” names no days; write them like Sat Sun, Mon-Fri, weekends or every day.", "days"
        )
    return tuple(sorted(days))


def _weekday(word: str) -> int | None:
    known = [n for n, name in enumerate(WEEKDAYS) if len(word) > 1 and name.casefold().startswith(word.rstrip("."))]
    return known[0] if len(known) == 1 else None


def _yes(text: str) -> bool:
    word = text.strip().casefold()
    if word not in ("yes", "no"):
        raise InputProblem(f"“{text.strip()}” is neither yes nor no.", "nights")
    return word == "yes"


def _written(hours: DryingHours) -> str:
    days = " ".join(WEEKDAYS[day][:3] for day in hours.days)
    nights = "yes" if hours.nights else "no"
    return f"{span_words(hours.awake)}; {span_words(hours.away) or 'none'}; {days}; {nights}"


def _read(text: str) -> DryingHours:
    """What was written; where it was written by something else, what is assumed."""
    parts = text.split(";")
    if len(parts) != len(("awake", "away", "days", "nights")):
        return DryingHours()
    try:
        awake, away, days, nights = parts
        return changed(DryingHours(), awake=awake, away=away, days=days, nights=nights)
    except InputProblem:
        return DryingHours()
