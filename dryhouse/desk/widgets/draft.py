"""What stands in a form that was left: kept for the time it is opened again, and offered, never put in the way."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFrame, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, row, tab_before, text_label
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
        self.asked = text_label("", "label")
        self.go_on = button("Go on with it", self._take, hint="What you had typed comes back")
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

    def stand_before(self, first: QWidget) -> None:
        """Let Tab come here before the first entry of the form, as the eye does."""
        tab_before(first, self.go_on, self.forget)

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
    return {key: entry.text() if isinstance(entry, Field) else entry.value() for key, entry in _keyed(every)}


def put_back(entries: Iterable[Entry], kept: Kept) -> None:
    """Put what was kept into the entries, as if typed."""
    for key, entry in _keyed(entries):
        if key in kept:
            put = entry.edit.setText if isinstance(entry, Field) else entry.set_value
            put(kept[key])


def _keyed(entries: Iterable[Entry]) -> list[tuple[str, Entry]]:
    """Each entry by its name; one without, or of a name that was there before, by its place too."""
    found: dict[str, Entry] = {}
    for place, entry in enumerate(entries):
        found[entry.name if entry.name and entry.name not in found else f"{place} {entry.name}"] = entry
    return list(found.items())


class KeptForm(QObject):
    """Keeps what is typed into one form beside the journal, and offers it when the form is opened for the same
    thing again: after a kill, after the window was closed, or after it was left.

    `read` answers what stands in the form, as plain values that JSON can hold; `put` puts it back. `rest` before
    the form is filled in for something, `shown` after, `saved` when it is recorded.
    """

    offered = Signal()
    """Something that was left is asked about."""

    def __init__(
        self, session: Session, name: str, form: QWidget, read: Callable[[], Any], put: Callable[[Any], object]
    ) -> None:
        super().__init__(form)
        self._book, self._name, self._read, self._put = session.drafts.book, name, read, put
        self._of: str | None = None
        """What the form was filled in for; None while it rests."""
        self._as_shown: Any = None
        self._standing = False
        """Whether the newest draft is what stands in the form."""
        self.offer = DraftOffer()
        self.offer.taken.connect(self._go_on)
        self.offer.forgotten.connect(self._forget)
        session.drafts.watch(self, self.look)

    def rest(self, *unless: object) -> None:
        """What stands in the form is kept, and nothing more of it: it is filled in anew. A form that is opened
        again for the same thing (`unless`) goes on."""
        if self._of is not None and not (unless and self._of == " ".join(map(str, unless))):
            self.look()
            self._of, self._standing = None, False
            self.offer.hide()

    def shown(self, of: object = "") -> None:
        """The form was filled in for this; whatever differs from now on was typed."""
        self._of, self._as_shown, self._standing = str(of), _plain(self._read()), False
        left = [one for one in self._book.get(self._name, self._of) if one != self._as_shown]
        self._book.put(self._name, self._of, left)
        self.offer.offer(described(left[0]) if left else "")
        if left:
            self.offered.emit()

    def saved(self) -> None:
        """What stood in the form is recorded."""
        if self._of is None:
            return
        self.look()
        if self._standing:
            self._book.put(self._name, self._of, self._book.get(self._name, self._of)[1:])
        self._as_shown, self._standing = _plain(self._read()), False
        self._book.save()

    def look(self) -> None:
        """Note what stands in the form, where it was typed."""
        if self._of is None:
            return
        now, left = _plain(self._read()), self._book.get(self._name, self._of)
        others = left[1:] if self._standing else left
        self._standing = now != self._as_shown
        self._book.put(self._name, self._of, [now, *others] if self._standing else others)

    def _go_on(self) -> None:
        """Put the one that was left into the form; what was typed meanwhile is kept in its place."""
        kept = self._take()
        if kept is not None:
            self._standing = False
            self._put(kept)
            self.look()

    def _forget(self) -> None:
        self._take()
        self._book.save()

    def _take(self) -> Any:
        """The newest that does not stand in the form, kept no longer."""
        if self._of is None:
            return None
        self.look()
        left = self._book.get(self._name, self._of)
        place = 1 if self._standing else 0
        kept = left.pop(place) if place < len(left) else None
        self._book.put(self._name, self._of, left)
        return kept


def keep_entries(session: Session, name: str, form: QWidget, entries: Callable[[], Iterable[Entry]]) -> KeptForm:
    """A `KeptForm` of entries alone; its offer stands before the first of them."""
    kept = KeptForm(session, name, form, lambda: kept_entries(entries()), lambda kept: put_back(entries(), kept))
    kept.offered.connect(lambda: kept.offer.stand_before(next(iter(entries()))))
    return kept


_TELLING = ("food", "name", "prepared_mass", "mass", "dried_mass", "temperature", "value")
"""The entries by which she knows again what she had begun."""


def described(kept: Any) -> str:
    """What was typed, in a few words: what it is and how much, else its first words."""
    first = kept[0] if isinstance(kept, list) and kept and isinstance(kept[0], dict) else kept
    telling = [first[name] for name in _TELLING if first.get(name)] if isinstance(first, dict) else []
    words = [text for text in _texts(telling or kept) if text.strip()]
    return ", ".join(words[:2]) or "what you had typed"


def _texts(kept: Any) -> list[str]:
    if isinstance(kept, str):
        return [kept]
    inside = kept.values() if isinstance(kept, dict) else kept if isinstance(kept, list | tuple) else ()
    return [text for each in inside for text in _texts(each)]


def _plain(value: Any) -> Any:
    """The value as it comes back from a file: no tuples, nothing but what JSON holds."""
    if isinstance(value, dict):
        return {str(name): _plain(each) for name, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    return value if value is None or isinstance(value, str | int | float | bool) else str(value)
