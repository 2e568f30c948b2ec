"""Days in a text search: `corn 2025`, `apple oct 2026`, `2026-10-14`."""

from __future__ import annotations

import re
from datetime import date, timedelta

from dryhouse.words.dates import MONTHS

_MONTH = "|".join(["sept", *(f"{name[:3]}(?:{name[3:]})?" for name in MONTHS)])
_ISO = re.compile(r"\b(\d{4})-(\d{1,2})-(\d{1,2})\b")
_DAY = re.compile(rf"\b(\d{{1,2}})\s+({_MONTH})\s+((?:19|20)\d\d)\b", re.IGNORECASE)
_DAY_US = re.compile(rf"\b({_MONTH})\s+(\d{{1,2}}),?\s+((?:19|20)\d\d)\b", re.IGNORECASE)
_MONTH_YEAR = re.compile(rf"\b({_MONTH})\s+((?:19|20)\d\d)\b", re.IGNORECASE)
_YEAR = re.compile(r"\b((?:19|20)\d\d)\b")


def days_in(text: str) -> tuple[str, date | None, date | None]:
    """What is left of a search without the day, month or year it names, and the first day of that time and the
    first after it; None where it names none. Only a month with its year is one: `may` alone is a word."""
    for pattern, first, second, third in ((_ISO, 1, 2, 3), (_DAY, 3, 2, 1), (_DAY_US, 3, 1, 2)):
        if (found := pattern.search(text)) is not None:
            day = _day(found[first], found[second], found[third])
            if day is not None:
                return _without(text, found), day, day + timedelta(days=1)
    if (found := _MONTH_YEAR.search(text)) is not None:
        year, month = int(found[2]), _month(found[1])
        return _without(text, found), date(year, month, 1), date(year + month // 12, month % 12 + 1, 1)
    if (found := _YEAR.search(text)) is not None:
        year = int(found[1])
        return _without(text, found), date(year, 1, 1), date(year + 1, 1, 1)
    return text, None, None


def _month(said: str) -> int:
    if said.isdecimal():
        return int(said)
    return next(n for n, name in enumerate(MONTHS, start=1) if name[:3].casefold() == said[:3].casefold())


def _day(year: str, month: str, day: str) -> date | None:
    try:
        return date(int(year), _month(month), int(day))
    except ValueError:
        return None


def _without(text: str, found: re.Match[str]) -> str:
    return " ".join((text[: found.start()] + " " + text[found.end() :]).split())
