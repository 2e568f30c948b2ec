"""The runs that are shown: read once, and again only where an act touched their batch."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from collections.abc import Set as AbstractSet
from contextlib import suppress

from PySide6.QtCore import QObject

from dryhouse.desk.background import read_beside
from dryhouse.desk.session import Session
from dryhouse.kitchen.dryer.runs import DryingRun, run_of
from dryhouse.kitchen.ports import Done, Record
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence

_ONE_BATCH = (Weighing, BatchEvent, Batch)
"""What belongs to one batch and says nothing of another."""


class RunsRead(dict[int, DryingRun]):
    """Runs by the number of their batch."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._unread: set[int] | None = None
        """Batches to read again; None means all."""
        self._turn = 0
        """Counts what was written."""

    def note(self, done: Done[Record], kinds: AbstractSet[type]) -> None:
        """An act was done that touched records of these kinds: what belongs to them is to be read again."""
        if kinds <= set(_ONE_BATCH):
            records = [r for c in done.changes for r in (c.before, c.after) if isinstance(r, _ONE_BATCH)]
            self.touch(*(r.id if isinstance(r, Batch) else r.batch for r in records))
        else:
            self.forget()

    def forget(self) -> None:
        """Read them all again next time."""
        self._turn += 1
        self._unread = None

    def read_ahead(self, owner: QObject, then: Callable[[], None]) -> None:
        """Read again in a thread what is to be read again; `then` is told when it is there, while `owner` lives.
        Where anything is written meanwhile, whoever shows that shows this too."""
        kitchen, turn = self._session.kitchen, self._turn
        wanted = [batch for batch in self if self._unread is None or batch in self._unread]

        def read() -> dict[int, DryingRun]:
            with suppress(InputProblem):
                return {batch: run_of(kitchen, batch) for batch in wanted}
            return {}

        def keep(found: dict[int, DryingRun]) -> None:
            if turn != self._turn:
                return
            if self._unread is not None:
                self.update(found)
                self._unread -= found.keys()
            then()

        read_beside(owner, read, keep, "what instruments read")

    def touch(self, *batches: int) -> None:
        """Read these again next time."""
        self._turn += 1
        if self._unread is not None:
            self._unread.update(batches)

    def read(self, wanted: Sequence[int]) -> None:
        """Hold the runs of these batches and no others; what cannot be read is said and left out."""
        found = {batch: run for batch in wanted if (run := self._run(batch)) is not None}
        self.clear()
        self.update(found)
        self._unread = set()

    def _run(self, batch: int) -> DryingRun | None:
        if self._unread is not None and batch not in self._unread and batch in self:
            return self[batch]
        try:
            return run_of(self._session.kitchen, batch)
        except InputProblem as problem:
            said = problem_sentence(problem, self._session.style)
            self._session.say(f"Batch {batch} cannot be shown: {said}", "input")
            return None
