"""What no field may hold, whatever stands around it."""

import math
from dataclasses import replace
from datetime import UTC, date, datetime

from dryhouse.kitchen.records import (
    RECORD_KINDS,
    Batch,
    CookingNote,
    Dryer,
    Lot,
    LotDraw,
    Meal,
    Place,
    Trip,
    Weighing,
)
from dryhouse.kitchen.records.describing import About
from dryhouse.kitchen.records.field_problems import easily_sound, field_problems, short, shown
from dryhouse.kitchen.records.field_problems import wrong as wrong_value
from dryhouse.kitchen.records.shapes import shapes
from dryhouse.science.quantities import Length, Mass, Temperature, Volume
from dryhouse.words.messages import problem_sentence
from tests.rows import every_row

DAY = date(2026, 8, 1)
BATCH = Batch("corn", id=1)


def wrong(record) -> list[str]:
    return [p.field for p in field_problems(record)]


@every_row(
    ("record", "field"),
    [
        (replace(BATCH, prepared_mass=Mass(-5.0, "2 lb")), "prepared_mass"),
        (replace(BATCH, dried_mass=Mass(math.inf)), "dried_mass"),
        (replace(BATCH, dried_mass=Mass(1e308)), "dried_mass"),
        (replace(BATCH, dried_volume=Volume(math.nan)), "dried_volume"),
        (replace(BATCH, set_temperature=Temperature(900.0)), "set_temperature"),
        (replace(BATCH, kitchen_temperature=Temperature(140.0)), "kitchen_temperature"),
        (replace(BATCH, precook_temperature=Temperature(-40.0)), "precook_temperature"),
        (replace(BATCH, finish_temperature=Temperature(900.0)), "finish_temperature"),
        (replace(BATCH, thickness=Length(0.0)), "thickness"),
        (replace(BATCH, start_moisture_pct=140.0), "start_moisture_pct"),
        (replace(BATCH, target_moisture_pct=-1.0), "target_moisture_pct"),
        (replace(BATCH, kitchen_humidity_pct=math.nan), "kitchen_humidity_pct"),
        (replace(BATCH, rating=99), "rating"),
        (replace(BATCH, rating=2**70), "rating"),
        (replace(BATCH, trays=-3), "trays"),
        (replace(BATCH, energy_kwh=-2.0), "energy_kwh"),
        (replace(BATCH, state="lost"), "state"),
        (replace(BATCH, made_from="thin air"), "made_from"),
        (replace(BATCH, precook_method="900 F in the dryer"), "precook_method"),
        (replace(BATCH, precook_measured="by eye"), "precook_measured"),
        (replace(BATCH, notes="half \ud800"), "notes"),
        (replace(BATCH, dried_mass=Mass(5.0, "\udfff")), "dried_mass"),
        (replace(BATCH, started=datetime(2999, 1, 1, tzinfo=UTC)), "started"),
        (Weighing(1, datetime(1, 1, 2, tzinfo=UTC), Mass(5.0)), "at"),
        (Lot("corn", DAY, package="basket"), "package"),
        (Lot("corn", DAY, origin=""), "origin"),
        (Lot("corn", DAY, origin="found"), "origin"),
        (Lot("corn", date(9998, 1, 1)), "packed_on"),
        (LotDraw(1, DAY, "lost"), "purpose"),
        (Meal("", id=1), "name"),
        (Meal("pot", servings=-1.0), "servings"),
        (Meal("pot", cooking="microwave"), "cooking"),
        (Trip("circuit", DAY, DAY, people=0), "people"),
        (Dryer("", 6), "name"),
        (Dryer("box", 0), "trays"),
        (Place(" "), "name"),
        (CookingNote(1, DAY, rating=0), "rating"),
        (CookingNote(1, DAY, came_back="mushy"), "came_back"),
    ],
)
def test_a_value_outside_its_bounds_is_named_by_its_field(record, field):
    (problem,) = field_problems(record)
    assert problem.field == field
    assert problem_sentence(problem).endswith((".", "?"))
    problem_sentence(problem).encode("utf-8")


