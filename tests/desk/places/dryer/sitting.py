"""A person at the desk with what is drying."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from dryhouse.desk.places.dryer.strip import Strip
from dryhouse.desk.places.dryer.view import DryingPlace
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.science.display import METRIC, Style
from tests.kitchen.drying_room import Hands

ENTER = Qt.Key.Key_Return


class Sitting:
    """A person at the desk with one kitchen."""

    def __init__(self, qtbot, hands: Hands) -> None:
        self.qtbot, self.hands = qtbot, hands
        theme = Theme(QApplication.instance(), "light")
        self.session = Session(hands.kitchen, theme)
        self.session.set_style(Style(METRIC))
        self.place = DryingPlace(self.session)
        qtbot.addWidget(self.place)
        self.place.resize(1100, 760)
        with qtbot.waitExposed(self.place):
            self.place.show()
        self.place.activateWindow()
        self.place.arrive()

    def type(self, text: str, key: Qt.Key | None = None) -> None:
        """Type into whatever has the keyboard."""
        widget = QApplication.focusWidget()
        assert widget is not None
        self.qtbot.keyClicks(widget, text)
        if key is not None:
            self.qtbot.keyClick(QApplication.focusWidget(), key)

    def press(self, key: Qt.Key, with_: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self.qtbot.keyClick(QApplication.focusWidget() or self.place, key, with_)

    def ctrl(self, key: Qt.Key) -> None:
        self.press(key, Qt.KeyboardModifier.ControlModifier)

    @property
    def strip(self) -> Strip:
        return self.place.strips[self.place.current]

    @property
    def latest(self) -> str:
        return self.session.messages.latest.text


def drying(sitting: Sitting, grams: float = 1000.0) -> int:
    """One batch on the dryer, its entry in focus."""
    batch = sitting.hands.start(grams)
    sitting.place.runs.forget()
    sitting.place.mark_stale()
    sitting.place.arrive()
    return batch
