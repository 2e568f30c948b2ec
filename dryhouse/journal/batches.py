"""Lists of batches: which, in what order, a page at a time. Quick with a hundred thousand of them.

An order is read once from its index and kept until a batch changes; what is asked for is then picked
from it, so that a keystroke costs one look into the word index.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from sqlalchemy import ColumnElement, Row, Select, and_, bindparam, func, select, union_all

from dryhouse.journal.database import Database
from dryhouse.journal.reading import every
from dryhouse.journal.sqlite import queries
from dryhouse.journal.sqlite.file import times_written_elsewhere
from dryhouse.journal.tables import TABLES, YIELD
from dryhouse.kitchen.ports import BatchQuery, BatchRow, YieldPair
from dryhouse.kitchen.records import Batch, Dryer, OwnFood, Weighing
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.search_words import begins_a_word, foods_with_word, split_words

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_HOUR = timedelta(hours=1)
_batch, _dryer, _weighing = (TABLES[kind].c for kind in (Batch, Dryer, Weighing))
_ORDERS: dict[str, tuple[ColumnElement[Any], ...]] = {
    "started": (_batch.started,),
    "food": (_batch.food, _batch.started),
    "fresh": (_batch.prepared_mass_g,),
    "dried": (_batch.dried_mass_g,),
    "yield": (YIELD,),
    "rating": (_batch.rating,),
    "id": (_batch.id,),
}


class BatchLists:
    """The questions a table of batches and the yields place ask. Not for two threads at once."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._orders: dict[str, tuple[list[int], list[int]]] = {}
        """For each way of sorting the numbers in rising order, and those that have nothing to be sorted by."""
        self._arrays: dict[tuple[str, bool], NDArray[np.int64]] = {}
        self._filtered: tuple[tuple[Any, ...], list[NDArray[np.int64]]] | None = None
        """What was asked last beside the words, and the answers: while words are typed it stays the same."""
        self._seen_version = -1

    def get_ready(self) -> None:
        """Make ready what the first search would otherwise wait for; any thread may."""
        import numpy  # noqa: F401

        foods_with_word("a")

    def forget(self, kinds: Iterable[type]) -> None:
        """Records of these kinds have changed."""
        if not {Batch, Dryer}.isdisjoint(kinds):
            self._drop()

    def _drop(self) -> None:
        self._orders.clear()
        self._arrays.clear()
        self._filtered = None

    def ids(self, query: BatchQuery) -> Sequence[int]:
        """The numbers of the batches asked for, in order, those without the sorted value last."""
        self._notice_others()
        picks = list(self._picks(query))
        return self._picked(query, picks) if picks else self._all(query)

    def _all(self, query: BatchQuery) -> list[int]:
        """Every number, in the order asked for."""
        if query.sort not in self._orders:
            self._orders[query.sort] = (
                self._by_dryer() if query.sort == "dryer" else self._by_columns(_ORDERS[query.sort])
            )
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
        version = times_written_elsewhere(self._database.driver)
        if version != self._seen_version:
            self._drop()
            self._seen_version = version

    def _by_columns(self, columns: tuple[ColumnElement[Any], ...]) -> tuple[list[int], list[int]]:
        first = columns[0]
        known = select(_batch.id).where(first.is_not(None)).order_by(*columns, _batch.id)
        return self._numbers(known), self._numbers(_unknown(first))

    def _by_dryer(self) -> tuple[list[int], list[int]]:
        dryers = self._database.connection.scalars(select(_dryer.id).order_by(_dryer.name, _dryer.id)).all()
        each = select(_batch.id).order_by(_batch.started, _batch.id)
        known = [batch for dryer in dryers for batch in self._numbers(each.where(_batch.dryer == dryer))]
        return known, self._numbers(_unknown(_batch.dryer))

    def _numbers(self, query: Select[Any]) -> list[int]:
        """The numbers of batches a query answers."""
        found: list[int] = json.loads(queries.as_text(self._database.connection, query))
        return found

    def _array(self, query: Select[Any]) -> NDArray[np.int64]:
        """The same, for picking."""
        import numpy as np

        return np.fromstring(queries.as_text(self._database.connection, query)[1:-1], np.int64, sep=",")

    def _picks(self, query: BatchQuery) -> Iterator[NDArray[np.int64]]:
        """For each condition, the numbers that fulfil it."""
        asked = query.foods, query.states, query.dryer, query.since, query.until
        if self._filtered is None or self._filtered[0] != asked:
            self._filtered = asked, [self._array(select(_batch.id).where(c)) for c in _conditions(query)]
        yield from self._filtered[1]
        for word in split_words(query.text):
            yield self._array(self._with_word(word))

    def _with_word(self, beginning: str) -> Select[Any]:
        """Batches with a word that begins like this in their own text, their food's names or their dryer's."""
        connection = self._database.connection
        foods = foods_with_word(beginning, every(connection, OwnFood, {}))
        dryers = [dryer for dryer, name in self._names().items() if begins_a_word(beginning, name)]
        ways = (
            queries.batches_with_word(beginning),
            select(_batch.id).where(_batch.food.in_(sorted(foods))),
            select(_batch.id).where(_batch.dryer.in_(dryers)),
        )
        return select(union_all(*ways).subquery().c.id)

    def _names(self) -> dict[int, str]:
        """What each dryer is called."""
        return {row.id: row.name for row in self._database.connection.execute(select(_dryer.id, _dryer.name))}

    def rows(self, ids: Sequence[int]) -> list[BatchRow]:
        """One line for each number, in the order given."""
        connection, names = self._database.connection, self._names()
        weighed = select(_weighing.batch, func.count()).where(_weighing.batch.in_(ids)).group_by(_weighing.batch)
        counts = {row[0]: row[1] for row in connection.execute(weighed)}
        found = {}
        for record in every(connection, Batch, {"id": tuple(ids)}):
            found[record.id] = BatchRow(record, names.get(record.dryer or 0, ""), counts.get(record.id, 0))
        return [found[number] for number in ids if number in found]

    def yield_pairs(self, food: str) -> tuple[YieldPair, ...]:
        """Every finished batch of the food with both a prepared and a dried mass, oldest first."""
        return tuple(map(_pair, self._database.connection.execute(_PAIRS, {"food": food})))


