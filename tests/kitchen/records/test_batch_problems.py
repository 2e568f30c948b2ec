"""A batch, its ingredients and its weighings, judged among what they belong to."""

from dataclasses import replace
from datetime import timedelta

from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Dryer, Weighing
from dryhouse.kitchen.records.batch_problems import hotter_than_water
from dryhouse.science.quantities import Mass, Temperature
from tests.kitchen.records.judging import NOW, fields, said
from tests.rows import every_row

DRYER = Dryer("Shelf dryer", 6, id=1)
BATCH = Batch(
    "corn",
    prepared_mass=Mass(1000.0, "1000 g"),
    dried_mass=Mass(270.0, "270 g"),
    started=NOW - timedelta(hours=20),
    ended=NOW - timedelta(hours=10),
    dryer=1,
    trays=4,
    id=1,
)


def test_a_sound_batch_has_no_problem():
    assert fields(BATCH, DRYER) == []


@every_row(
    ("change", "field"),
    [
        ({"food": " "}, "food"),
        ({"food": "no such food"}, "food"),
        ({"dried_mass": Mass(1000.0)}, "dried_mass"),
        ({"ended": NOW - timedelta(days=9)}, "ended"),
        ({"started": NOW - timedelta(days=60)}, "ended"),
        ({"started": NOW + timedelta(days=2), "ended": NOW + timedelta(days=3)}, "started"),
        ({"trays": 7}, "trays"),
        ({"dryer": 9}, "dryer"),
        ({"start_moisture_pct": 5.0, "target_moisture_pct": 5.0}, "target_moisture_pct"),
        ({"start_moisture_tested": True}, "start_moisture_pct"),
        ({"felt": "crunchy"}, "felt"),
    ],
)
def test_what_contradicts_itself_or_what_it_belongs_to_is_named(change, field):
    assert fields(replace(BATCH, **change), DRYER) == [field]


def test_everything_wrong_is_said_at_once():
    bad = replace(
        BATCH,
        food="no such food",
        prepared_mass=Mass(-5.0, "2 lb"),
        ended=NOW - timedelta(days=2000),
        trays=-3,
        rating=99,
        set_temperature=Temperature(900.0, "900 C"),
    )
    assert fields(bad, DRYER) == ["prepared_mass", "trays", "set_temperature", "rating", "food", "ended"]


@every_row(
    ("temperature", "words"),
    [
        (Temperature(160.0, "160"), ("“160” is 320 °F (160 °C)", "Did you mean 160 F?")),
        (Temperature(165.0, "165 C"), ("Did you mean 165 F?",)),
        (Temperature(212.0, "212"), ("Did you mean 212 F?",)),
        (Temperature(213.0, "213"), ("Write what a thermometer read",)),
        (Temperature(176.7, "350 F"), ("212 °F (100 °C)", "middle of the food, such as 165 F")),
        (Temperature(482.2, "900 F"), ("212 °F (100 °C)", "middle of the food")),
    ],
)
def test_wet_food_hotter_than_boiling_water_is_refused_with_what_was_meant(temperature, words):
    ((field, sentence),) = said(replace(BATCH, food="turkey", precook_temperature=temperature), DRYER)
    assert field == "precook_temperature"
    assert all(word in sentence for word in words)


@every_row("celsius", [71.1, 73.9, 100.0])
def test_water_that_boils_is_no_contradiction(celsius):
    assert hotter_than_water(Temperature(celsius)) == ""
    assert fields(replace(BATCH, food="turkey", precook_temperature=Temperature(celsius)), DRYER) == []


def test_an_ingredient_is_a_known_food_with_a_weight():
    assert fields(BatchPart(1, 0, "turkey", Mass(200.0)), BATCH) == []
    assert fields(BatchPart(1, 0, "moon rock", Mass(0.0)), BATCH) == ["mass", "food"]
    (said_of_nothing,) = said(BatchPart(1, 0, "turkey", Mass(0.0, "0 g")), BATCH)
    assert said_of_nothing == ("mass", "0 g is not an ingredient; write what went in, such as 8 oz.")
    assert fields(BatchPart(7, 0, "turkey", Mass(200.0)), BATCH) == ["batch"]


def test_a_weighing_holds_something_and_belongs_to_a_time_the_batch_was_there():
    there = NOW - timedelta(hours=15)
    assert fields(Weighing(1, there, Mass(900.0), Mass(300.0)), BATCH) == []
    assert fields(Weighing(1, there, Mass(0.0)), BATCH) == ["gross"]
    assert fields(Weighing(1, there, Mass(300.0), Mass(900.0)), BATCH) == ["gross"]
    assert fields(Weighing(1, NOW - timedelta(days=5), Mass(900.0)), BATCH) == ["at"]
    assert fields(BatchEvent(1, NOW + timedelta(days=5), "paused"), BATCH) == ["at"]
    assert fields(BatchEvent(1, there, "dropped"), BATCH) == ["kind"]


@every_row(
    ("gross", "tare", "sound"),
    [
        (0.5, None, True),
        (0.0, None, False),
        (5.0, 4.5, True),
        (5.0, 5.0, False),
        (5.0, 5.5, False),
        (5.0, 0.0, True),
    ],
)
def test_half_a_gram_of_herbs_is_a_weight_and_nothing_is_none(gross, tare, sound):
    weighing = Weighing(1, NOW - timedelta(hours=15), Mass(gross), Mass(tare) if tare is not None else None, id=1)
    assert ("gross" not in fields(weighing, DRYER, BATCH)) is sound


@every_row(
    ("low", "middle", "high", "mark", "sound"),
    [
        (None, None, None, None, True),
        (0.2, 0.25, 0.3, 7, True),
        (0.25, 0.25, 0.25, 7, True),
        (0.2, 0.25, 0.3, None, False),
        (None, 0.25, 0.3, 7, False),
        (0.2, None, 0.3, 7, False),
        (0.2, 0.25, None, 7, False),
        (0.26, 0.25, 0.3, 7, False),
        (0.2, 0.31, 0.3, 7, False),
    ],
)
def test_what_weighings_taught_is_a_figure_in_its_range_with_its_mark(low, middle, high, mark, sound):
    taught = replace(BATCH, curve_low=low, curve_dry=middle, curve_high=high, curve_mark=mark)
    assert fields(taught, DRYER) == ([] if sound else ["curve_dry"])
