"""The Handbook: published figures of each food, with their sources."""

from __future__ import annotations

from dryhouse.desk.place import Place
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column
from dryhouse.desk.widgets.empty_state import EmptyState


class HandbookPlace(Place):
    """Published figures of each food, with their sources."""

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        inside = column(self)
        inside.addWidget(EmptyState(session.theme, "handbook", "Find a food", "Type its name above."))
