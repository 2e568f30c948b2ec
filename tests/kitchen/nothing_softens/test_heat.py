"""Only a heat that was measured and can be lifts what is asked of food from animals."""

from __future__ import annotations

from datetime import timedelta

from dryhouse.kitchen.cautions.cautions import (
    batch_cautions,
    food_cautions,
)
from dryhouse.kitchen.foods.catalog import food
from dryhouse.science.quantities import Duration, Temperature, parse_temperature
from dryhouse.words.cautions import reason_words
from tests.kitchen.nothing_softens.caution_room import rules
from tests.kitchen.shelf_room import NOW, a_batch, a_shelf
from tests.rows import every_row


def heated(food="turkey", method="simmered or steamed", temperature="170 F", **more):
    said = {"precook_method": method, "precook_measured": "thermometer", **more}
    if temperature is not None:
        said["precook_temperature"] = parse_temperature(temperature)
    return a_batch(food, ended=NOW - timedelta(minutes=30), **said)


def heat_stops(batch):
    said = rules(batch_cautions(a_shelf(batch), batch))
    return {r for r in said if r.startswith(("heat-", "fish-held"))}


@every_row(
    ("batch", "stops"),
    [
        (heated(), set()),
        (heated(method="roasted in an oven"), set()),
        (heated(method="in the dryer"), {"heat-method"}),
        (heated(method="bought cooked"), {"heat-method"}),
        (heated(method="none"), {"heat-method"}),
        (heated(method="other"), {"heat-method"}),
        (heated(method=""), {"heat-method"}),
        (heated(precook_measured="not measured"), {"heat-poultry-unmeasured"}),
        (heated(precook_measured=""), {"heat-poultry-unmeasured"}),
        (heated(temperature="350 F"), {"heat-implausible"}),
        (heated(temperature="900 F", method="in the dryer"), {"heat-implausible", "heat-method"}),
        (heated(temperature="160 C"), {"heat-implausible"}),
        (heated(temperature="164.9 F"), {"heat-poultry-below"}),
        (heated(temperature=None), {"heat-poultry-missing"}),
        (heated("beef-jerky", temperature="160 F"), set()),
        (heated("beef-jerky", temperature="71.1 C"), set()),
        (heated("beef-jerky", temperature="72 C"), set()),
        (heated("beef-jerky", temperature="159.9 F"), {"heat-meat-below"}),
        (heated("beef-jerky", temperature="71 C"), {"heat-meat-below"}),
        (heated("ground-venison", temperature="162 F"), {"heat-game-below"}),
        (heated("ground-venison", temperature="165 F"), set()),
    ],
)
def test_only_what_was_steamed_or_roasted_to_a_measured_and_possible_temperature_counts(batch, stops):
    assert heat_stops(batch) == stops


def test_an_oven_finish_is_said_and_lifts_nothing():
    finish = {"finish_temperature": Temperature(135.0, "275 F"), "finish_held": Duration(600.0, "10 min")}
    batch = heated("beef-jerky", method="", temperature=None, precook_measured="", **finish)
    said = batch_cautions(a_shelf(batch), batch)
    assert "heat-meat-missing" in rules(said)
    (note,) = [c for c in said if c.rule == "oven-finish"]
    assert "275 °F (135 °C) for 10 min" in reason_words(note)


@every_row(("minutes", "stops"), [(None, {"fish-held"}), (29, {"fish-held"}), (30, set())])
def test_fish_is_asked_for_its_thirty_minutes(minutes, stops):
    held = {} if minutes is None else {"precook_held": Duration(minutes * 60.0, f"{minutes} min")}
    assert heat_stops(heated("salmon", temperature="160 F", **held)) == stops


def test_a_refused_temperature_is_told_with_a_limit_that_passes_in_both_scales():
    batch = heated("beef-jerky", temperature="71 C")
    (stop,) = [c for c in batch_cautions(a_shelf(batch), batch) if c.rule == "heat-meat-below"]
    assert "159.8 °F (71 °C), below 160 °F (71.1 °C)" in reason_words(stop)
    assert heat_stops(heated("beef-jerky", temperature="71.1 C")) == set()


def test_game_has_one_temperature_the_stricter_one():
    kitchen = a_shelf()
    for slug in ("ground-venison", "venison-jerky", "bear", "moose-jerky", "wild-boar"):
        asked = [c for c in food_cautions(kitchen, slug) if c.rule.startswith("heat-") and c.severity == "stop"]
        assert [c.rule for c in asked] == ["heat-game-missing"]
        saying = food(kitchen, slug).saying("pretreatment")
        assert "165 °F" in saying.text, slug
        assert "160 °F" not in saying.text, slug
