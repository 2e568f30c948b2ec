"""Whatever is done in whatever order, in memory and in a file: undo takes all of it back, and every page opens.

Acts are drawn at random, sensible and not. One that is refused changes nothing; one that is done and taken
back leaves the journal as it was; numbers are given once; no lot holds more than was packed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.batches.log import BatchDraft, delete_batch, draft_for, edit_batch, log_batch, parts_of
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.cards.batch_list import batch_items
from dryhouse.kitchen.cautions.cautions import batch_cautions, lot_cautions
from dryhouse.kitchen.dryer.drying import (
    CameOff,
    add_weighing,
    correct_weighing,
    remove_weighing,
    reopen,
    start_batch,
    take_off,
    weighings_of,
)
from dryhouse.kitchen.dryer.due_now import reminders_due
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.runs import run_of, running
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, Done, Journal
from dryhouse.kitchen.records import RECORD_KINDS, Batch, BatchPart, Lot, Place, Weighing
from dryhouse.kitchen.records.lots import DRAW_KINDS, PACKAGES
from dryhouse.kitchen.records.weighings import EVENT_KINDS, LOAD, SAMPLE
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.conditioning import conditioning, end_conditioning, start_conditioning
from dryhouse.kitchen.shelf.labels import lot_labels
from dryhouse.kitchen.shelf.lots import (
    Found,
    check_lot,
    draw,
    edit_lot,
    move,
    open_lot,
    redry,
    remove_lot,
    throw_out,
)
from dryhouse.kitchen.shelf.packing import Package, pack, shelve, split
from dryhouse.kitchen.shelf.places import add_place, places, remove_place
from dryhouse.kitchen.shelf.shelf import shelf
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from tests.journal.journals import BOTH, empty_journal
from tests.often import often

START = datetime(2026, 8, 1, 8, tzinfo=UTC)
FOODS = st.sampled_from(["corn", "apple", "ground-beef", "moon rock"])
ANY = st.integers(0, 6)
"""Which of the records there are: the first, the second, and round again."""
GRAMS = st.sampled_from([0.0, 1.0, 40.0, 150.0, 240.0, 800.0, 1000.0, 5000.0, 1e6])
SOME = st.none() | GRAMS


def mass(grams: float | None) -> Mass | None:
    return None if grams is None else Mass(grams, f"{grams:g} g")


class AnyOrder(RuleBasedStateMachine):
    """A kitchen in which anything may happen next."""

    which = BOTH[0]

    def __init__(self) -> None:
        super().__init__()
        self.opened: AbstractContextManager[Journal] = empty_journal(self.which)
        self.time = START
        self.kitchen = Kitchen(self.opened.__enter__(), handbook(), lambda: self.time, UTC)
        self.done: list[tuple[Done, Any]] = []
        self.undone: list[Done] = []
        self.given: set[tuple[type, int]] = set()

    # --- doing and undoing

    def kept(self) -> list[tuple[Any, ...]]:
        return [self.kitchen.journal.where(kind) for kind in RECORD_KINDS]

    def act(self, act: Callable[..., Done], *given: Any, **more: Any) -> None:
        before = self.kept()
        try:
            done = act(self.kitchen, *given, **more)
        except InputProblem:
            assert self.kept() == before
            return
        for change in done.changes:
            if change.before is None:
                number = (type(change.record), change.record.id)
                assert number not in self.given
                self.given.add(number)
        assert done.what.strip()
        self.done.append((done, before))
        self.undone.clear()

    def one(self, kind: type, which: int) -> int:
        """The number of one of the records, or of none."""
        there = self.kitchen.journal.where(kind)
        return there[which % len(there)].id if there else 99

    @rule()
    def undo(self) -> None:
        if self.done:
            done, before = self.done.pop()
            self.kitchen.journal.write(done.undone().changes)
            assert self.kept() == before
            self.undone.append(done)

    @rule()
    def redo(self) -> None:
        if self.undone:
            done, before = self.undone.pop(), self.kept()
            self.kitchen.journal.write(done.changes)
            self.done.append((done, before))

    @rule(hours=st.sampled_from([0.5, 3.0, 9.0, 24.0, 400.0]))
    def wait(self, hours: float) -> None:
        self.time += timedelta(hours=hours)

    # --- batches

    @rule(food=FOODS, loaded=SOME, dried=SOME, hours=st.none() | st.integers(-1, 30), mix=st.booleans())
    def log(self, food: str, loaded: float | None, dried: float | None, hours: int | None, mix: bool) -> None:
        ended = None if hours is None else self.time
        started = None if hours is None else self.time - timedelta(hours=hours)
        batch = Batch(food, prepared_mass=mass(loaded), dried_mass=mass(dried), started=started, ended=ended)
        parts = (BatchPart(0, 0, "corn", Mass(500.0)), BatchPart(0, 1, "apple", Mass(300.0))) if mix else ()
        self.act(log_batch, BatchDraft(batch, parts))

    @rule(food=FOODS, loaded=SOME)
    def start(self, food: str, loaded: float | None) -> None:
        self.act(start_batch, Batch(food, prepared_mass=mass(loaded), set_temperature=Temperature(57.0)))

    @rule(which=ANY, food=FOODS, dried=SOME, keep=st.booleans())
    def edit(self, which: int, food: str, dried: float | None, keep: bool) -> None:
        batch = self.kitchen.journal.get(Batch, self.one(Batch, which))
        if batch is not None:
            parts = parts_of(self.kitchen, batch.id) if keep else ()
            changed = replace(batch, food=food, dried_mass=mass(dried))
            self.act(edit_batch, batch.id, BatchDraft(changed, parts))

    @rule(which=ANY)
    def delete(self, which: int) -> None:
        self.act(delete_batch, self.one(Batch, which))

    @rule(which=ANY, grams=GRAMS, tare=SOME, scope=st.sampled_from([None, LOAD, SAMPLE]))
    def weigh(self, which: int, grams: float, tare: float | None, scope: str | None) -> None:
        self.act(add_weighing, self.one(Batch, which), Reading(Mass(grams), tare=mass(tare), scope=scope))

    @rule(which=ANY, grams=GRAMS)
    def correct(self, which: int, grams: float) -> None:
        weighing = self.kitchen.journal.get(Weighing, self.one(Weighing, which))
        if weighing is not None:
            self.act(correct_weighing, replace(weighing, gross=Mass(grams)))

    @rule(which=ANY)
    def unweigh(self, which: int) -> None:
        self.act(remove_weighing, self.one(Weighing, which))

    @rule(which=ANY, kind=st.sampled_from(EVENT_KINDS))
    def happen(self, which: int, kind: str) -> None:
        self.act(add_event, self.one(Batch, which), Happening(kind, temperature=Temperature(60.0)))

    @rule(which=ANY, dried=SOME)
    def finish(self, which: int, dried: float | None) -> None:
        self.act(take_off, self.one(Batch, which), CameOff(mass(dried)))

    @rule(which=ANY)
    def put_back(self, which: int) -> None:
        self.act(reopen, self.one(Batch, which))

    # --- the shelf

    @rule(name=st.sampled_from(["pantry", "cellar", "Pantry"]), celsius=st.sampled_from([-18.0, 15.0, 21.0]))
    def build(self, name: str, celsius: float) -> None:
        self.act(add_place, name, Temperature(celsius))

    @rule(which=ANY)
    def pull_down(self, which: int) -> None:
        self.act(remove_place, self.one(Place, which))

    @rule(which=ANY, grams=SOME, kind=st.sampled_from(sorted(PACKAGES)), place=st.none() | ANY)
    def pack_one(self, which: int, grams: float | None, kind: str, place: int | None) -> None:
        where = None if place is None else self.one(Place, place)
        self.act(pack, self.one(Batch, which), [Package(kind, mass(grams), place=where)])

    @rule(which=ANY, count=st.integers(1, 3))
    def pack_evenly(self, which: int, count: int) -> None:
        batch = self.kitchen.journal.get(Batch, self.one(Batch, which))
        if batch is not None:
            self.act(pack, batch.id, split(self.kitchen, batch, count))

    @rule(food=FOODS, grams=SOME, days=st.none() | st.integers(-5, 300))
    def buy(self, food: str, grams: float | None, days: int | None) -> None:
        keep_by = None if days is None else self.time.date() + timedelta(days=days)
        self.act(shelve, food, Package("bag", mass(grams)), keep_by)

    @rule(which=ANY, place=ANY)
    def carry(self, which: int, place: int) -> None:
        self.act(move, [self.one(Lot, which)], self.one(Place, place))

    @rule(which=ANY, grams=SOME, purpose=st.sampled_from(sorted(DRAW_KINDS)))
    def take(self, which: int, grams: float | None, purpose: str) -> None:
        self.act(draw, self.one(Lot, which), mass(grams), purpose=purpose)

    @rule(which=ANY, act=st.sampled_from([open_lot, redry, remove_lot, start_conditioning, end_conditioning]))
    def handle(self, which: int, act: Callable[..., Done]) -> None:
        self.act(act, self.one(Lot, which))

    @rule(which=ANY, moist=st.booleans(), mould=st.booleans())
    def look_at(self, which: int, moist: bool, mould: bool) -> None:
        self.act(check_lot, self.one(Lot, which), Found(moist=moist, mould=mould))

    @rule(which=ANY, back=st.integers(-3, 10))
    def redate(self, which: int, back: int) -> None:
        lot = self.kitchen.journal.get(Lot, self.one(Lot, which))
        if lot is not None:
            self.act(edit_lot, replace(lot, packed_on=lot.packed_on - timedelta(days=back)))

    @rule(which=st.lists(ANY, min_size=1, max_size=2))
    def discard(self, which: Sequence[int]) -> None:
        self.act(throw_out, [self.one(Lot, n) for n in which])

    # --- what always holds

    @rule()
    def every_page_opens(self) -> None:
        kitchen = self.kitchen
        assert len(batch_items(kitchen, BatchQuery())) == len(kitchen.journal.where(Batch))
        lots = [lot.id for lot in kitchen.journal.where(Lot)]
        assert {line.lot.id for line in shelf(kitchen)} <= set(lots)
        assert len(lot_labels(kitchen, lots, Style())) == len(lots)
        for batch in kitchen.journal.where(Batch):
            batch_card(kitchen, batch.id)
            batch_cautions(kitchen, batch)
            draft_for(kitchen, batch.food)
            run_of(kitchen, batch.id)
            assert list(weighings_of(kitchen, batch.id)) == sorted(
                kitchen.journal.where(Weighing, batch=batch.id), key=lambda w: (w.at, w.id)
            )
        for lot in kitchen.journal.where(Lot):
            lot_cautions(kitchen, lot)
        running(kitchen)
        reminders_due(kitchen)
        conditioning(kitchen)
        places(kitchen)

    @invariant()
    def no_lot_holds_more_than_was_packed_nor_less_than_nothing(self) -> None:
        for lot in self.kitchen.journal.where(Lot):
            left = ShelfBook.read(self.kitchen, lot.id).left(lot, self.time.date())
            if left.mass_g is not None:
                assert left.mass_g >= 0
                assert lot.mass is None or left.mass_g <= lot.mass.si

    def teardown(self) -> None:
        try:
            self.every_page_opens()
            while self.done:
                self.undo()
            assert not any(self.kept())
            self.every_page_opens()
        finally:
            self.opened.__exit__(None, None, None)


class InAFile(AnyOrder):
    """The same, kept in a file."""

    which = BOTH[1]


@pytest.mark.parametrize(("machine", "examples"), [(AnyOrder, often(40)), (InAFile, often(10))], ids=BOTH)
def test_whatever_is_done_can_be_undone_and_looked_at(machine: type[AnyOrder], examples: int) -> None:
    slow = [HealthCheck.too_slow, HealthCheck.data_too_large]
    how = settings(max_examples=examples, stateful_step_count=40, deadline=None, suppress_health_check=slow)
    run_state_machine_as_test(machine, settings=how)
