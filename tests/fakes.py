"""A journal in memory that keeps the port's promises, for tests of the kitchen that need no file."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import replace
from pathlib import Path
from typing import Any

from dryhouse.kitchen.exchange.matching import settled
from dryhouse.kitchen.ports import BatchQuery, BatchRow, Change, R, Record, YieldPair
from dryhouse.kitchen.records import RECORD_KINDS, Batch, Dryer, OwnFood, Weighing
from dryhouse.kitchen.records.links import LINKS, ONCE
from dryhouse.kitchen.search_words import begins_a_word, foods_with_word, split_words
from dryhouse.science.errors import WorldProblem


class FakeStaging:
    """Records that wait, in a dictionary."""

    def __init__(self) -> None:
        self.waiting: dict[tuple[type, int], Any] = {}

    def add(self, record: Record) -> None:
        assert (type(record), record.id) not in self.waiting
        self.waiting[type(record), record.id] = record

    def get(self, kind: type[R], id: int) -> R | None:
        return self.waiting.get((kind, id))

    def close(self) -> None:
        self.waiting.clear()


class FakeJournal:
    """Records in dictionaries, one for each kind."""

    def __init__(self, *records: Record) -> None:
        self.kept: dict[type, dict[int, Any]] = {kind: {} for kind in RECORD_KINDS}
        self.highest: dict[type, int] = dict.fromkeys(RECORD_KINDS, 0)
        self.closed = False
        self.written_elsewhere = 0
        """Counted up by a test that plays another program."""
        self.path = Path("in memory")
        self.write(Change(None, r) for r in records)

    def get(self, kind: type[R], id: int) -> R | None:
        return self.kept[kind].get(id)

    def where(self, kind: type[R], **equals: Any) -> tuple[R, ...]:
        def fits(record: Any) -> bool:
            return all(
                getattr(record, name) in wanted if isinstance(wanted, tuple) else getattr(record, name) == wanted
                for name, wanted in equals.items()
            )

        return tuple(r for _, r in sorted(self.kept[kind].items()) if fits(r))

    def next_id(self, kind: type[Record]) -> int:
        self.highest[kind] += 1
        return self.highest[kind]

    def write(self, changes: Iterable[Change]) -> None:
        after = {kind: dict(rows) for kind, rows in self.kept.items()}
        highest = dict(self.highest)
        for change in changes:
            record = change.record
            if record.id <= 0:
                raise ValueError(f"{record} has no number yet")
            rows = after[type(record)]
            if rows.get(record.id) != change.before:
                raise WorldProblem("The journal has changed meanwhile; nothing was changed.")
            if change.after is None:
                del rows[record.id]
            else:
                rows[record.id] = change.after
            highest[type(record)] = max(highest[type(record)], record.id)
        self._keep_whole(after)
        self.kept, self.highest = after, highest

    def _keep_whole(self, after: dict[type, dict[int, Any]]) -> None:
        for kind, links in LINKS.items():
            for record in after[kind].values():
                for name, target in links.items():
                    number = getattr(record, name)
                    if number is not None and number not in after[target]:
                        raise WorldProblem(f"{record} belongs to a {target.__name__} that is not there.")
        for kind, names in ONCE.items():
            values = [tuple(getattr(r, n) for n in names) for r in after[kind].values()]
            if len(set(values)) != len(values):
                raise WorldProblem(f"Two {kind.__name__} records share {names}.")

    @contextmanager
    def alone(self) -> Iterator[None]:
        before = self.kept, self.highest
        try:
            yield
        except BaseException:
            self.kept, self.highest = before
            raise

    def stage(self) -> FakeStaging:
        return FakeStaging()

    def highest_id(self, kind: type[Record]) -> int:
        return self.highest[kind]

    def take_in(self, staging: Any, edits: Callable[[Mapping[type, int]], Iterable[Change]]) -> Mapping[type, int]:
        bases = dict(self.highest)
        new = [replace(settled(r, bases), id=bases[type(r)] + r.id) for r in staging.waiting.values()]
        with self.alone():
            self.write(Change(None, record) for record in new)
            self.write(edits(bases))
        return bases

    def at_one_moment(self) -> AbstractContextManager[None]:
        return nullcontext()

    def version(self) -> int:
        return self.written_elsewhere

    def batch_ids(self, query: BatchQuery) -> Sequence[int]:
        found = [b for b in self.kept[Batch].values() if self._fits(b, query)]
        keyed = [(self._key(b, query.sort), b) for b in found]
        known = [(k, b) for k, b in keyed if None not in k]
        unknown = [b for k, b in keyed if None in k]
        known.sort(key=lambda pair: (*pair[0], pair[1].id), reverse=query.descending)
        unknown.sort(key=lambda b: b.id, reverse=query.descending)
        return [b.id for _, b in known] + [b.id for b in unknown]

    def _dryer_name(self, batch: Batch) -> str:
        dryer = self.kept[Dryer].get(batch.dryer)
        return dryer.name if dryer else ""

    def _fits(self, batch: Batch, query: BatchQuery) -> bool:
        told = " ".join(
            (batch.food, batch.title, batch.form, batch.pretreatment, batch.notes, self._dryer_name(batch))
        )
        own = self.kept[OwnFood].values()
        started = batch.started or batch.ended
        return (
            all(
                begins_a_word(word, told) or batch.food in foods_with_word(word, own)
                for word in split_words(query.text)
            )
            and (not query.foods or batch.food in query.foods)
            and (query.dryer is None or batch.dryer == query.dryer)
            and (not query.states or batch.state in query.states)
            and (query.since is None or (started is not None and started >= query.since))
            and (query.until is None or (started is not None and started < query.until))
        )

    def _key(self, batch: Batch, sort: str) -> tuple[Any, ...]:
        prepared = batch.prepared_mass.si if batch.prepared_mass else None
        dried = batch.dried_mass.si if batch.dried_mass else None
        when = (batch.started is not None, batch.started)
        return {
            "started": (batch.started or batch.ended,),
            "food": (batch.food, when),
            "dryer": (self._dryer_name(batch) or None, when),
            "fresh": (prepared,),
            "dried": (dried,),
            "yield": (dried / prepared if dried is not None and prepared else None,),
            "rating": (batch.rating,),
            "id": (batch.id,),
        }[sort]

    def batch_rows(self, ids: Sequence[int]) -> list[BatchRow]:
        counts: dict[int, int] = {}
        for weighing in self.kept[Weighing].values():
            counts[weighing.batch] = counts.get(weighing.batch, 0) + 1
        batches = [self.kept[Batch][id] for id in ids if id in self.kept[Batch]]
        return [BatchRow(b, self._dryer_name(b), counts.get(b.id, 0)) for b in batches]

    def yield_pairs(self, food: str) -> tuple[YieldPair, ...]:
        pairs = [
            YieldPair(
                batch=b.id,
                food=b.food,
                form=b.form,
                pretreatment=b.pretreatment,
                prepared_g=b.prepared_mass.si,
                dried_g=b.dried_mass.si,
                prepared_ml=b.prepared_volume.si if b.prepared_volume else None,
                dried_ml=b.dried_volume.si if b.dried_volume else None,
                set_temperature_c=b.set_temperature.si if b.set_temperature else None,
                dryer=b.dryer,
                trays=b.trays,
                hours=(b.ended - b.started).total_seconds() / 3600 if b.started and b.ended else None,
                started=b.started,
                start_moisture_pct=b.start_moisture_pct,
            )
            for b in self.kept[Batch].values()
            if b.food == food and b.state == "finished" and b.prepared_mass and b.dried_mass
        ]
        return tuple(sorted(pairs, key=lambda p: (p.started is not None, p.started, p.batch)))

    def get_ready(self) -> None:
        pass

    def close(self) -> None:
        self.closed = True
