"""The Edit menu: undo and redo of acts; cut, copy, paste and choosing all where the keyboard is; finding."""

from __future__ import annotations

from collections.abc import Callable
from types import ModuleType
from typing import TYPE_CHECKING, Any

from PySide6.QtGui import QAction, QGuiApplication, QKeySequence
from PySide6.QtWidgets import QApplication, QLabel, QMenu

if TYPE_CHECKING:
    from dryhouse.desk.session import Session
    from dryhouse.desk.window import DeskWindow


def fill_edit(window: DeskWindow, session: Session, menu: QMenu) -> tuple[QAction, QAction]:
    """Fill the menu; the actions of undo and redo, whose words change."""

    def add(text: str, act: Callable[[], Any], *keys: str) -> QAction:
        action = menu.addAction(text)
        action.triggered.connect(lambda _on=False: act())
        action.setShortcuts([QKeySequence(k) for k in keys])
        return action

    def find() -> None:
        view = window.views.get(window.here)
        if view is not None:
            view.look_for()

    undo = add("&Undo", session.undo, "Ctrl+Z")
    redo = add("&Redo", session.redo, "Ctrl+Shift+Z", "Ctrl+Y")
    menu.addSeparator()
    add("Cu&t", lambda: ask_focus("cut"), "Ctrl+X")
    add("&Copy", copy_focus, "Ctrl+C")
    add("&Paste", lambda: ask_focus("paste"), "Ctrl+V")
    add("Select &all", lambda: ask_focus("selectAll"), "Ctrl+A")
    menu.addSeparator()
    add("&Find…", find, "Ctrl+F")
    menu.addSeparator()
    add("Pr&eferences…", lambda: _preferences().show_preferences(window, session), "Ctrl+,")
    return undo, redo


def _preferences() -> ModuleType:
    from dryhouse.desk import preferences

    return preferences


def ask_focus(what: str) -> None:
    """Let the thing that has the keyboard do it, where it can."""
    here = QApplication.focusWidget()
    act = getattr(here, what, None)
    if act is not None:
        act()


def copy_focus() -> None:
    """Copy what is chosen where the keyboard is: typed text, lines of a table, a figure, a caution."""
    from dryhouse.desk.widgets.pressable import Pressable
    from dryhouse.desk.widgets.table_menu import TableMenu

    here = QApplication.focusWidget()
    table = here.findChild(TableMenu) if here is not None else None
    if table is not None:
        table.copy()
    elif isinstance(here, Pressable):
        here.copy()
    elif isinstance(here, QLabel) and here.hasSelectedText():
        QGuiApplication.clipboard().setText(here.selectedText())
    else:
        ask_focus("copy")
