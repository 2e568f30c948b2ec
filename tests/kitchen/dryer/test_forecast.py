"""What lies ahead of a batch: which knowledge is used first, the air in the dryer, water activity."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.handbook.gab import isotherms
from dryhouse.handbook.reader import Handbook
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.dryer import forecast as ahead_of
from dryhouse.kitchen.dryer.drying import CameOff, add_weighing, start_batch, take_off
from dryhouse.kitchen.dryer.forecast import Course, RunForecast, heating_of, prior_for, run_forecast, target_ratio
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.published_rates import published_expectation
from dryhouse.kitchen.dryer.running_time import Clock
from dryhouse.kitchen.dryer.runs import DryingRun, run_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.records.weighings import HEAT_CHANGED, TURNED
from dryhouse.science.forecast import Equilibrium
from dryhouse.science.moisture import Load, LoadPart, load_of
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.sorption import gab
from dryhouse.science.values import Fact, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.words.messages import message_words
from tests.kitchen.drying_room import APPLE, NOON, Hands
from tests.rows import every_row
from tests.workings import read

POTATO = Food(
    "potato", "potato", (), "vegetable",
    facts={
        "water": Fact(79.0, "%", "a test's own figure", low=78.0, high=80.0),
        "target_moisture": Fact(7.0, "%", "a test's own figure"),
        "drying_hours": Fact(9.0, "h", "a test's own table", low=6.0, high=12.0),
    },
)  # fmt: skip
SORREL = replace(POTATO, slug="sorrel", name="sorrel")
TARGET = Fact(20.0, "%", "a test's own figure")


def prior_of(hands: Hands, food: Food = APPLE, heat: float | None = 57.0):
    load = load_of([LoadPart(food.name, 1000.0, food.facts["water"])])
    return prior_for(hands.kitchen, Batch(food.slug, id=999), food, load, food.facts["target_moisture"], heat)


def potato(hands: Hands, grams: float, **more) -> DryingRun:
    """A potato batch an hour on the dryer, weighed once."""
    kitchen = Kitchen(hands.journal, Handbook({"potato": POTATO}), now=lambda: hands.time, zone=hands.kitchen.zone)
    draft = Batch("potato", prepared_mass=Mass(1000.0, "1000 g"), set_temperature=Temperature(57.0, "57 C"), **more)
    batch = start_batch(kitchen, draft).record.id
    hands.wait(4)
    add_weighing(kitchen, batch, Reading(Mass(grams, f"{grams:g} g")))
    return run_of(kitchen, batch)


def test_own_weighed_runs_come_before_logged_ones_and_those_before_the_handbook() -> None:
    hands = Hands()
    assert (prior := prior_of(hands)) is None or prior.basis.kind == "handbook"
    logged = hands.start(1000.0)
    hands.wait(8)
    take_off(hands.kitchen, logged, CameOff(Mass(170.0, "170 g")))
    prior = prior_of(hands)
    assert prior is not None
    assert prior.basis.source == "hours of logged batches"
    weighed = hands.start(1000.0)
    hands.dry(weighed, (1, 2, 3, 5, 8))
    take_off(hands.kitchen, weighed)
    prior = prior_of(hands)
    assert prior is not None
    assert prior.basis.source == "earlier runs"


def test_without_own_batches_or_constants_the_published_time_is_used() -> None:
    prior = prior_of(Hands(), SORREL)
    assert prior is not None
    assert prior.basis.source == "a test's own table"
    assert published_expectation(APPLE, 0.04) is None


def test_a_drying_time_of_an_hour_is_one_and_none_at_all_is_not() -> None:
    def with_hours(hours: float) -> Food:
        return replace(APPLE, facts={**APPLE.facts, "drying_hours": Fact(hours, "h", "entered by you", "entered")})

    assert published_expectation(with_hours(1.0), 0.04) is not None
    assert published_expectation(with_hours(0.0), 0.04) is None


def test_the_target_is_a_share_of_the_starting_water() -> None:
    load = load_of([LoadPart("apple", 1000.0, Fact(80.0, "%", "x"))])
    assert target_ratio(load, TARGET) == pytest.approx(0.25 / 4.0)


def test_the_kitchens_air_tells_of_a_damp_day() -> None:
    hands = Hands()
    air = {"kitchen_temperature": Temperature(20.0), "kitchen_humidity_pct": 40.0}
    assert run_of(hands.kitchen, hands.start(1000.0, **air)).expected.slow_day is None
    dry = potato(hands, 700.0, **air)
    assert dry.expected.chamber is not None
    damp = potato(Hands(), 700.0, kitchen_temperature=Temperature(34.0), kitchen_humidity_pct=95.0)
    assert damp.expected.chamber is not None
    assert damp.expected.chamber.relative_humidity_pct > dry.expected.chamber.relative_humidity_pct
    assert damp.expected.slow_day is not None
    assert "relative humidity" in message_words(damp.expected.slow_day)


def test_it_settles_where_the_published_isotherms_say_in_the_air_of_the_dryer() -> None:
    damp = potato(Hands(), 700.0, kitchen_temperature=Temperature(34.0), kitchen_humidity_pct=95.0)
    chamber, settles = damp.expected.chamber, damp.expected.equilibrium
    assert chamber is not None
    assert settles is not None
    activity = chamber.relative_humidity_pct / 100.0
    near = [i for i in isotherms("potato") if i.near(57.0)]
    expected = sum(gab(i.m0, i.c, i.k, activity) for i in near) / len(near)
    assert settles.value == pytest.approx(expected, rel=1e-9)


def test_without_the_kitchens_air_nothing_is_supposed_of_it() -> None:
    run = potato(Hands(), 700.0, kitchen_temperature=Temperature(20.0))
    assert run.expected.chamber is None
    assert run.expected.equilibrium is None


def test_a_change_of_heat_changes_the_air_in_the_dryer() -> None:
    hands = Hands()
    air = {"kitchen_temperature": Temperature(20.0), "kitchen_humidity_pct": 60.0}
    before = potato(hands, 700.0, **air)
    add_event(hands.kitchen, before.batch.id, Happening(HEAT_CHANGED, temperature=Temperature(68.0, "68 C")))
    kitchen = Kitchen(hands.journal, Handbook({"potato": POTATO}), now=lambda: hands.time)
    after = run_of(kitchen, before.batch.id)
    assert before.expected.chamber is not None
    assert after.expected.chamber is not None
    assert after.expected.chamber.relative_humidity_pct < before.expected.chamber.relative_humidity_pct


def test_water_activity_is_estimated_only_where_constants_reach_and_never_called_safe() -> None:
    assert potato(Hands(), 700.0).expected.water_activity is None
    dry = potato(Hands(), 240.0).expected.water_activity
    assert dry is not None
    assert dry.unit == "aw"
    assert dry.low is not None
    assert dry.high is not None
    assert dry.low <= dry.value <= dry.high
    said = read(dry.workings)
    assert said.endswith("no measurement; it says nothing of safety.")
    assert " 0.6: " in said
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(9)
    hands.weigh(batch, 160)
    assert run_of(hands.kitchen, batch).expected.water_activity is None


@every_row(
    ("first", "changes", "hours", "celsius"),
    [
        (0.0, ((2, 68.0),), (0.0, 2.0), (57.0, 68.0)),
        (0.0, ((5, 50.0), (2, 68.0)), (0.0, 2.0, 5.0), (57.0, 68.0, 50.0)),
        (0.5, ((2, 68.0),), (0.0, 1.5), (57.0, 68.0)),  # hours count from the first weighing
        (3.0, ((2, 68.0),), (0.0,), (68.0,)),  # changed before it
        (0.0, ((2, 68.0), (2, 60.0)), (0.0, 2.0), (57.0, 60.0)),  # the last of two at one moment
        (0.0, ((0, 68.0), (2, 60.0)), (0.0, 2.0), (68.0, 60.0)),
        (3.0, ((1, 60.0), (2, 68.0), (5, 50.0)), (0.0, 2.0), (68.0, 50.0)),
    ],
)
def test_each_change_of_heat_counts_from_its_hour_on(first, changes, hours, celsius) -> None:
    events = [
        BatchEvent(1, NOON + timedelta(hours=h), HEAT_CHANGED, Temperature(c), id=n)
        for n, (h, c) in enumerate(changes)
    ]
    heated = Batch("apple", set_temperature=Temperature(57.0))
    found = heating_of(heated, APPLE, [*events, BatchEvent(1, NOON, TURNED)], Clock(NOON), first)
    assert found is not None
    assert (found.hours, found.celsius) == (hours, celsius)


def test_a_dryer_that_was_not_changed_or_whose_first_heat_nobody_wrote_down_has_no_heats() -> None:
    changed = [BatchEvent(1, NOON, HEAT_CHANGED, Temperature(68.0))]
    assert heating_of(Batch("apple"), APPLE, changed, Clock(NOON), 0.0) is None
    heated = Batch("apple", set_temperature=Temperature(57.0))
    assert heating_of(heated, APPLE, [BatchEvent(1, NOON, TURNED)], Clock(NOON), 0.0) is None


def test_a_forecast_is_of_the_load_as_it_is_known_and_of_none_that_weighs_more() -> None:
    hands = Hands()
    load = load_of([LoadPart("apple", 1000.0, Fact(86.0, "%", "a test's own figure"))])

    def ahead(*grams: float, load: Load | None = load, target: Fact | None = TARGET) -> RunForecast:
        hours = [float(h) for h in range(len(grams))]
        batch = Batch("apple", state=DRYING, id=9)
        return run_forecast(hands.kitchen, batch, APPLE, load, target, Course(hours, grams))

    for missing in (ahead(1000.0, load=None), ahead(1000.0, target=None), ahead()):
        assert missing.forecast is None
        assert missing.why_none.startswith("A forecast needs")
    assert ahead(1000.0, 700.0).taught is None
    assert ahead(1000.0, 700.0, 500.0).taught is not None
    assert ahead(1000.0, 1001.0).forecast is not None, "the scale's own step"
    assert ahead(1000.0, 1001.5).forecast is None
    with_it, without = ahead(1000.0, 1300.0, 700.0), ahead(1000.0, 700.0)
    assert with_it.forecast is not None
    assert without.forecast is not None
    assert with_it.taught is None, "two weighings that count"


def test_the_water_activity_is_of_the_last_weight_and_its_cautious_end_is_held_against_the_limits() -> None:
    figure = potato(Hands(), 240.0).expected.water_activity
    by_kind = {line.kind: {term.name: term.value for term in line.terms} for line in figure.workings}
    # 240 g with 200, 210 or 220 g of dry matter
    assert by_kind[Kind.MOISTURE_RANGE] == {
        "moisture": pytest.approx(240 / 210 - 1), "low": pytest.approx(240 / 220 - 1), "high": pytest.approx(0.2),
    }  # fmt: skip
    told = [line for line in figure.workings if line.kind in (Kind.ACTIVITY_BELOW, Kind.ACTIVITY_NOT_BELOW)]
    assert len(told) == 2
    for line in told:
        high, limit = (next(t.value for t in line.terms if t.name == name) for name in ("high", "limit"))
        assert high == figure.high
        assert (line.kind == Kind.ACTIVITY_BELOW) == (high < limit)
    assert potato(Hands(), 240.0, kitchen_temperature=Temperature(15.0)).expected.water_activity is None
    assert potato(Hands(), 240.0, kitchen_temperature=Temperature(25.0)).expected.water_activity == figure


def test_off_the_dryer_only_the_water_activity_is_told() -> None:
    load = load_of([LoadPart("potato", 1000.0, POTATO.facts["water"])])
    air = {"kitchen_temperature": Temperature(25.0), "kitchen_humidity_pct": 50.0}
    course = Course([0.0, 9.0], [1000.0, 240.0], heat_c=57.0)
    told, drying = (
        run_forecast(Hands().kitchen, batch, POTATO, load, POTATO.facts["target_moisture"], course)
        for batch in (Batch("potato", **air, id=9), Batch("potato", state="drying", **air, id=9))
    )
    assert drying.chamber is not None
    assert drying.water_activity == told.water_activity
    assert told.water_activity is not None
    assert told == RunForecast(water_activity=told.water_activity)


def test_a_forecast_is_told_everything_that_is_known_of_the_run(monkeypatch) -> None:
    told: list[tuple[tuple[object, ...], dict[str, object]]] = []
    whole = ahead_of.forecast
    monkeypatch.setattr(
        ahead_of, "forecast", lambda *run, **known: told.append((run, known)) or whole(*run, **known)
    )
    water, target = POTATO.facts["water"], POTATO.facts["target_moisture"]
    load = load_of([LoadPart("potato", 1000.0, water)])
    air = {"kitchen_temperature": Temperature(34.0), "kitchen_humidity_pct": 95.0}
    batch = Batch("potato", state="drying", set_temperature=Temperature(57.0), **air, id=9)
    kitchen = Hands().kitchen
    heating = heating_of(batch, POTATO, [BatchEvent(9, NOON, HEAT_CHANGED, Temperature(68.0))], Clock(NOON), 0.0)
    course = Course([0.0, 1.0, 3.0], [900.0, 1200.0, 700.0], heat_c=57.0, heating=heating, ran=(2.0,))
    ahead = run_forecast(kitchen, batch, POTATO, load, target, course)
    (((*run, known), course_of),) = told
    assert run == [[0.0, 3.0], [900.0, 700.0]], "what is heavier than the load is left out"
    settles = ahead.equilibrium
    assert known.equilibrium == Equilibrium(settles.value, settles.low, settles.high, settles.basis[0])
    # the belief is a share of the first weight: 210 g in 900
    assert known.solids.between.value == pytest.approx(210 / 900, rel=0.01)
    assert known.target_moisture_pct == 7.0
    assert known.prior == prior_for(kitchen, batch, POTATO, load, target, 57.0)
    assert course_of == {"heating": heating, "ran": (2.0,)}
    assert known.basis == merge_bases([water.basis, target.basis])
    no_air = run_forecast(kitchen, replace(batch, kitchen_humidity_pct=None), POTATO, load, target, course)
    assert told[-1][0][2].equilibrium is None
    assert (no_air.chamber, no_air.equilibrium, no_air.slow_day) == (None, None, None)


def test_a_batch_that_is_to_be_dried_to_nothing_is_shown_beside_logged_ones() -> None:
    hands = Hands()
    logged = hands.start(1000.0)
    hands.wait(8)
    take_off(hands.kitchen, logged, CameOff(Mass(170.0, "170 g")))
    run = run_of(hands.kitchen, hands.start(1000.0, target_moisture_pct=0.0))
    assert (run.target.value, run.target_ratio, run.net_g) == (0.0, 0.0, 1000.0)
