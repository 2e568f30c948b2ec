"""Every source the handbook's figures name, and whether it was read."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, card, column, inner_key, row, scrolling, text_label

_SAID = {
    "read": "read at the source",
    "recalled": "from memory, not yet checked",
    "computed": "computed from figures that were read",
    "own rule": "our own rule, from what is named",
    "common practice": "a fact of the trade, no single source",
}


class SourcesPage(QWidget):
    """One card a source, in the order of their names."""

    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._page = QWidget()
        self._cards = column(self._page, space=8)
        self._cards.setContentsMargins(0, 0, 12, 0)
        self._back = button("&Back to the food", self.left.emit, hint="Esc")
        inside = column(self, space=12)
        inside.addLayout(row(text_label("Sources", "heading"), 1, self._back))
        inside.addWidget(scrolling(self._page), 1)
        self.setFocusProxy(self._back)
        inner_key(self, "Esc", self.left.emit)

    def showEvent(self, event: QShowEvent) -> None:
        if not self._cards.count():
            for source in sorted(self.session.kitchen.handbook.sources.values(), key=lambda s: s.citation):
                frame, inside = card()
                inside.addWidget(text_label(source.citation, "label", select=True))
                year = f", {source.year}" if source.year else ""
                inside.addWidget(text_label(f"{_SAID.get(source.how, source.how)}{year}", "muted"))
                if source.note:
                    inside.addWidget(text_label(source.note, "small", select=True))
                self._cards.addWidget(frame)
            self._cards.addStretch(1)
        super().showEvent(event)
