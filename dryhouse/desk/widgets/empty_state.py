"""What a place says when there is nothing in it yet: what this is for, and what to do next."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from dryhouse.desk.icons import pixmap
from dryhouse.desk.measures import hold
from dryhouse.desk.theme import Theme
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.wrapping import Wrapping

_WIDTH = 520


class EmptyState(QWidget):
    """A picture, a heading, one sentence, and up to three things to do; the first is the usual one."""

    def __init__(
        self, theme: Theme, picture: str, heading: str, sentence: str, *acts: tuple[str, Callable[[], Any]]
    ) -> None:
        super().__init__()
        self._theme, self._picture = theme, picture
        self._icon = QLabel()
        self._icon.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        self.heading = text_label(heading, "heading")
        self.sentence = text_label(sentence, "muted")
        for label in (self.heading, self.sentence):
            label.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        hold(self.sentence, most_wide=_WIDTH)
        self.buttons = [button(text, act, "" if i else "primary") for i, (text, act) in enumerate(acts)]
        inside = column(self, margin=24, space=12)
        inside.addStretch(2)
        inside.addWidget(self._icon)
        inside.addWidget(self.heading)
        middle = row(1, self.sentence, 1)
        middle.setStretch(1, 8)
        inside.addLayout(middle)
        inside.addLayout(Wrapping(*self.buttons, middle=True))
        inside.addStretch(3)
        self._draw()
        theme.changed.connect(self._draw)

    def say(self, heading: str, sentence: str) -> None:
        """Other words for another emptiness (nothing found rather than nothing yet)."""
        self.heading.setText(heading)
        self.sentence.setText(sentence)

    def _draw(self) -> None:
        self._icon.setPixmap(pixmap(self._picture, self._theme.tokens.accent, 56))
