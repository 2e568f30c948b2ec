"""What the first keystroke in the log form would wait for, read before it comes."""

from __future__ import annotations

from threading import Thread
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dryhouse.desk.session import Session


def warm(session: Session) -> Thread:
    """Make the unit registry and the index of foods, and import what a card is worked out with."""
    handbook = session.kitchen.handbook

    def read() -> None:
        import dryhouse.kitchen.card
        import dryhouse.kitchen.typed_batch  # noqa: F401
        from dryhouse.science.quantities import registry

        registry()
        handbook.find("a", 1)

    reader = Thread(target=read, name="read ahead for the journal", daemon=True)
    reader.start()
    return reader
