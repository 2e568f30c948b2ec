"""Lists of batches: which, in what order, a page at a time. Quick with a hundred thousand of them.

An order is read once from its index and kept until a batch changes; what is asked for is then picked
from it, so that a keystroke costs one look into the word index.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from dryhouse.journal.database import Database
from dryhouse.journal.mapping import from_micros, mapped, to_micros
from dryhouse.journal.reading import every
from dryhouse.kitchen.ports import BatchQuery, BatchRow, YieldPair
from dryhouse.kitchen.records import Batch, Dryer, OwnFood
from dryhouse.kitchen.search_words import begins_a_word, foods_with_word, split_words

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_ORDERS = {
    "started": ("started",),
    "food": ("food", "started"),
    "fresh": ("prepared_mass_g",),
    "dried": ("dried_mass_g",),
    "yield": ("dried_mass_g / prepared_mass_g",),
    "rating": ("rating",),
    "id": ("id",),
}


class BatchLists:
    """The questions a table of batches and the yields place ask. Not for two threads at once."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._orders: dict[str, tuple[list[int], list[int]]] = {}
        """For each way of sorting the numbers in rising order, and those that have nothing to be sorted by."""
        self._arrays: dict[tuple[str, bool], NDArray[np.int64]] = {}
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
        version = self._database.value("PRAGMA data_version")
        if version != self._seen_version:
            self._drop()
            self._seen_version = version

    def _by_columns(self, columns: tuple[str, ...]) -> tuple[list[int], list[int]]:
        order = ", ".join((*columns, "id"))
        known = self._numbers(f"SELECT id FROM batch WHERE {columns[0]} IS NOT NULL ORDER BY {order}")
        return known, self._numbers(f"SELECT id FROM batch WHERE {columns[0]} IS NULL ORDER BY id")

    def _by_dryer(self) -> tuple[list[int], list[int]]:
        dryers = self._database.ask("SELECT id FROM dryer ORDER BY name, id")
        each = "SELECT id FROM batch WHERE dryer = {} ORDER BY started, id"
        known = [batch for (number,) in dryers for batch in self._numbers(each.format(number))]
        unknown = self._numbers("SELECT id FROM batch WHERE dryer IS NULL ORDER BY id")
        return known, unknown

    def _numbers(self, query: str) -> list[int]:
        """The one column of whole numbers a query gives."""
        found: list[int] = json.loads(self._as_json(query))
        return found

    def _array(self, query: str, *values: Any) -> NDArray[np.int64]:
        """The same, for picking."""
        import numpy as np

        return np.fromstring(self._as_json(query, *values)[1:-1], np.int64, sep=",")

    def _as_json(self, query: str, *values: Any) -> str:
        """All the numbers as one text, which is far quicker than row by row."""
        return str(self._database.value(f"SELECT json_group_array(id) FROM ({query})", values))

    def _picks(self, query: BatchQuery) -> Iterable[NDArray[np.int64]]:
        """For each condition, the numbers that fulfil it."""
        conditions: list[str] = []
        values: list[Any] = []

        def among(column: str, wanted: Sequence[Any]) -> None:
            conditions.append(f"{column} IN ({', '.join('?' * len(wanted))})")
            values.extend(wanted)

        if query.foods:
            among("food", query.foods)
        if query.states:
            among("state", query.states)
        if query.dryer is not None:
            among("dryer", (query.dryer,))
        if query.since is not None:
            conditions.append("started >= ?")
            values.append(to_micros(query.since))
        if query.until is not None:
            conditions.append("started < ?")
            values.append(to_micros(query.until))
        if conditions:
            several = sum(map(bool, (query.foods, query.states, query.dryer is not None))) > 1
            by = "INDEXED BY ix_batch_filter" if several else ""
            found = f"SELECT id FROM batch {by} WHERE {' AND '.join(conditions)}"
            yield self._array(found, *values)
        for word in split_words(query.text):
            yield self._with_word(word)

    def _with_word(self, beginning: str) -> NDArray[np.int64]:
        """Batches with a word that begins like this in their own text, their food's names or their dryer's."""
        foods = foods_with_word(beginning, every(self._database, OwnFood, {}))
        named = self._database.ask("SELECT id, name FROM dryer")
        dryers = [number for number, name in named if begins_a_word(beginning, name)]
        return self._array(_WITH_WORD, f'"{beginning}"*', json.dumps(sorted(foods)), json.dumps(dryers))

    def rows(self, ids: Sequence[int]) -> list[BatchRow]:
        """One line for each number, in the order given."""
        of, asked = mapped(Batch), (json.dumps(list(map(int, ids))),)
        names = dict(self._database.ask("SELECT id, name FROM dryer"))
        counts = dict(self._database.ask(_COUNTS, asked))
        lines = f"SELECT {of.listed} FROM batch WHERE id IN (SELECT value FROM json_each(?))"
        found = {}
        for record in map(of.record, self._database.ask(lines, asked)):
            found[record.id] = BatchRow(record, names.get(record.dryer, ""), counts.get(record.id, 0))
        return [found[number] for number in ids if number in found]

    def yield_pairs(self, food: str) -> tuple[YieldPair, ...]:
        """Every finished batch of the food with both a prepared and a dried mass, oldest first."""
        return tuple(map(_pair, self._database.ask(_PAIRS, (food,))))


_WITH_WORD = """SELECT rowid AS id FROM batch_words WHERE batch_words MATCH ?
    UNION ALL SELECT id FROM batch WHERE food IN (SELECT value FROM json_each(?))
    UNION ALL SELECT id FROM batch WHERE dryer IN (SELECT value FROM json_each(?))"""

_COUNTS = """SELECT batch, count(*) FROM weighing
    WHERE batch IN (SELECT value FROM json_each(?)) GROUP BY batch"""

_PAIRS = """SELECT id, food, form, pretreatment, prepared_mass_g, dried_mass_g, prepared_volume_ml, dried_volume_ml,
    set_temperature_c, dryer, trays, start_moisture_pct, started, ended FROM batch
    WHERE food = ? AND state = 'finished' AND prepared_mass_g IS NOT NULL AND dried_mass_g IS NOT NULL
    ORDER BY started, id"""


def _pair(row: tuple[Any, ...]) -> YieldPair:
    *kept, start_moisture, started, ended = row
    hours = (ended - started) / 3.6e9 if started is not None and ended is not None else None
    began = None if started is None else from_micros(started)
    return YieldPair(*(*kept, hours, began, start_moisture))
