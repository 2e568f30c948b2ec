"""A line that stands for what is one step away: it opens it below itself, and folds it again."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, text_label
from dryhouse.desk.widgets.pressable import Pressable


class Fold(Pressable):
    """The line alone. Enter, Space or a click calls `turn`; it says what it is told."""

    def __init__(self, session: Session, turn: Callable[[], None]) -> None:
        super().__init__(session)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._turn = turn
        self._said = text_label("", "label", wrap=False)
        column(self, margin=4).addWidget(self._said)

    def say(self, label: str, *, is_open: bool, hint: str = "") -> None:
        """Stand for what is called so."""
        self._said.setText(f"{'▾' if is_open else '▸'} {label}")
        self.setAccessibleName(label)
        self.setToolTip(hint)
        self._said.setStyleSheet(f"color: {self.session.theme.tokens.accent};")

    def press(self) -> None:
        """Show what it stands for, or fold it."""
        self._turn()


class Unfolding(QWidget):
    """A line and what it opens. What was opened stays so, whatever is shown next, until it is folded again."""

    turned = Signal(bool)
    """Whether it stands open now."""

    def __init__(self, session: Session, title: str, *inside: QWidget) -> None:
        super().__init__()
        self.title, self.is_open = title, False
        self.fold = Fold(session, self.turn)
        self.inside = QWidget()
        below = column(self.inside, space=10)
        for widget in inside:
            below.addWidget(widget)
        whole = column(self, space=4)
        whole.addWidget(self.fold)
        whole.addWidget(self.inside)
        session.theme.changed.connect(self._show)
        self._show()

    def name(self, title: str) -> None:
        """Call it by another name."""
        self.title = title
        self._show()

    def turn(self) -> None:
        """Open it, or fold it."""
        self.is_open = not self.is_open
        self._show()
        self.turned.emit(self.is_open)

    def open(self) -> None:
        """Open it where it is folded."""
        if not self.is_open:
            self.turn()

    def _show(self) -> None:
        self.inside.setVisible(self.is_open)
        self.fold.say(self.title, is_open=self.is_open)
        self.fold.setAccessibleDescription("open" if self.is_open else "folded; Enter opens it")


def reveal(widget: QWidget) -> None:
    """Open whatever folds this widget away: an entry that asks is never folded."""
    above = widget.parentWidget()
    while above is not None:
        if isinstance(above, Unfolding):
            above.open()
        above = above.parentWidget()
