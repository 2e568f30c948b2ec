"""Reading a moment as people type it: `2026-11-20 18:00`, `yesterday 18:00`, `18:00`, `20 Nov 7:30`.

A time on its own means the last time the clock showed it. Answers are in UTC; what was typed is on the
person's own clock. When the clocks are set, an hour is left out or comes twice: of the one that never was the
sentence says so, and of the one that came twice it asks which, unless what stands around it tells.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import Protocol

from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import parse_duration
from dryhouse.words.dates import clock as clock_words
from dryhouse.words.dates import day_words

EXAMPLE = "2026-11-20 18:00, yesterday 18:00, or 18:00"

_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            ("jan", "january"), ("feb", "february"), ("mar", "march"), ("apr", "april"), ("may",), ("jun", "june"),
            ("jul", "july"), ("aug", "august"), ("sep", "sept", "september"), ("oct", "october"),
            ("nov", "november"), ("dec", "december"),
        ),
        start=1,
    )
    for name in names
}  # fmt: skip
EARLIEST_YEAR = 1900
"""Before this a year is a slip of the finger."""
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_NEAR = {
    "today": 0, "this morning": 0, "this afternoon": 0, "this evening": 0, "tonight": 0, "yesterday": 1,
    "yesterday morning": 1, "yesterday evening": 1, "last night": 1,
}  # fmt: skip
_NAMED_TIMES = {"noon": "12:00", "midnight": "0:00"}
_DAY_AND_TIME = re.compile(
    r"(?:(?P<day>.*?)(?:\s+at|(?<=\d)t|\s|^))?\s*"
    r"(?P<time>\d{1,2}(?:[:.h]\d{2}){1,2}\s*(?:am|pm)?|\d{1,2}\s*(?:am|pm))"
)
_WHICH = re.compile(r"(?P<moment>.*\S)\s+\(?(?P<which>first|second)\)?")
"""Of an hour that comes twice: which of them."""
_TIME = re.compile(r"(?P<h>\d{1,2})(?:[:.h](?P<m>\d{2}))?(?::(?P<s>\d{2}))?\s*(?P<half>am|pm)?")


class Wall(Protocol):
    """The clock on the wall, of a kitchen or on its own."""

    @property
    def now(self) -> Callable[[], datetime]:
        """The present moment, in UTC."""

    @property
    def zone(self) -> tzinfo | None:
        """Where the clock hangs; None means the machine's own time zone."""

    def local(self, moment: datetime) -> datetime:
        """The moment on this clock."""


def read_moment(wall: Wall, text: str, *, field: str = "", after: datetime | None = None) -> datetime:
    """The moment typed, in UTC. Raises InputProblem saying how to write one.

    With `after`, as in the lines of a log, a time on its own means the first such time from then on.
    """
    try:
        made = _moment(wall, text, field, after)
    except (ValueError, OverflowError) as problem:
        if isinstance(problem, InputProblem):
            raise
        made = None
    if made is None or made.year < EARLIEST_YEAR:
        raise InputProblem(f"“{text.strip()}” is too far away to be right; write it like {EXAMPLE}.", field)
    return made


def _moment(wall: Wall, text: str, field: str, after: datetime | None) -> datetime:
    typed = text.strip()
    low = " ".join(_NAMED_TIMES.get(word, word) for word in typed.lower().replace(",", " ").split())
    here = wall.local(wall.now())
    if low in ("now", "just now"):
        return wall.now()
    if re.fullmatch(r"\d{4}-\d\d-\d\d[t ]\d\d:\d\d(:\d\d(\.\d+)?)?(z|[+-]\d\d:?\d\d)", low):
        return datetime.fromisoformat(low.upper()).astimezone(UTC)
    if low.endswith(" ago"):
        return wall.now() - timedelta(seconds=parse_duration(low.removesuffix(" ago")).si)
    told = _WHICH.fullmatch(low)
    words_of_day, clock = _split(low if told is None else told["moment"])
    moment_of_day = _time(clock) if clock else None
    day = read_day(words_of_day, here.date()) if words_of_day else None
    if moment_of_day is None or (day is None and words_of_day):
        raise InputProblem(f"“{typed}” is not a moment; write it like {EXAMPLE}.", field)
    which = "" if told is None else told["which"]

    def on(day: date) -> list[datetime]:
        return _meanings(wall, day, moment_of_day, which, field)

    if after is not None:
        first = day or wall.local(after).date()
        later = [made for made in on(first) if made > after - _SLACK]
        return later[0] if later else on(first)[-1] if day else on(first + timedelta(days=1))[0]
    past = [made for made in on(day or here.date()) if made <= wall.now() + _SLACK]
    if day is None:
        return past[-1] if past else on(here.date() - timedelta(days=1))[-1]
    meant = on(day)
    if len(meant) == 1 or len(past) == 1:
        return past[0] if past else meant[0]
    raise InputProblem(
        f"“{typed}” came twice: the clocks were set back that night. Write “{typed} first” or “{typed} second”.",
        field,
    )


