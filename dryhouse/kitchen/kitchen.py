"""The kitchen: the journal, the handbook and the clock that every act works with."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, tzinfo
from typing import Any, Concatenate, ParamSpec, TypeVar

from dryhouse.handbook.reader import Handbook
from dryhouse.kitchen.ports import Change, Done, Journal, Pending, R, joined
from dryhouse.kitchen.surroundings import Surroundings, judge
from dryhouse.science.errors import NotKnown

P = ParamSpec("P")
Answer = TypeVar("Answer")


def nothing_follows(_kitchen: Kitchen, _changes: Sequence[Change]) -> Sequence[Change]:
    """Nothing else changes with what is written."""
    return ()


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
    follow: Callable[[Kitchen, Sequence[Change]], Sequence[Change]] = nothing_follows
    """What changes with what was just written, because it is worked out from it: edits of records."""

    def do(self, act: Callable[Concatenate[Kitchen, P], Answer], *args: P.args, **named: P.kwargs) -> Answer:
        """`act(kitchen, …)` from its first look to its last word in one transaction: no other window or program
        writes in between."""
        with self.journal.alone():
            return act(self, *args, **named)

    def commit(self, what: str, pending: Pending, *, judged: bool = False) -> Done[Any]:
        """Write everything pending in one durable transaction and say what was done.

        Raises InputProblem, naming the field, where a record would be left that cannot be right; `judged` says
        that this was asked already.
        """
        written = self._write(pending.changes) if judged else self.write(pending.changes)
        return Done(what, tuple(written))

    def write(self, changes: Sequence[Change]) -> Sequence[Change]:
        """Write changes that make sense; undo and redo come through here too. Answers with every change that was
        written: those, and what is worked out from them. Raises InputProblem."""
        if not changes:
            return ()
        with self.journal.alone():
            for problem in judge(changes, self.around()):
                raise problem
            return self._write(changes)

    def _write(self, changes: Sequence[Change]) -> Sequence[Change]:
        if not changes:
            return ()
        with self.journal.alone():
            self.journal.write(changes)
            further = self.follow(self, changes)
            if further:
                self.journal.write(further)
        return joined(changes, further)

    def around(self) -> Surroundings:
        """What a record is judged against, here and now."""
        return Surroundings(self.journal, self.handbook, self.local, self.now())

    def present(self, kind: type[R], id: int, what: str, field: str = "") -> R:
        """The record of this number. Raises NotKnown where it is gone; `what` is what a person calls it."""
        found = self.journal.get(kind, id)
        if found is None:
            raise NotKnown(f"That {what} is no longer here.", field)
        return found

    def local(self, moment: datetime) -> datetime:
        """The moment on the person's own clock."""
        return moment.astimezone(self.zone)
