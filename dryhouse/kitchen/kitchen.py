"""The kitchen: the journal, the handbook and the clock that every act works with."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, tzinfo
from typing import Any, Concatenate, ParamSpec, TypeVar

from dryhouse.handbook.reader import Handbook
from dryhouse.kitchen.ports import Change, Done, Journal, Pending, R
from dryhouse.kitchen.surroundings import Surroundings, judge
from dryhouse.science.errors import NotKnown

P = ParamSpec("P")
Answer = TypeVar("Answer")


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
        done: Done[Any] = Done(what, tuple(pending.changes))
        if judged and done.changes:
            self.journal.write(done.changes)
        else:
            self.write(done.changes)
        return done

    def write(self, changes: Sequence[Change]) -> None:
        """Write changes that make sense; undo and redo come through here too. Raises InputProblem."""
        if not changes:
            return
        with self.journal.alone():
            for problem in judge(changes, self.around()):
                raise problem
            self.journal.write(changes)

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
