"""What a cup of an ingredient weighs is not known: one weighing is asked for, and kept."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, row, text_label
from dryhouse.desk.widgets.fields import QuantityField
from dryhouse.kitchen.meals.ingredients import keep_cup
from dryhouse.kitchen.meals.sheet import MealSheet
from dryhouse.science.quantities import Mass


class CupAsk(QWidget):
    """Shown while an ingredient is given by measure and the weight of its cup is missing, one at a time."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._slug = ""
        self.said = text_label("")
        us = session.style.system == "us"
        self.weight = QuantityField(session, "One cup weighs", Mass, name="cup", hint="3.1 oz" if us else "88 g")
        self.keep = button("Keep it", self.save, name="Keep the weight of the cup", hint="Enter; can be undone")
        across = row(space=12)
        across.addWidget(self.said, 1)
        across.addWidget(self.weight)
        across.addWidget(self.keep)
        self.setLayout(across)
        self.weight.accepted.connect(self.save)
        self.hide()

    def show_for(self, sheet: MealSheet | None) -> None:
        """Ask for the first that is missing; hide where none is."""
        lacking = [] if sheet is None else [line for line in sheet.unweighed if line.ingredient.slug]
        slug = lacking[0].ingredient.slug if lacking else ""
        if slug and slug != self._slug:
            name = lacking[0].part.name
            self.said.setText(
                f"What a cup of {name} weighs is not known. Weigh one level cup of it; it is kept for every meal."
            )
            self.weight.set_value(None)
        self._slug = slug
        self.setVisible(bool(slug))

    def save(self) -> None:
        """Keep the weight as her own figure."""
        if not self.weight.require("Which weight? Such as 3.1 oz."):
            self.weight.setFocus()
        elif (
            self.session.act(keep_cup, self._slug, self.weight.value()) is None and self.session.problem is not None
        ):
            self.weight.show_problem(self.session.problem)
