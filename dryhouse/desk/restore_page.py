"""The backups of a journal in a list, with a look inside before one is put in the journal's place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from dryhouse.desk.background import read_beside
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.kitchen.ports import KeptCopy
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.words.dates import day_and_clock
from dryhouse.words.messages import problem_sentence

if TYPE_CHECKING:
    from dryhouse.desk.journal_access import JournalAccess

_COPY = Qt.ItemDataRole.UserRole


def line_of(copy: KeptCopy, *, seconds: bool = False) -> str:
    """`today 18:52, 135 batches, whole`; with its seconds where another was made in the same minute."""
    inside = "" if copy.batches is None else f", {counted(copy.batches, 'batch', 'batches')}"
    return f"{day_and_clock(copy.at, seconds=seconds)}{inside}, {'whole' if copy.whole else 'damaged'}"


class RestorePage(QWidget):
    """Newest first. Each backup is looked through before it is listed, beside the window, one after the other."""

    def __init__(
        self,
        journals: JournalAccess,
        path: Path,
        restore: Callable[[Path], object],
        another: Callable[[], object],
        leave: Callable[[], object],
    ) -> None:
        super().__init__()
        self._journals, self._restore = journals, restore
        self.heading = text_label("Restore a backup", "title")
        self.sentence = text_label(f"Checking the backups of {path}…", "muted", select=True)
        self.list = QListWidget()
        self.list.setAccessibleName("Backups, newest first")
        self.inside = QListWidget()
        self.inside.setAccessibleName("What is in the chosen backup")
        self.inside.setWordWrap(True)
        self.inside.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.inside.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.restore_button = button("&Restore this one", self._take, "primary", hint="Enter")
        self.restore_button.setEnabled(False)
        self.buttons = [
            self.restore_button,
            button("Choose another &file…", another),
            button("&Close", leave, hint="Esc"),
        ]
        left, right = QWidget(), QWidget()
        for side, heading, shown in (
            (left, "Made", self.list), (right, "A look inside: the newest batches", self.inside),
        ):  # fmt: skip
            inside = column(side, space=8)
            inside.addWidget(text_label(heading, "heading"))
            inside.addWidget(shown, 1)
        outer = column(self, margin=20, space=12)
        outer.addWidget(self.heading)
        outer.addWidget(self.sentence)
        outer.addWidget(side_by_side(left, right, sizes=(420, 620), least=(260, 320)), 1)
        outer.addLayout(row(*self.buttons, 1))
        self.list.currentItemChanged.connect(lambda now, _before: self._look(now))
        self.list.itemActivated.connect(lambda _item: self._take())
        inner_key(self, "Esc", leave)
        read_beside(self, lambda: list(journals.backups(path)), self._show, "look through the backups")
        self._path = path

    def _show(self, copies: Sequence[KeptCopy]) -> None:
        minutes = Counter(day_and_clock(copy.at) for copy in copies)
        for copy in copies:
            item = QListWidgetItem(line_of(copy, seconds=minutes[day_and_clock(copy.at)] > 1))
            item.setData(_COPY, copy)
            self.list.addItem(item)
        if copies:
            self.sentence.setText(
                f"Of {self._path}. What is there now is kept among the backups; the one you choose stays there too."
            )
            self.list.setCurrentRow(next((n for n, copy in enumerate(copies) if copy.whole), 0))
            self.list.setFocus()
        else:
            self.sentence.setText(f"There are no backups of {self._path}. You can choose another file.")
            self.buttons[1].setFocus()

    @property
    def chosen(self) -> KeptCopy | None:
        """The backup that is marked."""
        item = self.list.currentItem()
        copy: KeptCopy | None = None if item is None else item.data(_COPY)
        return copy

    def _look(self, item: QListWidgetItem | None) -> None:
        copy = None if item is None else item.data(_COPY)
        self.restore_button.setEnabled(copy is not None and copy.whole)
        self.inside.clear()
        if copy is None or not copy.whole:
            return
        journals = self._journals

        def read() -> tuple[KeptCopy, list[str]]:
            try:
                return copy, journals.look_inside(copy.path)
            except (InputProblem, WorldProblem) as problem:
                return copy, [problem_sentence(problem)]

        read_beside(self, read, self._show_inside, "look inside a backup")

    def _show_inside(self, read: tuple[KeptCopy, list[str]]) -> None:
        copy, lines = read
        if copy == self.chosen:
            self.inside.clear()
            self.inside.addItems(lines)

    def _take(self) -> None:
        if self.chosen is not None and self.chosen.whole:
            self._restore(self.chosen.path)
