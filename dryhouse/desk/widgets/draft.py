"""What stands in a form that was left: kept for the time it is opened again, and offered, never put in the way."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame

from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, row, words
from dryhouse.desk.widgets.fields import ChoiceField, Field
from dryhouse.kitchen.ports import WrittenElsewhere


class Draft:
    """`leave(of)` when a form is left, `stands(of)` when it is opened: True means leave the entries as they are."""

    def __init__(self) -> None:
        self._of: tuple[Any, ...] = ()

    def leave(self, of: Any) -> None:
        """The form was left with something typed for this."""
        self._of = (of,)

    def stands(self, of: Any) -> bool:
        """Whether what was typed for this still stands; asked once."""
        there, self._of = self._of == (of,), ()
        return there

    def drop(self, told: object = None) -> None:
        """It is void: records it was about changed. What another program wrote voids nothing she typed."""
        if not isinstance(told, WrittenElsewhere):
            self._of = ()


class DraftOffer(QFrame):
    """A line at the top of an empty form: go on with what was left? What is typed next is never mixed with it."""

    taken = Signal()
    forgotten = Signal()

    def __init__(self) -> None:
        super().__init__()
        set_role(self, "card")
        self.asked = words("", "label")
        self.go_on = button("Go &on with it", self._take, hint="What you had typed comes back")
        self.forget = button("Forget it", self._forget, "quiet")
        across = row(space=8)
        across.addWidget(self.asked, 1)
        across.addWidget(self.go_on)
        across.addWidget(self.forget)
        across.setContentsMargins(12, 8, 12, 8)
        self.setLayout(across)
        self.hide()

    def offer(self, what: str) -> None:
        """Ask about this; nothing hides the line."""
        self.asked.setText(f"Go on with {what}?")
        self.go_on.setAccessibleDescription(self.asked.text())
        self.setVisible(bool(what))

    def _take(self) -> None:
        self.hide()
        self.taken.emit()

    def _forget(self) -> None:
        self.hide()
        self.forgotten.emit()


Entry = Field | ChoiceField
Kept = dict[str, Any]


def kept_entries(entries: Iterable[Entry]) -> Kept:
    """What stands in these entries, to be put back with `put_back`; nothing where nothing was typed."""
    every = tuple(entries)
    if not any(isinstance(entry, Field) and entry.text() for entry in every):
        return {}
    return {e.name: e.text() if isinstance(e, Field) else e.value() for e in every}


def put_back(entries: Iterable[Entry], kept: Kept) -> None:
    """Put what was kept into the entries, as if typed."""
    for entry in entries:
        if entry.name in kept:
            put = entry.edit.setText if isinstance(entry, Field) else entry.set_value
            put(kept[entry.name])
