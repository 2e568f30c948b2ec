"""Published rehydration: cups of water for a cup dried, how warm, how long; and how fast and how far food soaks.

Where several sources speak of a food all are kept, in the order of the table: the strongest first.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.reading import How, Row, read
from dryhouse.science.values import Basis, Fact

GROUPS = frozenset({"vegetable", "fruit"})
"""Rows that speak of all vegetables or all fruits stand under these words."""

KINETICS = {
    "peleg_k1": "s per % dry basis",
    "peleg_k2": "1 per % dry basis",
    "uptake": "% of dry mass",
    "time_to_uptake": "h",
    "ratio": "g per g",
    "ratio_10_min": "g per g",
    "ratio_60_min": "g per g",
}
"""What is published of soaking, and its unit. A ratio is soaked mass ÷ dried mass."""


@dataclass(frozen=True, slots=True)
class Rehydration:
    """What one source says of one food, or of a group of foods."""

    foods: tuple[str, ...]
    cups_per_cup: float | None
    """Volumes of water for one volume dried; None where the source gives only a time."""
    liquid: str
    """`cold` (room temperature included), `warm`, `boiling`, or empty."""
    soak_hours_low: float | None
    soak_hours_high: float | None
    packed: bool
    """Whether the cup of dried food is packed, as leaves are: what such a cup weighs is not published."""
    note: str
    source: str
    how: How

    @property
    def basis(self) -> Basis:
        """The basis of whatever rests on this row."""
        return _basis(self.source, self.how)


@dataclass(frozen=True, slots=True)
class WaterRow:
    """Published water for one food: volumes per volume dried, always given."""

    cups_per_cup: float
    liquid: str
    soak_hours_low: float | None
    soak_hours_high: float | None
    packed: bool
    note: str
    basis: Basis


@dataclass(frozen=True, slots=True)
class Soaking:
    """One published figure of how a food takes up water."""

    foods: tuple[str, ...]
    form: str
    water_temp_c: str
    kind: str
    fact: Fact


@cache
def rehydrations() -> tuple[Rehydration, ...]:
    """Every row of the table."""
    columns = (
        *("foods", "cups_per_cup", "liquid", "soak_hours_low", "soak_hours_high"),
        *("cup", "note", "source", "how"),
    )
    rows = []
    for row in read("rehydration_table", columns):
        if row.text("cup") not in ("packed", ""):
            raise row.fault(f"cup is “{row.text('cup')}”")
        if row.text("liquid") not in ("cold", "warm", "boiling", ""):
            raise row.fault(f"liquid is “{row.text('liquid')}”")
        rows.append(
            Rehydration(
                _known(row),
                row.number("cups_per_cup"),
                row.text("liquid"),
                row.number("soak_hours_low"),
                row.number("soak_hours_high"),
                row.text("cup") == "packed",
                row.text("note"),
                row.source().citation,
                row.how(),
            )
        )
    return tuple(rows)


def rehydration_of(food: str) -> tuple[Rehydration, ...]:
    """What is published of this food itself; where there is nothing, of its group."""
    own = tuple(r for r in rehydrations() if food in r.foods)
    if own or food not in load_foods():
        return own
    category = load_foods()[food].category
    group = "vegetable" if category == "mushroom" else category
    return tuple(r for r in rehydrations() if group in r.foods)


def published_water(food: str) -> tuple[WaterRow, ...]:
    """The rows that give cups of water for a cup dried of this food, or of its group."""
    return tuple(
        WaterRow(
            r.cups_per_cup,
            r.liquid or "hot or cold",
            r.soak_hours_low,
            r.soak_hours_high,
            r.packed,
            r.note,
            r.basis,
        )
        for r in rehydration_of(food)
        if r.cups_per_cup is not None
    )


@cache
def soaking() -> tuple[Soaking, ...]:
    """Every published figure of how fast and how far foods take up water."""
    columns = ("foods", "form", "water_temp_c", "kind", "value", "low", "high", "unit", "note", "source", "how")
    rows = []
    for row in read("rehydration_kinetics", columns):
        kind, unit = row.text("kind"), row.text("unit")
        if KINETICS.get(kind) != unit:
            raise row.fault(f"{kind} in “{unit}”")
        fact = Fact(
            row.required("value"),
            unit,
            row.source().citation,
            row.how(),
            low=row.number("low"),
            high=row.number("high"),
            note=row.text("note"),
        )
        rows.append(Soaking(_known(row), row.text("form"), row.text("water_temp_c"), kind, fact))
    return tuple(rows)


def _known(row: Row) -> tuple[str, ...]:
    foods = row.names("foods")
    for food in foods:
        if food not in load_foods() and food not in GROUPS:
            raise row.fault(f"“{food}” is no food of the handbook")
    return foods


def _basis(source: str, how: How) -> Basis:
    return Fact(0.0, "", source, how).basis
