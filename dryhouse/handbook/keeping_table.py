"""How long dried food keeps, as published: points by temperature, and limits by the kind of place for
meat, fish and fatty plants.

Where sources differ the tables hold the shorter life; the longer ones are not in them. Egg and dairy have
no row: nothing published covers them dried at home. Meat, fish and fatty plants have the
published limits and no figure beyond.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.reading import Row, read
from dryhouse.handbook.staples import STAPLE, UNDATED
from dryhouse.science.display import counted
from dryhouse.science.keeping import LifePoint, Line
from dryhouse.science.safety import FoodFacts
from dryhouse.science.units import to_celsius
from dryhouse.science.values import Fact

_MEAT = frozenset({"meat", "poultry", "jerky", "unknown animal", "unknown food"})
_NOTHING_PUBLISHED = frozenset({"egg", "dairy"})


@dataclass(frozen=True, slots=True)
class KeepingLines:
    """The rules of keeping that hold for one food; no lines where nothing is published."""

    lines: tuple[Line, ...]
    supposed: tuple[str, ...] = ()
    """What was supposed in choosing them, in words."""


@cache
def rule_of(key: str) -> Fact:
    """A rule of reckoning by key: `month` (days), `halving` (°F), `room` (°F), `carried` (°F), `in_heat` (°F)."""
    rows = read("keeping_rules", ("key", "value", "unit", "source", "how", "note"), key=("key",))
    row = next(r for r in rows if r.text("key") == key)
    fact = row.fact("value", row.text("unit"))
    assert fact is not None
    return replace(fact, note=row.text("note"))


@cache
def keeping_points() -> Mapping[str, Line]:
    """The published points by food or kind of food, coldest first."""
    columns = ("about", "temperature_f", "life", "unit", "package", "source", "how", "note")
    rows = read("keeping", columns, key=("about", "temperature_f"))
    return _lines(rows, "temperature_f", steps=False)


@cache
def keeping_limits() -> Mapping[str, Line]:
    """The limits for dried meat (poultry with it), fish and fatty plants by the kind of place, coldest first."""
    columns = ("about", "place", "up_to_f", "life", "unit", "source", "how", "note")
    return _lines(read("keeping_limits", columns, key=("about", "place")), "up_to_f", steps=True)


def _lines(rows: Iterable[Row], fahrenheit: str, *, steps: bool) -> Mapping[str, Line]:
    """The line of each food or kind of food, from rows with their temperature in this column."""
    points: dict[str, list[LifePoint]] = defaultdict(list)
    for row in rows:
        points[row.text("about")].append(LifePoint(to_celsius(row.required(fahrenheit)), _life(row)))
    return MappingProxyType({about: _line(about, found, steps=steps) for about, found in points.items()})


@cache
def keeping_lines(slug: str, food: FoodFacts) -> KeepingLines:
    """The rules that hold for a food. A mix keeps as long as the ingredient that keeps shortest."""
    kinds = food.own_kinds
    if food.parts:
        return _of_mix(slug, food, food.parts)
    if kinds & _NOTHING_PUBLISHED or UNDATED in kinds:
        return KeepingLines(())
    if "fish" in kinds:
        return KeepingLines((keeping_limits()["fish"],))
    if kinds & _MEAT:
        spoken = () if "jerky" in kinds else ("the limits for home jerky hold for other dried meat too",)
        return KeepingLines((keeping_limits()["meat"],), spoken)
    if "fatty" in kinds:
        nut = STAPLE in kinds and "fruit" not in kinds
        return KeepingLines(
            (keeping_limits()["fatty"],), () if nut else ("the limits for shelled nuts and seeds hold for it",)
        )
    return _plant(slug, kinds)


def _of_mix(slug: str, food: FoodFacts, parts: tuple[FoodFacts, ...]) -> KeepingLines:
    """Every ingredient's rules, and the mix's own where it has any (a leather) or is itself one of its foods."""
    inside = [keeping_lines("", part) for part in parts]
    itself = replace(food, parts=None)
    if slug in keeping_points() or "animal" in itself.own_kinds or food.category not in ("mixed", "other", None):
        inside.append(keeping_lines(slug, itself))
    if not all(part.lines for part in inside):
        return KeepingLines(())
    supposed = ("a mix keeps as long as the ingredient that keeps shortest",)
    return KeepingLines(
        tuple(dict.fromkeys(line for part in inside for line in part.lines)),
        tuple(dict.fromkeys((*supposed, *(s for part in inside for s in part.supposed)))),
    )


def _plant(slug: str, kinds: frozenset[str]) -> KeepingLines:
    points = keeping_points()
    fruit = "fruit" in kinds
    general = points["fruit" if fruit else "vegetable"]
    own = points.get(slug)
    if own is not None:
        return KeepingLines((own, replace(general, only_between=True)))
    named = fruit or "vegetable" in kinds
    return KeepingLines((general,), () if named else ("the rule for dried vegetables is used for this food",))


def _life(row: Row) -> Fact:
    month = rule_of("month").value
    value = row.required("life") * {"month": month, "day": 1.0}[row.text("unit")]
    months = counted(round(row.required("life")), "month")
    shown = f"{months} of {month:g} days" if row.text("unit") == "month" else ""
    return Fact(value, "day", row.source().citation, row.how(), note=shown)


def _line(about: str, points: list[LifePoint], *, steps: bool) -> Line:
    ordered = tuple(sorted(points, key=lambda p: p.temperature_c))
    halving = replace(rule_of("halving"), note="")
    room = to_celsius(rule_of("room").value)
    if steps and ordered[-1].temperature_c >= room - 1e-9:
        in_heat, carried = replace(rule_of("in_heat"), note=""), to_celsius(rule_of("carried").value)
        return Line(about, ordered, steps=True, halving=in_heat, carried_c=carried)
    return Line(about, ordered, steps=steps, halving=halving)


@dataclass(frozen=True, slots=True)
class Pasteurising:
    """A published treatment of dried food against insects and their eggs. It is no kill step for germs."""

    method: str
    words: str
    source: str


@cache
def pasteurising() -> tuple[Pasteurising, ...]:
    """The published treatments, the gentlest first."""
    columns = ("method", "words", "temperature_f", "time", "unit", "source", "how")
    return tuple(
        Pasteurising(row.text("method"), row.text("words"), row.source().citation)
        for row in read("pasteurising", columns, key=("method",))
    )


@cache
def water_activity_limits() -> Mapping[str, Fact]:
    """Published limits of water activity by name: where sources differ, the lower one. None proves anything
    without a laboratory meter."""
    columns = ("limit", "water_activity", "words", "source", "how")
    rows = read("water_activity_limits", columns, key=("limit",))
    facts = {
        row.text("limit"): replace(row.fact("water_activity", "aw") or _empty(row), note=row.text("words"))
        for row in rows
    }
    return MappingProxyType(facts)


def _empty(row: Row) -> Fact:
    raise row.fault("water_activity is empty")
