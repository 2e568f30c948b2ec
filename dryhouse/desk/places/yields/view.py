"""The Yields: one line to type a food and an amount into; the answer stands there as it is typed."""

from __future__ import annotations

from importlib import import_module
from threading import Thread

from PySide6.QtCore import QTimer
from PySide6.QtGui import QGuiApplication, QKeySequence, QShortcut, QShowEvent, QTextDocument
from PySide6.QtWidgets import QStackedWidget, QWidget

from dryhouse.desk.place import Place
from dryhouse.desk.places.yields.answers import AnswerView
from dryhouse.desk.places.yields.ask import AskBar
from dryhouse.desk.places.yields.moves_view import MovesView
from dryhouse.desk.places.yields.wording import copied, page, picture
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, row, scrolling, words
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.widgets.plot_pane import PlotPane
from dryhouse.desk.widgets.printing import document, preview
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.cautions import food_cautions
from dryhouse.kitchen.foods import food as find_food
from dryhouse.kitchen.records import Batch, Dryer, OwnFigure, OwnFood
from dryhouse.kitchen.yield_knowledge import YieldKnowledge, learn
from dryhouse.kitchen.yield_line import YieldLine, read_line
from dryhouse.kitchen.yield_moves import what_moves
from dryhouse.kitchen.yields import FRESH, YieldAnswer, answer
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Volume
from dryhouse.science.values import Caution

_FOOD_PAUSE_MS, _PLOT_PAUSE_MS = 50, 200
_EXAMPLE_FRESH, _EXAMPLE_DRIED = "1 cup corn", "2 cups dried apple"


