"""Logging a batch: what is recorded, what is remembered, what is refused, and that all of it can be undone."""

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.batches.log import (
    BatchDraft,
    batch_named,
    delete_batch,
    draft_for,
    draft_like,
    edit_batch,
    filled_like,
    last_batch_of,
    log_batch,
    parts_of,
)
from dryhouse.kitchen.ports import Pending
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Dryer, Lot, Meal, MealPart, Weighing
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Length, Mass, Temperature
from tests.builders import NOW, a_kitchen
from tests.rows import every_row

SHELF_DRYER = Dryer("Shelf dryer", 6, id=1)
DONE = Batch(
    "corn",
    form="kernels",
    thickness=Length(5),
    pretreatment="blanched",
    precook_method="simmered or steamed",
    precook_measured="thermometer",
    precook_temperature=Temperature(74),
    prepared_mass=Mass(1000, "1000 g"),
    dried_mass=Mass(270, "270 g"),
    dryer=1,
    trays=4,
    set_temperature=Temperature(52),
    started=NOW - timedelta(hours=20),
    ended=NOW - timedelta(hours=10),
    rating=4,
)


def test_a_logged_batch_is_there_as_it_was_typed():
    kitchen = a_kitchen(SHELF_DRYER)
    done = log_batch(kitchen, BatchDraft(DONE))
    assert kitchen.journal.get(Batch, done.record.id) == replace(DONE, id=done.record.id)
    assert "sweet corn" in done.what


def test_the_next_batch_remembers_habits_but_nothing_that_was_measured():
    kitchen = a_kitchen(SHELF_DRYER)
    log_batch(kitchen, BatchDraft(DONE))
    draft = draft_for(kitchen, "maize").batch
    assert (draft.form, draft.pretreatment, draft.dryer, draft.trays) == ("kernels", "blanched", 1, 4)
    assert draft.set_temperature == Temperature(52)
    answers = (draft.precook_method, draft.precook_temperature, draft.precook_measured, draft.made_from)
    assert answers == ("", None, "", "fresh")
    assert (draft.prepared_mass, draft.dried_mass, draft.started, draft.rating) == (None, None, None, None)


def test_the_last_batch_is_the_newest_by_its_start():
    kitchen = a_kitchen(SHELF_DRYER)
    log_batch(kitchen, BatchDraft(DONE))
    log_batch(kitchen, BatchDraft(replace(DONE, started=NOW - timedelta(days=9), ended=NOW - timedelta(days=8))))
    assert last_batch_of(kitchen, "corn").id == 1
    assert last_batch_of(kitchen, "apple") is None


def test_a_mix_keeps_its_ingredients_in_order_through_edit_and_undo():
    kitchen = a_kitchen(SHELF_DRYER)
    parts = (BatchPart(0, 0, "corn", Mass(300)), BatchPart(0, 0, "turkey", Mass(200)))
    id = log_batch(kitchen, BatchDraft(DONE, parts)).record.id
    assert [p.food for p in parts_of(kitchen, id)] == ["corn", "turkey"]
    done = edit_batch(kitchen, id, BatchDraft(replace(DONE, notes="stirred"), parts[1:]))
    assert [p.food for p in parts_of(kitchen, id)] == ["turkey"]
    kitchen.journal.write(done.undone().changes)
    assert [p.food for p in parts_of(kitchen, id)] == ["corn", "turkey"]
    assert kitchen.journal.get(Batch, id).notes == ""


def test_where_the_food_is_put_right_its_lots_follow_and_meals_no_longer_name_them():
    kitchen = a_kitchen(SHELF_DRYER, Meal("Corn soup", id=1))
    id = log_batch(kitchen, BatchDraft(DONE)).record.id
    pending = Pending()
    pending.add(Lot("corn", NOW.date(), batch=id, id=1), MealPart(1, 0, "Corn", "corn", lot=1, id=1))
    kitchen.journal.write(pending.changes)
    done = edit_batch(kitchen, id, BatchDraft(replace(DONE, food="apple")))
    assert kitchen.journal.get(Lot, 1).food == "apple"
    part = kitchen.journal.get(MealPart, 1)
    assert (part.food, part.lot) == ("corn", None)
    kitchen.journal.write(done.undone().changes)
    assert kitchen.journal.get(Lot, 1).food == "corn"
    assert kitchen.journal.get(MealPart, 1).lot == 1


def test_an_edit_that_changes_nothing_writes_nothing():
    kitchen = a_kitchen(SHELF_DRYER)
    id = log_batch(kitchen, BatchDraft(DONE)).record.id
    assert edit_batch(kitchen, id, BatchDraft(DONE)).changes == ()


