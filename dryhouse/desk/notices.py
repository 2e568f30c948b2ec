"""The desktop's own notices, with a button that puts them off; where no service shows any, `show` says so.

Of Qt only its core is used, so that `dryhouse watch` has them without a window.
"""

from __future__ import annotations

import sys

from PySide6.QtCore import QObject, QSocketNotifier, QTimer, Signal

from dryhouse.desk.session_bus import BUS, BUS_PATH, SessionBus, words_in

SERVICE, PATH = "org.freedesktop.Notifications", "/org/freedesktop/Notifications"
PUT_OFF = "put-off"
_ACTIONS = ["default", "Show it", PUT_OFF, "Again in 30 minutes"]
_HINTS = {"desktop-entry": ("s", "app.dryhouse.Dryhouse"), "urgency": ("y", 1)}


class DesktopNotices(QObject):
    """Sends notices, and tells what is done with them by the number they were given."""

    put_off = Signal(int)
    opened = Signal(int)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bus: SessionBus | None = None
        self._wakes: QSocketNotifier | None = None

    def show(self, title: str, text: str) -> int:
        """Show a notice; the number it goes by, 0 where nobody shows any."""
        if not sys.platform.startswith("linux"):
            return 0
        try:
            bus = self._connected()
            args = ("Dryhouse", 0, "app.dryhouse.Dryhouse", title, text, _ACTIONS, _HINTS, -1)
            number = int(bus.call(SERVICE, PATH, SERVICE, "Notify", "susssasa{sv}i", *args)[0])
            QTimer.singleShot(0, self, self._heard)  # what came along with the answer wakes nobody
            return number
        except (OSError, ValueError, IndexError):
            self.close()
            return 0

    def close(self) -> None:
        """Leave the bus."""
        if self._wakes is not None:
            self._wakes.setEnabled(False)
            self._wakes.deleteLater()
            self._wakes = None
        if self._bus is not None:
            self._bus.close()
            self._bus = None

    def _connected(self) -> SessionBus:
        if self._bus is None:
            bus = SessionBus()
            known = words_in(bus.call(BUS, BUS_PATH, BUS, "ListNames"))
            known += words_in(bus.call(BUS, BUS_PATH, BUS, "ListActivatableNames"))
            if SERVICE not in known:
                bus.close()
                raise OSError("nobody shows notices here")
            rule = f"type='signal',interface='{SERVICE}',member='ActionInvoked'"
            bus.call(BUS, BUS_PATH, BUS, "AddMatch", "s", rule)
            self._bus = bus
            self._wakes = QSocketNotifier(bus.fileno(), QSocketNotifier.Type.Read, self)
            self._wakes.activated.connect(self._heard)
        return self._bus

    def _heard(self) -> None:
        if self._bus is None:
            return
        try:
            signals = self._bus.signals()
        except OSError:
            self.close()
            return
        for heard in signals:
            if heard.member == "ActionInvoked" and len(heard.body) == 2:
                (self.put_off if heard.body[1] == PUT_OFF else self.opened).emit(int(heard.body[0]))
