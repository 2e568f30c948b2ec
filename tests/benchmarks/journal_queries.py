"""How long the journal takes, with a hundred thousand batches and two million weighings.

    python tests/benchmarks/journal_queries.py [FILE]

FILE is made with `sample_data/large.py` where it is not there yet.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "sample_data")]

from large import make  # noqa: E402

from dryhouse.journal.opening import open_journal  # noqa: E402
from dryhouse.kitchen.ports import BatchQuery, Change  # noqa: E402
from dryhouse.kitchen.records import Batch, Weighing  # noqa: E402
from dryhouse.science.quantities import Mass  # noqa: E402


def timed(what: str, ask: Callable[[], Any], times: int = 40) -> None:
    """Print the median and the slowest of many runs, in milliseconds."""
    spans = []
    for _ in range(times):
        began = time.perf_counter()
        answer = ask()
        spans.append((time.perf_counter() - began) * 1000)
    size = f"{len(answer):>7}" if hasattr(answer, "__len__") else " " * 7
    print(f"{what:<46}{size} {statistics.median(spans):9.2f} {max(spans):9.2f}")


def main() -> None:
    """Make the journal if need be, ask everything, print a table."""
    file = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(tempfile.gettempdir()) / "dryhouse-large.dryhouse"
    if not file.exists():
        began = time.perf_counter()
        make(file, 100_000, 2_000_000)
        print(f"made in {time.perf_counter() - began:.1f} s")
    began = time.perf_counter()
    journal = open_journal(file, write=True)
    print(f"opened in {(time.perf_counter() - began) * 1000:.1f} ms, {file.stat().st_size / 1e6:.0f} MB")
    print(f"{'':46}{'answers':>7} {'median ms':>9} {'worst ms':>9}")

    def cold(query: BatchQuery) -> Any:
        journal._lists.forget([Batch])
        return journal.batch_ids(query)

    for sort in ("started", "food", "dryer", "fresh", "yield", "rating"):
        timed(f"all batches by {sort}, for the first time", lambda sort=sort: cold(BatchQuery(sort=sort)), 10)
    timed("all batches, again", lambda: journal.batch_ids(BatchQuery()))
    for text in ("c", "co", "corn", "muggy", "shelf", "sweet corn muggy", "xyz"):
        timed(f"text “{text}”", lambda text=text: journal.batch_ids(BatchQuery(text=text)))
    timed("one dryer", lambda: journal.batch_ids(BatchQuery(dryer=1)))
    year = BatchQuery(since=datetime(2024, 1, 1, tzinfo=UTC), until=datetime(2025, 1, 1, tzinfo=UTC))
    timed("one year", lambda: journal.batch_ids(year))
    timed("one food", lambda: journal.batch_ids(BatchQuery(foods=("corn",))))
    timed("everything drying", lambda: journal.batch_ids(BatchQuery(states=("drying",))))
    page = journal.batch_ids(BatchQuery())[50_000:50_200]
    timed("a page of 200 rows", lambda: journal.batch_rows(page))
    timed("yield pairs of a food", lambda: journal.yield_pairs("corn"))
    timed("weighings of a batch", lambda: journal.where(Weighing, batch=77_777))
    timed("one batch", lambda: journal.get(Batch, 77_777))
    last = journal.next_id(Weighing) - 1

    def save() -> None:
        number = journal.next_id(Weighing)
        journal.write([Change(None, Weighing(5, datetime.now(UTC), Mass(100.0, "100 g"), id=number))])

    timed("a weighing saved, on the disk", save)
    timed("a number for a new weighing", lambda: journal.next_id(Weighing))
    journal.write([Change(w, None) for w in journal.where(Weighing, batch=5) if w.id > last])
    journal.close()


if __name__ == "__main__":
    main()
