"""A service of notices over Qt's own binding of D-Bus: takes exactly what the specification of notices says.

python service.py FILE: writes each notice it takes into the file, and presses its second button.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from PySide6.QtCore import ClassInfo, QCoreApplication, QObject, QTimer, Signal, Slot
from PySide6.QtDBus import QDBusConnection

NAME, PATH = "org.freedesktop.Notifications", "/org/freedesktop/Notifications"
NUMBER = 7


@ClassInfo(**{"D-Bus Interface": NAME})
class Service(QObject):
    """Takes notices."""

    ActionInvoked = Signal("uint", str)

    def __init__(self, file: Path) -> None:
        super().__init__()
        self.file = file

    @Slot(str, "uint", str, str, str, "QStringList", "QVariantMap", int, result="uint")
    def Notify(self, app, replaces, icon, title, text, actions, hints, timeout):
        """What the specification calls Notify."""
        with self.file.open("a") as file:
            file.write(json.dumps([app, replaces, title, text, list(actions), sorted(hints)]) + "\n")
        QTimer.singleShot(20, lambda: self.ActionInvoked.emit(NUMBER, actions[2]))
        return NUMBER


def main() -> None:
    """Serve until ended."""
    app = QCoreApplication(sys.argv[:1])
    service = Service(Path(sys.argv[1]))
    bus = QDBusConnection.sessionBus()
    every = QDBusConnection.RegisterOption.ExportAllSlots | QDBusConnection.RegisterOption.ExportAllSignals
    bus.registerObject(PATH, service, every)
    bus.registerService(NAME)
    Path(sys.argv[1]).touch()
    app.exec()


if __name__ == "__main__":
    main()
