"""The log form: remembers, answers while typing, refuses at the entry, keeps what was typed."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from dryhouse.desk.places.batches.form import LogForm
from dryhouse.kitchen.batches.typed import TypedBatch
from dryhouse.kitchen.records import Batch, BatchPart, OwnFood
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.science.display import METRIC


@pytest.fixture
def form(session, qtbot):
    made = LogForm(session)
    qtbot.addWidget(made)
    made.resize(1080, 740)
    made.show()
    made.activateWindow()
    made.new()
    return made


def enter(form, **entries):
    food = entries.pop("food", None)
    if food:
        form.entries.food.edit.setText(food)
        form.entries.food._settle()
    for name, text in entries.items():
        form.entries.set_text(name, text)


def batches(form):
    return form.session.kitchen.journal.where(Batch)


def test_the_habits_of_the_last_batch_are_filled_in(form):
    enter(form, food="corn")
    typed = form.typed()
    assert tuple(typed[entry] for entry in ("form", "dryer", "trays", "temp")) == (
        "kernels",
        "shelf dryer",
        "4",
        "135 F",
    )
    assert tuple(typed[entry] for entry in ("fresh", "dried", "start", "hours")) == ("", "", "", "")
    assert "batch 1" in form.memory.text()


def test_what_was_typed_is_not_overwritten_by_habit(form):
    enter(form, trays="2")
    enter(form, food="corn")
    assert form.typed()["trays"] == "2"


def test_another_food_brings_its_own_habits(form):
    enter(form, food="corn")
    enter(form, food="apple")
    assert form.typed()["form"] == "slices"


def figures(form):
    return [view.accessibleName() for view in form.preview.figures]


def test_it_answers_while_typing(form):
    enter(form, food="corn", fresh="35 oz", dried="9 oz", felt="brittle")
    form.answer()
    assert form.preview.isVisible()
    assert any(name.startswith("Yield by weight: 25.7 %") for name in figures(form))
    assert form.preview.status.word == "dry enough"


def test_a_half_typed_entry_leaves_the_rest_of_the_answer(form):
    enter(form, food="corn", fresh="35 oz", dried="9 o")
    form.answer()
    assert any(name.startswith("Target weight") for name in figures(form))
    assert not any(name.startswith("Yield by weight") for name in figures(form))
    assert form.entries.fields["dried"].edit.property("wrong") == "false"


def test_saving_records_the_batch_as_typed(form, qtbot):
    enter(form, food="corn", fresh="2 lb 3 oz", dried="9 oz", start="yesterday 18:00", hours="8h30")
    with qtbot.waitSignal(form.saved) as caught:
        form.save()
    batch = form.session.kitchen.journal.get(Batch, caught.args[0])
    assert batch.prepared_mass.typed == "2 lb 3 oz"
    assert (batch.ended - batch.started).total_seconds() == 8.5 * 3600
    assert batch.form == "kernels"
    assert form.is_blank()


def test_no_food_is_asked_for_at_the_entry(form):
    form.save()
    assert "Which food" in form.entries.food.sentence.text()
    assert len(batches(form)) == 3


def test_a_wrong_entry_stops_the_saving_and_nothing_is_lost(form):
    enter(form, food="corn", fresh="2 cups")
    form.save()
    assert len(batches(form)) == 3
    assert form.entries.fields["fresh"].edit.property("wrong") == "true"
    assert form.typed()["fresh"] == "2 cups"


def test_weights_that_are_swapped_are_refused_at_the_dried_weight(form):
    enter(form, food="corn", fresh="9 oz", dried="35 oz")
    form.save()
    assert "swapped" in form.entries.fields["dried"].sentence.text()
    assert len(batches(form)) == 3


def test_more_trays_than_the_dryer_has_are_refused_at_the_trays(form):
    enter(form, food="corn", fresh="35 oz", dried="9 oz", trays="9")
    form.save()
    assert "6 trays" in form.entries.fields["trays"].sentence.text()


def test_animal_foods_ask_how_they_were_cooked(form):
    enter(form, food="corn")
    assert not form.entries.fields["precook"].isVisible()
    enter(form, food="turkey")
    assert form.entries.fields["precook"].isVisible()
    form.answer()
    assert form.preview.cautions.cautions[0].severity == "stop"


def test_a_mix_asks_for_the_cooking_as_soon_as_one_ingredient_is_of_an_animal(form):
    enter(form, food="corn")
    form.answer()
    assert not form.entries.fields["precook"].isVisible()
    form.entries.mix.set_parts((("apple", "5 oz"), ("turkey", "")))
    form.answer()
    assert form.entries.fields["precook"].isVisible()
    assert form.preview.cautions.cautions[0].severity == "stop"


@pytest.mark.parametrize("entry", ["precook_method", "precook_measured"])
def test_how_it_was_heated_is_chosen_and_nothing_is_chosen_beforehand(form, entry):
    enter(form, food="turkey")
    assert form.entries.text(entry) == ""
    offered = [form.entries.fields[entry].box.itemText(n) for n in range(form.entries.fields[entry].box.count())]
    assert offered[0] == "not recorded"
    assert {"none", "other", "in the dryer"} <= set(offered) or {"thermometer", "not measured"} <= set(offered)


def test_what_answers_a_stop_is_asked_anew_though_the_last_batch_had_it(form):
    enter(
        form,
        food="turkey",
        fresh="35 oz",
        dried="12 oz",
        made_from="cooked",
        precook="165 F",
        precook_measured="thermometer",
        precook_method="roasted in an oven",
        precook_held="30 min",
    )
    form.save()
    logged = batches(form)[-1]
    assert (logged.precook_method, logged.precook_held.si) == ("roasted in an oven", 1800.0)
    form.new()
    enter(form, food="turkey")
    assert all(
        form.entries.text(e) == "" for e in ("precook", "precook_measured", "precook_method", "precook_held")
    )
    assert form.entries.text("made_from") == "fresh"


def test_a_bare_temperature_says_how_it_was_understood_in_both_scales(form):
    enter(form, food="turkey", precook="160")
    assert form.entries.fields["precook"].sentence.text() == "= 160 °F (71 °C)"


def test_in_metric_her_own_scale_comes_first(form):
    form.session.act(set_preference, UNITS_KEY, METRIC)
    enter(form, food="turkey", precook="72")
    assert form.entries.fields["precook"].sentence.text() == "= 72 °C (162 °F)"


def test_every_entry_of_a_batch_stands_in_the_form_once(form):
    from dryhouse.desk.places.batches.form_fields import ANIMAL, MAIN, MORE, MUSHROOM
    from dryhouse.kitchen.batches.typed import ENTRIES

    placed = [name for names in (*MAIN, *ANIMAL, *MUSHROOM, *MORE) for name in names if name]
    assert sorted(placed) == sorted([*ENTRIES, "start", "hours"])
    for name, shape in ENTRIES.items():
        assert form.entries.fields[name].label.text() == shape.about.label


def test_a_batch_still_in_the_dryer_needs_no_dried_weight(form):
    enter(form, food="corn", fresh="35 oz", start="8:30")
    form.still.setChecked(True)
    form.save()
    assert batches(form)[-1].state == "drying"
    assert batches(form)[-1].dried_mass is None


def test_how_a_piece_feels_is_one_key_and_comes_back_with_the_batch(form, qtbot):
    enter(form, food="corn", fresh="35 oz", dried="9 oz")
    qtbot.keyClick(form.entries.fields["felt"].box, "b")
    enter(form, start_moisture="76")
    form.entries.set_text("start_moisture_tested", "yes")
    form.save()
    logged = batches(form)[-1]
    assert (logged.felt, logged.start_moisture_tested) == ("brittle", True)
    form.edit(logged)
    assert (form.entries.text("felt"), form.entries.text("start_moisture_tested")) == ("brittle", "yes")
    form.new()
    enter(form, food="corn")
    assert form.entries.text("felt") == ""


def test_editing_changes_only_what_was_touched(form):
    before = form.session.kitchen.journal.get(Batch, 1)
    form.edit(before)
    enter(form, dried="10 oz")
    form.save()
    after = form.session.kitchen.journal.get(Batch, 1)
    assert after.dried_mass.typed == "10 oz"
    assert after.started == before.started
    assert after.prepared_mass == before.prepared_mass
    form.session.undo()
    assert form.session.kitchen.journal.get(Batch, 1) == before


def test_editing_and_saving_nothing_changes_nothing(form, qtbot):
    before = form.session.kitchen.journal.get(Batch, 1)
    form.edit(before)
    with qtbot.assertNotEmitted(form.session.changed):
        form.save()
    assert form.session.kitchen.journal.get(Batch, 1) == before


def test_a_mix_is_named_once_and_logged_with_its_ingredients(form):
    form.entries.food.edit.setText("squash and lentil stew")
    form.entries.mix.set_parts((("corn", "10 oz"), ("apple", "5 oz")))
    form.answer()
    food = form.entries.food
    food.ask_own()
    food.ask.contains.boxes["plant"].setChecked(True)
    food.ask.add_button.click()
    assert form.entries.mix.sum_line.text() == "15 oz listed"
    assert form.session.kitchen.journal.where(OwnFood)[0].category == "mixed"
    enter(form, dried="3 oz")
    form.save()
    parts = form.session.kitchen.journal.where(BatchPart, batch=batches(form)[-1].id)
    assert [(p.food, round(p.mass.si)) for p in parts] == [("corn", 283), ("apple", 142)]


def test_the_ingredients_say_how_much_of_the_load_they_come_to(form):
    enter(form, food="corn", fresh="3 lb")
    form.entries.mix.set_parts((("corn", "10 oz"), ("apple", "2 oz")))
    form.answer()
    assert form.entries.mix.sum_line.text() == "12 oz of 3 lb listed"


def test_the_stop_of_an_ingredient_is_said_as_soon_as_it_is_named(form):
    form.entries.mix_button.click()
    assert form.entries.mix.isVisible()
    form.entries.mix.set_parts((("turkey", ""),))
    form.answer()
    assert any(c.severity == "stop" for c in form.entries.mix.stops.cautions)
    assert form.entries.fields["precook"].isVisible()
    enter(form, food="corn", fresh="3 lb")
    form.answer()
    assert any(c.rule == "heat-poultry-missing" for c in form.preview.card.cautions)


def test_a_form_opens_at_its_top_with_the_cursor_in_the_food(form, qtbot):
    form.resize(900, 420)
    form.more_button.click()
    form.entries.fields["notes"].setFocus()
    form.area.verticalScrollBar().setValue(form.area.verticalScrollBar().maximum())
    form.clear()
    assert form.area.verticalScrollBar().value() == 0
    assert form.more.isHidden()
    assert QApplication.focusWidget() is form.entries.food.edit


def test_what_opens_is_where_the_keyboard_is_and_can_be_seen(form, qtbot):
    form.resize(900, 420)
    first = form.entries.fields["thickness"]
    QTest.keyClick(form, Qt.Key.Key_M, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is first.edit)
    seen = form.area.viewport().rect()
    qtbot.waitUntil(lambda: seen.contains(first.edit.mapTo(form.area.viewport(), first.edit.rect().center())))
    QTest.keyClick(form, Qt.Key.Key_M, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(form.more.isHidden)
    assert QApplication.focusWidget() is form.more_button


def test_a_new_line_opens_when_the_last_ingredient_is_used(form):
    lines = form.entries.mix._lines
    assert len(lines) == 1
    lines[0][0].edit.setText("corn")
    assert len(form.entries.mix._lines) == 2


def test_remembered_habits_alone_are_no_draft(form):
    assert form.is_blank()
    enter(form, food="corn")
    form.entries.food.edit.clear()
    assert form.is_blank()
    enter(form, fresh="3 oz")
    assert not form.is_blank()


def test_clear_empties_the_form(form):
    enter(form, food="corn", fresh="3 oz", notes="x")
    form.clear()
    assert form.typed() == TypedBatch()


def test_a_weight_loaded_may_be_so_many_pieces_and_says_what_they_weigh(form):
    enter(form, food="corn", fresh="6 medium ears")
    fresh = form.entries.fields["fresh"]
    assert fresh.problem is None
    assert fresh.value().si == pytest.approx(612)
    assert "1 lb 5.6 oz" in fresh.sentence.text()
    enter(form, food="apple")
    assert fresh.problem is not None, "an apple has no ears"


def test_a_raw_weight_typed_for_cooked_food_is_asked_about_once_and_kept_by_saving_again(form):
    enter(form, food="turkey", fresh="2 lb", dried="7.5 oz", precook="165 F")
    before = len(batches(form))
    form.save()
    dried = form.entries.fields["dried"]
    assert "Was 2 lb the weight before cooking?" in dried.sentence.text()
    assert len(batches(form)) == before
    form.save()
    assert len(batches(form)) == before + 1
