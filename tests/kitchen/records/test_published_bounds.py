"""What the published schema says of a field is what a record is held to, at each bound and just beyond it."""

from __future__ import annotations

import json
import math
from dataclasses import MISSING, fields
from datetime import UTC, date, datetime

from dryhouse.kitchen.exchange.schema import FILE
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.batches import Batch, BatchPart
from dryhouse.kitchen.records.field_problems import LARGEST, field_problems, wrong
from dryhouse.kitchen.records.foods import OwnFigure, OwnFood
from dryhouse.kitchen.records.kitchen import Dryer, PlaceTemperature
from dryhouse.kitchen.records.lots import Lot, LotDraw
from dryhouse.kitchen.records.meals import AfterTrip, CookingNote, Meal, Trip, TripMeal, TripPerson
from dryhouse.kitchen.records.shapes import SUFFIXES, shapes
from dryhouse.kitchen.records.weighings import Weighing
from dryhouse.science.quantities import Mass, Temperature
from tests.rows import every_row

SCHEMA = json.loads(FILE.read_text(encoding="utf-8"))["$defs"]


def bounds(shape, said):
    """Numbers that are sound and numbers that are not, by the words of the schema."""
    whole = shape.holds is int
    low, high, least, most = (
        said.get(word) for word in ("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum")
    )

    def beyond(bound, to):
        return int(bound + math.copysign(1, to)) if whole else math.nextafter(bound, to)

    sound = [bound for bound in (low, high) if bound is not None]
    sound += [beyond(least, math.inf)] if least is not None else []
    sound += [beyond(most, -math.inf)] if most is not None else []
    unsound = [bound for bound in (least, most) if bound is not None]
    unsound += [beyond(low, -math.inf)] if low is not None else []
    unsound += [beyond(high, math.inf)] if high is not None else []
    if whole:  # as far as a journal can hold
        sound += [-LARGEST] if low is None and least is None else []
        unsound += [-LARGEST - 1, LARGEST + 1]
        sound += [LARGEST] if high is None and most is None else []
    else:
        sound += [-1e300] if low is None and least is None else []
        sound += [1e300] if high is None and most is None else []
        unsound += [math.inf, -math.inf, math.nan]
    return sound, unsound


@every_row("kind", RECORD_KINDS, ids=lambda kind: kind.__name__)
def test_numbers_are_taken_to_their_published_bounds_and_no_further(kind):
    for shape in shapes(kind):
        said = SCHEMA[kind.__name__]["properties"][shape.name]
        if shape.quantity is not None:
            said = said["properties"][SUFFIXES[shape.quantity]]
        if said["type"] not in ("number", "integer"):
            continue
        for good, numbers in zip((True, False), bounds(shape, said), strict=True):
            for number in numbers:
                value = shape.quantity(number) if shape.quantity is not None else number
                assert (not wrong(shape, value)) is good, (shape.name, number)


@every_row("kind", RECORD_KINDS, ids=lambda kind: kind.__name__)
def test_texts_are_those_that_are_published_and_what_must_be_said_is(kind):
    told = SCHEMA[kind.__name__]
    assert [shape.name for shape in shapes(kind) if shape.required] == told["required"]
    for shape in shapes(kind):
        said = told["properties"][shape.name]
        if shape.holds is not str:
            continue
        assert bool(wrong(shape, "no such word")) is ("enum" in said), shape.name
        empty = said.get("minLength", 0) == 0 if "enum" not in said else "" in said["enum"]
        assert (not wrong(shape, "")) is empty, shape.name
        for word in said.get("enum", ()):
            assert not wrong(shape, word), (shape.name, word)


PRESET = {
    Dryer: {"retired": False},
    Batch: {"state": "finished", "made_from": "fresh"},
    Weighing: {"scope": "load", "left_out": False},
    Lot: {"package": "jar", "sealed": True, "origin": "home"},
    LotDraw: {"purpose": "cooked"},
    Meal: {"servings": 1.0, "cooking": "short soak", "liquid": "stew"},
    Trip: {"people": 1, "spoilage_margin_pct": 0.0, "spare_days": 0},
    TripPerson: {"appetite_pct": 100.0, "at_risk": False},
    TripMeal: {"slot": "dinner"},
    AfterTrip: {"uneaten": 0.0, "short": 0.0},
    CookingNote: {"servings": 1.0},
}


@every_row("kind", RECORD_KINDS, ids=lambda kind: kind.__name__)
def test_where_nothing_is_said_nothing_is_supposed_but_what_is_usual(kind):
    said = {f.name: f.default for f in fields(kind) if f.default is not MISSING and f.default not in (None, "")}
    assert {"id": 0, **PRESET.get(kind, {})} == {**said, "id": said.get("id", 0)}
    assert {name: type(value) for name, value in said.items() if name != "id"} == {
        name: type(value) for name, value in PRESET.get(kind, {}).items()
    }


