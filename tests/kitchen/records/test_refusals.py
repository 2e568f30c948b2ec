"""What contradicts itself is refused in a whole sentence, and what lies just inside the bound is not."""

from dataclasses import replace
from datetime import date, timedelta

from dryhouse.kitchen.records import (
    Batch,
    BatchEvent,
    BatchPart,
    Dryer,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    Place,
    PlaceTemperature,
    Weighing,
)
from dryhouse.kitchen.records.batch_problems import hotter_than_water
from dryhouse.kitchen.records.problems import problems
from dryhouse.kitchen.records.typed_problems import typed_problems
from dryhouse.science.quantities import Length, Mass, Temperature
from tests.kitchen.records.judging import NOW, among, said
from tests.rows import every_row

DAY, HOUR = timedelta(days=1), timedelta(hours=1)
SECOND = timedelta(seconds=1)
DRYER = Dryer("Shelf dryer", 6, id=1)
BATCH = Batch(
    "corn",
    prepared_mass=Mass(1000.0, "1000 g"),
    dried_mass=Mass(270.0, "270 g"),
    started=NOW - 20 * HOUR,
    ended=NOW - 10 * HOUR,
    dryer=1,
    trays=4,
    id=1,
)
TO_COME = "A finished batch cannot lie in the future; check its times."
TEST = (
    "A dry-matter test is two weights: of a sample, such as 20 g, and of the same sample once it loses no more "
    "weight in the dryer or oven, such as 1.9 g."
)


def swapped(dried: str, loaded: str) -> str:
    return (
        f"{dried} dried is not less than the {loaded} loaded; drying only takes water away. Was a jar or tray "
        "weighed along, or are the two swapped?"
    )


@every_row(
    ("change", "told"),
    [
        ({"food": " "}, [("food", "Which food was it? Type its name, such as sweet corn.")]),
        (
            {"food": "moon rock"},
            [
                (
                    "food",
                    "No food called “moon rock” is known: check the spelling, or add it as a food of your own.",
                )
            ],
        ),
        ({"dried_mass": Mass(999.9)}, []),
        ({"dried_mass": Mass(1000.0)}, [("dried_mass", swapped("1000 g", "1000 g"))]),
        ({"prepared_mass": None, "dried_mass": Mass(2e3)}, []),
        (
            {"prepared_mass": None, "cooked_mass_out": Mass(250.0, "250 g")},
            [("dried_mass", swapped("270 g", "250 g"))],
        ),
        ({"cooked_mass_out": Mass(250.0, "250 g")}, []),
        ({"dried_mass": None}, []),
        (
            {"prepared_mass": Mass(0.0, "0 g")},
            [
                (
                    "prepared_mass",
                    "“Weight loaded” is 0 g; leave it empty where it was not measured.",
                )
            ],
        ),
        ({"ended": NOW - 20 * HOUR}, []),
        (
            {"ended": NOW - 20 * HOUR - SECOND},
            [("ended", "The batch ends before it starts; check the two times.")],
        ),
        ({"started": NOW - 10 * HOUR - 30 * DAY}, []),
        (
            {"started": NOW - 10 * HOUR - 30 * DAY - SECOND},
            [("ended", "That is more than 30 days in the dryer; check the two times.")],
        ),
        ({"ended": NOW + DAY}, []),
        ({"ended": NOW + DAY + SECOND}, [("started", TO_COME)]),
        ({"started": None, "ended": NOW + DAY + SECOND}, [("started", TO_COME)]),
        ({"started": NOW + DAY + SECOND, "ended": None}, [("started", TO_COME)]),
        ({"started": NOW + 9 * DAY, "ended": None, "state": "planned"}, []),
        ({"started": None, "ended": None}, []),
        ({"dryer": 9}, [("dryer", "That dryer is no longer here.")]),
        ({"dryer": None, "trays": 7}, []),
        ({"trays": 6}, []),
        ({"trays": None}, []),
        ({"trays": 7}, [("trays", "The Shelf dryer has 6 trays, not 7.")]),
        ({"start_moisture_pct": 5.1, "target_moisture_pct": 5.0}, []),
        (
            {"start_moisture_pct": 5.0, "target_moisture_pct": 5.0},
            [("target_moisture_pct", "The target moisture must lie below the starting moisture.")],
        ),
        ({"start_moisture_pct": 5.0}, []),
        ({"target_moisture_pct": 5.0}, []),
        ({"start_moisture_pct": 76.0, "start_moisture_tested": True}, []),
        ({"start_moisture_tested": False}, []),
        (
            {"start_moisture_tested": True},
            [("start_moisture_pct", "Which moisture was tested? Write it as the moisture when loaded.")],
        ),
        (
            {"start_moisture_tested": True, "test_sample": Mass(20.0, "20 g"), "test_dry": Mass(4.8, "4.8 g")},
            [],
        ),
        ({"test_sample": Mass(20.0, "20 g")}, [("test_dry", TEST)]),
        ({"test_dry": Mass(4.8, "4.8 g")}, [("test_sample", TEST)]),
        ({"test_sample": Mass(20.0, "20 g"), "test_dry": Mass(19.9, "19.9 g")}, []),
        (
            {"test_sample": Mass(20.0, "20 g"), "test_dry": Mass(20.0, "20.0 g")},
            [
                (
                    "test_dry",
                    "The sample of 20 g weighed 20.0 g when dry; drying only takes water away. Are the two "
                    "swapped, or is a dish weighed along?",
                )
            ],
        ),
        (
            {"curve_low": 0.2, "curve_dry": 0.4, "curve_high": 0.3, "curve_mark": 1},
            [("curve_dry", "The dry matter by its weighings stands between its low and its high, or nowhere.")],
        ),
    ],
)
def test_a_batch_is_refused_in_one_sentence_and_let_be_up_to_the_bound(change, told):
    assert said(replace(BATCH, **change), DRYER) == told


