"""Boxes that narrow a list, and what is shown where nothing fits."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtWidgets import QComboBox, QSizePolicy, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages
from dryhouse.desk.widgets.choice_box import ChoiceBox
from dryhouse.desk.widgets.empty_state import EmptyState

ANY = ""
"""The value of the choice that narrows nothing; it stands first."""


def choice_box(name: str) -> QComboBox:
    """A box as wide as its longest choice."""
    box = ChoiceBox()
    box.setAccessibleName(name)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
    box.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
    return box


def may_be_narrow(box: QComboBox, letters: int = 8) -> None:
    """Let a box be narrower than its longest choice, where the column it stands in is."""
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setMinimumContentsLength(letters)


def offer(box: QComboBox, choices: Sequence[tuple[str, Any]]) -> None:
    """Offer these, silently; the chosen one stays where it is still offered."""
    chosen = box.currentText()
    box.blockSignals(True)
    box.clear()
    for text, value in choices:
        box.addItem(text, value)
    box.setCurrentIndex(max(box.findText(chosen), 0))
    box.blockSignals(False)


class FittingList(Pages):
    """A list, or where nothing fits the filter a page that says so and shows all again."""

    def __init__(
        self, session: Session, shown: QWidget, picture: str, heading: str, clear: Callable[[], Any]
    ) -> None:
        super().__init__()
        self.shown = shown
        self.none = EmptyState(
            session.theme, picture, heading, "Try fewer words, or show all.", ("Show all", clear)
        )
        self.addWidget(shown)
        self.addWidget(self.none)

    def show_fitting(self, any_fits: bool) -> None:
        """Show the list where it has a line."""
        self.setCurrentWidget(self.shown if any_fits else self.none)