_SLACK = timedelta(minutes=1)


def moment_text(wall: Wall, moment: datetime) -> str:
    """The moment as it is typed, so that reading it again gives the same minute."""
    local = wall.local(moment)
    both = _shown_as(wall, local.replace(tzinfo=None, second=0, microsecond=0))
    which = "" if len(both) < 2 else " first" if moment < both[1] else " second"
    return f"{local:%Y-%m-%d %H:%M}{which}"


def _split(low: str) -> tuple[str, str]:
    """The words of the day and of the time."""
    match = _DAY_AND_TIME.fullmatch(low)
    return ((match["day"] or "").strip(), match["time"]) if match else (low, "")


def _time(text: str) -> time | None:
    match = _TIME.fullmatch(text)
    if match is None:
        return None
    hour, minute, second = int(match["h"]), int(match["m"] or 0), int(match["s"] or 0)
    if match["half"]:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if match["half"] == "pm" else 0)
    if hour > 23 or minute > 59 or second > 59:
        return None
    return time(hour, minute, second)


def read_day(text: str, today: date) -> date | None:
    """A day as typed (`yesterday`, `2026-11-20`, `20 Nov`, `friday`), or None where it is none.

    A weekday, or a day without a year, means the last one.
    """
    low = text.strip().lower()
    if low in _NEAR:
        return today - timedelta(days=_NEAR[low])
    weekday = [n for n, name in enumerate(_WEEKDAYS) if len(low) >= 3 and name.startswith(low.removesuffix("."))]
    if weekday:
        return today - timedelta(days=(today.weekday() - weekday[0]) % 7)
    if match := re.fullmatch(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", low):
        return _day(*(int(g) for g in match.groups()))
    if match := re.fullmatch(r"(\d{1,2})/(\d{1,2})/(\d{4}|\d\d)|(\d{1,2})\.(\d{1,2})\.(\d{4}|\d\d)", low):
        month, day, year, day_first, then_month, then_year = (int(g or 0) for g in match.groups())
        year = year or then_year
        return _day(year + 2000 if year < 100 else year, month or then_month, day or day_first)
    match = re.fullmatch(r"(?P<d>\d{1,2})\.?\s+(?P<m>[a-z]+)\.?(?:\s+(?P<y>\d{4}))?", low) or re.fullmatch(
        r"(?P<m>[a-z]+)\.?\s+(?P<d>\d{1,2})(?:\s+(?P<y>\d{4}))?", low
    )
    if match is None or match["m"] not in _MONTHS:
        return None
    made = _day(int(match["y"] or today.year), _MONTHS[match["m"]], int(match["d"]))
    if made is not None and not match["y"] and made > today + timedelta(days=1):
        made = _day(today.year - 1, made.month, made.day)
    return made


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _meanings(wall: Wall, day: date, at: time, which: str, field: str) -> list[datetime]:
    """The moments at which the clock shows this: one, two when it is set back, and none when it is set forward;
    of two the one that is told. Raises InputProblem for none."""
    local = datetime.combine(day, at)
    found = _shown_as(wall, local)
    if not found:
        before, after = (wall.local(made) for made in sorted(_reckoned(wall, local)))
        raise InputProblem(
            f"There was no {clock_words(local)} on {day_words(day)}: the clocks were set forward. "
            f"Write {clock_words(before)} or {clock_words(after)}.",
            field,
        )
    return found if not which else found[:1] if which == "first" else found[-1:]


def _shown_as(wall: Wall, local: datetime) -> list[datetime]:
    """When the clock on the wall shows this, in UTC."""
    made = _reckoned(wall, local)
    return sorted(m for m in made if wall.local(m).replace(tzinfo=None, fold=0) == local)


def _reckoned(wall: Wall, local: datetime) -> set[datetime]:
    """By the rule before a change of the clocks, and by the one after."""
    both = (local.replace(fold=fold) for fold in (0, 1))
    return {(m.replace(tzinfo=wall.zone) if wall.zone else m.astimezone()).astimezone(UTC) for m in both}
