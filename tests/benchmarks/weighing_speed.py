"""How long one weighing takes from Enter to the redrawn chart, on a journal of two million weighings.

    python tests/benchmarks/weighing_speed.py [FILE] [--batches 100000] [--weighings 2000000]

FILE is made with `sample_data/large.py` where it is not there yet; the benchmark works on a copy, and adds a
running batch of a food with many earlier runs, with 30 weighings of its own. Prints a table in milliseconds:
the whole way from the key press, and its parts (saved and synced to disk, read and refitted with the forecast,
redrawn).
"""

from __future__ import annotations

import argparse
import math
import os
import shutil
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from dryhouse.kitchen.dryer.typed_readings import Reading

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "sample_data")]
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from large import make  # noqa: E402

from dryhouse.handbook.reader import handbook  # noqa: E402
from dryhouse.journal.opening import open_journal  # noqa: E402
from dryhouse.kitchen.dryer.drying import add_weighing, start_batch  # noqa: E402
from dryhouse.kitchen.dryer.runs import run_of  # noqa: E402
from dryhouse.kitchen.kitchen import Kitchen  # noqa: E402
from dryhouse.kitchen.records import Batch  # noqa: E402
from dryhouse.science.quantities import Mass, Temperature  # noqa: E402

TIMES = 30
BEFORE = 30
"""Weighings the running batch has already."""


class Clock:
    """A clock that is moved by hand, so that a run of hours fits into a moment."""

    def __init__(self) -> None:
        self.now = datetime.now(UTC) - timedelta(hours=30)

    def __call__(self) -> datetime:
        return self.now


def started(kitchen: Kitchen, clock: Clock) -> int:
    """An apple batch with its first weighings."""
    draft = Batch(
        "apple", prepared_mass=Mass(2000.0, "2000 g"), set_temperature=Temperature(57.2, "135 F"), form="slices"
    )
    batch = start_batch(kitchen, draft).record.id
    for n in range(BEFORE):
        weigh(kitchen, clock, batch, n)
    return batch


def reading(n: int) -> Mass:
    """The scale along Page's curve, to the gram."""
    hours = 0.2 * (n + 1)
    grams = round(290 + 1710 * math.exp(-0.18 * hours**1.1))
    return Mass(float(grams), f"{grams} g")


def weigh(kitchen: Kitchen, clock: Clock, batch: int, n: int) -> None:
    """One more weighing, twelve minutes after the last."""
    clock.now += timedelta(minutes=12)
    add_weighing(kitchen, batch, Reading(reading(n)))


def spans(act: Callable[[int], Any], times: int = TIMES) -> list[float]:
    """Milliseconds of each of many runs."""
    found = []
    for n in range(times):
        began = time.perf_counter()
        act(n)
        found.append((time.perf_counter() - began) * 1000)
    return found


def row(what: str, found: list[float]) -> None:
    """One line of the table."""
    ordered = sorted(found)
    late = ordered[min(round(0.95 * len(ordered)), len(ordered) - 1)]
    print(f"{what:<52}{statistics.median(found):9.1f}{late:9.1f}{max(found):9.1f}")


def main() -> None:
    """Make the journal if need be, weigh, print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file", nargs="?", type=Path)
    parser.add_argument("--batches", type=int, default=100_000)
    parser.add_argument("--weighings", type=int, default=2_000_000)
    args = parser.parse_args()
    file = args.file or Path(tempfile.gettempdir()) / "dryhouse-large.dryhouse"
    if not file.exists():
        make(file, args.batches, args.weighings)
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy.dryhouse"
        shutil.copy(file, copy)
        journal = open_journal(copy, write=True)
        try:
            measure(Kitchen(journal, handbook(), now=(clock := Clock()), zone=UTC), clock)
        finally:
            journal.close()


def measure(kitchen: Kitchen, clock: Clock) -> None:
    """The parts by themselves, then the whole way through the window."""
    batch = started(kitchen, clock)
    print(f"{'milliseconds':<52}{'median':>9}{'95 %':>9}{'worst':>9}")
    row("saved and synced", spans(lambda n: weigh(kitchen, clock, batch, BEFORE + n)))
    began = time.perf_counter()
    run_of(kitchen, batch)
    print(f"{'read, refitted, forecast: the first time':<52}{(time.perf_counter() - began) * 1000:9.1f}")

    def again(n: int) -> None:
        weigh(kitchen, clock, batch, BEFORE + TIMES + n)
        began = time.perf_counter()
        run_of(kitchen, batch)
        parts.append((time.perf_counter() - began) * 1000)

    parts: list[float] = []
    spans(again)
    row("read, refitted, forecast after one more weighing", parts)
    window(kitchen, clock, batch)


def window(kitchen: Kitchen, clock: Clock, batch: int) -> None:
    """Enter in the strip, until the strip and the chart show the new weighing."""
    from PySide6.QtCore import Qt
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication

    from dryhouse.desk.places.dryer.view import DryingPlace
    from dryhouse.desk.session import Session
    from dryhouse.desk.theme import Theme

    app = QApplication.instance() or QApplication([])
    place = DryingPlace(Session(kitchen, Theme(app, "light")))
    place.resize(1100, 760)
    place.show()
    place.arrive()
    app.processEvents()
    entry = place.strips[batch].reading.edit

    def settle() -> None:
        until = time.perf_counter() + 0.3
        while time.perf_counter() < until:
            app.processEvents()

    found = []
    for n in range(TIMES):
        settle()
        clock.now += timedelta(minutes=12)
        entry.setText(reading(BEFORE + 2 * TIMES + n).typed)
        app.processEvents()
        began = time.perf_counter()
        QTest.keyClick(entry, Qt.Key.Key_Return)
        app.processEvents()
        found.append((time.perf_counter() - began) * 1000)
        assert place.runs[batch].last_weighed == clock.now
        assert not entry.text()
    row("from Enter to the redrawn strip and chart", found)
    began = time.perf_counter()
    place.detail.chart.plot.canvas._image = None
    place.detail.chart.plot.canvas.grab()
    print(f"{'the chart alone':<52}{(time.perf_counter() - began) * 1000:9.1f}")
    place.leave()
    place.close()


if __name__ == "__main__":
    main()
