"""The sample journal: made from its tables, whole, and everyone's own copy."""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import pairwise
from pathlib import Path

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.journal.sample import bring_to_the_present, build, fresh_copy, sample_folder
from dryhouse.journal.store import SqlJournal
from dryhouse.kitchen.ports import BatchQuery, Change
from dryhouse.kitchen.records import (
    RECORD_KINDS,
    Batch,
    BatchEvent,
    BatchPart,
    CookingNotePart,
    Dryer,
    Lot,
    LotCheck,
    Meal,
    MealPart,
    OwnFigure,
    OwnFood,
    Trip,
    Weighing,
)
from dryhouse.kitchen.records.batches import DRYING, FINISHED


@pytest.fixture(autouse=True)
def own_cache(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path_factory.mktemp("cache")
    monkeypatch.setattr("platformdirs.user_cache_path", lambda *_, **__: folder)


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SqlJournal]:
    file = tmp_path_factory.mktemp("sample") / "sample.dryhouse"
    build(file)
    assert check(file) == []
    journal = open_journal(file, write=False)
    yield journal
    journal.close()


def test_every_kind_of_record_is_shown(sample: SqlJournal) -> None:
    assert [kind.__name__ for kind in RECORD_KINDS if not sample.where(kind)] == []


def test_it_holds_two_seasons_of_batches_a_third_of_them_weighed(sample: SqlJournal) -> None:
    finished = sample.where(Batch, state=FINISHED)
    assert len(finished) >= 90
    assert {b.started.year for b in finished if b.started} == {2025, 2026}
    weighed = {w.batch for w in sample.where(Weighing)}
    assert len(finished) / 3.5 <= len(weighed & {b.id for b in finished}) <= len(finished) / 2.5
    for number in weighed:
        assert 6 <= len(sample.where(Weighing, batch=number)) <= 14


def test_two_batches_are_still_drying(sample: SqlJournal) -> None:
    running = sample.where(Batch, state=DRYING)
    assert len(running) == 2
    assert {b.dryer for b in running} == {1, 2}
    assert all(b.started and b.started > datetime(2026, 11, 24, tzinfo=UTC) and b.ended is None for b in running)
    assert all(sample.where(Weighing, batch=b.id) for b in running)


def test_every_food_is_one_the_handbook_or_the_journal_knows(sample: SqlJournal) -> None:
    known = set(handbook().foods) | {f.slug for f in sample.where(OwnFood)}
    used = {r.food for k in (Batch, BatchPart, Lot, MealPart, OwnFigure, CookingNotePart) for r in sample.where(k)}
    assert used - {""} <= known
    assert {f.like for f in sample.where(OwnFood)} <= set(handbook().foods)


def test_every_staple_is_one_the_handbook_knows(sample: SqlJournal) -> None:
    from dryhouse.handbook.reading import FOLDER

    with (FOLDER / "staples.csv").open(encoding="utf-8", newline="") as table:
        staples = {row["slug"] for row in csv.DictReader(table)}
    assert {p.staple for p in sample.where(MealPart)} - {""} <= staples


def test_the_dryers_the_meals_and_the_circuits_are_those_of_the_club(sample: SqlJournal) -> None:
    assert [(d.name, d.trays) for d in sample.where(Dryer)] == [("shelf dryer", 6), ("box dryer", 10)]
    assert len(sample.where(Meal)) == 6
    for trip in sample.where(Trip):
        assert trip.people == 4
        assert (trip.ends_on - trip.starts_on).days == 8
    assert [t.starts_on.year for t in sample.where(Trip)] == [2026, 2027]


def test_yields_lie_near_the_mass_balance_but_for_the_one_that_does_not_add_up(sample: SqlJournal) -> None:
    off = []
    for batch in sample.where(Batch, state=FINISHED):
        food = handbook().foods.get(batch.food)
        if food is None or "water" not in food.facts or not batch.prepared_mass or not batch.dried_mass:
            continue
        solids = batch.prepared_mass.si * (1 - food.facts["water"].value / 100)
        if not 0.85 < batch.dried_mass.si / solids < 1.45:
            off.append(batch.food)
    assert off == ["zucchini"]


def test_weighings_fall_and_end_near_the_dried_mass(sample: SqlJournal) -> None:
    for batch in sample.where(Batch, state=FINISHED):
        loads = [w for w in sample.where(Weighing, batch=batch.id) if w.scope == "load"]
        loads.sort(key=lambda w: w.at)
        if loads and batch.dried_mass and batch.prepared_mass:
            assert loads[0].net_g == pytest.approx(batch.prepared_mass.si, rel=0.02)
            assert loads[-1].net_g == pytest.approx(batch.dried_mass.si, rel=0.03)
            assert all(later.net_g < earlier.net_g * 1.01 for earlier, later in pairwise(loads))


def test_no_dryer_holds_two_loads_at_once_or_more_trays_than_it_has(sample: SqlJournal) -> None:
    for dryer in sample.where(Dryer):
        loads = sorted(
            (b for b in sample.where(Batch, dryer=dryer.id, state=FINISHED)), key=lambda b: str(b.started)
        )
        assert all(b.trays is not None and b.trays <= dryer.trays for b in loads)
        assert all(a.ended and b.started and a.ended <= b.started for a, b in pairwise(loads))


