"""The safety rules of the handbook: published guidance in our own words, one row a rule.

Where sources differ the row gives the cautious value; the losing figures are not in the table. Limits
stand in the unit of the source and are kept in °C, m, mm, minutes, days or as a plain water activity.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import cast

from dryhouse.handbook.reading import Row, read
from dryhouse.science.safety import SURFACES, Rule, condition_names
from dryhouse.science.statuses import Severity, Status
from dryhouse.science.units import SIZES, to_celsius
from dryhouse.science.values import EFFECTS, MOMENTS, SEVERITIES, UNCHECKED, Caution, Effect, Moment

COLUMNS = (
    *("rule", "about", "said_of", "when", "answered_by", "limit", "unit", "over_f", "under_f"),
    *("severity", "moment", "effect", "text", "short", "source", "how", "standing"),
)
_LENGTHS = {"ft": "m", "in": "mm"}
_PLAIN = frozenset({"", "min", "day", "s", "aw"})


@cache
def safety_rules() -> tuple[Rule, ...]:
    """Every rule, in the order of the table. Raises HandbookFault where a row breaks the table's form."""
    rows = read("safety_rules", COLUMNS, key=("rule",))
    return tuple(_rule(row, rank) for rank, row in enumerate(rows))


@cache
def rules_by_id() -> Mapping[str, Rule]:
    """The same by id."""
    return MappingProxyType({rule.id: rule for rule in safety_rules()})


def short_text(caution: Caution) -> str:
    """The few words of a caution that go on a label; its whole text where it is no rule of the table."""
    return caution.brief


def _rule(row: Row, rank: int = 0) -> Rule:
    if row.text("when") not in condition_names():
        raise row.fault(f"“{row.text('when')}” is no condition")
    for column, known in (("severity", SEVERITIES), ("moment", MOMENTS), ("effect", EFFECTS)):
        if row.text(column) not in known:
            raise row.fault(f"{column} is “{row.text(column)}”; it is one of {', '.join(filter(None, known))}")
    if row.text("severity") == "stop" and not row.text("effect"):
        raise row.fault("a stop says what it does to the food: effect is empty")
    if row.text("standing") not in ("", Status.CHECK_FIRST):
        raise row.fault(f"standing is “{row.text('standing')}”; it is empty or {Status.CHECK_FIRST}")
    for column in ("about", "text", "short"):
        if not row.text(column):
            raise row.fault(f"{column} is empty")
    return Rule(
        id=row.text("rule"),
        about=frozenset(row.names("about")),
        said_of=_surfaces(row),
        when=row.text("when"),
        answered_by=frozenset(row.names("answered_by")),
        limit=_limit(row),
        severity=Severity(row.text("severity")),
        text=row.text("text"),
        short=row.text("short"),
        source=row.source().citation + (UNCHECKED if row.how() == "recalled" else ""),
        moment=cast(Moment, row.text("moment")),
        effect=cast(Effect, row.text("effect")),
        rank=rank,
        over_c=_celsius(row, "over_f"),
        under_c=_celsius(row, "under_f"),
        checks_first=row.text("standing") == Status.CHECK_FIRST,
    )


def _surfaces(row: Row) -> frozenset[str]:
    said_of = frozenset(row.names("said_of"))
    if not said_of <= SURFACES:
        raise row.fault(f"said_of is “{row.text('said_of')}”; it names some of {', '.join(sorted(SURFACES))}")
    if said_of and row.text("severity") == "stop" and said_of != {"food"}:
        raise row.fault("a stop is said everywhere, or of the food alone before anything is done with it")
    return said_of or SURFACES


def _celsius(row: Row, column: str) -> float | None:
    value = row.number(column)
    return None if value is None else to_celsius(value)


def _limit(row: Row) -> float | None:
    value, unit = row.number("limit"), row.text("unit")
    if value is None:
        return None
    if unit == "degF":
        return to_celsius(value)
    if unit in _LENGTHS:
        return value * SIZES[unit] / SIZES[_LENGTHS[unit]]
    if unit not in _PLAIN:
        raise row.fault(f"unit “{unit}” is none a rule uses")
    return value
