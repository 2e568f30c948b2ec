"""What the first keystroke and the first save would wait for, read before they come."""

from __future__ import annotations

from threading import Thread
from typing import TYPE_CHECKING

from dryhouse.desk.background import in_thread

if TYPE_CHECKING:
    from dryhouse.desk.session import Session


def warm(session: Session) -> Thread:
    """Get the journal ready, make the unit registry and the index of foods, and import what a card is worked out
    with."""
    journal, handbook = session.kitchen.journal, session.kitchen.handbook

    def read() -> None:
        import dryhouse.kitchen.cards.batch_card  # noqa: F401
        from dryhouse.science.quantities import registry

        journal.get_ready()
        registry()
        handbook.find("a", 1)

    return in_thread(read, "read ahead for the journal")
