"""Which batches fulfil what is asked: their numbers, condition by condition, for a list to pick from."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import numpy as np
from sqlalchemy import ColumnElement, Connection, Select, and_, or_, select, union_all

from dryhouse.journal.mapping import to_micros
from dryhouse.journal.reading import every
from dryhouse.journal.sqlite import queries
from dryhouse.journal.tables import TABLES
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, Dryer, OwnFood
from dryhouse.kitchen.search_words import begins_a_word, foods_with_word, split_words

if TYPE_CHECKING:
    from numpy.typing import NDArray

_batch = TABLES[Batch].c


def numbers_filtered(connection: Connection, query: BatchQuery) -> list[NDArray[np.int64]]:
    """For each condition beside the words, the numbers of the batches that fulfil it."""
    return [_numbers(connection, select(_batch.id).where(condition)) for condition in _conditions(query)]


def numbers_with_words(connection: Connection, text: str) -> list[NDArray[np.int64]]:
    """For each word, the numbers of the batches it finds."""
    return [_numbers(connection, _with_word(connection, word)) for word in split_words(text)]


def _conditions(query: BatchQuery) -> Iterator[ColumnElement[bool]]:
    """Each by itself is answered from an index alone."""
    if query.foods:
        yield _batch.food.in_(query.foods)
    if query.states:
        yield _batch.state.in_(query.states)
    if query.dryer is not None:
        yield _batch.dryer == query.dryer
    if query.since is not None or query.until is not None:
        yield or_(
            and_(*_between(_batch.started, query)), and_(_batch.started.is_(None), *_between(_batch.ended, query))
        )


def _between(moment: ColumnElement[int], query: BatchQuery) -> Iterator[ColumnElement[bool]]:
    if query.since is not None:
        yield moment >= to_micros(query.since)
    if query.until is not None:
        yield moment < to_micros(query.until)


def _with_word(connection: Connection, beginning: str) -> Select[Any]:
    """Batches with a word that begins like this in their own text, their food's names or their dryer's."""
    foods = foods_with_word(beginning, every(connection, OwnFood, {}))
    dryers = [dryer.id for dryer in every(connection, Dryer, {}) if begins_a_word(beginning, dryer.name)]
    ways = (
        queries.batches_with_word(beginning),
        select(_batch.id).where(_batch.food.in_(sorted(foods))),
        select(_batch.id).where(_batch.dryer.in_(dryers)),
    )
    return select(union_all(*ways).subquery().c.id)


def _numbers(connection: Connection, query: Select[Any]) -> NDArray[np.int64]:
    return np.fromstring(queries.as_text(connection, query)[1:-1], np.int64, sep=",")
