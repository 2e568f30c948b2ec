"""What the weighings of a finished batch taught of its dry matter is kept with it, and a mark of what it rests on.

The mark tells whether it still does: it changes with every weighing, event, ingredient or figure of the batch that
the dry matter is read from, and with nothing else. It doesn't depend on the order in which they come.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any
from zlib import crc32

from dryhouse.kitchen.records.batches import Batch, BatchPart
from dryhouse.kitchen.records.weighings import NOTED, REMIND, TAKEN_OFF, TURNED, BatchEvent, Weighing
from dryhouse.science.quantities import Quantity

Of = Batch | Weighing | BatchEvent | BatchPart

_RESTS_ON: dict[type[Any], tuple[str, ...]] = {
    Batch: (
        "food", "form", "prepared_mass", "cooked_mass_in", "cooked_mass_out", "drained_fat", "set_temperature",
        "started", "kitchen_temperature", "kitchen_humidity_pct", "start_moisture_pct", "start_moisture_tested",
        "test_sample", "test_dry", "target_moisture_pct", "dried_mass", "settled",
    ),
    Weighing: ("at", "gross", "tare", "scope", "vessel"),
    BatchEvent: ("at", "kind", "temperature", "trays", "mass"),
    BatchPart: ("food", "mass", "moisture_pct"),
}  # fmt: skip
_ONLY_TOLD = frozenset({NOTED, REMIND, TAKEN_OFF, TURNED})
MARKS = 2**31 - 1
"""How many marks there are."""


def mark_of(records: Iterable[Of]) -> int:
    """The mark of a batch with its weighings, events and ingredients."""
    return sum(map(share_of_mark, records)) % MARKS


def share_of_mark(record: Of) -> int:
    """What one record adds to the mark; nothing where the dry matter doesn't rest on it."""
    if isinstance(record, Weighing) and record.left_out:
        return 0
    if isinstance(record, BatchEvent) and record.kind in _ONLY_TOLD:
        return 0
    kind = type(record)
    said = (kind.__name__, *(_plain(getattr(record, name)) for name in _RESTS_ON[kind]))
    return crc32(repr(said).encode())


def batch_of(record: object) -> int:
    """The number of the batch that a record is, or belongs to; 0 for what belongs to none."""
    if isinstance(record, Batch):
        return record.id
    return record.batch if isinstance(record, (Weighing, BatchEvent, BatchPart)) else 0


def forgotten(batch: Batch) -> Batch:
    """The batch without what its weighings taught."""
    return replace(batch, curve_low=None, curve_dry=None, curve_high=None, curve_mark=None)


def _plain(value: object) -> object:
    if isinstance(value, Quantity):
        return value.si
    return value.astimezone(UTC).isoformat() if isinstance(value, datetime) else value