def test_one_turkey_batch_has_no_precook_record(sample: SqlJournal) -> None:
    turkeys = sample.where(Batch, food="ground-turkey")
    assert [b.precook_method for b in turkeys].count("") == 1
    assert all(b.precook_temperature for b in turkeys if b.precook_method)


def test_some_lots_were_found_moist_or_mouldy(sample: SqlJournal) -> None:
    checks = sample.where(LotCheck)
    assert any(c.moist for c in checks)
    assert any(c.mould for c in checks)


def test_everyone_gets_a_copy_of_their_own() -> None:
    first, second = fresh_copy(), fresh_copy()
    assert first != second
    journal = open_journal(first, write=True)
    journal.write([Change(None, Batch("corn", id=journal.next_id(Batch)))])
    count = len(journal.batch_ids(BatchQuery()))
    journal.close()
    with closing(open_journal(second, write=False)) as other:
        assert len(other.batch_ids(BatchQuery())) == count - 1


def test_a_copy_is_gone_when_the_program_ends_and_may_be_gone_before(monkeypatch: pytest.MonkeyPatch) -> None:
    at_the_end: list[partial[object]] = []
    monkeypatch.setattr("atexit.register", lambda f, *a, **k: at_the_end.append(partial(f, *a, **k)))
    copy = fresh_copy()
    (ends,) = [end for end in at_the_end if copy.parent in end.args]
    ends()
    assert not copy.parent.exists()
    ends()


def test_the_tables_are_what_the_maker_makes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "path", [str(sample_folder().parent), *sys.path])
    from make import write

    write(tmp_path / "again")
    for table in sorted(sample_folder().glob("*.csv")):
        assert (tmp_path / "again" / table.name).read_text() == table.read_text(), table.name


@pytest.mark.parametrize("later", [timedelta(), timedelta(days=1), timedelta(days=400, hours=7)])
def test_what_is_on_the_dryer_is_on_the_dryer_whenever_the_sample_is_opened(
    tmp_path: Path, later: timedelta
) -> None:
    file = tmp_path / "sample.dryhouse"
    build(file)
    now = datetime(2026, 11, 25, 17, 0, tzinfo=UTC) + later
    bring_to_the_present(file, now)
    with closing(open_journal(file, write=False)) as journal:
        running = journal.where(Batch, state=DRYING)
        assert running
        for batch in running:
            weighings = journal.where(Weighing, batch=batch.id)
            last = max(w.at for w in weighings)
            assert timedelta() <= now - last < timedelta(hours=1)
            assert batch.started <= min(w.at for w in weighings)
    assert check(file) == []


def test_what_is_on_the_dryer_moves_by_whole_hours_and_whatever_is_done_stays(tmp_path: Path) -> None:
    file = tmp_path / "sample.dryhouse"
    build(file)

    def moments() -> dict[tuple[str, int], tuple[datetime, bool]]:
        with closing(open_journal(file, write=False)) as journal:
            running = {batch.id for batch in journal.where(Batch, state=DRYING)}
            found = {("batch", b.id): (b.started, b.id in running) for b in journal.where(Batch) if b.started}
            for kind in (Weighing, BatchEvent):
                found |= {(kind.__name__, r.id): (r.at, r.batch in running) for r in journal.where(kind)}
            return found

    before = moments()
    last = max(at for (kind, _), (at, running) in before.items() if running and kind == "Weighing")
    bring_to_the_present(file, last + timedelta(days=30, hours=5))
    after = moments()
    moved = {key: after[key][0] - before[key][0] for key in before}
    assert {moved[key] for key, (_, running) in before.items() if not running} == {timedelta()}
    assert all(
        by >= timedelta(days=30) and by % timedelta(hours=1) == timedelta()
        for key, by in moved.items()
        if before[key][1]
    )


def test_the_sample_is_kept_in_her_cache_also_where_that_is_a_new_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    cache = tmp_path / "home" / "cache" / "dryhouse"
    monkeypatch.setattr("platformdirs.user_cache_path", lambda *_, **__: cache)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    for _ in range(2):
        fresh_copy()
        assert len(list(cache.glob("sample-*.dryhouse"))) == 1
        assert not list(tmp_path.glob("sample-*.dryhouse"))


@pytest.mark.parametrize("left", [b"", b"SQLite format 3\0", None], ids=["empty", "its beginning", "half of it"])
def test_a_kept_sample_that_is_no_longer_whole_is_made_again(
    left: bytes | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platformdirs.user_cache_path", lambda *_, **__: tmp_path)
    with closing(open_journal(fresh_copy(), write=False)) as journal:
        count = len(journal.batch_ids(BatchQuery()))
    (kept,) = tmp_path.rglob("sample-*.dryhouse")
    whole = kept.read_bytes()
    kept.write_bytes(whole[: len(whole) // 2] if left is None else left)
    with closing(open_journal(fresh_copy(), write=False)) as journal:
        assert len(journal.batch_ids(BatchQuery())) == count
