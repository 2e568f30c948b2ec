"""The days of a trip against the times of day. Meals are dragged onto it, or put there from the keyboard."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import astuple
from datetime import date

from PySide6.QtCore import QMimeData, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QDragEnterEvent,
    QDragMoveEvent,
    QDropEvent,
    QKeyEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QMenu, QTableWidget, QTableWidgetItem

from dryhouse.desk.cautions import SAID, said, stops_of
from dryhouse.desk.icons import icon
from dryhouse.desk.measures import scaled
from dryhouse.desk.places.meals.meal_list import MEAL_MIME
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.item_table import dress
from dryhouse.kitchen.records import TripMeal
from dryhouse.kitchen.trips.people import days_of_people
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.kitchen.trips.sheet import DaySheet
from dryhouse.kitchen.trips.trips import SLOTS
from dryhouse.science.display import calories
from dryhouse.science.values import Caution
from dryhouse.words.dates import weekday, weekday_words
from dryhouse.words.people import person_words
from dryhouse.words.sums import at_least, gap_words, not_known_for

PLACED_MIME = "application/x-dryhouse-placed"
_SUMS = ("For each person", "For the pot")
_LEAST_WIDE = 108
"""Pixels of a column at least: its heading whole. Where the window is too narrow the days scroll sideways."""
_STEPS = {Qt.Key.Key_Up: (-1, 0), Qt.Key.Key_Down: (1, 0), Qt.Key.Key_Left: (0, -1), Qt.Key.Key_Right: (0, 1)}


class TripGrid(QTableWidget):
    """Enter puts the chosen meal on a day, Del takes one off, Alt and an arrow move it, + or − change servings."""

    put_asked = Signal(object, str)
    """A day and a time of day."""
    dropped = Signal(int, object, str)
    moved = Signal(int, object, str)
    taken_off = Signal(int)
    servings_asked = Signal(int, float)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._days: list[date] = []
        self._placed: dict[tuple[int, int], list[TripMeal]] = {}
        self._served: dict[int, float] = {}
        self._stops: dict[int, tuple[Caution, ...]] = {}
        self._forbidding: list[tuple[int, int]] = []
        """The cells of meals with a stop: line and column."""
        self.setAccessibleName("Days of the trip")
        self.setColumnCount(len(SLOTS) + len(_SUMS))
        sums = range(len(SLOTS), len(SLOTS) + len(_SUMS))
        dress(self, [*(s.capitalize() for s in SLOTS), *_SUMS], figures=sums)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setDragEnabled(True)
        self.setAcceptDrops(True)
        self.setDragDropOverwriteMode(False)
        self.setDropIndicatorShown(True)
        self.setWordWrap(True)
        head = self.horizontalHeader()
        head.setMinimumSectionSize(60)
        for n in range(self.columnCount()):
            stretch = QHeaderView.ResizeMode.Stretch if n < len(SLOTS) else QHeaderView.ResizeMode.ResizeToContents
            head.setSectionResizeMode(n, stretch)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.verticalHeader().setMinimumSectionSize(self.session.theme.tokens.target)
        session.theme.changed.connect(self._dress_stops)

    # --- showing ---------------------------------------------------------------------------------------------

    def show_plan(self, plan: Plan) -> None:
        """Show every day, each meal marked where its bag has a stop; the cursor stays where it was."""
        sheet = plan.sheet
        eaten = (eaten.placed.id for day in sheet.days for eaten in day.meals)
        self._stops = {placed: stops_of(bag.cautions) for placed, bag in zip(eaten, plan.bags, strict=True)}
        at = (max(self.currentRow(), 0), max(self.currentColumn(), 0))
        self._days = [day.day for day in sheet.days]
        self._placed.clear()
        self._forbidding.clear()
        self._served = {e.placed.id: e.sheet.servings for d in sheet.days for e in d.meals}
        self.setRowCount(len(sheet.days))
        self.setVerticalHeaderLabels([_named(day) for day in sheet.days])
        for row, day in enumerate(sheet.days):
            those = days_of_people(sheet, plan.people, day) if plan.people else ()
            each = [person_words(*astuple(one), at_least=bool(day.energy_lacks)) for one in those]
            self._show_day(row, day, sheet.trip.people, "; ".join(each))
        self._share_width()
        self.setCurrentCell(min(at[0], self.rowCount() - 1), at[1])

    def _show_day(self, row: int, day: DaySheet, people: int, each_person: str) -> None:
        for column, slot in enumerate(SLOTS):
            here = [e for e in day.meals if _slot_of(e.placed) == slot]
            self._placed[row, column] = [e.placed for e in here]
            shown, heard = [], []
            for eaten in here:
                other = "" if eaten.sheet.servings == people else f" for {eaten.sheet.servings:g}"
                stops = self._stops.get(eaten.placed.id, ())
                shown += [_mark(stops), eaten.sheet.meal.name + other]
                heard.append(" ".join((eaten.sheet.meal.name + other, *(said(c) for c in stops))))
            text = "\n".join(line for line in shown if line)
            self._cell(row, column, text, f"{weekday(day.day)}, {slot}: {', '.join(heard) or 'nothing yet'}")
            if any(self._stops.get(eaten.placed.id) for eaten in here):
                self._forbidding.append((row, column))
                self._as_a_stop(row, column)
        style = self.session.style
        energy, gap = day.energy_per_person, day.energy_gap
        lacks = () if energy is None else day.energy_lacks
        energy_text = "" if energy is None else at_least(f"{calories(energy.value)} kcal", lacks)
        if gap is not None:
            energy_text += f"\n{gap_words(gap, lacks)}"
        energy_text += f"\n{not_known_for(lacks)}" if lacks else ""
        each = f"{style.load(day.grams_per_person.value)} dry\n{energy_text}".strip()
        pot = self._pot(day)
        texts = (each, pot) if day.meals else ("—", "—")
        for n, text in enumerate(texts):
            remark = " ".join(filter(None, (each_person if n == 0 else "", *day.remarks)))
            self._cell(row, len(SLOTS) + n, text, f"{weekday(day.day)}, {_SUMS[n]}: {text}. {remark}", figure=True)

    def _pot(self, day: DaySheet) -> str:
        """The water and the flame of the pots that may be eaten from; what must not be gets none."""
        fit = [e for e in day.meals if not any(c.forbids_eating for c in self._stops.get(e.placed.id, ()))]
        if not fit:
            return "no water\nno flame"
        if not any(e.sheet.needs_water for e in fit):
            return "no pot"
        water = self.session.style.volume(sum(e.sheet.bag.water.value for e in fit))
        flame = sum(e.sheet.minutes.flame.value for e in fit)
        return f"{water}\nstove {flame:.0f} min"

    def _cell(self, row: int, column: int, text: str, said: str, *, figure: bool = False) -> None:
        item = QTableWidgetItem(text)
        item.setData(Qt.ItemDataRole.AccessibleTextRole, said)
        item.setToolTip(said)
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        if figure:
            item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        else:
            flags |= Qt.ItemFlag.ItemIsDropEnabled | Qt.ItemFlag.ItemIsDragEnabled
        item.setFlags(flags)
        self.setItem(row, column, item)

    def _dress_stops(self) -> None:
        """In the colors of another look."""
        for row, column in self._forbidding:
            self._as_a_stop(row, column)

    def _as_a_stop(self, row: int, column: int) -> None:
        """A meal with a stop stands out by its sign, its weight and its color."""
        item, tint = self.item(row, column), self.session.theme.tokens.tint("stop")
        if item is None:
            return
        font = item.font()
        font.setBold(True)
        item.setFont(font)
        item.setForeground(QColor(tint.ink))
        item.setBackground(QColor(tint.ground))
        item.setIcon(icon(tint.shape, tint.ink))

    def _share_width(self) -> None:
        """Times of day that have meals share the width; the others keep just enough to be aimed at."""
        used = {column for (_, column), placed in self._placed.items() if placed} or set(range(len(SLOTS)))
        modes, head = QHeaderView.ResizeMode, self.horizontalHeader()
        for column in range(len(SLOTS)):
            head.setSectionResizeMode(column, modes.Fixed if column in used else modes.ResizeToContents)
        rest = sum(head.sectionSize(n) for n in range(self.columnCount()) if n not in used)
        each = max((self.viewport().width() - rest) // len(used), scaled(_LEAST_WIDE))
        for column in used:
            head.resizeSection(column, each)
        self.resizeRowsToContents()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_width()

    def here(self) -> tuple[date, str] | None:
        """The day and time of day under the cursor; the last time for a column of sums."""
        row, column = self.currentRow(), self.currentColumn()
        return None if row < 0 else (self._days[row], SLOTS[min(column, len(SLOTS) - 1)])

    def placed_here(self) -> TripMeal | None:
        """The meal under the cursor (the last one put there), if any."""
        found = self._placed.get((self.currentRow(), self.currentColumn()), [])
        return found[-1] if found else None

    def menu(self) -> QMenu:
        """What can be done with the day and time under the cursor."""
        made, here, placed = QMenu(self), self.here(), self.placed_here()
        made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        if here is not None:
            made.addAction("&Put the chosen meal here\tEnter", lambda: self.put_asked.emit(*here))
        if placed is not None:
            id, served = placed.id, self._served[placed.id]
            made.addAction("&More servings\t+", lambda: self.servings_asked.emit(id, served + 1.0))
            fewer = made.addAction("&Fewer servings\t−", lambda: self.servings_asked.emit(id, served - 1.0))
            fewer.setEnabled(served > 1.0)
            made.addAction("&Take it off\tDel", lambda: self.taken_off.emit(id))
        return made

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        index = self.indexAt(self.viewport().mapFromGlobal(event.globalPos()))
        if index.isValid():
            self.setCurrentIndex(index)
        self.menu().popup(event.globalPos())

    # --- the keyboard ----------------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, alt = Qt.Key(event.key()), bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        placed = self.placed_here()
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            if (here := self.here()) is not None:
                self.put_asked.emit(*here)
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace) and placed is not None:
            self.taken_off.emit(placed.id)
        elif alt and key in _STEPS and placed is not None:
            self._move(placed, *_STEPS[key])
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Minus) and placed is not None:
            served = self._served[placed.id] + (1.0 if key == Qt.Key.Key_Plus else -1.0)
            self.servings_asked.emit(placed.id, max(served, 1.0))
        else:
            super().keyPressEvent(event)

    def _move(self, placed: TripMeal, down: int, right: int) -> None:
        row = min(max(self.currentRow() + down, 0), len(self._days) - 1)
        column = min(max(self.currentColumn() + right, 0), len(SLOTS) - 1)
        if (row, column) != (self.currentRow(), self.currentColumn()):
            self.setCurrentCell(row, column)
            self.moved.emit(placed.id, self._days[row], SLOTS[column])

    # --- dragging --------------------------------------------------------------------------------------------

    def mimeTypes(self) -> list[str]:
        return [PLACED_MIME, MEAL_MIME]

    def mimeData(self, items: Sequence[QTableWidgetItem]) -> QMimeData:
        data = QMimeData()
        found = self._placed.get((items[0].row(), items[0].column()), []) if items else []
        if found:
            data.setData(PLACED_MIME, str(found[-1].id).encode())
        return data

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if _carries(event.mimeData()):
            event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        index = self.indexAt(event.position().toPoint())
        if _carries(event.mimeData()) and index.isValid() and index.column() < len(SLOTS):
            event.acceptProposedAction()
        else:
            event.ignore()

    def dropEvent(self, event: QDropEvent) -> None:
        index = self.indexAt(event.position().toPoint())
        if not index.isValid() or index.column() >= len(SLOTS):
            event.ignore()
            return
        day, slot = self._days[index.row()], SLOTS[index.column()]
        data = event.mimeData()
        self.setCurrentCell(index.row(), index.column())
        event.acceptProposedAction()
        if data.hasFormat(PLACED_MIME):
            self.moved.emit(int(bytes(data.data(PLACED_MIME).data())), day, slot)
        elif data.hasFormat(MEAL_MIME):
            self.dropped.emit(int(bytes(data.data(MEAL_MIME).data())), day, slot)


def _named(day: DaySheet) -> str:
    """The day, and under it what is special about it."""
    said = "layover" if day.layover else "spare day" if day.spare else ""
    return f"{weekday_words(day.day)}\n{said}".strip()


def _mark(stops: tuple[Caution, ...]) -> str:
    """The word above a meal whose bag has a stop; the stops themselves stand below the days."""
    return "Do not eat" if any(c.forbids_eating for c in stops) else SAID["stop"] if stops else ""


def _slot_of(placed: TripMeal) -> str:
    """The column of a meal: an unusual time of day stands with the snacks."""
    return placed.slot if placed.slot in SLOTS else SLOTS[-1]


def _carries(data: QMimeData) -> bool:
    return data.hasFormat(PLACED_MIME) or data.hasFormat(MEAL_MIME)
