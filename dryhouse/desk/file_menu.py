"""The File menu: new, open, recent, save a copy, export, import, backups, print, quit."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QSettings
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

if TYPE_CHECKING:
    from dryhouse.desk.window import DeskWindow

RECENT, MOST = "journals/recent", 8


def fill_file(window: DeskWindow, file: QMenu, *, open_here: bool) -> None:
    """Fill the menu; without an open journal it has what leads to one."""

    def add(text: str, act: Callable[[], Any], keys: str = "") -> QAction:
        action = file.addAction(text)
        action.triggered.connect(lambda _on=False: act())
        if keys:
            action.setShortcut(QKeySequence(keys))
        return action

    doors = window.doors
    if doors is not None:
        add("&New journal…", doors.files.ask_new, "Ctrl+Shift+N")
        add("&Open a journal…", doors.ask_open, "Ctrl+O")
        recent = file.addMenu("Open re&cent")
        recent.aboutToShow.connect(lambda: _list_recent(window, recent))
        add("Open &my journal", doors.open_own)
        add("Open the &sample journal", doors.open_sample)
        file.addSeparator()
        if open_here:
            add("Save a cop&y…", doors.files.ask_copy, "Ctrl+Shift+S")
            add("&Export everything…", doors.exchange.ask_export)
            add("&Import…", doors.exchange.ask_import)
            file.addSeparator()
            add("&Back up now", doors.back_up, "Ctrl+B")
        add("&Restore a backup…", doors.rescue.ask_restore)
        add("C&heck the journal", doors.rescue.check)
        file.addSeparator()
    if open_here:
        add("&Print…", window.print_place, "Ctrl+P")
        file.addSeparator()
    add("&Quit", window.close, "Ctrl+Q")


def _list_recent(window: DeskWindow, menu: QMenu) -> None:
    menu.clear()
    for path in recent_journals(window.settings):
        action = menu.addAction(path.stem)
        action.setToolTip(str(path))
        action.setStatusTip(str(path))
        if window.doors is not None:
            action.triggered.connect(partial(window.doors.files.open_file, path))
    if menu.isEmpty():
        menu.addAction("None yet").setEnabled(False)


def recent_journals(settings: QSettings) -> list[Path]:
    """The journals that were opened last and are still there, the newest first."""
    kept = settings.value(RECENT) or []
    return [path for path in map(Path, [kept] if isinstance(kept, str) else kept) if path.exists()]


def note_recent(settings: QSettings, path: Path) -> None:
    """This journal was opened now."""
    others = [p for p in recent_journals(settings) if p != path]
    settings.setValue(RECENT, [str(p) for p in (path, *others)][:MOST])
