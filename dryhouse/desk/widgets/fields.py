"""Things one types into: a label above, the entry, and one sentence below that says how it was understood.

Nothing turns red while it is being typed; an entry that is still wrong when it is left says what would be
right. Every field answers `value()` (None where empty or wrong), `problem` (the `InputProblem`, if any), and
emits `changed` whenever its value changes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_mark, set_role
from dryhouse.desk.widgets.basics import column, text_label
from dryhouse.desk.widgets.choice_box import ChoiceBox
from dryhouse.desk.widgets.examples import example_in
from dryhouse.desk.widgets.fold import reveal
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.counted import bare_amount, counted_mass
from dryhouse.science import quantities as q
from dryhouse.science.display import METRIC
from dryhouse.science.errors import InputProblem
from dryhouse.science.units import both_scales
from dryhouse.words.messages import problem_sentence


class Field(QWidget):
    """A labelled line of text with a reading of it. `read(text)` answers the value or raises InputProblem."""

    changed = Signal()
    accepted = Signal()
    """Enter was pressed here."""

    def __init__(self, session: Session, label: str, *, hint: str = "", name: str = "") -> None:
        super().__init__()
        self.session = session
        self.name = name
        """What an InputProblem's `field` calls this entry."""
        self.problem: InputProblem | None = None
        self._value: Any = None
        self._hint = hint
        self._left = False
        self.label = text_label(label, "label", wrap=False)
        self.edit = self.make_edit()
        self.label.setBuddy(self.edit)
        self.edit.setAccessibleName(label.replace("&", ""))
        self.edit.setPlaceholderText(hint)
        self.sentence: QLabel = text_label("", "small")
        self.sentence.setMinimumHeight(self.sentence.fontMetrics().height() + 2)
        self._inside = column(self, space=3)
        for widget in (self.label, self.edit, self.sentence):
            self._inside.addWidget(widget)
        self._inside.addStretch(1)
        self.setFocusProxy(self.edit)
        self.edit.textChanged.connect(self._typed)
        self.edit.returnPressed.connect(self.accepted)
        self.edit.installEventFilter(self)

    # --- what a kind of field says of itself ---------------------------------------------------------

    def make_edit(self) -> QLineEdit:
        """The line the person types into."""
        return QLineEdit()

    def read(self, text: str) -> Any:
        """The value of a text that is not empty."""
        return text

    def write(self, value: Any) -> str:
        """The value as it would be typed."""
        return str(value)

    def echo(self, value: Any, text: str) -> str:
        """How the entry was understood, where that is not plain from the entry itself."""
        return ""

    # --- for its users --------------------------------------------------------------------------------

    def value(self) -> Any:
        """The value, or None where the entry is empty or wrong."""
        return self._value

    def set_value(self, value: Any) -> None:
        """Show a value as if it had been typed; None empties the entry."""
        self._left = False
        self.edit.setText("" if value is None else self.write(value))
        self._judge()

    def text(self) -> str:
        """What stands in the entry."""
        return self.edit.text().strip()

    def is_empty(self) -> bool:
        """Nothing was typed."""
        return not self.text()

    def set_hint(self, hint: str) -> None:
        """What the empty entry shows in grey: an example, or what is remembered."""
        self._hint = hint
        self.edit.setPlaceholderText(hint)

    def show_problem(self, problem: InputProblem) -> None:
        """Mark the entry as wrong, from outside (an act refused it)."""
        self.problem = problem
        self._left = True
        self._show()
        self.session.told_beside(problem)

    def point_out(self) -> None:
        """Say at the entry what is wrong with it, and put the keyboard there."""
        self._left = True
        self._show()
        self.setFocus()

    def sentence_apart(self) -> QLabel:
        """The sentence, to be laid out by whoever has more room for it than there is below the entry."""
        self._inside.removeWidget(self.sentence)
        return self.sentence

    def require(self, sentence: str) -> bool:
        """Whether there is a usable value; if not, the entry says so."""
        if self._value is None and self.problem is None:
            self.problem = InputProblem(sentence, self.name)
        self._left = True
        self._show()
        return self.problem is None

    # --- inside ---------------------------------------------------------------------------------------

    def _typed(self) -> None:
        before = self._value
        self._judge()
        if self._value != before:
            self.changed.emit()

    def _judge(self) -> None:
        text = self.text()
        self._value, self.problem = None, None
        if text:
            try:
                self._value = self.read(text)
            except InputProblem as problem:
                self.problem = problem
        else:
            self._left = False
        self._show()

    def _show(self) -> None:
        wrong = self.problem is not None and self._left
        set_mark(self.edit, "wrong", "true" if wrong else "false")
        set_role(self.sentence, "problem" if wrong else "small")
        if wrong:
            said = problem_sentence(self.problem) if self.problem is not None else ""
        elif self._value is not None:
            said = self.echo(self._value, self.text())
        else:
            said = ""
        if said != self.sentence.text():
            self.sentence.setText(said)
            self.edit.setAccessibleDescription(said)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.edit:
            if event.type() == QEvent.Type.FocusOut:
                self._left = True
                self._show()
            elif (
                event.type() == QEvent.Type.ShortcutOverride
                and isinstance(event, QKeyEvent)
                and self._leaves_to_window(event)
            ):
                event.ignore()
                return True
        return super().eventFilter(watched, event)

    def _leaves_to_window(self, event: QKeyEvent) -> bool:
        """Undo and redo belong to the window where there is no typing of this entry to take back."""
        undo, redo = QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo
        return (event.matches(undo) and not self.edit.isUndoAvailable()) or (
            event.matches(redo) and not self.edit.isRedoAvailable()
        )


