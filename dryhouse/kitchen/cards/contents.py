"""What is in a journal, in a few lines: how much of each kind, and its newest batches."""

from __future__ import annotations

from dryhouse.kitchen.cards.batch_list import batch_items, batch_line
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Lot, Meal, Trip
from dryhouse.kitchen.settings import style
from dryhouse.science.display import counted

NEWEST = 20
_COUNTED = ((Lot, "lot"), (Meal, "meal"), (Trip, "trip"))


def contents_lines(kitchen: Kitchen) -> list[str]:
    """`135 batches, 48 lots, 6 meals, 1 trip`, then the newest batches, a line each."""
    journal, reads = kitchen.journal, style(kitchen)
    batches = counted(len(journal.batch_ids(BatchQuery())), "batch", "batches")
    rest = [counted(len(journal.where(kind)), word) for kind, word in _COUNTED]
    items = batch_items(kitchen, BatchQuery(sort="id"), newest=NEWEST)
    return [", ".join((batches, *rest)), *(batch_line(kitchen, item, reads).strip() for item in items)]
