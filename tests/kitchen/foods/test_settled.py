"""The level of a batch, read from its records: of the load or a sample tray, and what makes it worth nothing."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.handbook.gab import isotherms
from dryhouse.handbook.reader import handbook
from dryhouse.handbook.yield_spread import solids_spread
from dryhouse.kitchen.foods.dryer_air import chamber_of
from dryhouse.kitchen.foods.settled import marked_settled, settled, step_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.weighings import MOVED, PAUSED, SAMPLE, TRAY_IN, TRAY_OFF, TURNED
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.sorption import equilibrium_moisture
from tests.builders import NOW
from tests.fakes import FakeJournal
from tests.rows import every_row

KITCHEN = Kitchen(FakeJournal(), handbook())
CORN = Batch("corn", prepared_mass=Mass(1000), started=NOW, id=1)
LEVEL = ((0, 1000), (4, 500), (8, 250), (9, 250), (11, 250))


def weighed(readings=LEVEL, factor: float = 1.0, **more: object) -> list[Weighing]:
    return [
        Weighing(1, NOW + timedelta(hours=h), Mass(g * factor, f"{g * factor:g} g"), id=n, **more)
        for n, (h, g) in enumerate(readings, 1)
    ]


def happened(kind: str, hour: float) -> BatchEvent:
    return BatchEvent(1, NOW + timedelta(hours=hour), kind, id=1)


def test_the_level_of_the_load_is_its_dry_matter_and_a_little_water():
    found = settled(KITCHEN, CORN, weighed(), ())
    assert (found.grams, found.since, found.until) == (250, NOW + timedelta(hours=8), NOW + timedelta(hours=11))
    assert found.share == pytest.approx(0.25 / 1.04)
    assert 0.02 < found.log_sd < 0.04


def test_a_sample_tray_stands_for_the_load_with_a_wider_doubt():
    found = settled(KITCHEN, CORN, weighed(factor=0.3, scope=SAMPLE), ())
    assert found.share == pytest.approx(0.25 / 1.04)
    assert found.log_sd > settled(KITCHEN, CORN, weighed(), ()).log_sd
    late = [replace(w, at=w.at + timedelta(hours=1)) for w in weighed(factor=0.3, scope=SAMPLE)]
    assert settled(KITCHEN, CORN, late, ()) is None, "what it had lost before is not known"


@pytest.mark.parametrize("event", [happened(PAUSED, 9.5), happened(TRAY_OFF, 5)])
def test_nothing_is_level_while_the_dryer_is_off_or_trays_come_and_go(event):
    assert settled(KITCHEN, CORN, weighed(), (event,)) is None


def test_a_weighing_left_out_is_no_part_of_a_level():
    readings = weighed()
    readings[-1] = replace(readings[-1], left_out=True)
    assert settled(KITCHEN, CORN, readings, ()) is None


def test_the_dried_weight_is_the_last_of_the_level():
    batch = replace(CORN, state=FINISHED, ended=NOW + timedelta(hours=11), dried_mass=Mass(250, "250 g"))
    assert settled(KITCHEN, batch, weighed()[:-1], ()).grams == 250
    lighter = replace(batch, dried_mass=Mass(240, "240 g"))
    assert settled(KITCHEN, lighter, weighed()[:-1], ()) is None


def test_the_air_of_the_dryer_says_how_much_water_stays_where_an_isotherm_is_known():
    loaded = Batch("potato", prepared_mass=Mass(1000), started=NOW, id=1)
    damp = replace(
        loaded,
        set_temperature=Temperature(40.0), kitchen_temperature=Temperature(25.0), kitchen_humidity_pct=80.0,
    )  # fmt: skip
    assert settled(KITCHEN, damp, weighed(), ()).share < settled(KITCHEN, loaded, weighed(), ()).share


@pytest.mark.parametrize(
    ("typed", "step"),
    [("248 g", 1.0), ("248.5 g", 0.1), ("8.7 oz", 2.835), ("1 lb 3 oz", 28.35), ("0,25 kg", 10.0)],
)
def test_the_step_of_the_scale_is_that_of_the_number_as_typed(typed, step):
    from dryhouse.science.quantities import parse_mass

    assert step_of(parse_mass(typed, decimal_comma="," in typed)) == pytest.approx(step, rel=1e-3)


@every_row(
    ("factor", "food", "can_be"),
    [
        (0.25, "corn", True),
        (0.5, "corn", False),
        (1.2, "corn", False),
        (0.1, "corn", False),
        (0.5, "unheard-of", True),
        (1.2, "unheard-of", False),  # heavier than it was loaded
    ],
)
def test_a_level_that_would_be_no_such_food_is_none(factor, food, can_be):
    readings = ((0, 1000), (4, 1000 * (1 + factor) / 2), *((h, 1000 * factor) for h in (8, 9, 11)))
    batch = replace(CORN, food=food)
    assert (settled(KITCHEN, batch, weighed(readings), ()) is not None) is can_be


def test_cooked_food_may_settle_anywhere():
    readings = ((0, 1000), (4, 700), *((h, 500) for h in (8, 9, 11)))
    assert settled(KITCHEN, CORN, weighed(readings), ()) is None
    cooked = replace(CORN, cooked_mass_in=Mass(2000), cooked_mass_out=Mass(1000))
    assert settled(KITCHEN, cooked, weighed(readings), ()).grams == 500


@every_row(
    ("loaded", "first", "share"),
    [
        ({}, 0.0, 0.25),
        ({"prepared_mass": None}, 0.0, 0.25),
        ({"prepared_mass": None}, 0.25, 0.25),
        ({"prepared_mass": None}, 0.25003, None),
        ({"prepared_mass": None}, 0.26, None),
        ({"prepared_mass": None}, -0.1, None),
        ({"prepared_mass": None, "started": None}, 0.0, None),
        ({"prepared_mass": None, "cooked_mass_out": Mass(1250)}, 2.0, 0.2),
        ({"prepared_mass": Mass(0)}, 0.0, None),
    ],
)
def test_a_level_is_a_share_of_what_was_loaded_or_weighed_within_a_quarter_of_an_hour(loaded, first, share):
    readings = [replace(w, at=w.at + timedelta(hours=first)) for w in weighed()]
    found = settled(KITCHEN, replace(CORN, **loaded), readings, ())
    assert (found.share if found else None) == (pytest.approx(share / 1.04) if share else None)


@every_row(
    ("kind", "hour", "level"),
    [
        (PAUSED, 7.9, True), (PAUSED, 8, False), (PAUSED, 10.9, False), (PAUSED, 11, True), (TRAY_OFF, 1, False),
        (TRAY_IN, 1, False), (MOVED, 1, False), (TURNED, 9, True),
    ],
)  # fmt: skip
def test_a_pause_counts_while_the_level_lasted_and_trays_that_came_or_went_always(kind, hour, level):
    assert (settled(KITCHEN, CORN, weighed(), (happened(kind, hour),)) is not None) is level
    if kind in (TRAY_OFF, TRAY_IN, MOVED):
        sample = weighed(factor=0.3, scope=SAMPLE)
        assert settled(KITCHEN, CORN, sample, (happened(kind, hour),)) is not None, "one tray is one tray"


def test_of_load_and_sample_weighed_alike_the_load_counts():
    both = [
        *weighed(),
        *(replace(w, id=9 + w.id) for w in weighed(((0, 300), (4, 200), (8, 90), (9, 80), (11, 70)), scope=SAMPLE)),
    ]
    assert settled(KITCHEN, CORN, both, ()).grams == 250
    more = [*both, *weighed(((12, 60),), scope=SAMPLE)]
    assert settled(KITCHEN, CORN, more, ()) is None


@every_row(
    ("state", "felt", "was", "marked"),
    [
        (FINISHED, "brittle", None, True), (FINISHED, "leathery", None, None), (FINISHED, "leathery", True, None),
        (FINISHED, "brittle", True, True), ("drying", "brittle", None, None),
    ],
)  # fmt: skip
def test_what_was_brittle_when_its_weight_stayed_the_same_is_confirmed(state, felt, was, marked):
    batch = replace(CORN, state=state, felt=felt, settled=was)
    kitchen = Kitchen(FakeJournal(batch, *weighed()), handbook())
    assert marked_settled(kitchen, batch).settled is marked
    assert marked_settled(Kitchen(FakeJournal(batch), handbook()), batch).settled is (
        was if felt == "brittle" else None
    )


def test_a_weight_that_was_not_typed_was_read_to_the_tenth_of_a_gram():
    assert step_of(Mass(250.0)) == pytest.approx(0.1)


def test_a_level_of_the_sample_tray_goes_on_without_the_dried_weight_of_the_load():
    batch = replace(CORN, state=FINISHED, ended=NOW + timedelta(hours=12), dried_mass=Mass(240, "240 g"))
    found = settled(KITCHEN, batch, weighed(factor=0.3, scope=SAMPLE), ())
    assert (found.grams, found.until) == (75, NOW + timedelta(hours=11))


def test_no_level_is_a_share_of_a_load_that_weighed_nothing():
    assert settled(KITCHEN, replace(CORN, prepared_mass=None), weighed(((0, 0), *LEVEL[1:])), ()) is None


def test_the_share_rests_on_the_published_isotherm_in_that_air_and_on_the_usual_water_where_there_is_none():
    air = {
        "set_temperature": Temperature(40.0),
        "kitchen_temperature": Temperature(25.0),
        "kitchen_humidity_pct": 80.0,
    }
    damp = replace(CORN, food="potato", **air)
    humidity = chamber_of(damp, 40.0).relative_humidity_pct / 100.0
    settles = equilibrium_moisture(isotherms("potato"), humidity, 40.0)
    assert settles.value > 0.1
    assert settled(KITCHEN, damp, weighed(), ()).share == pytest.approx(0.25 / (1 + settles.value))
    no_isotherm = settled(KITCHEN, replace(CORN, **air), weighed(), ())
    assert no_isotherm == settled(KITCHEN, CORN, weighed(), ())


@every_row(("away", "can_be"), [(-3.1, False), (-2.9, True), (2.9, True), (3.1, False)])
def test_a_level_three_deviations_from_such_food_is_a_slip(away, can_be):
    corn = KITCHEN.handbook.foods["corn"]
    water = corn.fact("water")
    usual, spread = 1 - water.value / 100, solids_spread(corn, water).value
    level = round(1000 * usual * math.exp(away * spread) * 1.04, 2)  # food settles at 0.04 g of water a gram
    readings = ((0, 1000), (4, (1000 + level) / 2), *((h, level) for h in (8, 9, 11)))
    assert (settled(KITCHEN, CORN, weighed(readings), ()) is not None) is can_be
