"""The dryers' calendar, by hand and whatever the batches."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.drying_calendar import Calendar, Machine, calendar, tray_count
from dryhouse.science.provisioning import Recipe, Span, ToDry, to_dry
from tests.rows import every_row

NOW = datetime(2026, 8, 1, 8, tzinfo=UTC)
READY = datetime(2026, 8, 19, 0, tzinfo=UTC)
SHELF, BOX = Machine(1, "shelf dryer", 6, watts=500.0), Machine(2, "box dryer", 10)
BOTH = {1: 400.0, 2: 400.0}


def recipe(food: str = "corn", hours: float = 10.0, **more: object) -> Recipe:
    given = {"tray_grams": BOTH, "company": "plants at 57 °C"} | more
    return Recipe(food, Span(4.0, 3.0, 5.0), hours=Span(hours, hours - 2, hours), **given)


def made(*asked: tuple[float, Recipe], machines: tuple[Machine, ...] = (SHELF,), now: datetime = NOW) -> Calendar:
    return calendar([(to_dry(g, r), r) for g, r in asked], machines, now=now, ready_by=READY)


def test_one_load_ends_when_it_has_to_be_ready() -> None:
    """200 g dried are 800 g prepared: two trays of 400 g, ten hours before the day of packing."""
    found = made((200.0, recipe()))
    (run,) = found.runs
    assert (run.start, run.end) == (READY - timedelta(hours=10), READY)
    assert [(load.trays, load.prepared) for load in run.loads] == [(2, 800.0)]
    assert run.kwh == pytest.approx(5.0)
    assert not found.left_over


def test_more_than_a_dryer_takes_makes_another_run_before_it() -> None:
    """1000 g dried are 4000 g prepared, ten trays: six, then four, an hour between them."""
    found = made((1000.0, recipe()))
    assert [run.trays for run in found.runs] == [4, 6]
    assert found.runs[1].start - found.runs[0].end == timedelta(hours=1)


def test_small_loads_of_one_company_share_a_run() -> None:
    found = made((200.0, recipe("corn", 10)), (100.0, recipe("pea", 8)))
    assert [[load.food for load in run.loads] for run in found.runs] == [["corn", "pea"]]


def test_meat_never_shares_with_plants() -> None:
    meat = recipe("ground-beef", 8, company="animal at 71 °C")
    assert len(made((100.0, recipe()), (100.0, meat)).runs) == 2


def test_fruit_has_its_conditioning_before_the_trip() -> None:
    found = made((200.0, recipe("apple", 10, conditioning_days=10)))
    assert found.runs[0].end == READY - timedelta(days=10)


def test_what_would_have_to_start_in_the_past_is_left_over() -> None:
    found = made((1000.0, recipe()), now=READY - timedelta(hours=12))
    assert [run.trays for run in found.runs] == [6]
    assert found.left_over["corn"] == pytest.approx(1000 - 600)


def test_two_dryers_work_side_by_side() -> None:
    found = made((1600.0, recipe()), machines=(SHELF, BOX))
    assert sorted(run.trays for run in found.runs) == [6, 10]
    assert {run.end for run in found.runs} == {READY}


@every_row(
    "missing",
    [
        Recipe("x", None, tray_grams=BOTH, hours=Span(8, 8, 8)),
        recipe(tray_grams={}),
        Recipe("x", Span(4, 4, 4), tray_grams=BOTH),
    ],
)
def test_without_a_yield_a_tray_load_or_hours_nothing_is_promised(missing: Recipe) -> None:
    found = made((100.0, missing))
    assert not found.runs
    assert found.left_over[missing.food] == pytest.approx(100.0)


def test_no_dryer_leaves_everything_over() -> None:
    assert made((100.0, recipe()), machines=()).left_over == {"corn": 100.0}


def test_trays_are_whole_and_at_least_one() -> None:
    assert [tray_count(g, 400.0) for g in (1.0, 400.0, 401.0, 1200.0)] == [1, 1, 2, 3]


ASKED = st.tuples(st.floats(10, 3000), st.floats(4, 30), st.sampled_from([0, 10]), st.sampled_from("ab"))


@given(st.lists(ASKED, max_size=6), st.integers(0, 2))
def test_a_calendar_keeps_its_promises(asked: list[tuple[float, float, int, str]], dryers: int) -> None:
    batches = [
        (ToDry(str(n), g, Span(4 * g, 3 * g, 5 * g), None), recipe(str(n), h, conditioning_days=c, company=k))
        for n, (g, h, c, k) in enumerate(asked)
    ]
    machines = (SHELF, BOX)[:dryers]
    found = calendar(batches, machines, now=NOW, ready_by=READY)
    for batch, how in batches:
        loads = [(run, load) for run in found.runs for load in run.loads if load.food == batch.food]
        dried = sum(load.dried for _, load in loads)
        assert dried + found.left_over.get(batch.food, 0.0) == pytest.approx(batch.dried)
        for run, load in loads:
            assert how.hours is not None
            assert run.end - run.start >= timedelta(hours=how.hours.high - 1e-6)
            assert run.end <= READY - timedelta(days=how.conditioning_days)
            assert load.prepared <= load.trays * 400.0 + 1e-6
    for machine in machines:
        mine = [run for run in found.runs if run.machine == machine]
        assert all(run.start >= NOW and run.trays <= machine.trays for run in mine)
        assert all(later.start >= earlier.end for earlier, later in pairwise(mine))
        assert all(len({load.food for load in run.loads}) == len(run.loads) for run in mine)
