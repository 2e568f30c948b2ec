"""What the first keystroke and the first save would wait for, read before they come."""

from __future__ import annotations

from threading import Thread
from typing import TYPE_CHECKING

from dryhouse.desk.background import in_thread
from dryhouse.kitchen.foods.catalog import names_of_all
from dryhouse.kitchen.records import OwnFood

if TYPE_CHECKING:
    from dryhouse.desk.session import Session


def preload_journal(session: Session) -> Thread:
    """Get the journal ready, make the unit registry and the index of foods, and import what a card is worked out
    with."""
    kitchen, journal = session.kitchen, session.kitchen.journal
    own = journal.where(OwnFood)

    def read() -> None:
        import dryhouse.kitchen.cards.batch_card  # noqa: F401
        from dryhouse.science.quantities import registry

        journal.get_ready()
        registry()
        names_of_all(kitchen, own).find("a", 1)

    return in_thread(read, "read ahead for the journal")
