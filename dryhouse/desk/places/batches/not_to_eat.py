"""Which of the listed batches a stop says not to eat: looked up in the pauses, for the lines that are shown."""

from __future__ import annotations

import time
from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer

from dryhouse.desk.session import Session
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem

_PAUSE_MS, _BETWEEN_MS = 60, 20
"""Before the first look, and between two."""
_AT_ONCE_S = 0.006
"""So long the window may be kept; what is left waits for the next pause."""


class NotToEat(QObject):
    """Knows of a batch once it had the time to look; then `found` is called, where one more must not be eaten."""

    def __init__(self, session: Session, found: Callable[[], None], parent: QObject) -> None:
        super().__init__(parent)
        self.session, self._found = session, found
        self._known: dict[int, tuple[Batch, bool]] = {}
        self._asked: dict[int, Batch] = {}
        self._pause = QTimer(self, singleShot=True, interval=_PAUSE_MS)
        self._pause.timeout.connect(self._look)

    def forget(self) -> None:
        """What a caution rests on may have changed."""
        self._known.clear()
        self._asked.clear()

    def of(self, batch: Batch) -> bool:
        """Whether it is known that this must not be eaten; asked for where it is not known yet."""
        known = self._known.get(batch.id)
        if known is None or known[0] != batch:
            self._asked[batch.id] = batch
            self._pause.start(_PAUSE_MS)
            return False
        return known[1]

    def _look(self) -> None:
        from dryhouse.kitchen.cautions.cautions import batch_cautions

        until, more = time.monotonic() + _AT_ONCE_S, False
        while self._asked and time.monotonic() < until:
            id, batch = self._asked.popitem()
            try:
                forbidden = any(c.forbids_eating for c in batch_cautions(self.session.kitchen, batch))
            except WorldProblem:  # closed meanwhile, or failed: whoever reads next says so
                self._asked.clear()
                return
            self._known[id] = (batch, forbidden)
            more |= forbidden
        if self._asked:
            self._pause.start(_BETWEEN_MS)
        if more:
            self._found()
