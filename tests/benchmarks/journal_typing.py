"""How long a keystroke takes in the Journal's search, in the real window over a large journal.

    python tests/benchmarks/journal_typing.py FILE        (made with sample_data/large.py)

Each word is typed a letter at a time, as quickly as the window takes it; then the list is asked for without
waiting for the pause, and painted. What the window reads ahead once it stands has been read by then. Prints
the median, the 99th percentile and the slowest, in milliseconds.
"""

from __future__ import annotations

import json
import os
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

WORDS = ("tomato", "apple slices", "corn", "crisp muggy", "box", "beef", "mushroom dice", "thin", "zzzz")


def summary(spans: list[float]) -> dict[str, float]:
    """Median, 99th percentile and slowest, in milliseconds."""
    ordered = sorted(spans)
    return {
        "median": round(1000 * statistics.median(ordered), 2),
        "p99": round(1000 * ordered[min(len(ordered) - 1, round(0.99 * len(ordered)))], 2),
        "slowest": round(1000 * ordered[-1], 2),
    }


def main() -> None:
    """Type into the search line and time it."""
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication

    from dryhouse.desk.opening import Opening
    from dryhouse.desk.places.batches.preload import preload_journal
    from dryhouse.desk.settings import settings
    from dryhouse.desk.theme import Theme
    from dryhouse.desk.window import DeskWindow
    from dryhouse.house import Journals

    app = QApplication([])
    window = DeskWindow(Theme(app, "light"), settings())
    opening = Opening(window, Journals(Path(sys.argv[1])))
    window.show()
    opening.open_own()
    preload_journal(opening.session).join()
    journal = window.go("journal")
    line = journal.listing.filter
    keys, answers = [], []
    for _ in range(5):
        for word in WORDS:
            for letter in word:
                began = time.perf_counter()
                QTest.keyClicks(line.edit, letter)
                app.processEvents()
                keys.append(time.perf_counter() - began)
                began = time.perf_counter()
                line.tell()
                app.processEvents()
                answers.append(time.perf_counter() - began)
            line.edit.clear()
            line.tell()
            app.processEvents()
    print(
        json.dumps({"batches": len(journal.listing.table.rows.ids), "key": summary(keys), "list": summary(answers)})
    )
    window.close()


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        os.environ["DRYHOUSE_SETTINGS"] = f"{folder}/settings.ini"
        if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
            os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        main()
