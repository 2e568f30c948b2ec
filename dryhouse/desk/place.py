"""What a place on the desk is: a light spec, found by scanning, and a view, imported on first show."""

from __future__ import annotations

import importlib.util
import pkgutil
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from PySide6.QtWidgets import QWidget

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtGui import QShowEvent, QTextDocument

    from dryhouse.desk.session import Session
    from dryhouse.kitchen.ports import Done, Record


@dataclass(frozen=True, slots=True)
class PlaceSpec:
    """A place as the rail lists it. `target` is `module:class`; nothing of it is imported until it is shown."""

    id: str
    title: str
    order: int
    shortcut: str
    target: str
    icon: str = ""
    """A name `desk.icons` draws; the place's own id where empty."""
    purpose: str = ""
    """One short sentence for the rail's tooltip and the overview of shortcuts."""
    preload: str = ""
    """`module:function` that begins reading for the place before it is first shown; it is given the session."""

    def load(self) -> type[DeskPlace]:
        """Import the view."""
        module, name = self.target.split(":")
        view: type[DeskPlace] = getattr(importlib.import_module(module), name)
        return view


def places() -> list[PlaceSpec]:
    """Every place of the desk, in the order of the rail: each folder of `places` with a `spec.py`."""
    folder = importlib.import_module("dryhouse.desk.places")
    names = [f"{folder.__name__}.{m.name}.spec" for m in pkgutil.iter_modules(folder.__path__) if m.ispkg]
    found = [importlib.import_module(name).SPEC for name in names if importlib.util.find_spec(name)]
    return sorted(found, key=lambda spec: spec.order)


class DeskPlace(QWidget):
    """One place. It reads through the kitchen, writes through `session.act`, and refreshes only when seen.

    Subclasses build their widgets in `__init__` and fill them in `refresh`, which is called before the first
    show and again whenever a record of a kind in `watches` changed.
    """

    watches: ClassVar[frozenset[type]] = frozenset()
    shortcuts: ClassVar[tuple[tuple[str, str], ...]] = ()
    """(keys, what they do) for the overview that F1 opens."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._stale = True
        session.changed.connect(self.note_change)
        session.style_changed.connect(self.mark_stale)

    def note_change(self, done: Done[Record]) -> None:
        """Mark the place stale where the act touched what it shows."""
        if done.kinds & self.watches:
            self.mark_stale()

    def mark_stale(self) -> None:
        """Refresh now if the place is in view, else when it next is."""
        self._stale = True
        if self.isVisible():
            self.freshen()

    def freshen(self) -> None:
        """Refresh if anything changed since the last time."""
        if self._stale:
            self._stale = False
            self.refresh()

    def showEvent(self, event: QShowEvent) -> None:
        self.freshen()
        super().showEvent(event)

    def refresh(self) -> None:
        """Read everything again and show it."""

    def show_record(self, kind: str, id: int | str) -> None:
        """Bring one record into view: `kind` is a word such as `batch`, `lot`, `meal`, `food`."""

    def arrive(self) -> None:
        """The person came here: put the keyboard where she will want it."""
        self.setFocus()

    def look_for(self) -> None:
        """Ctrl+F: put the keyboard where one looks for something."""
        self.arrive()

    def takes(self, path: Path) -> bool:
        """Whether a file dropped on the window is one for this place."""
        return False

    def take_file(self, path: Path) -> None:
        """Read a file that this place takes."""

    def printout(self) -> QTextDocument | None:
        """The page that Ctrl+P prints, or None where there is nothing to print."""
        return None

    def leave(self) -> None:
        """The window closes or another journal opens: keep drafts, stop timers."""