class TextField(Field):
    """Free words."""


class QuantityField(Field):
    """A quantity of one kind (`Mass`, `Volume`, `Duration`, …). A bare number is in the person's own unit."""

    def __init__(
        self,
        session: Session,
        label: str,
        kind: type[q.Quantity],
        *,
        hint: str = "",
        name: str = "",
        default_unit: str = "",
        allow_zero: bool = False,
    ) -> None:
        self.kind = kind
        self._unit = default_unit
        self._allow_zero = allow_zero
        self._food: Callable[[], Food | None] | None = None
        self._example = hint
        super().__init__(session, label, hint=hint, name=name)
        self._tell_example()
        session.style_changed.connect(self._tell_example)

    def set_hint(self, hint: str) -> None:
        self._example = ""
        super().set_hint(hint)

    def _tell_example(self) -> None:
        """The example stands in the units she reads."""
        if self._example:
            super().set_hint(example_in(self._example, self.kind, self.session.style))

    def count_pieces_of(self, food: Field) -> None:
        """Take so many pieces of the food that is named there for their weight: `3 medium apples`."""
        self._food = food.value
        food.changed.connect(self._judge)

    @property
    def default_unit(self) -> str:
        """The unit of a bare number."""
        style = self.session.style
        return self._unit or {
            q.Mass: style.mass_unit,
            q.Volume: style.volume_unit,
            q.Temperature: style.temperature_unit,
            q.Length: style.length_unit,
            q.Duration: "h",
            q.Area: "cm2" if style.system == METRIC else "sq in",
        }.get(self.kind, "")

    def set_unit(self, unit: str) -> None:
        """The unit of a bare number from now on."""
        if unit != self._unit:
            self._unit = unit
            self._judge()

    def read(self, text: str) -> q.Quantity:
        food = self._food() if self._food is not None else None
        if food is not None and (counted := counted_mass(food, text)) is not None:
            return counted[0]
        if food is not None:
            text = bare_amount(food, text)
        return q.parse(
            text,
            self.kind,
            default_unit=self.default_unit,
            decimal_comma=self.session.style.decimal_comma,
            allow_zero=self._allow_zero,
        )

    def write(self, value: q.Quantity) -> str:
        return value.typed or self.session.style.show(value)

    def echo(self, value: q.Quantity, text: str) -> str:
        if self.kind is q.Temperature and not any(letter.isalpha() for letter in text):
            return f"= {both_scales(value.si, celsius_first=self.session.style.system == METRIC)}"
        shown = self.session.style.show(value)
        said, typed = (t.replace(" ", "").replace("°", "").casefold() for t in (shown, text))
        return "" if said == typed else f"= {shown}"


