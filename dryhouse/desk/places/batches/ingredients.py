"""The ingredients of a mix: a food and its weight on each line; a new line opens when the last is used."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, row, tab_through, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.fields import QuantityField
from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.handbook.tables import Food
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Caution


class Ingredients(QWidget):
    """Lines of food and weight, as typed."""

    changed = Signal()
    accepted = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._lines: list[tuple[FoodField, QuantityField, QWidget]] = []
        inside = column(self, space=2)
        inside.addWidget(text_label("Ingredients of the mix", "heading"))
        self._column = column(space=2)
        inside.addLayout(self._column)
        self.sum_line = text_label("", "muted")
        self.stops = CautionsView(session)
        inside.addWidget(self.sum_line)
        inside.addWidget(self.stops)
        self._add()

    def parts(self, *, only_right: bool = False) -> tuple[tuple[str, str], ...]:
        """Food and weight of every line that holds anything; `only_right` leaves out unfinished lines."""
        found = []
        for food, mass, _ in self._lines:
            known = food.value()
            name = known.slug if known else food.text()
            if only_right and (known is None or mass.value() is None):
                continue
            if name or mass.text():
                found.append((name, mass.text()))
        return tuple(found)

    def foods(self) -> tuple[Food, ...]:
        """The foods that are named, weighed or not."""
        return tuple(known for food, _, _ in self._lines if (known := food.value()) is not None)

    def show_sum(self, loaded: Mass | None) -> None:
        """How much of what was loaded the ingredients come to."""
        weights = [mass.value() for _, mass, _ in self._lines if mass.value() is not None]
        show = self.session.style.show
        listed = f"{show(Mass(sum(w.si for w in weights)))}" if weights else ""
        of = f" of {show(loaded)}" if loaded is not None else ""
        self.sum_line.setText(f"{listed}{of} listed" if listed else "")
        self.sum_line.setVisible(bool(listed))

    def show_stops(self, cautions: Iterable[Caution]) -> None:
        """The stops of what is named so far."""
        self.stops.set_cautions(c for c in cautions if c.severity == "stop")

    def set_parts(self, parts: tuple[tuple[str, str], ...]) -> None:
        """Show these lines and one empty one."""
        former, self._lines = self._lines, []
        for name, mass in (*parts, ("", "")):
            self._add(name, mass)
        tab_through(former[0][0], *(field for food, weight, _ in self._lines for field in (food, weight)))
        for _, _, line in former:
            line.setParent(None)
            line.deleteLater()

    def _add(self, name: str = "", mass: str = "") -> None:
        number = len(self._lines) + 1
        food = FoodField(self.session, f"Ingredient {number}", hint="such as lentils", name="parts")
        weight = QuantityField(self.session, f"Weight of ingredient {number}", Mass, name="parts")
        weight.count_pieces_of(food)
        food.show_text(name)
        weight.edit.setText(mass)
        line = QWidget()
        across = row(space=16)
        across.addWidget(food, 1)
        across.addWidget(weight, 1)
        line.setLayout(across)
        self._column.addWidget(line)
        self._lines.append((food, weight, line))
        self.setFocusProxy(self._lines[0][0])
        food.chosen.connect(lambda _food: self.changed.emit())
        food.accepted.connect(weight.setFocus)
        weight.accepted.connect(self.accepted)
        for field in (food, weight):
            field.edit.textChanged.connect(self._used)

    def _used(self) -> None:
        food, mass, _ = self._lines[-1]
        if food.text() or mass.text():
            self._add()
            tab_through(mass, *self._lines[-1][:2])
        self.changed.emit()
