"""How fast a yield is answered: cold at the command line, and warm beside a journal of 100,000 batches.

Run it by itself: `python tests/benchmarks/yields_speed.py`. It prints one JSON object, times in milliseconds.
"""

from __future__ import annotations

import json
import math
import os
import random
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
BATCHES, FOODS, COLD_RUNS, KEYSTROKES = 100_000, 40, 7, 400


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "large.dryhouse"
        fill(file)
        empty = Path(folder) / "none.dryhouse"
        found = {
            "cold_cli_ms_no_journal": cold(empty),
            "cold_cli_ms_100k_batches": cold(file),
            **warm(file),
            **typing(file),
        }
    print(json.dumps(found, indent=2))


def fill(file: Path) -> None:
    """100,000 finished batches of 40 foods; every twentieth of them is corn, as every other food."""
    from dryhouse.handbook.reader import handbook
    from dryhouse.journal.opening import open_journal
    from dryhouse.kitchen.ports import Change
    from dryhouse.kitchen.records import Batch, Dryer
    from dryhouse.science.quantities import Mass, Volume

    rng = random.Random(1)
    foods = ["corn", *[s for s, f in handbook().foods.items() if f.fact("water") and s != "corn"][: FOODS - 1]]
    journal = open_journal(file, write=True)
    changes = [Change(None, Dryer("shelf dryer", 6, id=1))]
    start = datetime(2000, 1, 1, tzinfo=UTC)
    for i in range(BATCHES):
        food = foods[i % FOODS]
        facts = handbook().foods[food].facts
        ratio = (100 - facts["water"].value) / 88 * math.exp(rng.gauss(0.1, 0.1))
        grams = rng.uniform(400, 2000)
        begun = start + timedelta(hours=2 * i)
        changes.append(
            Change(
                None,
                Batch(
                    food,
                    form=("slices", "dice")[i % 2],
                    prepared_mass=Mass(grams),
                    dried_mass=Mass(min(grams, grams * ratio)),
                    dried_volume=Volume(grams * ratio / 0.45),
                    dryer=1,
                    trays=4,
                    started=begun,
                    ended=begun + timedelta(hours=9),
                    id=i + 1,
                ),
            )
        )
    journal.write(changes)
    journal.close()


def cold(file: Path) -> float:
    """The middle of several runs of the whole command, interpreter and all."""
    command = [sys.executable, "-m", "dryhouse", "--journal", str(file), "yields", "sweet corn", "--fresh", "1 cup"]
    times = []
    for _ in range(COLD_RUNS):
        began = time.perf_counter()
        subprocess.run([*command, "--json"], check=True, capture_output=True, cwd=ROOT)
        times.append(1000 * (time.perf_counter() - began))
    return round(statistics.median(times), 1)


def warm(file: Path) -> dict[str, float]:
    """Learning a food and answering an amount, in a process that has answered before."""
    from dryhouse.handbook.reader import handbook
    from dryhouse.journal.opening import open_journal
    from dryhouse.kitchen.foods.catalog import food
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.yields.knowledge import learn
    from dryhouse.kitchen.yields.yields import answer
    from dryhouse.science.quantities import parse_amount

    kitchen = Kitchen(open_journal(file, write=False), handbook())
    corn = food(kitchen, "corn")
    answer(learn(kitchen, corn), parse_amount("1 cup"), "fresh")
    learning, answering = [], []
    for i in range(50):
        began = time.perf_counter()
        known = learn(kitchen, corn, ("", "slices", "dice")[i % 3])
        learned = time.perf_counter()
        answer(known, parse_amount(f"{i + 1} cups"), "fresh")
        learning.append(1000 * (learned - began))
        answering.append(1000 * (time.perf_counter() - learned))
    kitchen.journal.close()
    return {
        "own_batches_of_the_food": len(known.dots),
        "warm_learn_a_food_ms": round(statistics.median(learning), 2),
        "warm_answer_ms": round(statistics.median(answering), 3),
        "warm_answer_ms_worst": round(max(answering), 3),
    }


def typing(file: Path) -> dict[str, float]:
    """Keystrokes in the place itself, at twelve a second, the paint included."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication

    from dryhouse.desk.places.yields.view import YieldsPlace
    from dryhouse.desk.session import Session
    from dryhouse.desk.theme import Theme
    from dryhouse.handbook.reader import handbook
    from dryhouse.journal.opening import open_journal
    from dryhouse.kitchen.kitchen import Kitchen

    app = QApplication.instance() or QApplication([])
    session = Session(Kitchen(open_journal(file, write=False), handbook()), Theme(app, "light"))
    place = YieldsPlace(session)
    place.resize(1100, 760)
    place.show()
    QTest.qWait(2000)
    times: list[float] = []
    foods = ("corn", "asparagus", "beet", "tomato", "apple", "onion", "carrot", "pear")
    while len(times) < KEYSTROKES:
        for food in foods:
            place.ask.line.clear()
            for letter in f"{food} 2 lb":
                began = time.perf_counter()
                QTest.keyClicks(place.ask.line, letter)
                app.processEvents()
                times.append(1000 * (time.perf_counter() - began))
                QTest.qWait(80)
            QTest.qWait(400)
    session.kitchen.journal.close()
    place.close()
    times.sort()
    return {
        "keystrokes": len(times),
        "keystroke_ms_median": round(times[len(times) // 2], 2),
        "keystroke_ms_p99": round(times[int(0.99 * len(times))], 2),
        "keystroke_ms_worst": round(times[-1], 2),
    }


if __name__ == "__main__":
    main()
