"""Between a recorded batch and the entries of the form: what was typed comes back as typed."""

from __future__ import annotations

import json
from dataclasses import asdict, fields, replace
from datetime import datetime
from typing import Any

from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.batches.typed import TypedBatch
from dryhouse.kitchen.foods.catalog import food_name
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity, parse
from dryhouse.science.units import STORED

QUANTITIES = {
    "fresh": "prepared_mass",
    "dried": "dried_mass",
    "purchased": "purchased_mass",
    "cooked_in": "cooked_mass_in",
    "cooked_out": "cooked_mass_out",
    "drained_fat": "drained_fat",
    "drained_liquid": "drained_liquid",
    "fresh_volume": "prepared_volume",
    "dried_volume": "dried_volume",
    "thickness": "thickness",
    "temp": "set_temperature",
    "precook": "precook_temperature",
    "kitchen_temp": "kitchen_temperature",
}
"""Entries that are quantities, and the field of the batch each is kept in."""

NUMBERS = {
    "trays": "trays",
    "humidity": "kitchen_humidity_pct",
    "start_moisture": "start_moisture_pct",
    "moisture": "target_moisture_pct",
    "energy_kwh": "energy_kwh",
    "rating": "rating",
}
WORDS = ("title", "form", "made_from", "pretreatment", "precook_method", "precook_measured", "notes")

FIELD_NAMES = {
    **{field: entry for entry, field in (QUANTITIES | NUMBERS).items()},
    "started": "start",
    "ended": "hours",
    "end": "hours",
}
"""The entry that a problem with a field of the batch belongs to."""


def typed_from(kitchen: Kitchen, draft: BatchDraft, style: Style) -> TypedBatch:
    """The entries that describe a batch."""
    batch = draft.batch
    entries: dict[str, Any] = {name: getattr(batch, name) for name in WORDS}
    for name, field in QUANTITIES.items():
        quantity = getattr(batch, field)
        entries[name] = "" if quantity is None else as_typed(quantity, style)
    for name, field in NUMBERS.items():
        number = getattr(batch, field)
        entries[name] = "" if number is None else style.number(number, 3)
    dryer = kitchen.journal.get(Dryer, batch.dryer) if batch.dryer is not None else None
    return TypedBatch(
        food=food_name(kitchen, batch.food) if batch.food else "",
        start=_moment(kitchen, batch.started),
        hours=_hours(batch),
        end=_moment(kitchen, batch.ended) if batch.started is None else "",
        dryer=dryer.name if dryer else "",
        parts=tuple((food_name(kitchen, p.food), as_typed(p.mass, style)) for p in draft.parts),
        **entries,
    )


def as_typed(quantity: Quantity, style: Style) -> str:
    """A quantity so that reading it again gives the same: as it was typed, where that still says it."""
    default = _usual_unit(quantity, style)
    other = _usual_unit(quantity, replace(style, system=US if style.system == METRIC else METRIC))
    stored = STORED[quantity.dimension].replace("degC", "C")
    for text in (quantity.typed, f"{quantity.typed} {default}", f"{quantity.typed} {other}", style.show(quantity)):
        try:
            again = parse(
                text, type(quantity), default_unit=default, decimal_comma=style.decimal_comma, allow_zero=True
            )
        except InputProblem:
            continue
        if abs(again.si - quantity.si) <= 1e-9 * max(abs(quantity.si), 1.0):
            return text
    return f"{style.number(quantity.si, 3)} {stored}"


def _usual_unit(quantity: Quantity, style: Style) -> str:
    """The unit of a bare number."""
    return {
        "mass": style.mass_unit,
        "volume": style.volume_unit,
        "temperature": style.temperature_unit,
        "length": style.length_unit,
    }.get(quantity.dimension, "")


def keep_unchanged(draft: BatchDraft, before: Batch, typed: TypedBatch, typed_before: TypedBatch) -> BatchDraft:
    """The draft with every entry that was not touched exactly as it was recorded, and all that has no entry."""
    same: dict[str, Any] = {
        field: getattr(before, field)
        for name, field in (QUANTITIES | NUMBERS).items()
        if getattr(typed, name) == getattr(typed_before, name)
    }
    if (typed.start, typed.hours, typed.end) == (typed_before.start, typed_before.hours, typed_before.end):
        same |= {"started": before.started, "ended": before.ended}
    if typed.dryer == typed_before.dryer:
        same["dryer"] = before.dryer
    return replace(draft, batch=replace(draft.batch, **same, state=before.state, trip=before.trip))


def to_text(typed: TypedBatch) -> str:
    """The entries that are filled in, as one text to keep."""
    blank = asdict(TypedBatch())
    return json.dumps({k: v for k, v in asdict(typed).items() if v != blank[k]}, ensure_ascii=False)


def from_text(text: str) -> TypedBatch:
    """The entries kept in a text; what is not understood is left out."""
    try:
        kept = json.loads(text) if text else {}
    except ValueError:
        kept = {}
    known = {f.name for f in fields(TypedBatch)}
    entries = {k: v for k, v in kept.items() if k in known and isinstance(v, str)} if isinstance(kept, dict) else {}
    parts = tuple((str(f), str(m)) for f, m in kept.get("parts", ())) if isinstance(kept, dict) else ()
    return TypedBatch(**entries, parts=parts)


def _hours(batch: Batch) -> str:
    if batch.started is None or batch.ended is None:
        return ""
    minutes, seconds = divmod((batch.ended - batch.started).total_seconds(), 60)
    if seconds:
        return f"{minutes + seconds / 60:.4f} min"
    return f"{int(minutes) // 60}:{int(minutes) % 60:02}"


def _moment(kitchen: Kitchen, moment: datetime | None) -> str:
    return "" if moment is None else f"{kitchen.local(moment):%Y-%m-%d %H:%M}"
