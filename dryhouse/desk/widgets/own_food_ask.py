"""What is in a food of her own: the question, with no answer given before she gives it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QFrame, QGridLayout, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.kitchen.foods.own_foods import SAID, ReallyPlant, add_food, new_food
from dryhouse.kitchen.records.foods import PLANT
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence

_ACROSS = 4


class ContainsEntry(QWidget):
    """Boxes to tick, several where several are in it; only plants goes with none of the others."""

    changed = Signal()
    accepted = Signal()
    """Enter was pressed on a box."""

    def __init__(self, question: str = "What is in it?") -> None:
        super().__init__()
        self.question = text_label(question, "label")
        self.boxes = {answer: QCheckBox(said) for answer, said in SAID.items()}
        grid = QGridLayout()
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(16)
        for place, box in enumerate(self.boxes.values()):
            box.setAccessibleDescription(question)
            grid.addWidget(box, place // _ACROSS, place % _ACROSS)
        grid.setColumnStretch(_ACROSS, 1)
        inside = column(self, space=4)
        inside.addWidget(self.question)
        inside.addLayout(grid)
        for answer, box in self.boxes.items():
            box.toggled.connect(lambda on, answer=answer: self._ticked(answer, on))
        for keys in ("Return", "Enter"):
            inner_key(self, keys, self.accepted.emit)
        self.setFocusProxy(next(iter(self.boxes.values())))

    def value(self) -> tuple[str, ...]:
        """The answers ticked, in the order they stand; none where nothing was answered."""
        return tuple(answer for answer, box in self.boxes.items() if box.isChecked())

    def set_value(self, answers: tuple[str, ...]) -> None:
        """Tick these; plants beside something of an animal say nothing by themselves."""
        shown = answers if answers == (PLANT,) else tuple(a for a in answers if a != PLANT)
        for answer, box in self.boxes.items():
            box.blockSignals(True)
            box.setChecked(answer in shown)
            box.blockSignals(False)

    def _ticked(self, answer: str, on: bool) -> None:
        if on:
            self.set_value((PLANT,) if answer == PLANT else tuple(a for a in self.value() if a != PLANT))
        self.changed.emit()


class OwnFoodAsk(QFrame):
    """Adds the food of a name. `added` gives its slug; `left` fires where she would rather not."""

    added = Signal(str)
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.name = self.category = ""
        self._asked_again: tuple[str, tuple[str, ...]] | None = None
        set_role(self, "card")
        self.contains = ContainsEntry()
        self.sentence = text_label("", "small")
        self.add_button = button("Add it", self.add, "primary", hint="Enter")
        leave = button("Not now", self.left.emit, "quiet", hint="Esc")
        inside = column(self, margin=12, space=8)
        for widget in (self.contains, self.sentence):
            inside.addWidget(widget)
        inside.addLayout(row(self.add_button, leave, 1))
        self.contains.accepted.connect(self.add)
        self.contains.changed.connect(self._say_usual)
        inner_key(self, "Esc", self.left.emit)
        self.setFocusProxy(self.contains)
        self.hide()

    def ask(self, name: str, category: str = "") -> None:
        """Ask what is in the food of this name; nothing is ticked."""
        self.category = category
        self.name, self._asked_again = " ".join(name.split()), None
        self.contains.question.setText(f"“{self.name}” as a food of my own: what is in it?")
        self.contains.set_value(())
        self._say_usual()
        self.show()
        self.contains.setFocus(Qt.FocusReason.TabFocusReason)

    def add(self) -> None:
        """Add the food as answered. A name that sounds like an animal's is asked about once more."""
        answers = self.contains.value()
        sure = self._asked_again == (self.name, answers)
        try:
            new_food(self.session.kitchen, self.name, answers, self.category, really_plant=sure)
        except InputProblem as problem:
            self._say(problem_sentence(problem), "problem")
            if isinstance(problem, ReallyPlant):
                self._asked_again = (self.name, answers)
                self.add_button.setText("Yes, only plants")
            return
        done = self.session.act(add_food, self.name, self.category, contains=answers, really_plant=sure)
        if done is not None:
            self.hide()
            self.added.emit(done.record.slug)

    def _say_usual(self) -> None:
        self._asked_again = None
        self.add_button.setText("Add it")
        as_unknown = "With nothing ticked it counts as not known, and is treated as food from an animal."
        self._say("" if self.contains.value() else as_unknown, "small")

    def _say(self, text: str, role: str) -> None:
        set_role(self.sentence, role)
        self.sentence.setText(text)
        self.sentence.setVisible(bool(text))
