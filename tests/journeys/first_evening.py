"""Twelve tasks of a first evening, each by the keyboard alone and by the mouse alone, but for what is typed.

    python tests/journeys/first_evening.py

prints how many entries each took and how many seconds of machine time. An entry is something typed or chosen.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QTableView, QWidget

sys.path.insert(0, str(Path(__file__).parents[2]))

from dryhouse.kitchen.dryer.drying import weighings_of
from dryhouse.kitchen.records import Batch, Lot, LotDraw, LotMove

CTRL, NONE = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.NoModifier
LEFT = Qt.MouseButton.LeftButton
ENTER, TAB = Qt.Key.Key_Return, Qt.Key.Key_Tab


class Cook:
    """Someone at the window; counts what she types and chooses."""

    def __init__(self, window, opening) -> None:
        self.window, self.opening, self.entries = window, opening, 0

    @property
    def kept(self):
        return self.opening.session.kitchen.journal

    def place(self, id: str):
        return self.window.views[id]

    def settle(self, until: Callable[[], bool] = lambda: True, seconds: float = 3.0) -> None:
        end = time.monotonic() + seconds
        QApplication.processEvents()
        while not until() and time.monotonic() < end:
            QApplication.processEvents()
            time.sleep(0.01)

    def type(self, text: str) -> None:
        self.entries += 1
        for letter in text:
            QTest.keyClicks(QApplication.activePopupWidget() or QApplication.focusWidget(), letter)
        self.settle()

    def press(self, *keys: Qt.Key, held: Qt.KeyboardModifier = NONE) -> None:
        for key in keys:
            QTest.keyClick(QApplication.activePopupWidget() or QApplication.focusWidget() or self.window, key, held)
            self.settle()

    def tab_to(self, goal: QWidget) -> None:
        for _ in range(40):
            if QApplication.focusWidget() in (goal, goal.focusProxy()):
                return
            self.press(TAB)
        raise AssertionError(f"Tab does not come to {goal.accessibleName() or goal}")

    def click(self, widget: QWidget) -> None:
        assert widget.isVisible(), f"{widget.accessibleName() or widget} is out of sight"
        QTest.mouseClick(widget, LEFT)
        self.settle()

    def click_line(self, table: QTableView, line: int) -> None:
        QTest.mouseClick(table.viewport(), LEFT, NONE, table.visualRect(table.model().index(line, 0)).center())
        self.settle()

    def choose(self, box: QComboBox, text: str) -> None:
        """Open a box with the mouse and click what it offers."""
        self.entries += 1
        at = box.findText(text, Qt.MatchFlag.MatchStartsWith)
        assert at >= 0, [box.itemText(n) for n in range(box.count())]
        while box.currentIndex() != at:  # a list takes no click that may still be the one that opened it
            if not box.view().isVisible():
                QTest.mouseClick(box, LEFT, NONE, QPoint(box.width() - 10, box.height() // 2))
                self.settle(lambda: box.view().isVisible())
            QTest.qWait(QApplication.doubleClickInterval() + 20)
            middle = box.view().visualRect(box.model().index(at, 0)).center()
            QTest.mouseClick(box.view().viewport(), LEFT, NONE, middle)
            self.settle()

    def newest(self, kind):
        return max(self.kept.where(kind), key=lambda record: record.id)

    def lighter(self, view) -> str:
        """A reading a little below the last one of the batch in focus."""
        batch = view.current
        last = weighings_of(self.opening.session.kitchen, batch)[-1]
        return f"{last.gross.si - 4:.0f} g"


def by_keys(cook: Cook, saved: Path) -> Iterator[tuple[str, Callable[[], bool]]]:
    """Each task and how it is seen to be done, after it was."""
    before = cook.newest(Batch).id
    cook.press(Qt.Key.Key_1, Qt.Key.Key_N, held=CTRL)
    for text in ("sweet corn", "2 lb 3 oz"):
        cook.type(text)
        cook.press(TAB)
    cook.type("9 oz")
    cook.press(ENTER)
    yield "log a batch", lambda: cook.newest(Batch).id > before

    cook.press(Qt.Key.Key_2, held=CTRL)
    drying = cook.place("drying")
    count = len(weighings_of(cook.opening.session.kitchen, drying.current))
    cook.type(cook.lighter(drying))
    cook.press(ENTER)
    yield "weigh", lambda: len(weighings_of(cook.opening.session.kitchen, drying.current)) == count + 1

    cook.press(Qt.Key.Key_3, held=CTRL)
    cook.type("corn 1 cup")
    yield "look up a yield", lambda: cook.place("yields").answer is not None

    lots = len(cook.kept.where(Lot))
    cook.press(Qt.Key.Key_4, Qt.Key.Key_N, held=CTRL)
    pack = cook.place("shelf")._pack
    cook.tab_to(pack.count.edit)
    cook.type("3")
    cook.tab_to(pack.kind.box)
    cook.type("j")
    cook.tab_to(pack.place.box)
    cook.type("p")
    cook.press(ENTER, held=CTRL)
    yield "pack into three jars", lambda: len(cook.kept.where(Lot)) == lots + 3

    cook.press(Qt.Key.Key_4, Qt.Key.Key_L, Qt.Key.Key_S, held=CTRL)
    yield "print labels", lambda: saved.exists() and saved.stat().st_size > 1000

    cook.press(Qt.Key.Key_Escape)
    cook.press(Qt.Key.Key_2, Qt.Key.Key_N, held=CTRL)
    cook.type("zucchini")
    cook.press(ENTER)
    cook.type("3 lb")
    cook.press(ENTER)
    yield "start a batch", lambda: cook.newest(Batch).food == "zucchini"

    cook.press(Qt.Key.Key_2, Qt.Key.Key_T, held=CTRL)
    cook.type("4 oz")
    cook.press(ENTER)
    yield "take it off", lambda: cook.newest(Batch).state == "finished"

    moves = len(cook.kept.where(LotMove))
    cook.press(Qt.Key.Key_4, held=CTRL)
    cook.press(Qt.Key.Key_Down, Qt.Key.Key_M)
    cook.type("cel")
    cook.tab_to(cook.place("shelf").form.save_button)
    cook.press(ENTER)
    yield "move a jar", lambda: len(cook.kept.where(LotMove)) == moves + 1

    draws = len(cook.kept.where(LotDraw))
    cook.press(Qt.Key.Key_T)
    cook.type("2 g")
    cook.press(ENTER)
    yield "take some out", lambda: len(cook.kept.where(LotDraw)) == draws + 1

    cook.press(Qt.Key.Key_1, Qt.Key.Key_F, held=CTRL)
    listing = cook.place("journal").listing
    cook.type("corn 2026")
    cook.settle(lambda: 0 < len(listing.table.rows.ids) < 60)
    yield "find batches", lambda: {cook.kept.get(Batch, id).food for id in listing.table.rows.ids} == {"corn"}

    cook.press(Qt.Key.Key_6, held=CTRL)
    cook.type("carrot")
    page = cook.place("handbook").page
    cook.settle(lambda: page.food is not None and page.food.slug == "carrot")
    yield "read about a food", lambda: page.food.slug == "carrot"

    cook.press(Qt.Key.Key_1, held=CTRL)
    cook.press(Qt.Key.Key_Z, held=CTRL)
    yield "undo the last act", lambda: len(cook.kept.where(LotDraw)) == draws


def by_hand(cook: Cook, saved: Path) -> Iterator[tuple[str, Callable[[], bool]]]:
    """The same with the mouse: keys only for what has to be typed."""
    rail = cook.window.rail.buttons
    before = cook.newest(Batch).id
    cook.click(rail["journal"])
    journal = cook.place("journal")
    cook.click(journal.log_button)
    cook.type("sweet corn")
    for name, text in (("fresh", "2 lb 3 oz"), ("dried", "9 oz")):
        cook.click(journal.form.entries.fields[name].edit)
        cook.type(text)
    cook.click(journal.form.save_button)
    yield "log a batch", lambda: cook.newest(Batch).id > before

    cook.click(rail["drying"])
    drying = cook.place("drying")
    strip = drying.strips[drying.current]
    count = len(weighings_of(cook.opening.session.kitchen, drying.current))
    cook.click(strip.reading.edit)
    cook.type(cook.lighter(drying))
    cook.click(strip.weigh_button)
    yield "weigh", lambda: len(weighings_of(cook.opening.session.kitchen, drying.current)) == count + 1

    cook.click(rail["yields"])
    cook.type("corn 1 cup")
    yield "look up a yield", lambda: cook.place("yields").answer is not None

    lots = len(cook.kept.where(Lot))
    cook.click(rail["shelf"])
    shelf = cook.place("shelf")
    cook.click(shelf.pack_button)
    pack = shelf._pack
    QTest.mouseDClick(pack.count.edit, LEFT)
    cook.type("3")
    cook.choose(pack.kind.box, "Jar")
    cook.choose(pack.place.box, "Pantry")
    cook.click(pack.save_button)
    yield "pack into three jars", lambda: len(cook.kept.where(Lot)) == lots + 3

    cook.settle(lambda: shelf.panel.buttons["labels"].isVisible() and shelf.lists.isVisible())
    cook.click(shelf.panel.buttons["labels"])
    cook.click(shelf._labels.save_button)
    yield "print labels", lambda: saved.exists() and saved.stat().st_size > 1000

    cook.click(rail["drying"])
    cook.click(drying.start_button)
    cook.type("zucchini")
    cook.click(drying.form.fields["prepared_mass"].edit)
    cook.type("3 lb")
    cook.click(drying.form.start_button)
    yield "start a batch", lambda: cook.newest(Batch).food == "zucchini"

    started = drying.strips[cook.newest(Batch).id]
    drying.column.area.ensureWidgetVisible(started.off_button)
    cook.click(started.off_button)
    cook.click(drying.take_off.mass.edit)
    cook.type("4 oz")
    cook.click(drying.take_off.off)
    yield "take it off", lambda: cook.newest(Batch).state == "finished"

    moves = len(cook.kept.where(LotMove))
    cook.click(rail["shelf"])
    cook.click(next(b for b in shelf._labels.findChildren(QAbstractButton) if b.text() == "&Back"))
    cook.click_line(shelf.listing.table, 1)
    cook.settle(lambda: shelf.panel.line is not None)
    cook.click(shelf.panel.buttons["move"])
    cook.choose(shelf.form.fields["place"].box, "Cellar")
    cook.click(shelf.form.save_button)
    yield "move a jar", lambda: len(cook.kept.where(LotMove)) == moves + 1

    draws = len(cook.kept.where(LotDraw))
    cook.click(shelf.panel.buttons["draw"])
    cook.click(shelf.form.fields["mass"].edit)
    cook.type("2 g")
    cook.click(shelf.form.save_button)
    yield "take some out", lambda: len(cook.kept.where(LotDraw)) == draws + 1

    cook.click(rail["journal"])
    cook.click(journal.listing.filter.edit)
    cook.type("corn 2026")
    cook.settle(lambda: 0 < len(journal.listing.table.rows.ids) < 60)
    yield "find batches", lambda: {cook.kept.get(Batch, n).food for n in journal.listing.table.rows.ids} == {"corn"}

    cook.click(rail["handbook"])
    cook.click(cook.place("handbook").filter.edit)
    cook.type("carrot")
    page = cook.place("handbook").page
    cook.settle(lambda: page.food is not None and page.food.slug == "carrot")
    yield "read about a food", lambda: page.food.slug == "carrot"

    cook.click(rail["shelf"])
    edit = next(a for a in cook.window.menuBar().actions() if a.text() == "&Edit")
    edit.menu().popup(cook.window.mapToGlobal(QPoint(60, 20)))
    cook.settle(edit.menu().isVisible)
    undo = next(a for a in edit.menu().actions() if a.text().startswith("&Undo"))
    QTest.mouseClick(edit.menu(), LEFT, NONE, edit.menu().actionGeometry(undo).center())
    cook.settle()
    yield "undo the last act", lambda: len(cook.kept.where(LotDraw)) == draws


def report() -> None:
    """Both ways, each on a fresh copy of the sample journal, with entries and seconds."""
    argparse.ArgumentParser(description=__doc__.splitlines()[0]).parse_args()
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    for way in (by_keys, by_hand):
        with tempfile.TemporaryDirectory() as folder:
            os.environ |= {"XDG_DATA_HOME": folder, "DRYHOUSE_SETTINGS": f"{folder}/settings.ini"}
            print(way.__name__.replace("_", " "))
            for name, entries, seconds, done in evening(way, Path(folder) / "labels.pdf"):
                print(f"  {name:24} {entries} entries {seconds:6.2f} s  {'' if done else 'NOT DONE'}")


def evening(way: Callable[[Cook, Path], Iterator[tuple[str, Callable[[], bool]]]], saved: Path):
    """Go through an evening in a window of its own."""
    from PySide6.QtWidgets import QFileDialog

    from dryhouse.desk.opening import Opening
    from dryhouse.desk.settings import settings
    from dryhouse.desk.theme import Theme
    from dryhouse.desk.window import DeskWindow
    from dryhouse.house import Journals

    app = QApplication.instance() or QApplication([])
    window = DeskWindow(Theme(app, "light"), settings())
    opening = Opening(window, Journals())
    window.resize(1280, 800)
    window.show()
    window.activateWindow()
    opening.open_sample()
    asked = QFileDialog.getSaveFileName
    QFileDialog.getSaveFileName = lambda *_asked, **_named: (str(saved), "")
    cook = Cook(window, opening)
    cook.settle(lambda: window.isActiveWindow() and window.rail.buttons["journal"].isVisible())
    try:
        began, counted = time.perf_counter(), 0
        for name, done in way(cook, saved):
            yield name, cook.entries - counted, time.perf_counter() - began, done()
            began, counted = time.perf_counter(), cook.entries
    finally:
        QFileDialog.getSaveFileName = asked
        window.close()


if __name__ == "__main__":
    report()
