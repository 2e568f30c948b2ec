"""The journal that is not there yet: it answers every question with nothing, and nothing can be put in it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from pathlib import Path
from typing import Any

from dryhouse.kitchen.ports import BatchQuery, BatchRow, Change, R, Record, Staging, YieldPair
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message


class MissingJournal:
    """Stands for a missing or empty file that is only to be read. It keeps the promises of
    `kitchen.ports.Journal`."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def get(self, kind: type[R], id: int) -> R | None:
        """None: there is no record."""
        return None

    def where(self, kind: type[R], **equals: Any) -> tuple[R, ...]:
        """No record."""
        return ()

    def next_id(self, kind: type[Record]) -> int:
        """The first number there is."""
        return 1

    def write(self, changes: Iterable[Change]) -> None:
        """Raises WorldProblem."""
        raise WorldProblem(message(Kind.NOTHING_TO_WRITE_TO, path=str(self.path)))

    def alone(self) -> AbstractContextManager[None]:
        """Nobody writes to what is not there."""
        return nullcontext()

    def version(self) -> int:
        """Always the same."""
        return 0

    def stage(self) -> Staging:
        """A place for new records: what comes can be looked through before there is a file."""
        from dryhouse.journal.staging import Waiting

        return Waiting()

    def highest_id(self, kind: type[Record]) -> int:
        """There never was one."""
        return 0

    def take_in(
        self, staging: Staging, edits: Callable[[Mapping[type, int]], Iterable[Change]]
    ) -> Mapping[type, int]:
        """Raises WorldProblem."""
        raise WorldProblem(message(Kind.NOTHING_TO_WRITE_TO, path=str(self.path)))

    def at_one_moment(self) -> AbstractContextManager[None]:
        """There is nothing that could change."""
        return nullcontext()

    def batch_ids(self, query: BatchQuery) -> Sequence[int]:
        """No number."""
        return []

    def batch_rows(self, ids: Sequence[int]) -> list[BatchRow]:
        """No line."""
        return []

    def yield_pairs(self, food: str) -> tuple[YieldPair, ...]:
        """No pair."""
        return ()

    def get_ready(self) -> None:
        """There is nothing to wait for."""

    def close(self) -> None:
        """Nothing is open."""
