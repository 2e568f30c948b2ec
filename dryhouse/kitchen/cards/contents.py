"""What is in a journal, in a few lines: how much of each kind, and its newest batches."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from dryhouse.kitchen.cards.batch_list import batch_items
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Lot, Meal, Trip
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.settings import style
from dryhouse.science.display import Style, counted
from dryhouse.science.statuses import Status
from dryhouse.words.dates import day_words
from dryhouse.words.names import capital

NEWEST = 20
_COUNTED = ((Lot, "lot"), (Meal, "meal"), (Trip, "trip"))


def contents_lines(kitchen: Kitchen) -> list[str]:
    """`135 batches, 48 lots, 6 meals, 1 trip`, then the newest batches, a line each."""
    journal, reads = kitchen.journal, style(kitchen)
    batches = counted(len(journal.batch_ids(BatchQuery())), "batch", "batches")
    rest = [counted(len(journal.where(kind)), word) for kind, word in _COUNTED]
    items = batch_items(kitchen, BatchQuery(sort="id"), newest=NEWEST)
    return [", ".join((batches, *rest)), *(_line(kitchen, item, reads) for item in items)]


def _line(kitchen: Kitchen, item: dict[str, Any], style: Style) -> str:
    """`10 Nov 2026: apple, batch 131, 4 lb 5 oz → 11.5 oz, dry enough`."""
    weights = [style.mass(item[side]) for side in ("fresh", "dried") if item[side] is not None]
    said = [
        f"{item['name']}, batch {item['id']}",
        "" if item["state"] == FINISHED else item["state"],
        " → ".join(weights),
        Status.DO_NOT_EAT if item["do_not_eat"] else item["verdict"] or "",
    ]
    what = ", ".join(filter(None, said))
    if item["started"] is None:
        return capital(what)
    return f"{day_words(kitchen.local(datetime.fromisoformat(item['started'])).date())}: {what}"
