"""Lists of batches: which, in what order, a page at a time. Quick with a hundred thousand of them.

An order is read once from its index and kept until a batch changes; what is asked for is then picked
from it, so that a keystroke costs one look into the word index.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from dryhouse.journal.database import Database
from dryhouse.journal.sqlite import direct_sql
from dryhouse.journal.sqlite.file import data_version
from dryhouse.kitchen.ports import BatchQuery, BatchRow
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.kitchen.search_words import foods_with_word

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


_KEPT = 8
"""So many answers are kept, the latest."""


class BatchLists:
    """The questions a table of batches and the yields place ask. Not for two threads at once."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._orders: dict[str, tuple[list[int], list[int]]] = {}
        """For each way of sorting the numbers in rising order, and those that have nothing to be sorted by."""
        self._arrays: dict[tuple[str, bool], NDArray[np.int64]] = {}
        self._filtered: dict[tuple[Any, ...], list[NDArray[np.int64]]] = {}
        """What was asked lately beside the words, and the answers: while words are typed, or a batch is weighed, it
        is asked again and again."""
        self._seen_version = -1

    def get_ready(self) -> None:
        """Make ready what the first search would otherwise wait for; any thread may."""
        import numpy  # noqa: F401

        import dryhouse.journal.searching  # noqa: F401

        foods_with_word("a")

    def forget(self, kinds: Iterable[type]) -> None:
        """Records of these kinds have changed."""
        if not {Batch, Dryer}.isdisjoint(kinds):
            self._drop()

    def _drop(self) -> None:
        self._orders.clear()
        self._arrays.clear()
        self._filtered.clear()

    def ids(self, query: BatchQuery) -> Sequence[int]:
        """The numbers of the batches asked for, in order, those without the sorted value last."""
        self._notice_others()
        picks = self._picks(query) if query != BatchQuery(sort=query.sort, descending=query.descending) else []
        return self._picked(query, picks) if picks else self._all(query)

    def _all(self, query: BatchQuery) -> list[int]:
        """Every number, in the order asked for."""
        if query.sort not in self._orders:
            self._orders[query.sort] = direct_sql.batches_ordered(self._database.driver, query.sort)
        known, unknown = self._orders[query.sort]
        return known[::-1] + unknown[::-1] if query.descending else known + unknown

    def _picked(self, query: BatchQuery, picks: Iterable[NDArray[np.int64]]) -> list[int]:
        """Those of the ordered numbers that are in every one of the picks."""
        import numpy as np

        order = query.sort, query.descending
        if order not in self._arrays:
            self._arrays[order] = np.array(self._all(query), np.int64)
        ordered = self._arrays[order]
        for pick in picks:
            marks = np.zeros(max(ordered.max(initial=0), pick.max(initial=0)) + 1, np.bool_)
            marks[pick] = True
            ordered = ordered[marks[ordered]]
        found: list[int] = ordered.tolist()
        return found

    def _notice_others(self) -> None:
        """Drop what is remembered where another program has written to the file."""
        version = data_version(self._database.driver)
        if version != self._seen_version:
            self._drop()
            self._seen_version = version

    def _picks(self, query: BatchQuery) -> list[NDArray[np.int64]]:
        """For each condition, the numbers that fulfil it."""
        from dryhouse.journal.searching import numbers_filtered, numbers_with_words

        asked = query.foods, query.states, query.dryer, query.since, query.until
        if asked not in self._filtered:
            if len(self._filtered) >= _KEPT:
                self._filtered.pop(next(iter(self._filtered)))
            self._filtered[asked] = numbers_filtered(self._database.connection, query)
        return [*self._filtered[asked], *numbers_with_words(self._database.connection, query.text)]

    def rows(self, ids: Sequence[int]) -> list[BatchRow]:
        """One line for each number, in the order given."""
        driver = self._database.driver
        names = {dryer.id: dryer.name for dryer in direct_sql.every(driver, Dryer)}
        counts = direct_sql.weighings_counted(driver, ids)
        found = {}
        for batch in direct_sql.records_numbered(driver, Batch, ids):
            found[batch.id] = BatchRow(batch, names.get(batch.dryer or 0, ""), counts.get(batch.id, 0))
        return [found[number] for number in ids if number in found]
