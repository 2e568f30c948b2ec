"""Between a recorded batch and the entries of the form: what was typed comes back as typed."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import datetime
from typing import Any

from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.batches.typed import APART, ENTRIES, NO, YES, TypedBatch, bare_unit, typed_batch
from dryhouse.kitchen.foods.catalog import food_name
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.kitchen.records.shapes import shapes
from dryhouse.kitchen.typed_moments import moment_text
from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity, parse
from dryhouse.science.units import STORED

FIELD_NAMES = {
    **{shape.name: entry for entry, shape in ENTRIES.items()},
    "started": "start",
    "ended": "hours",
    "end": "hours",
}
"""The entry that a problem with a field of the batch belongs to."""


def typed_from(kitchen: Kitchen, draft: BatchDraft, style: Style) -> TypedBatch:
    """The entries that describe a batch."""
    batch = draft.batch
    entries = {
        entry: _written(getattr(batch, shape.name), style) for entry, shape in ENTRIES.items() if entry != "dryer"
    }
    dryer = kitchen.journal.get(Dryer, batch.dryer) if batch.dryer is not None else None
    return typed_batch(
        tuple((food_name(kitchen, p.food), as_typed(p.mass, style)) for p in draft.parts),
        food=food_name(kitchen, batch.food) if batch.food else "",
        start=_moment(kitchen, batch.started),
        hours=_hours(batch),
        end=_moment(kitchen, batch.ended) if batch.started is None else "",
        dryer=dryer.name if dryer else "",
        **entries,
    )


def _written(value: Any, style: Style) -> str:
    """A value of a batch as it would be typed."""
    if value is None:
        return ""
    if isinstance(value, Quantity):
        return as_typed(value, style)
    if isinstance(value, bool):
        return YES if value else NO
    return value if isinstance(value, str) else style.number(value, 3)


def as_typed(quantity: Quantity, style: Style) -> str:
    """A quantity so that reading it again gives the same: as it was typed, where that still says it."""
    default = bare_unit(type(quantity), style)
    other = bare_unit(type(quantity), replace(style, system=US if style.system == METRIC else METRIC))
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


def keep_unchanged(draft: BatchDraft, before: Batch, typed: TypedBatch, typed_before: TypedBatch) -> BatchDraft:
    """The draft with every entry that was not touched exactly as it was recorded, and all that has no entry."""
    same: dict[str, Any] = {
        shape.name: getattr(before, shape.name)
        for entry, shape in ENTRIES.items()
        if typed[entry] == typed_before[entry]
    }
    if all(typed[entry] == typed_before[entry] for entry in ("start", "hours", "end")):
        same |= {"started": before.started, "ended": before.ended}
    same |= {"state": before.state, "settled": before.settled, "trip": before.trip, "id": before.id}
    same |= {shape.name: getattr(before, shape.name) for shape in shapes(Batch) if shape.about.computed}
    return replace(draft, batch=replace(draft.batch, **same))


def to_text(typed: TypedBatch) -> str:
    """The entries that are filled in, as one text to keep."""
    parts = {"parts": typed.parts} if typed.parts else {}
    return json.dumps({**typed.given, **parts}, ensure_ascii=False)


def described(kitchen: Kitchen, typed: TypedBatch) -> str:
    """What was begun, in a few words: “ground beef, 7 oz”; empty where nothing was."""
    name = food_name(kitchen, typed["food"]) if typed["food"].strip() else ""
    weighed = typed["fresh"] or typed["dried"]
    return ", ".join(filter(None, (name, weighed))) or ("a batch you had begun" if typed != TypedBatch() else "")


def from_text(text: str) -> TypedBatch:
    """The entries kept in a text; what is not understood is left out."""
    try:
        kept = json.loads(text) if text else {}
    except ValueError:
        kept = {}
    if not isinstance(kept, dict):
        return TypedBatch()
    entries = {k: v for k, v in kept.items() if k in (*APART, *ENTRIES) and isinstance(v, str)}
    return typed_batch(tuple((str(f), str(m)) for f, m in kept.get("parts", ())), **entries)


def _hours(batch: Batch) -> str:
    if batch.started is None or batch.ended is None:
        return ""
    minutes, seconds = divmod((batch.ended - batch.started).total_seconds(), 60)
    if seconds:
        return f"{minutes + seconds / 60:.4f} min"
    return f"{int(minutes) // 60}:{int(minutes) % 60:02}"


def _moment(kitchen: Kitchen, moment: datetime | None) -> str:
    return "" if moment is None else moment_text(kitchen, moment)