def test_an_empty_record_and_one_at_its_bounds_are_sound():
    assert wrong(BATCH) == []
    assert (
        wrong(replace(BATCH, rating=5, trays=100, start_moisture_pct=0.0, set_temperature=Temperature(20.0))) == []
    )


@every_row(
    ("field", "least", "too_little"),
    [
        ("drained_fat", Mass(0.0), Mass(-0.5)),
        ("drained_liquid", Mass(0.0), Mass(-0.5)),
        ("energy_kwh", 0.0, -0.1),
        ("kitchen_humidity_pct", 0.0, -1.0),
        ("target_moisture_pct", 0.0, -1.0),
        ("rating", 1, 0),
        ("trays", 1, 0),
        ("precook_temperature", Temperature(0.0), Temperature(-0.5)),
        ("finish_temperature", Temperature(40.0), Temperature(39.0)),
        ("kitchen_temperature", Temperature(-30.0), Temperature(-31.0)),
    ],
)
def test_the_least_that_may_be_is_taken_and_what_is_below_it_is_not(field, least, too_little):
    assert wrong(replace(BATCH, **{field: least})) == []
    assert wrong(replace(BATCH, **{field: too_little})) == [field]


def test_a_number_longer_than_a_journal_can_hold_is_refused():
    assert wrong(replace(BATCH, id=2**63 - 1)) == []
    assert wrong(replace(BATCH, id=2**63)) == ["id"]


def test_a_refusal_says_what_would_be_right():
    (said,) = field_problems(replace(BATCH, state="lost"))
    assert "planned, drying, finished" in problem_sentence(said)
    (said,) = field_problems(replace(BATCH, kitchen_humidity_pct=120.0))
    assert "between 0 and below 100" in problem_sentence(said)
    (said,) = field_problems(replace(BATCH, kitchen_temperature=Temperature(140.0, "140")))
    assert "140 °F (60 °C)" in problem_sentence(said)
    assert "other scale" in problem_sentence(said)


def test_values_are_shown_as_typed_and_never_at_length():
    assert shown(Mass(907.0, "2 lb")) == "2 lb"
    assert shown(Temperature(71.2)) == "71.2 °C"
    assert len(short("9" * 5000)) == 58
    assert short("a\ud800b") == "a?b"


@every_row("kind", RECORD_KINDS)
def test_every_bound_and_choice_belongs_to_a_field_that_can_have_it(kind):
    for shape in shapes(kind):
        about = shape.about
        assert isinstance(about, About)
        if about.choices or about.needed:
            assert shape.holds is str
        if about.positive or about.low is not None or about.high is not None or about.below is not None:
            assert shape.quantity is not None or shape.holds in (int, float)
            assert about.label


def tried(shape) -> list[object]:
    """Values of a field: at its bounds, just outside, and far away."""
    about = shape.about
    bounds = [b for b in (about.low, about.high, about.below, 0.0, 1.0) if b is not None]
    numbers = [m for b in bounds for m in (math.nextafter(b, -math.inf), b, math.nextafter(b, math.inf), -b)]
    numbers += [math.inf, -math.inf, math.nan, 1e300]
    if shape.holds is str:
        return ["", " ", "no such word", "ß", "a\nb", "\ud800", *about.choices]
    if shape.holds is int:
        return [int(n) + more for n in numbers if math.isfinite(n) for more in (-1, 0, 1)] + [2**63, -(2**63)]
    if shape.holds is float:
        return numbers
    if shape.quantity is not None:
        return [shape.quantity(n, typed) for n in numbers for typed in ("2 lb", "", "ß\ud800")]
    return []


@every_row("kind", RECORD_KINDS, ids=lambda kind: kind.__name__)
def test_what_is_quickly_called_sound_is_sound(kind):
    looked_at = [(shape, value) for shape in shapes(kind) for value in tried(shape)]
    hasty = [
        (shape.name, value)
        for shape, value in looked_at
        if easily_sound(shape)(value) and wrong_value(shape, value)
    ]
    assert hasty == []
    assert any(easily_sound(shape)(value) for shape, value in looked_at)
