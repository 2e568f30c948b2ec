"""What stands in place of the places while a journal is exported or another one is brought in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QProgressBar, QWidget

from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.science.display import counted

if TYPE_CHECKING:
    from dryhouse.kitchen.exchange.bringing import Difference

_SHOWN = 1000
"""So many differences are listed one by one; the rest goes by the two buttons for all."""


class WorkPage(QWidget):
    """A heading, how far it is, and a way to stop it where it can be stopped."""

    def __init__(self, heading: str, stop: Callable[[], object] | None = None) -> None:
        super().__init__()
        self.heading = text_label(heading, "title")
        self.told = text_label("", "muted")
        self.bar = QProgressBar()
        self.bar.setRange(0, 0)
        self.bar.setAccessibleName(heading)
        self.buttons = [] if stop is None else [button("&Stop", stop, hint="Esc")]
        inside = column(self, margin=20, space=12)
        inside.addStretch(1)
        for part in (self.heading, self.told, self.bar):
            inside.addWidget(part)
        inside.addLayout(row(*self.buttons, 1))
        inside.addStretch(2)
        if stop is not None:
            inner_key(self, "Esc", stop)

    def tell(self, said: str, share: float | None) -> None:
        """How far it is."""
        self.told.setText(said)
        if share is not None:
            self.bar.setRange(0, 100)
            self.bar.setValue(round(100 * share))


class ChoicePage(QWidget):
    """The records of hers that the file says otherwise, each to be kept as it is or taken as it is there."""

    def __init__(
        self,
        sentence: str,
        differences: Sequence[tuple[Difference, str]],
        bring_in: Callable[[list[Difference]], object],
        leave: Callable[[], object],
    ) -> None:
        super().__init__()
        self._differences, self._bring_in = differences, bring_in
        self._rest = False
        """Whether those that are not listed are taken."""
        verb = "differs" if len(differences) == 1 else "differ"
        self.heading = text_label(f"{counted(len(differences), 'record')} of yours {verb} from the file", "title")
        self.sentence = text_label(sentence, "muted", select=True)
        self.list = QListWidget()
        self.list.setAccessibleName("What differs; checked is taken from the file")
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for _, line in differences[:_SHOWN]:
            self.list.addItem(_item(line))
        if len(differences) > _SHOWN:
            self.list.addItem(f"And {len(differences) - _SHOWN} more; the two buttons for all decide those too.")
        self.buttons = [
            button("&Import", self._go, "primary", hint="Ctrl+Enter"),
            button("Take &theirs everywhere", lambda: self._all(True)),
            button("&Keep mine everywhere", lambda: self._all(False)),
            button("Clo&se", leave, hint="Esc; nothing is imported"),
        ]
        inside = column(self, margin=20, space=12)
        inside.addWidget(self.heading)
        inside.addWidget(self.sentence)
        inside.addWidget(self.list, 1)
        inside.addLayout(row(*self.buttons, 1))
        inner_key(self, "Esc", leave)
        inner_key(self, "Ctrl+Return", self._go)

    def chosen(self) -> list[Difference]:
        """Those that are taken as the file says."""
        listed = [
            difference
            for place, (difference, _) in enumerate(self._differences[:_SHOWN])
            if self.list.item(place).checkState() is Qt.CheckState.Checked
        ]
        return listed + ([difference for difference, _ in self._differences[_SHOWN:]] if self._rest else [])

    def _all(self, taken: bool) -> None:
        self._rest = taken
        for place in range(len(self._differences[:_SHOWN])):
            self.list.item(place).setCheckState(Qt.CheckState.Checked if taken else Qt.CheckState.Unchecked)

    def _go(self) -> None:
        self._bring_in(self.chosen())


def _item(line: str) -> QListWidgetItem:
    """A line to be checked."""
    item = QListWidgetItem(line)
    item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
    item.setCheckState(Qt.CheckState.Unchecked)
    return item
