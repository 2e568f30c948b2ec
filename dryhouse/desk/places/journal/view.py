"""The Journal: every batch, and what each one tells."""

from __future__ import annotations

from dryhouse.desk.place import Place
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.kitchen.records import Batch, BatchPart, Dryer


class JournalPlace(Place):
    """Every batch, and what each one tells."""

    watches = frozenset({Batch, BatchPart, Dryer})

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        inside = column(self)
        inside.addWidget(EmptyState(session.theme, "journal", "No batches yet", "Log the first one."))
