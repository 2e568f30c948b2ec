"""The other ways to cook a meal, a line each; no answer waits for them."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, text_label
from dryhouse.desk.widgets.fold import Unfolding
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.sheet import MealSheet
from dryhouse.kitchen.meals.ways import other_ways
from dryhouse.words.cooking_ways import OTHER_WAYS
from dryhouse.words.names import capital

_LATER_MS = 250


class WaysView(QWidget):
    """Worked out once the typing rests."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.said = text_label("")
        self._work: Callable[[], None] = self.hide
        self._later = QTimer(self, singleShot=True, interval=_LATER_MS)
        self._later.timeout.connect(self.show_now)
        self.fold = Unfolding(session, OTHER_WAYS, self.said)
        column(self).addWidget(self.fold)
        self.hide()

    def show_later(self, sheet: MealSheet | None, metres: float | None, pantry: Pantry) -> None:
        """The ways of this sheet, so high up, in a moment."""

        def work() -> None:
            kitchen, style = self.session.kitchen, self.session.style
            found = None
            if sheet is not None:
                found = self.session.attempt(other_ways, kitchen, sheet, altitude_m=metres, pantry=pantry)
            self.said.setText("\n".join(capital(way.sentence(style)) for way in found or ()))
            self.setVisible(bool(found))

        self._work = work
        self._later.start()

    def show_now(self) -> None:
        """What was asked for last."""
        self._later.stop()
        self._work()
