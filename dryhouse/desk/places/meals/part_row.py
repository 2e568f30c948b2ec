"""One line of the ingredients: what, how much, from which lot, and what it comes to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QMenu, QPushButton

from dryhouse.desk.places.meals.ingredient_entry import IngredientEntry
from dryhouse.desk.places.meals.label_figures import LabelFigures
from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_mark
from dryhouse.desk.widgets.basics import button, text_label
from dryhouse.desk.widgets.choice_box import ChoiceBox
from dryhouse.kitchen.meals.ingredients import DRIED, LABEL, STAPLE, Choice
from dryhouse.kitchen.meals.lines import PartSheet
from dryhouse.kitchen.meals.meals import part_of, with_amount
from dryhouse.kitchen.records import Lot, MealPart
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.science.display import METRIC, calories
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence

ANY_LOT = "any lot"


class PartRow(QObject):
    """The widgets of one line, laid out by the table. `changed` at every letter, `used` once it holds anything."""

    changed = Signal()
    used = Signal()
    remove_asked = Signal(object)
    swap_asked = Signal(object)
    lot_asked = Signal(int)
    label_asked = Signal(object)
    of_each_asked = Signal(bool)

    def __init__(self, session: Session, number: int, part: MealPart | None = None) -> None:
        super().__init__()
        self.session = session
        self._part = part
        self._as_shown = ""
        self.problem = ""
        self.name = IngredientEntry(session, f"Ingredient {number}")
        self.amount = QLineEdit()
        self.amount.setAccessibleName(f"Amount of ingredient {number}")
        self.amount.setPlaceholderText("40 g" if session.style.system == METRIC else "¼ cup")
        self.lot = ChoiceBox()
        self.lot.setAccessibleName(f"Lot of ingredient {number}")
        self.mass, self.water, self.energy = (text_label("", wrap=False) for _ in range(3))
        self.labels = LabelFigures(session, number)
        self.lot.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.lot.setMinimumContentsLength(5)
        self.menu = QMenu(self.lot)
        self.open_lot = self.menu.addAction("&Go to its lot on the shelf", self._go_to_lot)
        self.label = self.menu.addAction("&Label figures", lambda: self.label_asked.emit(self))
        self.swap = self.menu.addAction("&Swap for another", lambda: self.swap_asked.emit(self))
        self.of_each = self.menu.addAction("&Water and energy of each", self._ask_of_each)
        self.of_each.setCheckable(True)
        self.remove = self.menu.addAction("&Remove", lambda: self.remove_asked.emit(self))
        self.more = self._small("More", lambda: None, f"What else can be done with ingredient {number}")
        self.more.setMenu(self.menu)
        self._lots_of = ""
        if part is not None:
            self._show(part)
        self.name.settled.connect(self._settled)
        self.name.textEdited.connect(self._typed)
        self.amount.textEdited.connect(self._typed)
        self.lot.currentIndexChanged.connect(lambda _i: self.changed.emit())
        self.labels.changed.connect(self.changed)

    def _small(self, text: str, act: Callable[[], object], hint: str) -> QPushButton:
        return button(text, act, "quiet", name=hint, hint=hint)

    def _ask_of_each(self) -> None:
        self.of_each_asked.emit(self.of_each.isChecked())

    def show_of_each(self, shown: bool) -> None:
        """Show what water it takes and what energy it has, or not."""
        self.of_each.setChecked(shown)
        for cell in (self.water, self.energy):
            cell.setVisible(shown)

    def cells(self) -> tuple[QLineEdit | QComboBox | QLabel | QPushButton, ...]:
        """The widgets from left to right."""
        return (self.name, self.amount, self.lot, self.mass, self.water, self.energy, self.more)

    @property
    def number(self) -> int:
        """The number of the recorded part; 0 while it is new."""
        return self._part.id if self._part is not None else 0

    def is_empty(self) -> bool:
        """Nothing was typed."""
        return not self.name.text().strip() and not self.amount.text().strip()

    def part(self) -> MealPart | None:
        """The part as typed; None while it is empty or not understood (`problem` says why)."""
        self.problem = ""
        choice = self.name.choice
        if choice is None:
            typed = self.name.text().strip()
            self.problem = self.name.problem if typed else ""
            return None
        base = self._part if self._same(choice) else part_of(choice)
        assert base is not None
        part = replace(base, name=choice.name if not self._same(choice) else base.name, id=self.number)
        try:
            untouched = self._same(choice) and self.amount.text() == self._as_shown
            if not untouched and self.amount.text().strip() != _typed_amount(part):
                part = with_amount(self.session.kitchen, part, self.amount.text())
        except InputProblem as problem:
            self.problem = problem_sentence(problem, self.session.style)
            part = replace(part, mass=None, volume=None)
        part = replace(part, lot=self.lot.currentData() if part.food else None)
        return self.labels.onto(part)

    def _same(self, choice: Choice) -> bool:
        part = self._part
        return (
            part is not None
            and (part.food, part.staple) == _slugs(choice)
            and (bool(part.food or part.staple) or part.name == choice.name)
        )

    def show_line(self, line: PartSheet | None) -> None:
        """What the line comes to, as far as it is known."""
        style = self.session.style
        wrong = bool(self.problem) and not self.amount.hasFocus()
        set_mark(self.amount, "wrong", "true" if wrong else "false")
        self.amount.setToolTip(self.problem)
        self.amount.setAccessibleDescription(self.problem)
        if line is None:
            texts = ("", "", "")
        else:
            other = line.ml if line.part.mass is not None else line.grams
            show = style.volume if line.part.mass is not None else style.mass
            texts = (
                "" if other is None else show(other),
                "—" if line.water is None else style.volume(line.water.value),
                "—" if line.energy_kcal is None else f"{calories(line.energy_kcal)} kcal",
            )
        for label, text in zip((self.mass, self.water, self.energy), texts, strict=True):
            label.setText(text)

    def offer_lots(self, shelf: dict[str, list[ShelfLine]]) -> None:
        """Offer the lots of this food; a lot that is chosen and gone stays named."""
        choice = self.name.choice
        food = choice.slug if choice is not None and choice.kind == DRIED else ""
        chosen = self.lot.currentData() if food == self._lots_of else None
        if self._part is not None and food == self._part.food and self._lots_of != food:
            chosen = self._part.lot
        self._lots_of = food
        self.lot.blockSignals(True)
        self.lot.clear()
        self.lot.addItem(ANY_LOT if food else "bought" if choice is not None else "", None)
        for line in shelf.get(food, []):
            left = "" if line.mass_left_g is None else f", {self.session.style.mass(line.mass_left_g)}"
            self.lot.addItem(f"{line.lot.name or f'lot {line.lot.id}'}: {line.standing}{left}", line.lot.id)
        if chosen is not None and self.lot.findData(chosen) < 0:
            self.lot.addItem(f"lot {chosen}", chosen)
        self.lot.setCurrentIndex(max(self.lot.findData(chosen), 0))
        self.lot.setEnabled(bool(food))
        self.lot.blockSignals(False)
        self.open_lot.setEnabled(bool(food) and self.lot.count() > 1)

    def _go_to_lot(self) -> None:
        """The chosen lot, or the first one offered."""
        number = self.lot.currentData() or (self.lot.itemData(1) if self.lot.count() > 1 else None)
        if number is not None and self.session.kitchen.journal.get(Lot, int(number)) is not None:
            self.lot_asked.emit(int(number))

    def _show(self, part: MealPart) -> None:
        kind = DRIED if part.food else STAPLE if part.staple else LABEL
        self.name.set_choice(Choice(kind, part.food or part.staple, part.name))
        self.amount.setText(_typed_amount(part) or self._shown(part))
        self._as_shown = self.amount.text()
        self.amount.setCursorPosition(0)
        self.labels.show_part(part)

    def _shown(self, part: MealPart) -> str:
        style = self.session.style
        return style.show(part.mass or part.volume, "")

    def _settled(self) -> None:
        if self.name.choice is not None and self.name.choice.kind == LABEL:
            self.labels.show()
        self.changed.emit()
        self.used.emit()

    def _typed(self) -> None:
        self.changed.emit()
        self.used.emit()


def _slugs(choice: Choice) -> tuple[str, str]:
    return (choice.slug if choice.kind == DRIED else "", choice.slug if choice.kind == STAPLE else "")


def _typed_amount(part: MealPart) -> str:
    quantity = part.mass if part.mass is not None else part.volume
    return "" if quantity is None else quantity.typed
