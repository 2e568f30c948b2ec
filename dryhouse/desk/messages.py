"""The one door for messages to the person. A message is data; the bar shows it, and tests read it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QObject, Signal

Kind = Literal["done", "note", "input", "world", "fault"]


@dataclass(frozen=True, slots=True)
class Message:
    """One sentence to the person.

    `done`: an act was done; `note`: something to know; `input`: what was typed cannot be used; `world`: a file,
    a disk or a lock failed; `fault`: our own mistake, with `details` to copy.
    """

    kind: Kind
    text: str
    undo: bool = False
    details: str = ""


class Messages(QObject):
    """Posts messages and remembers the last hundred."""

    posted = Signal(object)
    cleared = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.history: list[Message] = []

    @property
    def latest(self) -> Message | None:
        """The last message, if any."""
        return self.history[-1] if self.history else None

    def post(self, message: Message) -> None:
        """Show a message."""
        self.history = [*self.history[-99:], message]
        self.posted.emit(message)

    def clear(self) -> None:
        """Take the message out of view; it stays in the history."""
        self.cleared.emit()
