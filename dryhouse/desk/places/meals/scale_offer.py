"""Servings were changed: shall the amounts follow? Offered below them, never done unasked."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.widgets.basics import button, row, text_label
from dryhouse.kitchen.records import Meal


class ScaleOffer(QWidget):
    """Shown while other servings stand in the entry than the amounts were written for."""

    scale_asked = Signal()
    keep_asked = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.said = text_label("")
        self.scale = button("Scale &amounts", self.scale_asked.emit, hint="Saves the meal; can be undone")
        self.keep = button("&Keep amounts", self.keep_asked.emit, "quiet", hint="Saves the meal as it stands")
        across = row(space=12)
        across.addWidget(self.said, 1)
        across.addWidget(self.scale)
        across.addWidget(self.keep)
        self.setLayout(across)
        self.hide()

    def show_for(self, meal: Meal, servings: float | None, has_amounts: bool) -> None:
        """Offer it for a recorded meal with amounts; hide where there is nothing to scale."""
        wanted = bool(meal.id and servings and 0 < servings <= 500 and servings != meal.servings and has_amounts)
        if wanted and servings is not None:
            self.said.setText(
                f"The amounts are written for {_servings(meal.servings)}; here they stand for {servings:g}."
            )
            self.scale.setAccessibleName(f"Scale the amounts to {_servings(servings)}")
        self.setVisible(wanted)


def _servings(number: float) -> str:
    return f"{number:g} {'serving' if number == 1 else 'servings'}"
