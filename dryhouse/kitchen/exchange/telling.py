"""What differs between a record of hers and one that comes, in words."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from dryhouse.kitchen.exchange.bringing import Difference
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records.field_problems import short, shown
from dryhouse.kitchen.records.links import KNOWN_BY, LINKS
from dryhouse.kitchen.records.problems import called
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.science.quantities import Quantity
from dryhouse.words.dates import day_words, full_moment


def record_name(record: Any) -> str:
    """What to call a record of any kind: `Batch 12 (corn)`."""
    links = LINKS.get(type(record), {})
    words = [str(getattr(record, name)) for name in KNOWN_BY[type(record)] if name not in links]
    name = next((word for word in words if word and not word[0].isdigit()), "")
    return f"{called(type(record)).capitalize()} {record.id}" + (f" ({short(name)})" if name else "")


def difference_line(kitchen: Kitchen, difference: Difference) -> str:
    """Which record it is, and each field as it is here and as it is there."""
    told = [
        f"“{_label(difference, f)}” is {here} here and {there} there"
        for f, here, there in _told(kitchen, difference)
    ]
    return f"{record_name(difference.mine)}: {'; '.join(told)}."


def _label(difference: Difference, name: str) -> str:
    return label_of(type(difference.mine), name) or name.replace("_", " ")


def _told(kitchen: Kitchen, difference: Difference) -> Sequence[tuple[str, str, str]]:
    mine, theirs = difference.mine, difference.theirs
    links = LINKS.get(type(mine), {})
    found = []
    for name in difference.fields:
        here, there = getattr(mine, name), getattr(theirs, name)
        if name in links:
            there = None if there is None else -there if there < 0 else "a new one"
        found.append((name, _value(kitchen, here), _value(kitchen, there)))
    return found


def _value(kitchen: Kitchen, value: Any) -> str:
    if value is None or value == "":
        return "empty"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Quantity):
        return shown(value)
    if isinstance(value, datetime):
        return full_moment(kitchen.local(value))
    if isinstance(value, date):
        return day_words(value)
    return (
        f"“{short(value)}”" if isinstance(value, str) else f"{value:g}" if isinstance(value, float) else str(value)
    )
