"""What other windows and programs write to the journal that is open here: looked for often, and on return."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt, QTimer
from PySide6.QtGui import QGuiApplication

from dryhouse.desk.session import Session

_LOOK_EVERY_MS = 700
"""Soon enough to be read as at once, and a look costs some ten microseconds."""


class Elsewhere(QObject):
    """Looks for the session's sake until it is stopped."""

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.session = session
        self.timer = QTimer(self, interval=_LOOK_EVERY_MS)
        self.timer.timeout.connect(session.look_elsewhere)
        self.timer.start()
        app = QGuiApplication.instance()
        assert isinstance(app, QGuiApplication)
        app.applicationStateChanged.connect(self._returned)

    def _returned(self, state: Qt.ApplicationState) -> None:
        if state is Qt.ApplicationState.ApplicationActive and self.timer.isActive():
            self.session.look_elsewhere()

    def stop(self) -> None:
        """Look no more."""
        self.timer.stop()
