"""The level of a batch, read from its records: of the load or a sample tray, and what makes it worth nothing."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.foods.settled import settled, step_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.weighings import PAUSED, SAMPLE, TRAY_OFF
from dryhouse.science.quantities import Mass, Temperature
from tests.builders import NOW
from tests.fakes import FakeJournal

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