def _unknown(column: ColumnElement[Any]) -> Select[Any]:
    return select(_batch.id).where(column.is_(None)).order_by(_batch.id)


def _conditions(query: BatchQuery) -> Iterator[ColumnElement[bool]]:
    """What is asked beside the words. Each by itself is answered from an index alone."""
    if query.foods:
        yield _batch.food.in_(query.foods)
    if query.states:
        yield _batch.state.in_(query.states)
    if query.dryer is not None:
        yield _batch.dryer == query.dryer
    bounds = []
    if query.since is not None:
        bounds.append(_batch.started >= query.since)
    if query.until is not None:
        bounds.append(_batch.started < query.until)
    if bounds:
        yield and_(*bounds)


_PAIRS: Select[Any] = (
    select(
        _batch.id,
        _batch.food,
        _batch.form,
        _batch.pretreatment,
        _batch.prepared_mass_g,
        _batch.dried_mass_g,
        _batch.prepared_volume_ml,
        _batch.dried_volume_ml,
        _batch.set_temperature_c,
        _batch.dryer,
        _batch.trays,
        _batch.start_moisture_pct,
        _batch.started,
        _batch.ended,
    )
    .where(_batch.food == bindparam("food"), _batch.state == FINISHED)
    .where(_batch.prepared_mass_g.is_not(None), _batch.dried_mass_g.is_not(None))
    .order_by(_batch.started, _batch.id)
)


def _pair(row: Row[Any]) -> YieldPair:
    *kept, start_moisture, started, ended = tuple(row)
    hours = (ended - started) / _HOUR if started is not None and ended is not None else None
    return YieldPair(*(*kept, hours, started, start_moisture))
