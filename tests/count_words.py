"""How many words each place says at once: the real window on the sample journal, at 1280×800.

    python tests/count_words.py [--list]

Counted is every text in view: labels, buttons, entries with what stands in them, headings of tables, and what is
written in a chart. The rows of a list are hers: its first one is counted, for its form. Stops are not counted: they
are said in full wherever they stand. A word is what has a letter or a digit in it. The second number is with what
comes into view by scrolling. `tests/journeys/test_few_words.py` holds each place to a ceiling.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))


def a_batch(window: Any) -> None:
    """The card of the last batch of corn."""
    from dryhouse.kitchen.ports import BatchQuery

    view = window.view("journal")
    found = view.session.kitchen.journal.batch_ids(BatchQuery(foods=("corn",), states=("finished",)))
    view.show_record("batch", found[0])


PLACES: dict[str, Callable[[Any], None]] = {
    "journal": a_batch,
    "drying": lambda window: None,
    "yields": lambda window: window.view("yields").type("corn 1 cup"),
    "shelf": lambda window: window.view("shelf").show_record("lot", 56),
    "meals": lambda window: None,
    "handbook": lambda window: window.view("handbook").show_record("food", "corn"),
}
"""What is opened in each place before its words are counted."""


def settle(app: Any, seconds: float) -> None:
    """Let timers fire and the last chart be drawn."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        app.processEvents()
        time.sleep(0.01)


def main() -> None:
    """The table."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--list", action="store_true", help="every text, those out of view in brackets")
    asked.add_argument("--pictures", type=Path, help="a folder for a picture of each place")
    given = asked.parse_args()
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    with tempfile.TemporaryDirectory() as data:
        os.environ |= {"XDG_DATA_HOME": data, "DRYHOUSE_SETTINGS": f"{data}/settings.ini"}
        from PySide6.QtWidgets import QApplication

        from dryhouse.desk.opening import Opening
        from dryhouse.desk.settings import settings
        from dryhouse.desk.theme import Theme
        from dryhouse.desk.window import DeskWindow
        from dryhouse.house import Journals
        from tests.journeys.words_counted import count, texts

        app = QApplication([])
        window = DeskWindow(Theme(app, "light"), settings())
        opening = Opening(window, Journals())
        window.resize(1280, 800)
        window.show()
        opening.open_sample()
        for place, act in PLACES.items():
            window.go(place)
            settle(app, 1.0)
            act(window)
            settle(app, 4.0)
            page = window.view(place)
            print(place, *count(page))
            if given.list:
                for text, seen in texts(page):
                    if text.strip():
                        print("   ", repr(text) if seen else f"({text!r})")
            if given.pictures:
                window.grab().save(str(given.pictures / f"{place}.png"))
        window.close()


if __name__ == "__main__":
    main()
