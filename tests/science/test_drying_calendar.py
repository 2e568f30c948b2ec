"""The dryers' calendar, by hand and whatever is asked of it."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryhouse.science.drying_calendar import Calendar, fits_the_hours
from dryhouse.science.drying_runs import Machine, Run, tray_count
from dryhouse.science.provisioning import Recipe, Span
from tests.rows import every_row
from tests.science.drying_days import (
    BOTH,
    BOX,
    MIDNIGHT,
    NOW,
    READY,
    SHELF,
    asked,
    at_home,
    awake,
    household,
    made,
    recipe,
    taken,
)


def told(found: Calendar) -> list[str]:
    """`1 Sat 1 08:00 to Sat 1 18:00: corn 2`, a run a line."""
    lines = []
    for run in found.runs:
        begin, end = (f"{m:%a} {m.day} {m:%H:%M}" for m in (run.start, run.end))
        loads = ", ".join(f"{load.food} {load.trays}" for load in run.loads)
        lines.append(f"{run.machine.id} {begin} to {end}: {loads}")
    return lines


# --- by hand ---------------------------------------------------------------------------------------------


def test_one_load_is_set_on_the_last_day_that_suits_and_knows_its_last_hour() -> None:
    """200 g dried are 800 g prepared: two trays of 400 g, ten hours, ready by Tuesday's end. Started on Monday at
    22:00 it is done at 8:00, when she is just leaving: that is the latest. Sunday needs no night."""
    found = made(asked(200.0, recipe()))
    assert told(found) == ["1 Sun 16 07:00 to Sun 16 17:00: corn 2"]
    (run,) = found.runs
    assert run.latest == datetime(2026, 8, 17, 22, tzinfo=NOW.tzinfo)
    assert run.kwh == pytest.approx(5.0)
    assert run.temperature_c == 60.0
    assert not found.left_over


def test_two_people_three_days_one_dryer_solved_by_hand() -> None:
    """Ten trays of corn, three of carrot and one of beef on six trays, from Saturday 8:00, all ready on Tuesday's
    end.

    As late as can be: beef (8 h) Monday 22:00, done at 6:00, off when she is up at 7:00. Corn (10 h), six trays:
    Sunday 22:00 to Monday 8:00. Corn, four trays: Sunday 11:00 to 21:00. Carrot (6 h) fits beside no corn whole,
    and at night it would lie dry from 4:00: Saturday 16:00 to 22:00. Spread over Saturday 8:00 to Sunday 22:00
    the three are aimed at Saturday 20:40, Sunday 9:20 and Sunday 22:00, each early on its day: carrot when she
    begins, corn on Sunday at 7:00, and corn from 19:00, the first hour from which it lies dry for two at most.
    """
    found = made(
        asked(1000.0, recipe("corn", 10)),
        asked(300.0, recipe("carrot", 6)),
        asked(100.0, recipe("beef", 8, company="meat and poultry at 63 °C"), late=2),
        now=datetime(2026, 8, 15, 8, tzinfo=NOW.tzinfo),
    )
    assert told(found) == [
        "1 Sat 15 08:00 to Sat 15 14:00: carrot 3",
        "1 Sun 16 07:00 to Sun 16 17:00: corn 4",
        "1 Sun 16 19:00 to Mon 17 07:00: corn 6",
        "1 Mon 17 22:00 to Tue 18 07:00: beef 1",
    ]
    assert not found.left_over


def test_small_loads_of_one_company_share_a_run_and_strangers_do_not() -> None:
    shared = made(asked(200.0, recipe("corn", 10)), asked(100.0, recipe("pea", 8)))
    assert [[load.food for load in run.loads] for run in shared.runs] == [["corn", "pea"]]
    for company in ("onions at 60 °C", "mild vegetables at 54 °C", ""):
        apart = made(asked(200.0, recipe()), asked(100.0, recipe("onion", 8, company=company)))
        assert len(apart.runs) == 2
    alone = made(asked(200.0, recipe(company="")), asked(100.0, recipe("pie", 8, company="")))
    assert len(alone.runs) == 2


def test_food_that_takes_much_shorter_does_not_lie_in_a_long_run() -> None:
    found = made(asked(200.0, recipe("tomato", 14)), asked(100.0, recipe("parsley", 4)))
    assert len(found.runs) == 2


def test_food_that_fits_a_dryer_whole_is_not_split_while_there_is_time() -> None:
    """Five trays and four: six trays would take them in a run and a half; each has its own."""
    found = made(asked(500.0, recipe("corn")), asked(400.0, recipe("pea")))
    assert sorted(load.trays for run in found.runs for load in run.loads) == [4, 5]


def test_where_time_is_short_loads_are_split_so_that_more_gets_done() -> None:
    """On Sunday two runs of five hours are left, and no workday's evening holds one: three foods of four trays
    fit two runs of six only if one is split."""
    late = datetime(2026, 8, 16, 7, tzinfo=NOW.tzinfo)
    wanted = [asked(400.0, recipe(food, 5)) for food in ("bean", "corn", "pea")]
    found = made(*wanted, now=late)
    assert [run.trays for run in found.runs] == [6, 6]
    assert not found.left_over


def test_meat_is_dried_after_everything_else() -> None:
    meat = recipe("beef", 8, company="meat and poultry at 63 °C")
    found = made(asked(100.0, meat, late=2), *(asked(500.0, recipe(f)) for f in ("corn", "pea", "bean")))
    assert found.runs[-1].loads[0].food == "beef"
    assert READY - found.runs[-1].end <= timedelta(days=1)


def test_fruit_has_its_conditioning_before_the_trip() -> None:
    found = made(asked(200.0, recipe("apple", 10, conditioning_days=10)))
    assert found.runs[0].ready <= READY
    assert READY - found.runs[0].ready < timedelta(days=1)


def test_loads_are_spread_over_the_time_there_is() -> None:
    found = made(*(asked(600.0, recipe(food, company="")) for food in ("a", "b", "c", "d")))
    gaps = [later.start - earlier.start for earlier, later in pairwise(found.runs)]
    assert all(timedelta(days=2) <= gap <= timedelta(days=7) for gap in gaps)


def test_a_spread_begins_where_she_says() -> None:
    begin = datetime(2026, 8, 12, tzinfo=NOW.tzinfo)
    found = made(*(asked(600.0, recipe(food, company="")) for food in ("a", "b", "c")), spread_from=begin)
    assert all(run.start >= begin for run in found.runs)


def test_what_has_to_be_dried_before_the_spread_begins_stays_where_it_was() -> None:
    apple = asked(200.0, recipe("apple", 10, conditioning_days=10))
    usual, later = made(apple), made(apple, spread_from=READY - timedelta(days=2))
    assert [run.start for run in later.runs] == [run.latest for run in usual.runs]


def test_food_that_would_not_keep_is_dried_no_sooner_than_it_keeps() -> None:
    soonest = datetime(2026, 8, 11, tzinfo=NOW.tzinfo)
    found = made(asked(600.0, recipe("a", company="")), asked(600.0, recipe("b", company=""), soonest))
    (b,) = [run for run in found.runs if run.loads[0].food == "b"]
    assert b.start >= soonest
    assert not b.early


def test_a_dryer_that_is_running_is_waited_for() -> None:
    now = datetime(2026, 8, 17, 18, tzinfo=NOW.tzinfo)
    busy = taken(1, 24 * 16 + 10, 24 * 16 + 12.5)  # until Monday 20:30
    (run,) = made(asked(200.0, recipe()), now=now, busy=(busy,)).runs
    assert run.start >= busy.end + timedelta(hours=1)
    assert made(asked(200.0, recipe()), now=now, busy=(taken(1, 0, 24 * 18),)).left_over


def test_nothing_runs_at_night_where_nothing_may() -> None:
    found = made(*(asked(600.0, recipe(food)) for food in "abc"), hours=at_home(nights=False))
    assert not found.left_over
    assert all(run.start.date() == run.end.date() for run in found.runs)
    long = made(asked(200.0, recipe(hours=16)), hours=at_home(nights=False))
    assert long.left_over == {"corn": 200.0}


def test_a_load_is_not_left_in_the_dryer_long_past_its_finish() -> None:
    """Started on a weekday evening, four hours end by 2:00 at night, five before anybody is up."""
    weekdays = at_home(18)
    for run in made(*(asked(600.0, recipe(food, 4)) for food in "abcdef"), hours=weekdays).runs:
        assert run.end - run.start <= timedelta(hours=6)


def at(day: int, hour: float) -> datetime:
    return datetime(2026, 8, day, tzinfo=NOW.tzinfo) + timedelta(hours=hour)


def test_food_that_can_only_be_dried_before_it_keeps_is_dried_and_said_to_be_early() -> None:
    early = made(asked(200.0, recipe("a"), READY - timedelta(hours=5)))
    in_time = made(asked(200.0, recipe("a"), READY - timedelta(days=3)))
    assert [run.early for run in (*early.runs, *in_time.runs)] == [True, False]


def test_foods_that_take_up_to_six_hours_less_share_a_run() -> None:
    loads = {
        hours: [len(run.loads) for run in made(asked(200.0, recipe()), asked(100.0, recipe("pea", hours))).runs]
        for hours in (4.0, 3.5)
    }
    assert loads == {4.0: [2], 3.5: [1, 1]}


def test_an_hour_lies_between_two_runs_of_a_dryer() -> None:
    """Two runs of six hours and the hour between them fill 7:00 to 20:00."""
    wanted = (asked(600.0, recipe("a", 6)), asked(600.0, recipe("b", 6)))
    fits, short = (made(*wanted, now=at(16, 7), ready_by=at(16, hour)) for hour in (20, 19.5))
    assert [(run.start, run.end) for run in fits.runs] == [(at(16, 7), at(16, 13)), (at(16, 14), at(16, 20))]
    assert [run.latest for run in fits.runs] == [at(16, 7), at(16, 14)]
    assert sum(short.left_over.values()) == pytest.approx(600.0)


def test_foods_that_are_due_when_the_run_is_over_share_it() -> None:
    found = made(asked(200.0, recipe()), asked(100.0, recipe("pea")), now=at(16, 7), ready_by=at(16, 17))
    assert [(run.start, run.end, len(run.loads)) for run in found.runs] == [(at(16, 7), at(16, 17), 2)]
    assert not found.left_over


def test_a_busy_dryer_leaves_the_load_to_the_other_one() -> None:
    (run,) = made(asked(200.0, recipe()), machines=(SHELF, BOX), busy=(taken(1, 0, 24 * 18),)).runs
    assert run.machine is BOX


def test_a_run_may_end_an_hour_before_the_dryer_is_busy() -> None:
    """Busy from Monday 8:00: a run of eight hours from Sunday 22:00 is taken off at 7:00."""
    beef = asked(200.0, recipe("beef", 8, company="meat"), late=2)
    (run,) = made(beef, busy=(taken(1, 24 * 9, 24 * 18),)).runs
    assert (run.start, run.end) == (at(9, 22), at(10, 7))
    sooner = made(beef, busy=(taken(1, 24 * 9 - 0.5, 24 * 18),)).runs
    assert sooner[0].end < at(10, 7)


def test_whether_a_run_fits_the_hours_is_known_from_a_week_ahead_on() -> None:
    still = household(at_home(nights=False))
    assert [fits_the_hours(hours, still) for hours in (10, 15, 15.5, 24)] == [True, True, False, False]
    assert fits_the_hours(40, household())
    week = timedelta(days=7)
    assert fits_the_hours(1000, household(ready_by=MIDNIGHT + week - timedelta(minutes=1)))
    assert not fits_the_hours(1000, household(ready_by=MIDNIGHT + week))


def test_what_would_have_to_start_in_the_past_is_left_over() -> None:
    found = made(asked(1000.0, recipe()), now=READY - timedelta(hours=30))
    assert [run.trays for run in found.runs] == [6]
    assert found.left_over["corn"] == pytest.approx(1000 - 600)
    assert made(asked(100.0, recipe()), ready_by=NOW - timedelta(days=3)).left_over == {"corn": 100.0}


@every_row(
    "missing",
    [
        Recipe("x", None, tray_grams=BOTH, hours=Span(8, 8, 8)),
        recipe(tray_grams={}),
        Recipe("x", Span(4, 4, 4), tray_grams=BOTH),
    ],
)
def test_without_a_yield_a_tray_load_or_hours_nothing_is_promised(missing: Recipe) -> None:
    found = made(asked(100.0, missing))
    assert not found.runs
    assert found.left_over[missing.food] == pytest.approx(100.0)


def test_no_dryer_leaves_everything_over() -> None:
    assert made(asked(100.0, recipe()), machines=()).left_over == {"corn": 100.0}


def test_trays_are_whole_and_at_least_one() -> None:
    assert [tray_count(g, 400.0) for g in (1.0, 400.0, 401.0, 1200.0)] == [1, 1, 2, 3]


# --- whatever is asked -----------------------------------------------------------------------------------

ASKED = st.tuples(
    st.floats(10, 3000), st.floats(3, 30), st.sampled_from([0, 10]), st.sampled_from(["a", "b", ""]),
    st.sampled_from([0, 0, 1, 2]),
)  # fmt: skip
WANTED = st.lists(ASKED, max_size=6)
DRYERS = (SHELF, BOX, Machine(3, "small dryer", 4))


def wanted_of(drawn: list[tuple[float, float, int, str, int]]) -> list:
    return [
        asked(grams, recipe(f"food {n}", hours, conditioning_days=days, company=company), late=late)
        for n, (grams, hours, days, company, late) in enumerate(drawn)
    ]


@settings(max_examples=60, deadline=None, derandomize=True)
@given(WANTED, st.integers(0, 3), st.booleans(), st.booleans())
def test_a_calendar_keeps_its_promises(drawn: list, dryers: int, away: bool, nights: bool) -> None:
    """No two loads in one dryer at once, nothing started or taken off asleep, all of it on a dryer or named as
    left."""
    wanted = wanted_of(drawn)
    hours = at_home(away=away, nights=nights)
    found = made(*wanted, machines=DRYERS[:dryers], hours=hours, busy=(taken(1, 40, 90),))
    for a in wanted:
        loads = [(run, load) for run in found.runs for load in run.loads if load.food == a.batch.food]
        dried = sum(load.dried for _, load in loads)
        assert dried + found.left_over.get(a.batch.food, 0.0) == pytest.approx(a.batch.dried)
        for run, load in loads:
            assert a.recipe.hours is not None
            assert run.end - run.start >= timedelta(hours=a.recipe.hours.high - 1e-6)
            assert run.ready <= READY
            assert load.prepared <= load.trays * 400.0 + 1e-6
    for run in found.runs:
        assert awake(run.start)
        assert awake(run.end)
        assert NOW <= run.start <= run.latest
        assert run.trays <= run.machine.trays
        assert nights or run.start.date() == run.end.date()
        assert not (away and run.start.weekday() < 5) or run.start.hour >= 17
        assert len({load.food for load in run.loads}) == len(run.loads)
    for machine in DRYERS:
        mine = [run for run in found.runs if run.machine == machine]
        assert all(later.start >= earlier.end + timedelta(hours=1) for earlier, later in pairwise(mine))
        if machine.id == 1:
            busy = taken(1, 40, 90)
            assert all(run.end <= busy.begin or run.start >= busy.end for run in mine)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(WANTED, st.integers(0, 2), st.integers(1, 16))
def test_a_dryer_more_never_leaves_more_over_and_never_makes_it_later(drawn: list, dryers: int, days: int) -> None:
    wanted, now = wanted_of(drawn), READY - timedelta(days=days)
    fewer = made(*wanted, machines=DRYERS[:dryers], now=now)
    more = made(*wanted, machines=DRYERS[: dryers + 1], now=now)
    left, less = sum(fewer.left_over.values()), sum(more.left_over.values())
    assert less <= left + 1e-3
    if less >= left - 1e-3 and fewer.done is not None:
        assert more.done is not None
        assert more.done <= fewer.done


@settings(max_examples=40, deadline=None, derandomize=True)
@given(WANTED, st.integers(1, 3))
def test_the_same_is_asked_the_same_is_answered(drawn: list, dryers: int) -> None:
    wanted = wanted_of(drawn)
    assert made(*wanted, machines=DRYERS[:dryers]) == made(*reversed(wanted), machines=DRYERS[:dryers])


def test_a_calendar_is_done_when_its_last_run_is_over_however_early_it_began() -> None:
    """On the box dryer a load of twenty hours, on the shelf dryer one of six that starts later and ends sooner."""
    long, short = (Run(machine, (), NOW + timedelta(hours=begin), NOW + timedelta(hours=end), NOW)
                   for machine, begin, end in ((BOX, 0, 20), (SHELF, 5, 11)))  # fmt: skip
    assert Calendar((long, short), {}).done == long.end
    assert Calendar((), {"corn": 1.0}).done is None


def test_a_second_dryer_that_gets_more_done_may_end_later_than_the_first_alone() -> None:
    """Apples (6 h, and a day of conditioning) have to be off by Sunday 8:00. The pie takes 24 h and only the box
    dryer takes it: from Saturday 8:00 on there is no end of it before Sunday 8:00 that leaves time for both."""
    apple = asked(100.0, recipe("apple", 6, conditioning_days=1, tray_grams={1: 400.0}))
    pie = asked(100.0, recipe("pie", 30, tray_grams={2: 400.0}, company=""))
    found = made(apple, pie, machines=(SHELF, BOX), now=at(15, 8), ready_by=at(17, 8))
    assert found.left_over == {}
    by_food = {run.loads[0].food: run for run in found.runs}
    assert by_food["apple"].end <= at(16, 8) < by_food["pie"].end
