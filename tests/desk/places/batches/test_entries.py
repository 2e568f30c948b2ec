"""Between a batch and the entries of its form: nothing is lost on the way."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.desk.places.batches.entries import as_typed, from_text, keep_unchanged, to_text, typed_from
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.batches.typed import TypedBatch, draft_from, typed_batch
from dryhouse.kitchen.records import BatchPart
from dryhouse.science.display import Style
from dryhouse.science.quantities import Length, Mass, Temperature, Volume, parse
from tests.builders import a_kitchen
from tests.desk.conftest import BOX, SHELF, a_batch
from tests.rows import every_row

US, METRIC = Style(), Style("metric")

FULL = a_batch(
    7,
    "turkey",
    title="turkey for the lake",
    thickness=Length(3.175, "1/8 in"),
    made_from="cooked",
    purchased_mass=Mass(1200.0, "1.2 kg"),
    prepared_volume=Volume(946.0, "4 cups"),
    pretreatment="sliced thin",
    precook_method="roasted in an oven",
    precook_temperature=Temperature(74.0, "74 C"),
    precook_measured="thermometer",
    cooked_mass_in=Mass(1200.0, "1.2 kg"),
    cooked_mass_out=Mass(1000.0, "1 kg"),
    drained_fat=Mass(20.0, "20 g"),
    kitchen_temperature=Temperature(21.0, "21 C"),
    kitchen_humidity_pct=45.0,
    start_moisture_pct=66.0,
    target_moisture_pct=10.0,
    dried_volume=Volume(480.0, "2 cups"),
    energy_kwh=3.5,
    notes="crisp",
    rating=4,
    trip=3,
    curve_low=0.31,
    curve_dry=0.34,
    curve_high=0.36,
    curve_mark=12,
)


@pytest.mark.parametrize("style", [US, METRIC], ids=["us", "metric"])
@pytest.mark.parametrize("batch", [FULL, a_batch(1), a_batch(2, "apple", started=None, ended=None)])
def test_a_batch_that_is_opened_and_saved_untouched_is_the_same(batch, style):
    kitchen = a_kitchen(SHELF, BOX)
    before = typed_from(kitchen, BatchDraft(batch), style)
    again = keep_unchanged(draft_from(kitchen, before), batch, before, before)
    assert replace(again.batch, id=batch.id) == batch


def test_ingredients_come_back_as_typed():
    kitchen = a_kitchen(SHELF)
    parts = (BatchPart(1, 0, "corn", Mass(226.796185, "8 oz")), BatchPart(1, 1, "apple", Mass(100.0, "100 g")))
    typed = typed_from(kitchen, BatchDraft(a_batch(1), parts), US)
    assert typed.parts == (("sweet corn", "8 oz"), ("apple", "100 g"))


def test_a_bare_number_keeps_the_unit_it_was_typed_in():
    nine_ounces = Mass(255.145708125, "9")
    assert as_typed(nine_ounces, US) == "9"
    assert as_typed(nine_ounces, METRIC) == "9 oz" or parse(
        as_typed(nine_ounces, METRIC), Mass
    ).si == pytest.approx(255.145708125, abs=1e-3)


@given(grams=st.floats(0.1, 99_999), style=st.sampled_from([US, METRIC, Style("us", True), Style("metric", True)]))
def test_any_weight_reads_back_as_itself(grams, style):
    text = as_typed(Mass(grams), style)
    again = parse(text, Mass, default_unit=style.mass_unit, decimal_comma=style.decimal_comma)
    assert again.si == pytest.approx(grams, abs=1e-3)


def test_only_what_was_touched_changes():
    kitchen = a_kitchen(SHELF, BOX)
    before = typed_from(kitchen, BatchDraft(FULL), US)
    touched = before.changed(dried="10 oz")
    again = keep_unchanged(draft_from(kitchen, touched), FULL, touched, before).batch
    assert again.dried_mass == Mass(283.49523125, "10 oz")
    assert replace(again, dried_mass=FULL.dried_mass, id=7) == FULL


def test_a_draft_is_kept_as_text_and_read_again():
    typed = typed_batch((("apple", "3 oz"),), food="corn", fresh="35 oz")
    assert from_text(to_text(typed)) == typed


@every_row("text", ["", "{", "[]", '"x"', '{"unknown": "1", "fresh": 3}', "null"])
def test_a_kept_draft_that_makes_no_sense_is_an_empty_form(text):
    assert from_text(text) == TypedBatch()
