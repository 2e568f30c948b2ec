"""How long the shelf takes with five thousand lots in a journal file: to open, to take in an act, to re-sort.

python tests/benchmarks/shelf_speed.py [LOTS]
"""

from __future__ import annotations

import os
import random
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT)]

from dryhouse.handbook.reader import handbook  # noqa: E402
from dryhouse.journal.opening import open_journal  # noqa: E402
from dryhouse.kitchen.kitchen import Kitchen  # noqa: E402
from dryhouse.kitchen.ports import Change  # noqa: E402
from dryhouse.kitchen.records import (  # noqa: E402
    Batch,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    Place,
    PlaceTemperature,
)
from dryhouse.kitchen.shelf.book import ShelfBook  # noqa: E402
from dryhouse.kitchen.shelf.lots import move  # noqa: E402
from dryhouse.kitchen.shelf.shelf import shelf  # noqa: E402
from dryhouse.science.quantities import Mass, Temperature, Volume  # noqa: E402

FOODS = ("corn", "apple", "carrot", "turkey", "mushroom", "tomato", "ground-beef", "apricot", "onion", "pear")


def records(count: int) -> list[Any]:
    """A shelf of so many lots, from half as many batches, moved, drawn from and looked at."""
    chance = random.Random(5)
    start = datetime(2025, 9, 1, tzinfo=UTC)
    made: list[Any] = [Place(name, id) for id, name in enumerate(("pantry", "cellar", "freezer"), start=1)]
    for place, warmth in ((1, (22, 24, 20)), (2, (14, 16, 12)), (3, (-18,))):
        made += [
            PlaceTemperature(place, start + timedelta(days=90 * n), Temperature(c), None, place * 10 + n)
            for n, c in enumerate(warmth)
        ]
    moves = 0
    for n in range(1, count // 2 + 1):
        began = start + timedelta(days=chance.uniform(0, 400))
        made.append(
            Batch(
                chance.choice(FOODS),
                prepared_mass=Mass(1000 + n),
                dried_mass=Mass(120.0),
                precook_method="simmered or steamed",
                precook_temperature=Temperature(75 + n % 7),
                precook_measured="thermometer",
                started=began,
                ended=began + timedelta(hours=9),
                id=n,
            )
        )
    batches = [r for r in made if isinstance(r, Batch)]
    for n in range(1, count + 1):
        batch = batches[(n - 1) // 2]
        day = batch.ended.date()
        first, last = (
            (day, day + timedelta(days=10)) if batch.food in ("apple", "apricot", "pear") else (None, None)
        )
        made.append(
            Lot(batch.food, day, batch=batch.id, mass=Mass(60.0), volume=Volume(250.0), conditioned_from=first,
                conditioned_to=last, id=n)
        )  # fmt: skip
        for k in range(chance.choice((1, 1, 2, 3))):
            moves += 1
            at = batch.ended + timedelta(days=30 * k, hours=1)
            made.append(LotMove(n, chance.choice((1, 2, 3)), at, moves))
        if n % 2:
            made.append(LotDraw(n, day + timedelta(days=20), mass=Mass(15.0), id=n))
        if n % 3 == 0:
            made.append(LotCheck(n, day + timedelta(days=7), moist=False, mould=False, id=n))
    return made


def timed(what: str, ask: Callable[[], Any], times: int = 15) -> Any:
    """Print the median and the slowest of many runs, in milliseconds."""
    spans, answer = [], None
    for _ in range(times):
        began = time.perf_counter()
        answer = ask()
        spans.append((time.perf_counter() - began) * 1000)
    print(f"{what:<48}{statistics.median(spans):9.1f} {max(spans):9.1f}")
    return answer


def main() -> None:
    """Make the journal, ask, print a table."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 5000
    with tempfile.TemporaryDirectory() as folder:
        journal = open_journal(Path(folder) / "shelf.dryhouse", write=True)
        journal.write(Change(None, r) for r in records(count))
        kitchen = Kitchen(journal, handbook())
        print(f"{count} lots{'':40}median ms  worst ms")
        book = timed("read the book", lambda: ShelfBook.read(kitchen))
        lines = timed("the shelf, everything from the file", lambda: shelf(kitchen))
        print(f"  {len(lines)} lines, {len({line.standing for line in lines})} standings")
        timed("the shelf from the book, again", lambda: shelf(kitchen, book=book))
        day = datetime.now(UTC).date() + timedelta(days=40)
        timed("the shelf from the book, another day", lambda: shelf(kitchen, day, book=book))

        def act() -> Any:
            book.take(move(kitchen, [17], 3))
            return shelf(kitchen, book=book)

        timed("one lot moved, fsynced, and the shelf again", act)
        on_the_desk(kitchen)
        journal.close()


def on_the_desk(kitchen: Kitchen) -> None:
    """The place itself in a window without a screen: first shown after it was read ahead, then sorted anew."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from PySide6.QtCore import QSettings
    from PySide6.QtWidgets import QApplication

    from dryhouse.desk.places.shelf.state import read_ahead, state_of
    from dryhouse.desk.session import Session
    from dryhouse.desk.theme import Theme
    from dryhouse.desk.window import DeskWindow

    app = QApplication.instance() or QApplication([])
    theme = Theme(app, "light")
    session = Session(kitchen, theme)
    with tempfile.TemporaryDirectory() as folder:
        window = DeskWindow(theme, QSettings(f"{folder}/settings.ini", QSettings.Format.IniFormat))
        window.attach(session)
        window.show()
        window.go("journal")
        app.processEvents()
        read_ahead(session)
        while state_of(session)._book is None:
            app.processEvents()

        def opened() -> Any:
            place = window.go("shelf")
            app.processEvents()
            return place

        place = timed("the place, first shown after reading ahead", opened, 1)
        keys = iter(("food", "keep_by", "mass", "place") * 5)

        def again() -> None:
            place.listing.table.sort_asked.emit(next(keys), False)
            app.processEvents()

        timed("the place, sorted by another column", again)
        window.close()


if __name__ == "__main__":
    main()
