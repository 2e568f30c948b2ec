"""What every table offers: copy what is chosen, save the list, choose the columns, and the place's own acts.

By the right button or the menu key; Ctrl+C copies, Ctrl+A chooses everything.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QPoint, Qt
from PySide6.QtWidgets import QFileDialog, QMenu, QTableView

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import calling
from dryhouse.desk.widgets.table_text import as_csv, chosen_lines, copy, lines_of

Acts = Callable[[], Sequence[tuple[str, Callable[[], Any]]]]


class TableMenu(QObject):
    """Belongs to one table. `acts` are what its place can do with what is chosen; `name` is what it lists."""

    def __init__(self, session: Session, table: QTableView, name: str, acts: Acts = tuple) -> None:
        super().__init__(table)
        self.session, self.table, self.name, self._acts = session, table, name, acts
        table.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        table.customContextMenuRequested.connect(lambda where: self.menu().popup(self._at(where)))

    def menu(self) -> QMenu:
        """The menu for what is chosen now."""
        made = QMenu(self.table)
        made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        own = self._acts()
        for text, act in own:
            made.addAction(text, calling(act))
        if own:
            made.addSeparator()
        made.addAction("&Copy\tCtrl+C", self.copy).setEnabled(bool(chosen_lines(self.table)))
        made.addAction("Choose &all\tCtrl+A", self.table.selectAll)
        made.addAction("Save this list as &CSV…", self.ask_save)
        choose = getattr(self.table, "column_menu", None)
        if choose is not None:
            made.addMenu(choose())
        return made

    def copy(self) -> None:
        """The chosen lines with their headings on the clipboard, for a spreadsheet or a letter."""
        lines = chosen_lines(self.table)
        if lines:
            copy(lines_of(self.table, lines))
            self.session.say(f"{_count(len(lines))} on the clipboard.")

    def ask_save(self) -> None:
        """Ask where to, and write the list as it is in view there."""
        path, _ = QFileDialog.getSaveFileName(
            self.table, "Save this list", f"{self.name.lower()}.csv", "CSV tables (*.csv)"
        )
        if path:
            self.save(Path(path))

    def save(self, path: Path) -> None:
        """Write every line that is listed."""
        lines = lines_of(self.table, range(self.table.model().rowCount()))
        try:
            path.write_text(as_csv(lines), encoding="utf-8-sig")
        except OSError as problem:
            said = problem.strerror or problem
            self.session.say(f"The list was not saved: {said}. Choose another folder.", "world")
            return
        self.session.say(f"Saved {_count(len(lines) - 1)} to {path}", "done")

    def _at(self, where: QPoint) -> QPoint:
        return self.table.mapToGlobal(where)


def _count(lines: int) -> str:
    return "1 line" if lines == 1 else f"{lines} lines"
