"""The figures of a package's own label: what a portion weighs and holds, and what it asks of the pot."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, text_label
from dryhouse.desk.widgets.fields import NumberField, QuantityField
from dryhouse.kitchen.records import MealPart
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.science.quantities import Mass, Volume

_NUMBERS = (
    ("label_energy_kcal", "Energy, kcal"),
    ("label_protein_g", "Protein, g"),
    ("label_fat_g", "Fat, g"),
    ("label_carbohydrate_g", "Carbohydrate, g"),
    ("label_sodium_mg", "Sodium, mg"),
    ("label_minutes", "Minutes"),
)


class LabelFigures(QWidget):
    """Closed until asked for; what stands here takes the place of the handbook's figures for this line."""

    changed = Signal()

    def __init__(self, session: Session, number: int) -> None:
        super().__init__()
        self.portion = QuantityField(
            session, f"{label_of(MealPart, 'portion')} of ingredient {number}", Mass, hint="100 g"
        )
        self.water = QuantityField(session, label_of(MealPart, "label_water"), Volume)
        self.numbers = {name: NumberField(session, said) for name, said in _NUMBERS}
        inside = column(self, space=4)
        inside.addWidget(
            text_label("What the label says of one portion; leave empty what it does not say.", "small")
        )
        grid = QGridLayout()
        grid.setSpacing(8)
        for n, field in enumerate((self.portion, self.water, *self.numbers.values())):
            grid.addWidget(field, n // 4, n % 4)
            field.changed.connect(self.changed)
        inside.addLayout(grid)
        self.hide()

    def show_part(self, part: MealPart) -> None:
        """Fill in what the part has of its label."""
        self.portion.set_value(part.portion)
        self.water.set_value(part.label_water)
        for name, field in self.numbers.items():
            field.set_value(getattr(part, name))

    def onto(self, part: MealPart) -> MealPart:
        """The part with these label figures."""
        numbers = {name: field.value() for name, field in self.numbers.items()}
        return replace(part, portion=self.portion.value(), label_water=self.water.value(), **numbers)