def test_deleting_takes_weighings_along_leaves_lots_and_undoes_whole():
    kitchen = a_kitchen(SHELF_DRYER)
    id = log_batch(kitchen, BatchDraft(DONE)).record.id
    pending = Pending()
    pending.add(
        Weighing(id, NOW, Mass(500), id=1),
        BatchEvent(id, NOW, "trays turned", id=1),
        Lot("corn", NOW.date(), batch=id, id=1),
    )
    kitchen.journal.write(pending.changes)
    before = {kind: dict(rows) for kind, rows in kitchen.journal.kept.items()}
    done = delete_batch(kitchen, id)
    assert kitchen.journal.get(Batch, id) is None
    assert kitchen.journal.where(Weighing) == ()
    assert kitchen.journal.get(Lot, 1).batch is None
    kitchen.journal.write(done.undone().changes)
    assert kitchen.journal.kept == before


@every_row(
    ("changed", "field", "says"),
    [
        ({"food": ""}, "food", "Which food"),
        ({"dried_mass": Mass(1200, "1200 g")}, "dried_mass", "not less than the 1000 g loaded"),
        ({"ended": NOW - timedelta(days=3)}, "ended", "ends before it starts"),
        ({"started": NOW - timedelta(days=90)}, "ended", "more than 30 days"),
        ({"started": NOW + timedelta(days=3), "ended": NOW + timedelta(days=4)}, "started", "future"),
        ({"set_temperature": Temperature(200, "200 C")}, "set_temperature", "no temperature for drying"),
        ({"kitchen_humidity_pct": 120.0}, "kitchen_humidity_pct", "between 0"),
        ({"start_moisture_pct": 100.0}, "start_moisture_pct", "between 0"),
        ({"start_moisture_pct": 5.0, "target_moisture_pct": 10.0}, "target_moisture_pct", "below the starting"),
        ({"rating": 9}, "rating", "1 to 5"),
        ({"trays": 9}, "trays", "has 6 trays"),
        ({"trays": 0}, "trays", "at least one"),
        ({"dryer": 77}, "dryer", "no longer here"),
    ],
)
def test_what_cannot_be_right_is_refused_by_field_and_nothing_is_written(changed, field, says):
    kitchen = a_kitchen(SHELF_DRYER)
    with pytest.raises(InputProblem, match=says) as caught:
        log_batch(kitchen, BatchDraft(replace(DONE, **changed)))
    assert caught.value.field == field
    assert kitchen.journal.where(Batch) == ()


def test_what_was_loaded_is_to_be_dried_to_less_than_it_holds():
    kitchen = a_kitchen(SHELF_DRYER)
    for wanted in (80.0, 76.1):
        with pytest.raises(InputProblem, match=r"not below that of what was loaded \(76 %\)") as caught:
            log_batch(kitchen, BatchDraft(replace(DONE, target_moisture_pct=wanted)))
        assert caught.value.field == "target_moisture_pct"
    half = (BatchPart(0, 0, "corn", Mass(500), moisture_pct=50.0), BatchPart(0, 1, "corn", Mass(500)))
    with pytest.raises(InputProblem, match=r"\(63 %\)"):
        log_batch(kitchen, BatchDraft(replace(DONE, target_moisture_pct=64.0), half))
    assert log_batch(kitchen, BatchDraft(replace(DONE, target_moisture_pct=62.0), half)).record.id == 1


def test_a_dry_matter_test_makes_the_moisture_a_tested_one_until_it_is_taken_out_again():
    kitchen = a_kitchen(SHELF_DRYER)
    tested = replace(DONE, test_sample=Mass(10), test_dry=Mass(2.4))
    id = log_batch(kitchen, BatchDraft(tested)).record.id
    assert kitchen.journal.get(Batch, id).start_moisture_tested is True
    assert edit_batch(kitchen, id, BatchDraft(replace(tested, start_moisture_tested=None))).changes == ()
    marked = replace(DONE, start_moisture_tested=True)
    assert edit_batch(kitchen, id, BatchDraft(marked)).record.start_moisture_tested is None
    edit_batch(kitchen, id, BatchDraft(tested))
    otherwise = replace(marked, start_moisture_pct=75.0)  # a meter, say
    assert edit_batch(kitchen, id, BatchDraft(otherwise)).record.start_moisture_tested is True


@every_row(
    ("texts", "said"),
    [
        ((1,), "Removed batch 1, sweet corn of 24 Nov 2026"),
        ((1, 1), "Removed batch 1, sweet corn of 24 Nov 2026"),
        ((1, 2), "Removed 2 batches"),
    ],
)
def test_each_batch_named_is_removed_once(texts, said):
    kitchen = a_kitchen(SHELF_DRYER)
    for _ in range(3):
        log_batch(kitchen, BatchDraft(DONE))
    assert delete_batch(kitchen, *texts).what == said
    assert [b.id for b in kitchen.journal.where(Batch)] == [n for n in (1, 2, 3) if n not in texts]