NEVER = "and wet food does not get hotter inside than boiling water, 212 °F (100 °C)."
READ = "Write what a thermometer read in the middle of the food, such as 165 F."


@every_row(
    ("temperature", "told"),
    [
        (Temperature(100.05, "212.1 F"), ""),  # a reading rounded upward
        (Temperature(100.1, "212.2 F"), f"“212.2 F” is 212 °F (100 °C), {NEVER} {READ}"),
        (Temperature(160.0, "160"), f"“160” is 320 °F (160 °C), {NEVER} Did you mean 160 F?"),
        (Temperature(160.0), f"320 °F (160 °C), {NEVER} Did you mean 160 F?"),
        (Temperature(212.0, "212 "), f"“212” is 414 °F (212 °C), {NEVER} Did you mean 212 F?"),
        (Temperature(213.0, "213"), f"“213” is 415 °F (213 °C), {NEVER} {READ}"),
        (Temperature(176.7, "350 F "), f"“350 F” is 350 °F (177 °C), {NEVER} {READ}"),
    ],
)
def test_the_middle_of_wet_food_is_no_hotter_than_its_boiling_water(temperature, told):
    assert hotter_than_water(temperature) == told


@every_row(
    ("record", "told"),
    [
        (Weighing(1, NOW - 20 * HOUR - DAY, Mass(900.0)), []),
        (
            Weighing(1, NOW - 20 * HOUR - DAY - SECOND, Mass(900.0)),
            [("at", "That is more than a day before batch 1 was started; correct the time.")],
        ),
        (Weighing(1, NOW + DAY, Mass(900.0)), []),
        (BatchEvent(1, NOW + DAY + SECOND, "paused"), [("at", "That moment has not come yet.")]),
        (Weighing(1, NOW, Mass(0.0)), [("gross", "Enter a weight above 0, such as 412 g.")]),
        (
            Weighing(1, NOW, Mass(300.0, "300 g"), Mass(300.0, "0.3 kg")),
            [
                (
                    "gross",
                    "The scale reads 300 g and the tare is 0.3 kg, which leaves nothing; check the tare or the "
                    "unit.",
                )
            ],
        ),
        (Weighing(9, NOW, Mass(5.0)), [("batch", "That batch is no longer here.")]),
        (BatchPart(1, 0, "turkey", Mass(20.0)), []),
    ],
)
def test_what_happened_to_a_batch_is_refused_in_one_sentence(record, told):
    assert said(record, BATCH) == told


def test_records_of_any_time_are_read_where_nobody_says_what_time_it_is():
    late = replace(BATCH, started=NOW + 400 * DAY, ended=NOW + 401 * DAY)
    lot = Lot("corn", (NOW + 402 * DAY).date(), batch=1, id=1)
    around = among(late, lot, DRYER, Place("pantry", id=1), now=None)
    for record in (
        late,
        lot,
        LotMove(1, 1, NOW + 402 * DAY),
        LotCheck(1, (NOW + 402 * DAY).date()),
        PlaceTemperature(1, NOW + 402 * DAY, Temperature(9.0)),
        Weighing(1, NOW + 402 * DAY, Mass(5.0)),
    ):
        assert problems(record, around) == []


# --- the shelf ------------------------------------------------------------------------------------------------

PACKED = date(2026, 8, 29)  # three days before NOW, 1 Sep 2026
TURKEY = Batch("turkey", started=NOW - 5 * DAY, id=1)  # 27 Aug
LOT = Lot("turkey", PACKED, batch=1, mass=Mass(200.0, "200 g"), id=1)
PLACE = Place("pantry", id=1)
BEFORE = "That is before it was packed, on 29 Aug 2026."


