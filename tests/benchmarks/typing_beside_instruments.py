"""How long a key waits while four scales report every second and what they read is written and shown.

    python tests/benchmarks/typing_beside_instruments.py [SECONDS]

Four batches are on the dryer in a journal that has 30 days of such readings already. Each scale writes a line into
a file, and the clock runs a hundred times as fast, so that readings are kept far more often than in truth. Keys are
pressed in the entry of the first strip, ten a second with pauses. Prints the median, the 99th percentile and the
slowest key, from when it was due, in milliseconds: as the clock has it, and of the processor alone, so that what
else runs on the machine does not count.
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

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

SCALES, DAYS, FASTER, KEYS_A_SECOND = 4, 30, 100.0, 10
_UNTIL_IT_STANDS_S = 4.0
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

        scales = QTimer(interval=50)  # five seconds of their time
        scales.timeout.connect(report)
        scales.start()
        wall, own = typed(place, app, QTest.keyClicks, seconds)
        kept = sum(len(kitchen.journal.where(Weighing, batch=batch)) for batch in batches)
        shown = sum(len(place.runs[batch].points) for batch in batches)
        size = sum(each.stat().st_size for each in Path(folder).glob("journal.dryhouse*")) / 1e6
        told = {"readings kept": kept, "of them shown": shown - SCALES, "journal, MB": round(size, 1)}
        print(
            json.dumps({"by the clock": summary(wall), "of the processor": summary(own), "keys": len(own), **told})
        )
        session.instruments.stop()
        place.leave()
        place.close()
        kitchen.journal.close()


def typed(
    place: Any, app: Any, press: Callable[[Any, str], None], seconds: float
) -> tuple[list[float], list[float]]:
    """How long each key took from when it was due until it was taken, by the clock and of the processor. Where the
    window was busy when it was due, that counts as far as it went on."""
    entry = next(iter(place.strips.values())).reading.edit
    wall, own = [], []
    due, count = time.perf_counter() + _UNTIL_IT_STANDS_S, 0
    until = due + seconds
    while time.perf_counter() < until:
        began = time.thread_time()
        app.processEvents()
        busy = time.thread_time() - began
        if time.perf_counter() >= due:
            waited, began = min(busy, time.perf_counter() - due), time.thread_time()
            press(entry, "8")
            app.processEvents()
            wall.append(time.perf_counter() - due)
            own.append(waited + time.thread_time() - began)
            count += 1
            if count % 30 == 0:
                entry.clear()
            due = time.perf_counter() + (1.5 if count % 30 == 0 else 1.0 / KEYS_A_SECOND)
        time.sleep(0.001)
    return wall, own


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as home:
        os.environ["DRYHOUSE_SETTINGS"] = f"{home}/settings.ini"
        if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
            os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        main()