class NumberField(Field):
    """A plain number, or a percentage where `percent` is true."""

    def __init__(
        self,
        session: Session,
        label: str,
        *,
        hint: str = "",
        name: str = "",
        percent: bool = False,
        whole: bool = False,
        what: str = "number",
    ) -> None:
        self._percent, self._whole, self._what = percent, whole, what
        super().__init__(session, label, hint=hint, name=name)

    def read(self, text: str) -> float | int:
        reader = q.parse_percent if self._percent else q.parse_number
        value = reader(text, decimal_comma=self.session.style.decimal_comma, what=self._what)
        if not self._whole:
            return value
        if value != int(value):
            raise InputProblem(f"“{text}” is not a whole {self._what}; write it like 4.", self.name)
        return int(value)

    def write(self, value: float) -> str:
        return self.session.style.number(value, 3)


class ChoiceField(QWidget):
    """One of a few, by name. `choices` are (value, words); typing a first letter or the arrows choose."""

    changed = Signal()

    def __init__(
        self,
        session: Session,
        label: str,
        choices: Iterable[tuple[Any, str]] = (),
        *,
        name: str = "",
        editable: bool = False,
    ) -> None:
        super().__init__()
        self.session, self.name = session, name
        self.problem: InputProblem | None = None
        """A choice is never wrong by itself; what an act refuses is said below it."""
        self.label = text_label(label, "label", wrap=False)
        self.box = ChoiceBox()
        self.box.setEditable(editable)
        self.box.setAccessibleName(label.replace("&", ""))
        self.label.setBuddy(self.box)
        self.sentence = text_label("", "small")
        self.sentence.setMinimumHeight(self.sentence.fontMetrics().height() + 2)
        inside = column(self, space=3)
        for widget in (self.label, self.box, self.sentence):
            inside.addWidget(widget)
        inside.addStretch(1)
        self.setFocusProxy(self.box)
        self.set_choices(choices)
        self.box.currentIndexChanged.connect(lambda _i: self.changed.emit())
        if editable:
            line = QLineEdit()
            self.box.setLineEdit(line)
            line.setAccessibleName(self.box.accessibleName())
            self.box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
            self.box.editTextChanged.connect(lambda _t: self.changed.emit())

    def set_choices(self, choices: Iterable[tuple[Any, str]]) -> None:
        """Other choices; the chosen one stays where it is still among them."""
        chosen = self.value()
        self.box.blockSignals(True)
        self.box.clear()
        for value, said in choices:
            self.box.addItem(said, value)
        self.set_value(chosen)
        self.box.blockSignals(False)

    def value(self) -> Any:
        """The chosen value; where it is editable, the words typed."""
        if self.box.isEditable():
            text = self.box.currentText().strip()
            index = self.box.findText(text, Qt.MatchFlag.MatchFixedString)
            return self.box.itemData(index) if index >= 0 else text
        return self.box.currentData()

    def set_value(self, value: Any) -> None:
        """Choose a value; one that is not offered chooses the first, or is typed where that is allowed."""
        index = self._index_of(value)
        if index >= 0:
            self.box.setCurrentIndex(index)
        elif self.box.isEditable():
            self.box.setCurrentIndex(-1)
            self.box.setEditText("" if value is None else str(value))
        elif self.box.count():
            self.box.setCurrentIndex(0)

    def show_problem(self, problem: InputProblem) -> None:
        """Say below the choice what is wrong with it."""
        set_role(self.sentence, "problem")
        self.sentence.setText(problem_sentence(problem))
        self.session.told_beside(problem)

    def point_out(self) -> None:
        """Put the keyboard there."""
        self.setFocus()

    def _index_of(self, value: Any) -> int:
        return next((i for i in range(self.box.count()) if self.box.itemData(i) == value), -1)


def first_problem(fields: Iterable[Field | ChoiceField]) -> Field | ChoiceField | None:
    """The first field whose entry is wrong."""
    return next((f for f in fields if f.problem is not None), None)


def mark_problem(problem: InputProblem | None, fields: Iterable[Field | ChoiceField]) -> bool:
    """Tell a refusal at the entry it names, and there alone, and put the keyboard there. False where none is."""
    named = next((f for f in fields if problem is not None and problem.field and f.name == problem.field), None)
    if named is None or problem is None:
        return False
    named.show_problem(problem)
    reveal(named)
    named.setFocus()
    return True
