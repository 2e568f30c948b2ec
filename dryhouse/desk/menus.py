"""The menus of the window, every act with its key."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from types import ModuleType
from typing import TYPE_CHECKING, Any

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu

from dryhouse.desk import fault_log
from dryhouse.desk.edit_menu import fill_edit
from dryhouse.desk.file_menu import fill_file
from dryhouse.desk.theme import CHOICES

if TYPE_CHECKING:
    from dryhouse.desk.session import Session
    from dryhouse.desk.window import DeskWindow


@dataclass
class Menus:
    """The actions that change with the session."""

    undo: QAction
    redo: QAction
    places: dict[str, QAction] = field(default_factory=dict)


def fill_menus(window: DeskWindow, session: Session) -> Menus:
    """Fill the window's menu bar for its present session."""
    bar = window.menuBar()
    bar.clear()
    fill_file(window, bar.addMenu("&File"), open_here=True)
    menus = Menus(*fill_edit(window, session, bar.addMenu("&Edit")))
    go = bar.addMenu("&Go to")
    for spec in window.specs:
        menus.places[spec.id] = _add(go, spec.title, partial(window.go, spec.id), spec.shortcut)
    go.addSeparator()
    _add(go, "&At the scale, in a small window", lambda: _small().show_small(window), "F7")
    _fill_view(window, bar.addMenu("&View"))
    aid = bar.addMenu("&Help")
    _add(aid, "&Guides", lambda: _guides().show_guides(window), "F1")
    _add(aid, "&Keys", lambda: _help().show_keys(window), "Shift+F1")
    _add(aid, "&Why this caution?", window.show_reason, "F8")
    _add(aid, "Where is the &log file?", lambda: session.say(fault_log.where()))
    _add(aid, "&About Dryhouse", lambda: _help().show_about(window))

    def tell() -> None:
        for action, word, what in (
            (menus.undo, "Undo", session.can_undo),
            (menus.redo, "Redo", session.can_redo),
        ):
            action.setText(f"&{word} “{what}”" if what else f"&{word}")

    session.undo_changed.connect(tell)
    return menus


def fill_menus_without_journal(window: DeskWindow) -> None:
    """What can be done where no journal is open: open one, restore one, look one through, read the help."""
    bar = window.menuBar()
    bar.clear()
    fill_file(window, bar.addMenu("&File"), open_here=False)
    aid = bar.addMenu("&Help")
    _add(aid, "&Guides", lambda: _guides().show_guides(window), "F1")
    _add(aid, "&About Dryhouse", lambda: _help().show_about(window))


def _fill_view(window: DeskWindow, menu: QMenu) -> None:
    """The size of the text, the colours, the whole screen."""

    def enlarge(steps: int) -> None:
        window.settings.setValue("window/zoom", window.theme.enlarge(steps))

    def look(choice: str) -> None:
        window.theme.choose(choice)
        window.settings.setValue("window/theme", choice)

    def full_screen() -> None:
        window.showNormal() if window.isFullScreen() else window.showFullScreen()

    larger = _add(menu, "&Larger text", lambda: enlarge(1))
    larger.setShortcuts([QKeySequence("Ctrl++"), QKeySequence("Ctrl+=")])
    _add(menu, "&Smaller text", lambda: enlarge(-1), "Ctrl+-")
    _add(menu, "&Usual size", lambda: enlarge(0), "Ctrl+0")
    menu.addSeparator()
    names = {"system": "As the &system", "light": "&Light", "dark": "&Dark", "contrast": "High &contrast"}
    _choices(menu, "&Colors", tuple((c, names[c]) for c in CHOICES), window.theme.choice, look)
    menu.addSeparator()
    _add(menu, "&Full screen", full_screen, "F11")


def _choices(
    menu: QMenu, title: str, choices: tuple[tuple[str, str], ...], chosen: str, act: Callable[[str], None]
) -> dict[str, QAction]:
    inside = menu.addMenu(title)
    group = QActionGroup(inside)
    made = {}
    for value, text in choices:
        action = inside.addAction(text)
        action.setCheckable(True)
        action.setChecked(value == chosen)
        action.triggered.connect(lambda _on=False, value=value: act(value))
        group.addAction(action)
        made[value] = action
    return made


def _add(menu: QMenu, text: str, act: Callable[[], Any], keys: str = "") -> QAction:
    action = menu.addAction(text)
    action.triggered.connect(lambda _on=False: act())
    if keys:
        action.setShortcut(QKeySequence(keys))
    return action


def _guides() -> ModuleType:
    from dryhouse.desk import guides

    return guides


def _small() -> ModuleType:
    from dryhouse.desk.places.dryer import small_window

    return small_window


def _help() -> ModuleType:
    from dryhouse.desk import help

    return help