class YieldsPlace(Place):
    """How much dried from fresh, and how much fresh for dried."""

    watches = frozenset({Batch, Dryer, OwnFood, OwnFigure})
    shortcuts = (
        ("Ctrl+F", "the line to type into"),
        ("Ctrl+R", "turn round: fresh to dried, dried to fresh"),
        ("Enter", "in the line: the workings"),
        ("Ctrl+Shift+C", "copy the answer"),
    )

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.answer: YieldAnswer | None = None
        self._learned: dict[tuple[str, str, str], tuple[YieldKnowledge, tuple[Caution, ...]]] = {}
        self._food = ""
        self._drawn: YieldKnowledge | None = None
        self._next_food: Food | None = None
        self._warm = False
        self.ask = AskBar(session)
        self.answers = AnswerView(session, self.copy, self.ask_print)
        self.plot = PlotPane(session, "Yields side by side")
        self.plot.canvas.setFixedHeight(260)
        self.moves = MovesView(session)
        self.cautions = CautionsView(session)
        self.empty = EmptyState(
            session.theme,
            "yields",
            "How much will it give?",
            "Type a food and an amount above, in either order: corn 1 cup, or 2 lb onions. "
            "With the word dried it goes the other way: 8 oz dried apple.",
            (f"Try “{_EXAMPLE_FRESH}”", lambda: self.type(_EXAMPLE_FRESH)),
            (f"Try “{_EXAMPLE_DRIED}”", lambda: self.type(_EXAMPLE_DRIED)),
        )
        self.refused = words("", "muted")
        self._stack = QStackedWidget()
        self._stack.addWidget(self.empty)
        self._page = scrolling(self._answer_page())
        self._stack.addWidget(self._page)
        inside = column(self, margin=24, space=12)
        inside.addWidget(words("Yields", "title"))
        inside.addWidget(self.ask)
        inside.addWidget(self.refused)
        inside.addWidget(self._stack, 1)
        self.refused.hide()
        self._food_pause = QTimer(self, singleShot=True, interval=_FOOD_PAUSE_MS)
        self._food_pause.timeout.connect(self._prepare)
        self._plot_pause = QTimer(self, singleShot=True, interval=_PLOT_PAUSE_MS)
        self._plot_pause.timeout.connect(self._draw)
        self.ask.changed.connect(self.reckon)
        self.ask.entered.connect(self._show_workings)
        for keys, act in (
            ("Ctrl+F", self.arrive),
            ("Ctrl+R", self.ask.turn_round),
            ("Ctrl+Shift+C", self.copy),
        ):
            QShortcut(QKeySequence(keys), self, act)

    def _answer_page(self) -> QWidget:
        made = QWidget()
        self._left, self._right = column(space=12), column(space=12)
        self._left.addWidget(self.answers)
        self._left.addWidget(self.moves)
        self._left.addStretch(1)
        self._right.addWidget(self.plot)
        self._right.addWidget(self.cautions)
        self._right.addStretch(1)
        across = row(space=16)
        across.addLayout(self._left, 4)
        across.addLayout(self._right, 3)
        made.setLayout(across)
        return made

    def _make_room(self, *, animal: bool) -> None:
        """An animal food's cautions stand beside its answer, at the top; the chart makes room for them."""
        wanted = self._left if animal else self._right
        if wanted.indexOf(self.plot) < 0:
            (self._right if animal else self._left).removeWidget(self.plot)
            wanted.insertWidget(1 if animal else 0, self.plot)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not self._warm:
            self._warm = True
            QTimer.singleShot(0, self._warm_up)

    def _warm_up(self) -> None:
        """Load and draw once, unseen, what the first answer needs, so that it comes as fast as the next."""
        Thread(target=import_module, args=("matplotlib.backends.backend_agg",), daemon=True).start()
        line = read_line(self.session.kitchen, _EXAMPLE_FRESH)
        sample, _ = self._answered(line)
        if sample is not None and self.answer is None:
            self._show(sample)
            self._page.grab()

    # --- what a place answers -------------------------------------------------------------------------

    def refresh(self) -> None:
        """Records or units changed: forget what was learned and answer anew."""
        self._learned.clear()
        self._drawn = None
        self.reckon()

    def arrive(self) -> None:
        self.ask.line.setFocus()
        self.ask.line.selectAll()

    def show_record(self, kind: str, id: int | str) -> None:
        """A food by its slug: its name is put into the line, the amount kept."""
        if kind == "food":
            name = find_food(self.session.kitchen, str(id)).name
            kept = self.answer.asked.typed if self.answer is not None else "1 cup"
            self.type(f"{name} {kept}")

    def printout(self) -> QTextDocument | None:
        if self.answer is None:
            return None
        return document(self.answer.knowledge.food.name, page(self.answer, self.session.style))

    # --- acts -------------------------------------------------------------------------------------------

    def type(self, text: str) -> None:
        """Put a text into the line as if typed."""
        self.ask.line.setText(text)
        self.ask.line.setFocus()

    def copy(self) -> None:
        """Put the answer with its workings on the clipboard."""
        if self.answer is not None:
            QGuiApplication.clipboard().setText(copied(self.answer, self.session.style))
            self.session.say("The answer is on the clipboard.")

    def ask_print(self) -> None:
        """Show the page as it will be printed."""
        made = self.printout()
        if made is not None:
            preview(self, made)

    # --- answering while typing ---------------------------------------------------------------------------

    def reckon(self) -> None:
        """Answer what stands in the line now."""
        style = self.session.style
        line = read_line(self.session.kitchen, self.ask.line.text(), decimal_comma=style.decimal_comma)
        self.ask.follow(line)
        if line.food is not None and line.amount is None:
            self._next_food = line.food
            self._food_pause.start()
        elif line.food is not None:
            self._settle_food(line.food)
        self.answer, refused = self._answered(line)
        self.refused.setText(refused)
        self.refused.setVisible(bool(refused))
        self._stack.setCurrentIndex(0 if self.answer is None else 1)
        if self.answer is None:
            return
        self._show(self.answer)
        if self.answer.knowledge is not self._drawn:
            self._plot_pause.start()

    def _show(self, shown: YieldAnswer) -> None:
        self.answers.show_answer(shown)
        self._make_room(animal=shown.knowledge.food.animal)
        self.cautions.set_cautions(shown.joined.cautions)

    def _answered(self, line: YieldLine) -> tuple[YieldAnswer | None, str]:
        if line.food is None or line.amount is None:
            return None, ""
        known, cautions = self._learn(line.food)
        try:
            return answer(known, line.amount, self.ask.direction, cautions), ""
        except InputProblem as problem:
            return None, problem.sentence

    def _prepare(self) -> None:
        """The food is named and the typing pauses: have everything ready for the amount."""
        if self._next_food is not None:
            self._settle_food(self._next_food)
            known, cautions = self._learn(self._next_food)
            self.cautions.set_cautions(cautions)
            if known.joined is not None and self.ask.direction == FRESH and known.fresh is not None:
                answer(known, Volume(1.0), FRESH)

    def _settle_food(self, food: Food) -> None:
        """Another food has other forms: the filters begin anew."""
        self._food_pause.stop()
        if food.slug == self._food:
            return
        self._food = food.slug
        self.ask.clear_choices()
        known, _ = self._learn(food)
        self.ask.set_choices(known.forms, known.pretreatments)

    def _learn(self, food: Food) -> tuple[YieldKnowledge, tuple[Caution, ...]]:
        key = (food.slug, self.ask.form.value() or "", self.ask.pretreatment.value() or "")
        if key not in self._learned:
            known = learn(self.session.kitchen, food, key[1], key[2])
            self._learned[key] = known, food_cautions(self.session.kitchen, food)
        return self._learned[key]

    def _draw(self) -> None:
        """The chart and the table of what moves it, once the typing pauses."""
        if self.answer is None:
            return
        from dryhouse.plots.yields import draw_yields, in_words, table_of

        self._drawn = self.answer.knowledge
        shown = picture(self.answer, self.session.style)
        self.plot.show_plot(draw_yields, shown, table=table_of, said=in_words(shown))
        self.moves.show_moves(what_moves(self.answer.knowledge))

    def _show_workings(self) -> None:
        if self.answer is not None:
            self.answers.joined.open_workings()
