"""A word when something is due at the dryer or on the shelf: by the desktop's notices, else the tray, else here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from dryhouse.desk.notices import DesktopNotices
from dryhouse.desk.session import Session
from dryhouse.kitchen.ports import BatchQuery, Done, Record
from dryhouse.kitchen.records import Batch, BatchEvent, Lot, LotCheck, Weighing
from dryhouse.kitchen.records.batches import DRYING

if TYPE_CHECKING:
    from PySide6.QtWidgets import QSystemTrayIcon

    from dryhouse.kitchen.cards.alarms import AlarmClock
    from dryhouse.kitchen.dryer.due_now import Due

_LOOK_EVERY_MS = 30_000
_FIRST_LOOK_MS = 4_000
_SHOWN_FOR_MS = 10_000
_STALE = frozenset({Batch, BatchEvent, Weighing, Lot, LotCheck})


class Reminders(QObject):
    """Looks at the clock twice a minute. What is due is reckoned only when a batch, a weighing, an event or a lot
    changed, or another day began."""

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.session = session
        self._dues: tuple[Due, ...] | None = None
        self._day = 0
        self._clock: AlarmClock | None = None
        self._shown: dict[int, list[Due]] = {}
        self._tray: QSystemTrayIcon | None = None
        self.notices = DesktopNotices(self)
        self.notices.put_off.connect(self.put_off)
        self.notices.opened.connect(lambda _number: session.open("drying"))
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
        self.notices.close()
        if self._tray is not None:
            self._tray.hide()

    def look(self) -> None:
        """Say what has become due since the last look, all in one notice."""
        kitchen = self.session.kitchen
        now = kitchen.now()
        here = kitchen.local(now)
        if self._dues is None or self._day != here.toordinal():
            self._dues, self._day = self._reckon(), here.toordinal()
        if not self._dues:
            return
        from dryhouse.kitchen.cards.alarms import AlarmClock, quiet_hours

        self._clock = self._clock or AlarmClock()
        due = self._clock.ringing(self._dues, now, here, quiet_hours(kitchen))
        if due:
            self._shown[self.notify("\n".join(d.sentence for d in due))] = due

    def put_off(self, number: int) -> None:
        """Say again in half an hour what that notice said."""
        if self._clock is not None:
            self._clock.put_off(self._shown.get(number, []), self.session.kitchen.now())

    def notify(self, text: str) -> int:
        """A notice of the desktop where it has them, else a message in the window; the number of the notice."""
        number = self.notices.show("Dryhouse", text)
        if number:
            return number
        from PySide6.QtWidgets import QSystemTrayIcon

        if QSystemTrayIcon.isSystemTrayAvailable() and QSystemTrayIcon.supportsMessages():
            if self._tray is None:
                self._tray = self._make_tray()
            self._tray.show()
            self._tray.showMessage("Dryhouse", text, self._tray.icon(), _SHOWN_FOR_MS)
        else:
            self.session.say(text.replace("\n", " "))
        return 0

    def _make_tray(self) -> QSystemTrayIcon:
        from PySide6.QtWidgets import QMenu, QSystemTrayIcon

        from dryhouse.desk.icons import icon

        tray = QSystemTrayIcon(icon("drying", self.session.theme.tokens.accent), self)
        menu = QMenu()
        self.session.theme.dress(menu)
        menu.addAction("Again in 30 minutes", lambda: self.put_off(0))
        menu.addAction("Show it", lambda: self.session.open("drying"))
        tray.setContextMenu(menu)
        self._menu = menu
        tray.messageClicked.connect(lambda: self.session.open("drying"))
        tray.activated.connect(lambda _reason: self.session.open("drying"))
        return tray

    def _reckon(self) -> tuple[Due, ...]:
        journal = self.session.kitchen.journal
        if not len(journal.batch_ids(BatchQuery(states=(DRYING,)))) and not journal.highest_id(Lot):
            return ()
        from dryhouse.kitchen.cards.alarms import alarms

        return self.session.attempt(alarms, self.session.kitchen) or ()

    def _note(self, done: Done[Record]) -> None:
        if done.kinds & _STALE:
            self._dues = None
