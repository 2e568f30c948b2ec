"""One food: every published figure, what is said of it; one step away the sources, and the person's own figures."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt, QTimer
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QLabel, QTableWidget, QTableWidgetItem, QWidget

from dryhouse.desk.places.foods.own_contents import OwnContents
from dryhouse.desk.places.foods.own_figure import OwnFigureEditor
from dryhouse.desk.places.foods.wording import CATEGORIES, FIGURES, SAYINGS, shown, source_words
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import card, column, empty, scrolling, show_all, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.fold import Fold, Unfolding
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.cautions.cautions import food_cautions
from dryhouse.kitchen.foods.catalog import food
from dryhouse.science.errors import InputProblem
from dryhouse.science.safety.unfolded import AT_A_LOOK_UP
from dryhouse.words.bases import basis_text
from dryhouse.words.messages import problem_sentence

_ROW = 40
_MOST_WIDE, _MOST_WIDE_ALONE = 0.3, 0.5
"""Of the table that a column beside the sources takes at most."""
_PADDING = 12
_HEADINGS = ("Figure", "Value", "Where it comes from")
_SOURCE = 2
_NAMES = 3
"""So many other names are said; the rest are in the tooltip, and found by."""


class FoodPage(QWidget):
    """What is known of one food."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.food: Food | None = None
        self.heading = text_label("", "title")
        self.names = text_label("", "muted")
        self.cautions = CautionsView(session, most=AT_A_LOOK_UP)
        self.table = QTableWidget(0, len(_HEADINGS))
        self._dress_table()
        TableMenu(session, self.table, "Figures")
        self.sourced = False
        self.sources = Fold(session, self.turn_sources)
        self.own = OwnFigureEditor(session)
        self.own_fold = Unfolding(session, "Use a figure of my own", self.own)
        self.contents = OwnContents(session)
        self._source_labels: list[QLabel] = []
        said = QWidget()
        self._said = column(said, space=10)
        page = QWidget()
        inside = column(page, space=12)
        inside.setContentsMargins(0, 0, 12, 0)
        for widget in (
            self.heading,
            self.names,
            self.cautions,
            self.contents,
            self.table,
            said,
            self.sources,
            self.own_fold,
        ):
            inside.addWidget(widget)
        inside.addStretch(1)
        outer = column(self)
        outer.addWidget(scrolling(page))
        self._fit = QTimer(self, singleShot=True, interval=0)
        self._fit.timeout.connect(self._fit_rows)
        self.table.itemActivated.connect(self._edit_row)
        session.style_changed.connect(self._fill)
        self._show_sources()

    def show_food(self, slug: str) -> None:
        """Show the food of this slug."""
        try:
            self.food = food(self.session.kitchen, slug)
        except InputProblem as problem:
            self.ask(problem_sentence(problem, self.session.style))
            return
        self.contents.show_food(self.food)
        self._fill()

    def turn_sources(self) -> None:
        """Show beside each figure where it comes from, or fold it."""
        self.sourced = not self.sourced
        self._show_sources()

    def _show_sources(self) -> None:
        self.table.setColumnHidden(_SOURCE, not self.sourced)
        across, mode = self.table.horizontalHeader(), QHeaderView.ResizeMode
        across.setSectionResizeMode(1, mode.ResizeToContents if self.sourced else mode.Stretch)
        for label in self._source_labels:
            label.setVisible(self.sourced)
        self.sources.say("Where the figures come from", is_open=self.sourced)
        self._fit.start()

    def ask(self, question: str) -> None:
        """Show no food, and ask which is meant."""
        self.food = None
        self.heading.setText(question)
        self.contents.show_food(None)
        self._fill()

    def printable(self) -> list[tuple[str, str, str]]:
        """The table's lines as texts."""
        lines = range(self.table.rowCount())
        return [(self._text(i, 0), self._text(i, 1), self._text(i, 2)) for i in lines]

    def _text(self, line: int, across: int) -> str:
        item = self.table.item(line, across)
        return item.text() if item is not None else ""

    def _dress_table(self) -> None:
        table = self.table
        table.setAccessibleName("Figures of this food")
        table.setHorizontalHeaderLabels(_HEADINGS)
        table.verticalHeader().hide()
        table.verticalHeader().setDefaultSectionSize(_ROW)
        table.setShowGrid(False)
        table.setTabKeyNavigation(False)
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        table.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        header = table.horizontalHeader()
        header.setHighlightSections(False)
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)

    def _fill(self) -> None:
        known = self.food
        for widget in (self.names, self.cautions, self.table, self.sources, self.own_fold):
            widget.setVisible(known is not None)
        empty(self._said)
        self._source_labels.clear()
        if known is None:
            return
        self.heading.setText(known.name[:1].upper() + known.name[1:])
        kind = CATEGORIES.get(known.category, known.category)
        also = [n for n in known.other_names if sorted(n.split()) != sorted(known.name.split())]
        self.names.setText(f"{kind}; also called {', '.join(also[:_NAMES])}" if also else kind)
        self.names.setToolTip(", ".join(also))
        self._fill_table(known)
        for name, heading in SAYINGS.items():
            if (saying := known.saying(name)) is not None:
                self._say(heading, saying.text, basis_text(saying.basis))
        if known.measures:
            style = self.session.style
            lines = (
                f"{style.volume(m.ml)} {m.state}{', ' + m.cut if m.cut else ''}: {style.mass(m.grams)}"
                for m in known.measures
            )
            self._say("What a measure weighs", "\n".join(lines), "; ".join({m.source: 0 for m in known.measures}))
        show_all(self._said)
        self.own.show_food(known)
        self.cautions.set_cautions(food_cautions(self.session.kitchen, known))
        self._show_sources()

    def _fill_table(self, known: Food) -> None:
        facts = [(name, known.facts[name]) for name in FIGURES if name in known.facts]
        published = self.session.kitchen.handbook.foods.get(known.slug)
        self.table.setRowCount(len(facts))
        for line, (name, fact) in enumerate(facts):
            source = source_words(fact)
            original = published.fact(name) if published is not None and fact.how == "entered" else None
            if original is not None:
                source += f"; the handbook says {shown(original, self.session.style)}"
            for across, text in enumerate((FIGURES[name], shown(fact, self.session.style), source)):
                item = QTableWidgetItem(text)
                item.setToolTip(source)
                item.setData(Qt.ItemDataRole.UserRole, name)
                self.table.setItem(line, across, item)
        self.table.setVisible(bool(facts))
        self._fit.start()

    def _fit_rows(self) -> None:
        """Everything is shown whole: columns that leave room for the source, lines as high as they need, and the
        table as high as its lines."""
        if not self.isVisible():
            return
        share = _MOST_WIDE if self.sourced else _MOST_WIDE_ALONE
        table, most = self.table, round(self.table.viewport().width() * share)
        for across in (0, 1):
            table.setColumnWidth(across, min(table.sizeHintForColumn(across) + _PADDING, most))
        shown = range(3 if self.sourced else 2)
        heights = [max(self._high(line, across) for across in shown) for line in range(table.rowCount())]
        for line, height in enumerate(heights):
            table.setRowHeight(line, height)
        table.setFixedHeight(table.horizontalHeader().sizeHint().height() + sum(heights) + 4)

    def _high(self, line: int, across: int) -> int:
        """The height a cell needs."""
        width = self.table.columnWidth(across) - 3 * self.session.theme.tokens.space
        room, wrap = QRect(0, 0, max(width, 80), 10_000), int(Qt.TextFlag.TextWordWrap)
        text = self._text(line, across)
        return max(self.table.fontMetrics().boundingRect(room, wrap, text).height() + 14, _ROW)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._fit.start()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit.start()

    def _say(self, heading: str, text: str, source: str) -> None:
        frame, inside = card()
        inside.addWidget(text_label(heading, "label"))
        inside.addWidget(text_label(text, select=True))
        told = text_label(source, "small")
        inside.addWidget(told)
        self._source_labels.append(told)
        self._said.addWidget(frame)

    def _edit_row(self, item: QTableWidgetItem) -> None:
        self.own.choose(item.data(Qt.ItemDataRole.UserRole))
