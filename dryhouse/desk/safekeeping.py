"""The backup of the day, also of a window that stays open for weeks: soon after opening, and then by a timer."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from dryhouse.desk.background import read_beside
from dryhouse.desk.session import Session
from dryhouse.science.errors import WorldProblem

if TYPE_CHECKING:
    from dryhouse.desk.journal_access import JournalAccess

_SOON_MS = 20_000
"""After what a window reads when it opens."""
_EVERY_MS = 30 * 60_000


class Safekeeping(QObject):
    """Asks whether a backup is due, beside the window, as long as the session lasts."""

    def __init__(self, session: Session, journals: JournalAccess, path: Path) -> None:
        super().__init__(session)
        self._session, self._journals, self._path = session, journals, path
        self._asking = False
        for interval, once in ((_SOON_MS, True), (_EVERY_MS, False)):
            timer = QTimer(self, interval=interval, singleShot=once)
            timer.timeout.connect(self.ask)
            timer.start()

    def ask(self) -> None:
        """Make a backup if one is due. What keeps it from being made is said."""
        if self._asking:
            return
        self._asking = True
        journals, path = self._journals, self._path

        def back_up() -> tuple[WorldProblem | None]:
            try:
                journals.back_up_if_due(path)
            except WorldProblem as problem:
                return (problem,)
            return (None,)

        read_beside(self, back_up, self._made, "the backup of the day")

    def _made(self, problem: tuple[WorldProblem | None]) -> None:
        self._asking = False
        for said in problem:
            if said is not None:
                self._session.meet(said)
