"""Lists of batches: both journals answer every query alike, and as a person would expect."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dryhouse.kitchen.ports import BatchQuery, Change, Journal
from dryhouse.kitchen.records import Batch, Dryer, OwnFood, Weighing
from dryhouse.kitchen.records.batches import BATCH_STATES
from dryhouse.science.quantities import Mass, Volume
from tests.journal.journals import BOTH, empty_journal
from tests.often import often

SORTS = ("started", "food", "dryer", "fresh", "dried", "yield", "rating", "id")
DRYERS = (Dryer("shelf dryer", 6, id=1), Dryer("box dryer", 10, id=2))


def day(number: int) -> datetime:
    return datetime(2026, 7, number, 18, tzinfo=UTC)


@pytest.fixture(params=BOTH)
def journal(request: pytest.FixtureRequest) -> Iterator[Journal]:
    with empty_journal(request.param) as made:
        made.write([Change(None, r) for r in (*DRYERS, *BATCHES)])
        yield made


BATCHES = (
    Batch("corn", title="First ears", form="kernels", dryer=1, started=day(1), rating=5,
          prepared_mass=Mass(1000.0), dried_mass=Mass(240.0), ended=datetime(2026, 7, 2, 3, 30, tzinfo=UTC), id=1),
    Batch("corn", dryer=2, started=day(9), prepared_mass=Mass(2000.0), dried_mass=Mass(400.0), notes="muggy night",
          prepared_volume=Volume(3000.0), dried_volume=Volume(600.0), trays=8, id=2),
    Batch("apple", form="slices", dryer=1, started=day(4), state="drying", prepared_mass=Mass(1500.0), id=3),
    Batch("pear", started=None, state="planned", rating=2, id=4),
    Batch("red-pepper", dryer=2, started=day(6), prepared_mass=Mass(900.0), dried_mass=Mass(81.0), rating=4, id=5),
)  # fmt: skip


def ids(journal: Journal, **query: object) -> list[int]:
    return list(journal.batch_ids(BatchQuery(**query)))  # type: ignore[arg-type]


def test_the_newest_come_first_and_those_without_a_time_last(journal: Journal) -> None:
    assert ids(journal) == [2, 5, 3, 1, 4]
    assert ids(journal, descending=False) == [1, 3, 5, 2, 4]


def test_a_batch_with_an_end_alone_stands_by_its_end(journal: Journal) -> None:
    off = Batch("plum", started=None, ended=day(5), prepared_mass=Mass(500.0), dried_mass=Mass(90.0), id=6)
    journal.write([Change(None, off)])
    assert ids(journal) == [2, 5, 6, 3, 1, 4]
    assert ids(journal, descending=False) == [1, 3, 6, 5, 2, 4]


def test_sorting_by_yield_goes_by_dried_over_fresh_and_puts_the_unknown_last(journal: Journal) -> None:
    assert ids(journal, sort="yield", descending=False)[:3] == [5, 2, 1]
    assert ids(journal, sort="yield")[:3] == [1, 2, 5]
    assert set(ids(journal, sort="yield")[3:]) == {3, 4}


def test_sorting_by_dryer_goes_by_its_name(journal: Journal) -> None:
    assert ids(journal, sort="dryer", descending=False) == [5, 2, 1, 3, 4]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("corn", {1, 2}),
        ("maize", {1, 2}),
        ("first", {1}),
        ("corn mug", {2}),
        ("MUGGY corn", {2}),
        ("shelf", {1, 3}),
        ("red pep", {5}),
        ("apples", {3}),
        ("uggy", set()),
        ("  ", {1, 2, 3, 4, 5}),
        ('"co* OR (', set()),
        ("ears'; DROP TABLE batch", set()),
    ],
)
def test_each_word_begins_a_word_of_the_batch_its_food_or_its_dryer(
    journal: Journal, text: str, found: set
) -> None:
    assert set(ids(journal, text=text)) == found


def test_own_foods_are_found_by_their_names(journal: Journal) -> None:
    journal.write(
        [
            Change(None, OwnFood("galley-pot", "stew", "mixed", "Friday supper", id=1)),
            Change(None, Batch("galley-pot", id=6)),
        ]
    )
    assert ids(journal, text="friday") == [6]


def test_conditions_are_joined(journal: Journal) -> None:
    assert ids(journal, foods=("corn", "apple"), dryer=1) == [3, 1]
    assert ids(journal, states=("drying", "planned")) == [3, 4]
    assert ids(journal, since=day(4), until=day(9)) == [5, 3]
    assert ids(journal, text="corn", dryer=2) == [2]


def test_the_list_follows_every_change(journal: Journal) -> None:
    before = ids(journal, text="muggy")
    old = BATCHES[1]
    journal.write([Change(old, Batch("corn", notes="clear night", started=day(2), id=2))])
    assert before == [2]
    assert ids(journal, text="muggy") == []
    assert ids(journal, text="clear") == [2]
    assert ids(journal) == [5, 3, 2, 1, 4]
    journal.write([Change(DRYERS[0], Dryer("old cabinet", 6, id=1))])
    assert set(ids(journal, text="cabinet")) == {1, 3}
    assert ids(journal, text="shelf") == []


def test_rows_come_in_the_order_asked_and_leave_out_what_is_gone(journal: Journal) -> None:
    weighings = [Weighing(3, day(4), Mass(900.0), id=n) for n in (1, 2)]
    journal.write([Change(None, w) for w in weighings])
    rows = journal.batch_rows([3, 99, 1, 4])
    assert [row.batch for row in rows] == [BATCHES[2], BATCHES[0], BATCHES[3]]
    assert [row.dryer_name for row in rows] == ["shelf dryer", "shelf dryer", ""]
    assert [row.weighings for row in rows] == [2, 0, 0]


def test_yield_pairs_are_finished_batches_with_both_masses_oldest_first(journal: Journal) -> None:
    first, second = journal.yield_pairs("corn")
    assert (first.batch, first.prepared_g, first.dried_g, first.form, first.hours) == (
        1,
        1000.0,
        240.0,
        "kernels",
        9.5,
    )
    assert (second.batch, second.prepared_ml, second.dried_ml, second.trays, second.hours) == (
        2,
        3000.0,
        600.0,
        8,
        None,
    )
    assert journal.yield_pairs("apple") == ()


FOODS, WORDS = ("corn", "apple", "pear", "red-pepper"), ("crisp", "muggy night", "Überreif", "thin-cut", "")
MASSES = st.none() | st.sampled_from((100.0, 150.0, 400.0, 800.0)).map(Mass)
BATCH = st.builds(
    Batch,
    st.sampled_from(FOODS),
    state=st.sampled_from(BATCH_STATES),
    title=st.sampled_from(WORDS),
    notes=st.sampled_from(WORDS),
    dryer=st.sampled_from((None, 1, 2)),
    started=st.none() | st.integers(1, 6).map(day),
    prepared_mass=MASSES,
    dried_mass=MASSES,
    rating=st.none() | st.integers(1, 3),
)
QUERY = st.builds(
    BatchQuery,
    text=st.just("")
    | st.lists(st.sampled_from(("co", "c", "mug", "uber", "pep", "box", "thin", "zz")), max_size=2).map(" ".join),
    foods=st.just(()) | st.lists(st.sampled_from(FOODS), max_size=2, unique=True).map(tuple),
    dryer=st.sampled_from((None, None, 1, 2, 9)),
    states=st.just(()) | st.lists(st.sampled_from(BATCH_STATES), max_size=2, unique=True).map(tuple),
    since=st.none() | st.none() | st.integers(1, 6).map(day),
    until=st.none() | st.none() | st.integers(1, 6).map(day),
    sort=st.sampled_from(SORTS),
    descending=st.booleans(),
)


@given(batches=st.lists(BATCH, min_size=3, max_size=12), queries=st.lists(QUERY, min_size=1, max_size=6))
@settings(max_examples=often(20), deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_both_journals_answer_every_query_alike(batches: list[Batch], queries: list[BatchQuery]) -> None:
    with empty_journal("in memory") as plain, empty_journal("in a file") as filed:
        changes = [Change(None, r) for r in (*DRYERS, *(replace(b, id=n) for n, b in enumerate(batches, 1)))]
        for journal in (plain, filed):
            journal.write(changes)
        for query in queries:
            assert list(filed.batch_ids(query)) == list(plain.batch_ids(query)), query
        for food in FOODS:
            assert filed.yield_pairs(food) == plain.yield_pairs(food)
        everything = filed.batch_ids(BatchQuery())
        assert filed.batch_rows(everything) == plain.batch_rows(everything)
