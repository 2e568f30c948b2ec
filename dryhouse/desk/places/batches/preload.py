"""What the first keystroke and the first save would wait for, read before they come."""

from __future__ import annotations

from threading import Thread
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dryhouse.desk.session import Session


def warm(session: Session) -> Thread:
    """Get the journal ready, make the unit registry and the index of foods, and import what a card is worked out
    with."""
    journal, handbook = session.kitchen.journal, session.kitchen.handbook

    def read() -> None:
        from dryhouse.science.quantities import registry

        journal.get_ready()
        registry()
        handbook.find("a", 1)

    reader = Thread(target=read, name="read ahead for the journal", daemon=True)
    reader.start()
    return reader
