"""A page that says what was found, a line each, and what can be done about it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from dryhouse.desk.widgets.basics import button, column, row, text_label


class FoundPage(QWidget):
    """A heading, a sentence, what was found, and things to do; the first is the usual one."""

    def __init__(
        self, heading: str, sentence: str, found: Sequence[str], *acts: tuple[str, Callable[[], Any]]
    ) -> None:
        super().__init__()
        self.heading = text_label(heading, "title")
        self.sentence = text_label(sentence, "muted", select=True)
        self.list = QListWidget()
        self.list.setAccessibleName(heading)
        self.list.setWordWrap(True)
        for line in found:
            item = QListWidgetItem(line)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsSelectable)
            self.list.addItem(item)
        self.buttons = [button(text, act, "" if i else "primary") for i, (text, act) in enumerate(acts)]
        inside = column(self, margin=20, space=12)
        inside.addWidget(self.heading)
        inside.addWidget(self.sentence)
        inside.addWidget(self.list, 1)
        inside.addLayout(row(*self.buttons, 1))
