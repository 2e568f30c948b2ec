"""The kitchen: the journal, the handbook and the clock that every act works with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, tzinfo

from dryhouse.handbook.reader import Handbook
from dryhouse.kitchen.ports import Done, Journal, Pending, R
from dryhouse.science.errors import InputProblem


def utc_now() -> datetime:
    """The present moment, in UTC."""
    return datetime.now(UTC)


@dataclass(frozen=True)
class Kitchen:
    """What an act needs. Acts are functions whose first argument is the kitchen.

    An act that writes builds a `Pending`, and ends with `return kitchen.commit("…", pending)`.
    """

    journal: Journal
    handbook: Handbook
    now: Callable[[], datetime] = utc_now
    zone: tzinfo | None = field(default=None)
    """Where the person is; None means the machine's own time zone."""

    def commit(self, what: str, pending: Pending) -> Done:
        """Write everything pending in one durable transaction and say what was done."""
        changes = tuple(pending.changes)
        if changes:
            self.journal.write(changes)
        return Done(what, changes)

    def present(self, kind: type[R], id: int, what: str, field: str = "") -> R:
        """The record of this number. Raises InputProblem where it is gone; `what` is what a person calls it."""
        found = self.journal.get(kind, id)
        if found is None:
            raise InputProblem(f"That {what} is no longer here.", field)
        return found

    def local(self, moment: datetime) -> datetime:
        """The moment on the person's own clock."""
        return moment.astimezone(self.zone)
