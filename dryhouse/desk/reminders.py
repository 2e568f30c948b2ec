"""A gentle word when a batch may be dry or a weighing is worth while: once for each, never again and again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from dryhouse.desk.session import Session
from dryhouse.kitchen.ports import BatchQuery, Done, Record
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.batches import DRYING

if TYPE_CHECKING:
    from PySide6.QtWidgets import QSystemTrayIcon

    from dryhouse.kitchen.dryer.due_now import Due

_LOOK_EVERY_MS = 30_000
_FIRST_LOOK_MS = 4_000
_SHOWN_FOR_MS = 10_000


class Reminders(QObject):
    """Looks at the clock twice a minute. What is due is reckoned only when a batch, a weighing or an event
    changed; without a running batch nothing is reckoned at all."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.session = session
        self._dues: tuple[Due, ...] | None = None
        self._said: set[tuple[int, str, int]] = set()
        self._tray: QSystemTrayIcon | None = None
        session.changed.connect(self._note)
        self.timer = QTimer(self, interval=_LOOK_EVERY_MS)
        self.timer.timeout.connect(self.look)
        self.first = QTimer(self, singleShot=True, interval=_FIRST_LOOK_MS)
        self.first.timeout.connect(self.look)

    def start(self) -> None:
        """Begin to look, a little after the window is there."""
        self.first.start()
        self.timer.start()

    def stop(self) -> None:
        """Look no more."""
        self.first.stop()
        self.timer.stop()
        if self._tray is not None:
            self._tray.hide()

    def look(self) -> None:
        """Say what has become due since the last look, all in one notice."""
        kitchen = self.session.kitchen
        if self._dues is None:
            self._dues = self._reckon()
        now = kitchen.now()
        due = [d for d in self._dues if d.at <= now and (d.batch, d.kind, d.after) not in self._said]
        if not due:
            return
        self._said |= {(d.batch, d.kind, d.after) for d in due}
        finished = {d.batch for d in due if d.kind == "finish"}
        self.notify("\n".join(d.sentence for d in due if d.kind == "finish" or d.batch not in finished))

    def notify(self, text: str) -> None:
        """A notice of the desktop where it has them, else a message in the window."""
        from PySide6.QtWidgets import QSystemTrayIcon

        if QSystemTrayIcon.isSystemTrayAvailable() and QSystemTrayIcon.supportsMessages():
            if self._tray is None:
                self._tray = self._make_tray()
            self._tray.show()
            self._tray.showMessage("Dryhouse", text, self._tray.icon(), _SHOWN_FOR_MS)
        else:
            self.session.say(text.replace("\n", " "))

    def _make_tray(self) -> QSystemTrayIcon:
        from PySide6.QtWidgets import QSystemTrayIcon

        from dryhouse.desk.icons import icon

        tray = QSystemTrayIcon(icon("drying", self.session.theme.tokens.accent), self)
        tray.messageClicked.connect(lambda: self.session.open("drying"))
        tray.activated.connect(lambda _reason: self.session.open("drying"))
        return tray

    def _reckon(self) -> tuple[Due, ...]:
        if not len(self.session.kitchen.journal.batch_ids(BatchQuery(states=(DRYING,)))):
            return ()
        from dryhouse.kitchen.dryer.due_now import reminders_due

        return self.session.attempt(reminders_due, self.session.kitchen) or ()

    def _note(self, done: Done[Record]) -> None:
        if done.kinds & {Batch, BatchEvent, Weighing}:
            self._dues = None