def test_a_mix_with_lots_stays_and_says_why():
    kitchen = a_kitchen(SHELF_DRYER)
    id = log_batch(kitchen, BatchDraft(DONE, (BatchPart(0, 0, "turkey", Mass(200)),))).record.id
    pending = Pending()
    pending.add(Lot("corn", NOW.date(), batch=id, id=1))
    kitchen.journal.write(pending.changes)
    with pytest.raises(InputProblem, match="only the batch says what is in them"):
        delete_batch(kitchen, id)
    assert kitchen.journal.get(Lot, 1).batch == id


def test_the_same_again_leaves_what_is_filled_in_and_takes_the_rest_from_the_former_one():
    kitchen = a_kitchen(SHELF_DRYER)
    parts = (BatchPart(0, 0, "turkey", Mass(200)), BatchPart(0, 0, "apple", Mass(100)))
    id = log_batch(kitchen, BatchDraft(replace(DONE, title="Soup corn"), parts)).record.id
    former = draft_like(kitchen, kitchen.journal.get(Batch, id))
    assert (former.batch.title, former.batch.form, former.batch.prepared_mass) == ("Soup corn", "kernels", None)
    assert [p.food for p in former.parts] == ["turkey", "apple"]
    mine = BatchDraft(Batch("corn", form="cut", trays=2, prepared_mass=Mass(700)))
    filled = filled_like(mine, former)
    assert (filled.batch.form, filled.batch.trays, filled.batch.prepared_mass) == ("cut", 2, Mass(700))
    assert (filled.batch.title, filled.batch.dryer, filled.batch.rating) == ("Soup corn", 1, None)
    assert filled.parts == former.parts
    assert filled_like(BatchDraft(Batch("corn"), parts[:1]), former).parts == parts[:1]


def test_a_batch_is_named_by_its_number():
    kitchen = a_kitchen(SHELF_DRYER)
    log_batch(kitchen, BatchDraft(DONE))
    assert batch_named(kitchen, "#1").id == 1
    for wrong in ("9", "corn", "-1", "²", "9" * 25):
        with pytest.raises(InputProblem, match="no batch"):
            batch_named(kitchen, wrong)


def test_more_trays_than_any_dryer_has_are_refused_without_a_dryer_too():
    kitchen = a_kitchen(SHELF_DRYER)
    with pytest.raises(InputProblem, match="100 trays") as caught:
        log_batch(kitchen, BatchDraft(replace(DONE, dryer=None, trays=101)))
    assert caught.value.field == "trays"
    log_batch(kitchen, BatchDraft(replace(DONE, dryer=None, trays=100)))


@every_row("name", ["purchased_mass", "prepared_mass", "cooked_mass_in", "cooked_mass_out", "dried_mass"])
def test_a_weight_of_nothing_is_left_empty_instead(name):
    kitchen = a_kitchen(SHELF_DRYER)
    with pytest.raises(InputProblem, match="leave it empty") as caught:
        log_batch(kitchen, BatchDraft(Batch("corn", **{name: Mass(0.0, "0 g")})))
    assert caught.value.field == name
    assert kitchen.journal.where(Batch) == ()


def test_an_ingredient_of_nothing_is_no_ingredient():
    kitchen = a_kitchen(SHELF_DRYER)
    with pytest.raises(InputProblem, match="not an ingredient"):
        log_batch(kitchen, BatchDraft(Batch("corn"), (BatchPart(0, 0, "apple", Mass(0.0)),)))


def test_of_a_food_that_was_never_dried_nothing_is_remembered():
    assert draft_for(a_kitchen(), "maize") == BatchDraft(Batch("corn"))


def test_where_only_the_ingredients_changed_the_act_is_about_the_batch():
    kitchen = a_kitchen(SHELF_DRYER)
    parts = (BatchPart(0, 0, "corn", Mass(300)), BatchPart(0, 0, "turkey", Mass(200)))
    id = log_batch(kitchen, BatchDraft(DONE, parts)).record.id
    done = edit_batch(kitchen, id, BatchDraft(DONE, parts[::-1]))
    assert done.record == replace(DONE, id=id)
    assert [(p.food, p.position) for p in parts_of(kitchen, id)] == [("turkey", 0), ("corn", 1)]
    assert edit_batch(kitchen, id, BatchDraft(replace(DONE, id=id), parts_of(kitchen, id))).changes == ()