def marked(mark):
    return {
        f"{kind.__name__}.{shape.name}"
        for kind in RECORD_KINDS
        for shape in shapes(kind)
        if getattr(shape.about, mark)
    }


def test_a_habit_is_what_the_next_batch_of_the_food_begins_with():
    habits = ("form", "thickness", "pretreatment", "dryer", "trays", "set_temperature", "target_moisture_pct")
    assert marked("kept") == {f"Batch.{name}" for name in habits}


def test_what_may_answer_a_stop_is_asked_every_time():
    """How it was heated, who knows the mushrooms, what shows it dry; what is in a food of her own; oil in a jar."""
    of_batch = (
        "made_from", "precook_method", "precook_temperature", "precook_measured", "precook_held",
        "finish_temperature", "finish_held", "identified", "start_moisture_tested", "test_sample", "test_dry",
        "felt", "settled",
    )  # fmt: skip
    assert marked("answers") == {*(f"Batch.{name}" for name in of_batch), "OwnFood.contains", "Lot.in_oil"}
    assert not marked("answers") & marked("kept")


def test_what_weighings_taught_is_worked_out_and_never_typed():
    assert marked("computed") == {f"Batch.curve_{end}" for end in ("low", "dry", "high", "mark")}


BATCH, DAY = Batch("corn"), date(2026, 8, 1)


@every_row(
    ("record", "said"),
    [
        (
            Batch("corn", dried_mass=Mass(math.nan)),
            "“Dried weight” is no number; leave it empty where it was not measured.",
        ),
        (
            Batch("corn", dried_mass=Mass(0.0, "0 g")),
            "“Dried weight” is 0 g; leave it empty where it was not measured.",
        ),
        (
            Batch("corn", dried_mass=Mass(3e6)),
            "“Dried weight” is 3e+06 g, which cannot be right; check the number and its unit.",
        ),
        (
            Batch("corn", kitchen_temperature=Temperature(70.0, "70")),
            "“Kitchen temperature” is 70, which cannot be right: between -22 °F (-30 °C) and 140 °F (60 °C) is. "
            "Was the "
            "other scale meant?",
        ),
        (BatchPart(1, -1, "corn", Mass(5.0)), "“Position” is -1; it is 0 or more."),
        (Batch("corn", energy_kwh=-1.0), "“Power used, kWh” is -1; it lies between 0 and 1000."),
        (
            Batch("corn", kitchen_humidity_pct=100.0),
            "“Kitchen humidity, %” is 100; it lies between 0 and below 100.",
        ),
        (Batch("corn", curve_low=2.0), "“Dry matter by its weighings, low” is 2; it lies below 1."),
        (
            Batch("corn", set_temperature=Temperature(170.0, "170")),
            "170 is no temperature for drying food; did you mean the other scale? Write it like 135 F or 57 C.",
        ),
        (Batch("corn", trays=101), "A batch fills at least one tray and at most 100 trays, not 101."),
        (Batch("corn", state="lost"), "“State” is “lost”; it should be one of planned, drying, finished."),
        (Batch("corn", rating=2**63), "“Rating, 1 to 5” is larger than any number a journal can hold."),
        (Batch("corn", started=datetime(1899, 12, 31, tzinfo=UTC)), "“Started” is in the year 1899."),
        (Lot("corn", date(2200, 1, 1)), "“Packed on” is in the year 2200."),
        (
            Lot("corn", DAY, package="sock"),
            "“sock” is no package here; choose one of jar, bag, vacuum bag, tin, jar with absorber, open "
            "container.",
        ),
        (Lot("corn", DAY, origin=""), "“Where it came from” is empty; every record of this kind has one."),
        (OwnFood("x", "x", ""), "“Kind” is empty; every record of this kind has one."),
        (OwnFigure("corn", "water", -1.0, "%"), "“Value” is -1; it lies between 0 and 1e+06."),
        (
            PlaceTemperature(1, datetime(2026, 8, 1, tzinfo=UTC), Temperature(90.0, "90 C")),
            "90 C is no temperature of a place for food; write it like 60 F or 16 C.",
        ),
        (
            Lot("corn", DAY, notes="\ud800"),
            "A text holds half a character, which cannot be written; type it again.",
        ),
    ],
)
def test_a_field_that_cannot_be_right_is_refused_in_one_sentence(record, said):
    assert [problem.said for problem in field_problems(record)] == [said]


def test_the_first_and_the_last_year_of_a_record_are_taken():
    for year in (1900, 2199):
        assert field_problems(Lot("corn", date(year, 1, 1), opened_on=date(year, 12, 31))) == []
