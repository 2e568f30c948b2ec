"""The same entries, typed in the form or on the command line, make the same draft."""

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.batches.typed import draft_from, typed_batch
from dryhouse.kitchen.records import BatchPart, Dryer, Preference
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Duration, Mass
from tests.builders import NOW, a_kitchen
from tests.rows import every_row

SHELF_DRYER = Dryer("Shelf dryer", 6, id=1)
EIGHT = typed_batch(
    food="sweet corn", fresh="2 lb 3 oz", dried="7", start="yesterday 18:00", hours="8h30", temp="125",
    dryer="shelf", trays="3",
)  # fmt: skip


def test_eight_entries_make_a_whole_batch():
    batch = draft_from(a_kitchen(SHELF_DRYER), EIGHT).batch
    assert batch.prepared_mass.typed == "2 lb 3 oz"
    assert batch.dried_mass.si == pytest.approx(198.4467, abs=1e-3)
    assert batch.ended - batch.started == timedelta(hours=8.5)
    assert batch.set_temperature.si == pytest.approx(51.667, abs=1e-3)
    assert (batch.dryer, batch.trays) == (1, 3)


def test_hours_without_a_start_end_now():
    batch = draft_from(a_kitchen(SHELF_DRYER), EIGHT.changed(start="")).batch
    assert batch.ended == NOW
    assert batch.started == NOW - timedelta(hours=8.5)


def test_a_finished_batch_without_any_time_came_off_now():
    batch = draft_from(a_kitchen(SHELF_DRYER), EIGHT.changed(start="", hours="")).batch
    assert (batch.started, batch.ended) == (None, NOW)


def test_a_batch_still_in_the_dryer_has_no_end():
    batch = draft_from(a_kitchen(SHELF_DRYER), EIGHT.changed(start="", hours=""), "drying").batch
    assert batch.ended is None


def test_bare_numbers_take_the_persons_own_units():
    kitchen = a_kitchen(SHELF_DRYER, Preference("units", "metric", id=1))
    batch = draft_from(kitchen, EIGHT.changed(fresh="1000", dried="270", temp="52")).batch
    assert (batch.prepared_mass.si, batch.dried_mass.si, batch.set_temperature.si) == (1000, 270, 52)


def test_a_mix_is_read_by_its_ingredients():
    typed = replace(EIGHT, parts=(("corn", "300 g"), ("", ""), ("turkey", "200 g")))
    parts = draft_from(a_kitchen(SHELF_DRYER), typed).parts
    in_hand = [BatchPart(0, 0, "corn", Mass(300.0, "300 g")), BatchPart(0, 1, "turkey", Mass(200.0, "200 g"))]
    assert list(parts) == in_hand


@every_row(
    ("end", "agrees"),
    [
        ("today 2:30", True),
        ("today 2:45", True),
        ("today 2:15", True),
        ("today 2:46", False),
        ("today 2:14", False),
    ],
)
def test_start_end_and_hours_agree_to_a_quarter_of_an_hour(end, agrees):
    typed = EIGHT.changed(end=end)  # begun at 18:00, for 8 h 30 min
    if agrees:
        batch = draft_from(a_kitchen(SHELF_DRYER), typed).batch
        assert (batch.started.hour, batch.ended.hour, batch.ended.minute) == (18, 2, int(end[-2:]))
        return
    with pytest.raises(InputProblem, match=r"apart, not 8 h 30 min; leave one of the three out") as caught:
        draft_from(a_kitchen(SHELF_DRYER), typed)
    assert caught.value.field == "hours"


@every_row(
    ("given", "started", "ended"),
    [
        ({"start": "yesterday 18:00", "end": "", "hours": ""}, -15.0, None),
        ({"start": "", "end": "today 7:00", "hours": ""}, None, -2.0),
        ({"start": "", "end": "today 7:00", "hours": "8"}, -10.0, -2.0),
        ({"start": "yesterday 18:00", "end": "", "hours": "8"}, -15.0, -7.0),
        ({"start": "yesterday 18:00", "end": "today 2:10", "hours": "8"}, -15.0, -15.0 + 8 + 1 / 6),
    ],
)
def test_two_of_start_end_and_hours_give_the_third(given, started, ended):
    batch = draft_from(a_kitchen(SHELF_DRYER), EIGHT.changed(**given)).batch
    hours = [(at - NOW) / timedelta(hours=1) if at is not None else None for at in (batch.started, batch.ended)]
    assert hours == [pytest.approx(started) if started else None, pytest.approx(ended) if ended else None]


@every_row(
    ("entry", "text", "name", "value"),
    [
        ("precook_method", "boiled 20 min", "precook_method", "simmered or steamed"),
        ("precook_method", "Simmered  or steamed", "precook_method", "simmered or steamed"),
        ("precook_measured", "THERMOMETER", "precook_measured", "thermometer"),
        ("precook_measured", "measured", "precook_measured", "not measured"),
        ("made_from", "froz", "made_from", "frozen"),
        ("felt", "leather", "felt", "leathery"),
        ("trays", "3.0", "trays", 3),
        ("start_moisture", "82 %", "start_moisture_pct", 82.0),
        ("start_moisture_tested", "Yes", "start_moisture_tested", True),
        ("start_moisture_tested", "no", "start_moisture_tested", False),
        ("notes", "stirred twice", "notes", "stirred twice"),
        ("precook_held", "20", "precook_held", Duration(1200.0, "20")),
    ],
)
def test_an_entry_is_read_as_its_field_is_meant(entry, text, name, value):
    assert getattr(draft_from(a_kitchen(SHELF_DRYER), EIGHT.changed(**{entry: text})).batch, name) == value


def test_what_is_counted_is_told_the_nearest_whole_number():
    for text, told in (("2.6", "such as 3"), ("0.2", "such as 1")):
        with pytest.raises(InputProblem, match=f"are counted whole, {told}, not “{text}”"):
            draft_from(a_kitchen(SHELF_DRYER), EIGHT.changed(trays=text))


@every_row(
    ("entry", "text"),
    [("fresh", "lots"), ("hours", "soon"), ("temp", "hot"), ("trays", "2.5"), ("rating", "good"), ("dryer", "oven"),
     ("precook_measured", "guess"), ("humidity", "140"), ("start", "sometime"), ("parts", (("corn", "some"),))],
)  # fmt: skip
def test_an_entry_that_cannot_be_read_is_named(entry, text):
    with pytest.raises(InputProblem) as caught:
        draft_from(
            a_kitchen(SHELF_DRYER),
            (replace(EIGHT, parts=text) if entry == "parts" else EIGHT.changed(**{entry: text})),
        )
    assert caught.value.field == entry


def test_the_beginning_of_two_choices_is_neither_of_them():
    with pytest.raises(InputProblem, match="should be one of: fresh, frozen, canned, cooked") as caught:
        draft_from(a_kitchen(SHELF_DRYER), EIGHT.changed(made_from="c"))
    assert caught.value.field == "made_from"


def test_an_entry_no_batch_has_is_a_mistake_of_whoever_asks():
    with pytest.raises(ValueError, match="no entry color"):
        typed_batch(food="corn", color="red")
