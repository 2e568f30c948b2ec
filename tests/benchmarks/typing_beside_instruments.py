"""How long a key waits while four scales report every second and what they read is written and shown.

    python tests/benchmarks/typing_beside_instruments.py [SECONDS]

Four batches are on the dryer in a journal that has 30 days of such readings already. Each scale writes its line a
second into a file; their clock runs a thousand times as fast, so that a reading is kept about every second, far
more often than in truth. Keys are pressed in the entry of the first strip, ten a second with pauses. Prints the
median, the 99th percentile and the slowest key, and how long the window was busy at a time, in milliseconds.
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from dryhouse.handbook.reader import handbook  # noqa: E402
from dryhouse.journal.opening import open_journal  # noqa: E402
from dryhouse.kitchen.instruments.follower import Instrument  # noqa: E402
from dryhouse.kitchen.instruments.lines import Way  # noqa: E402
from dryhouse.kitchen.kitchen import Kitchen  # noqa: E402
from dryhouse.kitchen.ports import Pending  # noqa: E402
from dryhouse.kitchen.records import Batch, Weighing  # noqa: E402
from dryhouse.kitchen.records.batches import DRYING, FINISHED  # noqa: E402
from dryhouse.science.quantities import Mass  # noqa: E402
from tests.benchmarks.journal_typing import summary  # noqa: E402
from tests.kitchen.instruments.played_scale import LOAD_G, true_g  # noqa: E402

SCALES, DAYS, FASTER, KEYS_A_SECOND = 4, 30, 1000.0, 10
BEGAN = datetime(2026, 8, 1, tzinfo=UTC)


class Clock:
    """A clock that runs faster."""

    def __init__(self) -> None:
        self.began, self.first = time.perf_counter(), BEGAN + timedelta(days=DAYS)

    def __call__(self) -> datetime:
        return self.first + timedelta(seconds=(time.perf_counter() - self.began) * FASTER)


def filled(file: Path, clock: Clock) -> list[int]:
    """A journal with the readings of the days before; the numbers of the batches on the dryer."""
    pending = Pending()
    number = 0
    for day in range(DAYS + 1):
        for scale in range(1, SCALES + 1):
            batch, started = day * SCALES + scale, BEGAN + timedelta(days=day)
            state = DRYING if day == DAYS else FINISHED
            pending.add(Batch("apple", state, prepared_mass=Mass(LOAD_G, "1000 g"), started=started, id=batch))
            for quarter in range(0 if day == DAYS else 60):
                number += 1
                at = started + timedelta(minutes=15 * quarter)
                grams = Mass(round(true_g(quarter / 4), 1))
                pending.add(Weighing(batch, at, grams, instrument=f"scale {scale}", id=number))
    journal = open_journal(file, write=True)
    journal.write(pending.changes)
    journal.close()
    clock.began = time.perf_counter()
    return [DAYS * SCALES + scale for scale in range(1, SCALES + 1)]


def main() -> None:
    """Type beside the scales and print what was measured."""
    from PySide6.QtCore import QSettings, QTimer
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication

    from dryhouse.desk.places.dryer.view import DryingPlace
    from dryhouse.desk.session import Session
    from dryhouse.desk.theme import Theme

    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 60.0
    with tempfile.TemporaryDirectory() as folder:
        clock = Clock()
        file = Path(folder) / "journal.dryhouse"
        batches = filled(file, clock)
        app = QApplication([])
        kitchen = Kitchen(open_journal(file, write=True), handbook(), now=clock, zone=UTC)
        session = Session(kitchen, Theme(app, "light"))
        place = DryingPlace(session)
        place.resize(1100, 760)
        place.show()
        place.arrive()
        session.start_instruments(QSettings(f"{folder}/settings.ini", QSettings.Format.IniFormat))
        logs = [Path(folder) / f"scale{n}.csv" for n in range(SCALES)]
        assert session.instruments is not None
        for log, batch in zip(logs, batches, strict=True):
            log.write_text("time,grams\n", encoding="utf-8")
            session.instruments.follow(Instrument(log.stem, str(log), batch, Way("table"), journal=str(file)))

        def report() -> None:
            now = clock()
            grams = true_g((now - clock.first).total_seconds() / 3600)
            for log in logs:
                with log.open("a", encoding="utf-8") as opened:
                    opened.write(f"{now.isoformat()},{grams:.1f}\n")

        scales = QTimer(interval=20)  # twenty seconds of their time
        scales.timeout.connect(report)
        scales.start()
        keys, busy = typed(place, app, QTest, seconds)
        kept = sum(len(kitchen.journal.where(Weighing, batch=batch)) for batch in batches)
        shown = sum(len(place.runs[batch].points) for batch in batches)
        size = sum(each.stat().st_size for each in Path(folder).glob("journal.dryhouse*")) / 1e6
        told = {"readings kept": kept, "of them shown": shown - SCALES, "journal, MB": round(size, 1)}
        print(json.dumps({"key": summary(keys), "busy at a time": summary(busy), **told}))
        session.instruments.stop()
        place.leave()
        place.close()
        kitchen.journal.close()


def typed(place, app, QTest, seconds: float) -> tuple[list[float], list[float]]:  # type: ignore[no-untyped-def]
    """How long each key took, from when it was due until it was taken; and how long the window was busy each time
    it went through what waited."""
    entry = next(iter(place.strips.values())).reading.edit
    keys, busy = [], []
    until, due, count = time.perf_counter() + seconds, time.perf_counter() + 0.1, 0
    while time.perf_counter() < until:
        began = time.perf_counter()
        app.processEvents()
        busy.append(time.perf_counter() - began)
        if time.perf_counter() >= due:
            QTest.keyClicks(entry, "8")
            app.processEvents()
            keys.append(time.perf_counter() - due)
            count += 1
            if count % 30 == 0:
                entry.clear()
            due = time.perf_counter() + (1.5 if count % 30 == 0 else 1.0 / KEYS_A_SECOND)
        time.sleep(0.001)
    return keys, busy


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as home:
        os.environ["DRYHOUSE_SETTINGS"] = f"{home}/settings.ini"
        if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
            os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        main()