@every_row(
    ("change", "told"),
    [
        ({}, []),
        ({"origin": "bought", "bought_keep_by": PACKED}, [("origin", "bought")]),
        ({"batch": None, "origin": "bought", "bought_keep_by": PACKED}, []),
        (
            {"batch": None, "origin": "bought", "bought_keep_by": PACKED - DAY},
            [("bought_keep_by", "The date on the package is before the day it was bought.")],
        ),
        ({"bought_keep_by": PACKED - DAY}, []),
        (
            {"food": "corn"},
            [("food", "Lot 1 holds corn, but its batch 1 is of turkey; put the food of one of them right.")],
        ),
        ({"packed_on": date(2026, 8, 26)}, []),
        ({"packed_on": date(2026, 8, 25)}, [("packed_on", "That is before the batch went into the dryer.")]),
        ({"packed_on": date(2026, 9, 2)}, []),
        (
            {"packed_on": date(2026, 9, 3)},
            [("packed_on", "That day is still to come; a lot is packed on a day that has been.")],
        ),
        ({"conditioned_from": PACKED, "conditioned_to": PACKED}, []),
        ({"conditioned_from": PACKED}, []),
        (
            {"conditioned_from": PACKED, "conditioned_to": PACKED - DAY},
            [("conditioned_to", "Conditioning ends after it began; enter both days.")],
        ),
        ({"conditioned_to": PACKED}, [("conditioned_to", "Conditioning ends after it began; enter both days.")]),
        ({"opened_on": PACKED, "redried_on": PACKED}, []),
        ({"opened_on": PACKED - DAY, "redried_on": PACKED - DAY}, [("opened_on", BEFORE), ("redried_on", BEFORE)]),
    ],
)
def test_the_days_of_a_lot_follow_each_other(change, told):
    bought = [("origin", "Lot 1 is bought and comes from a batch; only one of the two is so.")]
    assert said(replace(LOT, **change), TURKEY) == (bought if told == [("origin", "bought")] else told)


def test_a_batch_that_nobody_timed_may_be_packed_on_any_day():
    assert said(replace(LOT, packed_on=date(2026, 1, 1)), replace(TURKEY, started=None)) == []


WEIGHED_ALONG = "is more than was packed (200 g). Was the jar weighed along?"


@every_row(
    ("record", "told"),
    [
        (LotMove(1, 1, NOW - 4 * DAY), []),
        (LotMove(1, 1, NOW - 5 * DAY), [("at", BEFORE)]),
        (LotMove(1, 1, NOW + DAY), []),
        (LotMove(1, 1, NOW + DAY + SECOND), [("at", "A move is noted when it has been made, not before.")]),
        (LotDraw(1, PACKED), []),
        (LotDraw(1, PACKED - DAY), [("on", BEFORE)]),
        (LotCheck(1, PACKED), []),
        (LotCheck(1, PACKED - DAY), [("on", BEFORE)]),
        (LotCheck(1, date(2026, 9, 2)), []),
        (LotCheck(1, date(2026, 9, 3)), [("on", "That day is still to come.")]),
        # a tenth more than was packed and half a gram of the scale: 200 × 1.1 + 0.5 = 220.5 g
        (LotCheck(1, PACKED, Mass(220.5, "220.5 g")), []),
        (LotCheck(1, PACKED, Mass(220.6, "220.6 g")), [("mass", f"220.6 g {WEIGHED_ALONG}")]),
        (PlaceTemperature(1, NOW + DAY, Temperature(16.0)), []),
        (
            PlaceTemperature(1, NOW + DAY + SECOND, Temperature(16.0)),
            [("since", "A temperature is noted from a moment that has been, not from the future.")],
        ),
    ],
)
def test_what_is_noted_of_a_lot_or_a_place_is_of_a_day_it_was_there(record, told):
    assert said(record, LOT, TURKEY, PLACE) == told


def test_what_is_found_in_a_lot_nobody_weighed_may_weigh_anything():
    assert said(LotCheck(1, PACKED, Mass(900.0)), replace(LOT, mass=None), TURKEY) == []


def test_a_dryer_may_have_one_setting_and_none_below_it():
    for high, told in ((70.0, []), (69.9, [("temperature_low", "The lowest temperature is above the highest.")])):
        dryer = Dryer("box", 6, temperature_low=Temperature(70.0), temperature_high=Temperature(high))
        assert said(dryer) == told
        assert said(replace(dryer, temperature_low=None)) == said(replace(dryer, temperature_high=None)) == []


def test_what_was_typed_is_told_beside_what_is_held():
    batch = Batch(
        "corn",
        prepared_mass=Mass(1234.5678, "2 lb"),
        set_temperature=Temperature(135.0, "135 F"),
        thickness=Length(6.0, "6 in"),
    )
    asked = "which of the two is right?"
    assert [p.said for p in typed_problems(batch)] == [
        f"“Thickness” holds 6 mm but was typed “6 in”; {asked}",
        f"“Weight loaded” holds 1234.57 g but was typed “2 lb”; {asked}",
        f"“Dryer temperature” holds 275 °F (135 °C) but was typed “135 F”; {asked}",
    ]
