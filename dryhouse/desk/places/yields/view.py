"""The Yields: one line to type a food and an amount into; the answer stands there as it is typed."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtGui import QGuiApplication, QKeySequence, QShortcut, QShowEvent, QTextDocument
from PySide6.QtWidgets import QWidget

from dryhouse.desk.drawing_library import drawing_library
from dryhouse.desk.measures import hold
from dryhouse.desk.place import DeskPlace
from dryhouse.desk.places.yields.answers import AnswerView
from dryhouse.desk.places.yields.ask import AskBar
from dryhouse.desk.places.yields.learned import Learned, everyday_amount
from dryhouse.desk.places.yields.moves_view import MovesView
from dryhouse.desk.places.yields.wording import copied, page, picture
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages, column, scrolling, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.widgets.plot_pane import PlotPane
from dryhouse.desk.widgets.printing import document, preview_print
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.records import Batch, Dryer, OwnFigure, OwnFood
from dryhouse.kitchen.yields.influences import what_moves
from dryhouse.kitchen.yields.knowledge import YieldKnowledge
from dryhouse.kitchen.yields.typed_line import read_line
from dryhouse.kitchen.yields.yields import YieldAnswer, answer
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.safety.unfolded import AT_A_LOOK_UP
from dryhouse.science.values import Caution
from dryhouse.words.messages import problem_sentence

_LEARN_PAUSE_MS, _EXAMPLE_PAUSE_MS, _PLOT_PAUSE_MS = 50, 300, 200
_HALF = 460
"""Pixels that each of the two columns takes at least."""
_EXAMPLE_FRESH, _EXAMPLE_DRIED = "1 cup corn", "2 cups dried apple"


class YieldsPlace(DeskPlace):
    """How much dried from fresh, and how much fresh for dried."""

    watches = frozenset({Batch, Dryer, OwnFood, OwnFigure})
    shortcuts = (
        ("Ctrl+F", "the line to type into"),
        ("Ctrl+R", "swap direction: fresh to dried, dried to fresh"),
        ("Enter", "in the line: the workings"),
        ("Ctrl+Shift+C", "copy the answer"),
    )

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.answer: YieldAnswer | None = None
        self._learned = Learned(session.kitchen)
        self._food = ""
        self._drawn: YieldKnowledge | None = None
        self._named: Food | None = None
        self._warm = False
        self.ask = AskBar(session)
        self.moves = MovesView(session)
        self.answers = AnswerView(session, self.copy, self.ask_print, self.moves)
        self.plot = PlotPane(session, "Yields side by side")
        hold(self.plot.canvas, least_wide=280, high=260)
        self.cautions = CautionsView(session, most=AT_A_LOOK_UP)
        self.empty = EmptyState(
            session.theme,
            "yields",
            "How much will it give?",
            "Type a food and an amount above, in either order: corn 1 cup, or 2 lb onions. "
            "With the word dried it goes the other way: 8 oz dried apple.",
            (f"Try “{_EXAMPLE_FRESH}”", lambda: self.type(_EXAMPLE_FRESH)),
            (f"Try “{_EXAMPLE_DRIED}”", lambda: self.type(_EXAMPLE_DRIED)),
        )
        self.refused = text_label("", "muted")
        self._stack = Pages()
        self._stack.addWidget(self.empty)
        self._page = scrolling(self._answer_page())
        self._stack.addWidget(self._page)
        inside = column(self, margin=20, space=12)
        inside.addWidget(text_label("Yields", "title"))
        inside.addWidget(self.ask)
        inside.addWidget(self.refused)
        inside.addWidget(self._stack, 1)
        self.refused.hide()
        self._learn_pause = QTimer(self, singleShot=True, interval=_LEARN_PAUSE_MS)
        self._learn_pause.timeout.connect(lambda: self._named is not None and self._learn(self._named))
        self._example_pause = QTimer(self, singleShot=True, interval=_EXAMPLE_PAUSE_MS)
        self._example_pause.timeout.connect(self._answer_example)
        self._plot_pause = QTimer(self, singleShot=True, interval=_PLOT_PAUSE_MS)
        self._plot_pause.timeout.connect(self._draw)
        self.ask.changed.connect(self.reckon)
        self.ask.entered.connect(self._show_workings)
        for keys, act in (
            ("Ctrl+R", self.ask.turn_round),
            ("Ctrl+Shift+C", self.copy),
        ):
            QShortcut(QKeySequence(keys), self, act)

    def _answer_page(self) -> QWidget:
        made = QWidget()
        left, right = QWidget(), QWidget()
        self._left, self._right = column(left, space=12), column(right, space=12)
        self._left.addWidget(self.answers)
        self._left.addStretch(1)
        self._right.addWidget(self.plot)
        self._right.addWidget(self.cautions)
        self._right.addStretch(1)
        made.setLayout(Tiles(left, right, least=_HALF, space=16))
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
        drawing_library(self.session).begin()
        if self.answer is None and not self.ask.line.text():
            line = read_line(self.session.kitchen, _EXAMPLE_FRESH)
            if line.food is not None and line.amount is not None:
                self._answer(line.food, line.amount)
                self._page.grab()
            self.refresh()

    # --- what a place answers -------------------------------------------------------------------------

    def refresh(self) -> None:
        """Records or units changed: forget what was learned and answer anew."""
        self._learned.forget()
        self._drawn = None
        self.reckon()
        self._answer_example()

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
            preview_print(self, made)

    # --- answering while typing ---------------------------------------------------------------------------

    def reckon(self) -> None:
        """Answer what stands in the line now. A food without an amount is answered once the typing pauses."""
        style = self.session.style
        line = read_line(self.session.kitchen, self.ask.line.text(), decimal_comma=style.decimal_comma)
        self.ask.follow(line)
        self._named = line.food if line.amount is None else None
        for pause in (self._learn_pause, self._example_pause):
            pause.start() if self._named is not None else pause.stop()
        if line.food is None:
            self._answer_with(None)
        elif line.amount is None:
            return
        else:
            self._answer(line.food, line.amount)

    def _answer_example(self) -> None:
        """The food is named and the amount is not: answer an everyday amount, and say that it is an example."""
        if self._named is not None:
            self._answer(self._named, None)

    def _answer(self, food: Food, amount: Mass | Volume | None) -> None:
        self._settle_food(food)
        known, cautions = self._learn(food)
        asked = (
            amount if amount is not None else everyday_amount(known, self.ask.direction, self.session.style.system)
        )
        try:
            self._answer_with(answer(known, asked, self.ask.direction, cautions), example=amount is None)
        except InputProblem as problem:
            self._answer_with(None, problem_sentence(problem, self.session.style))

    def _answer_with(self, found: YieldAnswer | None, refused: str = "", *, example: bool = False) -> None:
        self.answer = found
        self.refused.setText(refused)
        self.refused.setVisible(bool(refused))
        self._stack.setCurrentIndex(0 if found is None else 1)
        if found is None:
            return
        self.answers.show_answer(found, example=example)
        self._make_room(animal=found.knowledge.food.animal)
        self.cautions.set_cautions(found.joined.cautions)
        if found.knowledge is not self._drawn:
            self._plot_pause.start()

    def _settle_food(self, food: Food) -> None:
        """Another food has other forms: the filters begin anew."""
        if food.slug == self._food:
            return
        self._food = food.slug
        self.ask.clear_choices()
        known, _ = self._learn(food)
        self.ask.set_choices(known.forms, known.pretreatments)

    def _learn(self, food: Food) -> tuple[YieldKnowledge, tuple[Caution, ...]]:
        return self._learned.of(food, self.ask.form.value() or "", self.ask.pretreatment.value() or "")

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
