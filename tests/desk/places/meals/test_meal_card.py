"""The card of a meal: typed, answered at once, saved, swapped, noted."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from dryhouse.desk.places.meals.meal_card import NO_INGREDIENT, MealCard
from dryhouse.desk.places.meals.view import MealsPlace
from dryhouse.desk.places.meals.wording import meal_page
from dryhouse.kitchen.meals.sheet import meal_parts, meal_sheet
from dryhouse.kitchen.records import Meal
from dryhouse.kitchen.settings import preference
from dryhouse.science.quantities import Mass
from tests.desk.places.meals.meal_place import named, typed


def test_the_card_shows_what_the_kitchen_answers(place: MealsPlace) -> None:
    named(place, "camp stew")
    sheet = meal_sheet(place.session.kitchen, place.meals.card.meal)
    sums = place.meals.card.sums
    assert sums.strip.water.figure == sheet.serving.water
    assert sums.strip.energy.figure == sheet.serving.energy
    assert sums.figures["dry_mass"].figure == sheet.serving.dry_mass
    assert place.meals.card.cautions.cautions == sheet.cautions


def test_the_ingredients_have_their_height_as_soon_as_a_meal_is_chosen(qtbot, place) -> None:
    card = MealCard(place.session)
    qtbot.addWidget(card)
    card.show()
    qtbot.waitExposed(card)
    card.show_meal(place.session.kitchen.journal.get(Meal, 1))
    assert card.parts.minimumSizeHint().height() >= sum(row.name.sizeHint().height() for row in card.parts.rows)


def test_typing_an_amount_answers_at_once(qtbot, place: MealsPlace) -> None:
    named(place, "oat breakfast")
    card = place.meals.card
    before = card.sums.strip.energy.figure.value
    typed(card.parts.rows[0].amount, "160 g")
    qtbot.waitUntil(lambda: card.sums.strip.energy.figure.value > 1.9 * before)
    assert card.is_changed()
    assert place.session.kitchen.journal.where(Meal)[1].name == "oat breakfast"


def test_half_an_amount_is_no_alarm_and_a_wrong_one_is_told(place: MealsPlace) -> None:
    named(place, "oat breakfast")
    card = place.meals.card
    typed(card.parts.rows[0].amount, "2 foo")
    card.reckon()
    assert "unit" in card.problem.text()
    assert not card.save()
    assert meal_parts(place.session.kitchen, card.meal.id)[0].mass.typed == "80 g"


def test_saving_writes_what_was_typed_and_undo_takes_it_back(place: MealsPlace) -> None:
    named(place, "oat breakfast")
    card = place.meals.card
    typed(card.parts.rows[0].amount, "100 g")
    assert card.save()
    assert meal_parts(place.session.kitchen, card.meal.id)[0].mass == Mass(100.0, "100 g")
    assert not card.is_changed()
    place.session.undo()
    assert card.parts.rows[0].amount.text() == "80 g"


def test_a_name_already_taken_is_marked_at_its_entry(place: MealsPlace) -> None:
    place.meals.new()
    typed(place.meals.card.name.edit, "camp stew")
    assert not place.meals.card.save()
    assert "already a meal" in place.meals.card.name.sentence.text()


def test_enter_in_a_new_meals_name_goes_on_to_its_first_ingredient_and_saves_nothing(place: MealsPlace) -> None:
    place.meals.new()
    card, before = place.meals.card, place.session.kitchen.journal.where(Meal)
    typed(card.name.edit, "lentil pot")
    QTest.keyClick(card.name.edit, Qt.Key.Key_Return)
    assert card.parts.rows[0].name.hasFocus()
    assert not card.save()
    assert card.problem.text() == NO_INGREDIENT
    assert place.session.kitchen.journal.where(Meal) == before
    card.parts.rows[0].name.setText("carrot")
    card.parts.rows[0].name.settle()
    typed(card.parts.rows[0].amount, "20 g")
    card.name.edit.setFocus()
    QTest.keyClick(card.name.edit, Qt.Key.Key_Return)
    assert [m.name for m in place.session.kitchen.journal.where(Meal)][-1] == "lentil pot"


def test_leaving_for_another_meal_keeps_what_was_typed(place: MealsPlace) -> None:
    named(place, "oat breakfast")
    typed(place.meals.card.parts.rows[0].amount, "90 g")
    changed = place.meals.card.meal.id
    named(place, "camp stew")
    assert place.meals.card.meal.name == "camp stew"
    assert meal_parts(place.session.kitchen, changed)[0].mass == Mass(90.0, "90 g")


def test_the_gravest_caution_stands_in_view_and_salt_is_told(place: MealsPlace) -> None:
    named(place, "camp stew")
    assert "Stop" in place.meals.card.sums.strip.stops.text()
    assert any("sodium" in remark for remark in place.meals.card.sheet.remarks)


def test_a_line_offers_the_lots_of_its_food(place: MealsPlace) -> None:
    named(place, "camp stew")
    lot = place.meals.card.parts.rows[0].lot
    assert [lot.itemData(n) for n in range(lot.count())] == [None, 1]
    assert "keeping" in lot.itemText(1)
    lot.setCurrentIndex(1)
    assert place.meals.card.save()
    assert meal_parts(place.session.kitchen, 1)[0].lot == 1


def test_the_way_to_the_lot_asks_for_the_shelf(qtbot, place: MealsPlace) -> None:
    named(place, "camp stew")
    with qtbot.waitSignal(place.session.open_asked) as asked:
        place.meals.card.parts.rows[0].open_lot.trigger()
    assert asked.args == ["shelf", "lot", 1]


def test_a_new_line_opens_when_the_last_is_used_and_goes_when_removed(place: MealsPlace) -> None:
    named(place, "oat breakfast")
    table = place.meals.card.parts
    last = table.rows[-1]
    typed(last.name, "raisins")
    assert table.rows[-1] is not last
    last.name.settle()
    table.remove(last)
    assert [r.name.text() for r in table.rows] == ["oats, rolled or quick", ""]


def test_label_figures_replace_the_handbooks(qtbot, place: MealsPlace) -> None:
    named(place, "oat breakfast")
    card = place.meals.card
    card.parts.rows[0].labels.numbers["label_energy_kcal"].set_value(400)
    card.reckon()
    assert card.sums.strip.energy.figure.value == pytest.approx(320.0)


def test_what_nobody_knows_goes_in_by_its_own_label(place: MealsPlace) -> None:
    named(place, "oat breakfast")
    card = place.meals.card
    row = card.parts.first_empty()
    typed(row.name, "club crackers")
    row.name.settle()
    assert row.labels.isVisible()
    typed(row.amount, "50 g")
    card.reckon()
    assert any("club crackers" in remark and "nothing is known" in remark for remark in card.sheet.remarks)
    row.labels.numbers["label_energy_kcal"].set_value(480)
    assert card.save()
    kept = meal_parts(place.session.kitchen, card.meal.id)[1]
    assert (kept.name, kept.food, kept.staple, kept.label_energy_kcal) == ("club crackers", "", "", 480)


def test_a_swap_is_seen_before_it_is_made(place: MealsPlace) -> None:
    named(place, "camp stew")
    card = place.meals.card
    beef = card.parts.rows[2]
    beef.swap.trigger()
    assert card.swap.isVisible()
    card.swap.name.setText("soy crumble")
    card.swap.name.settle()
    assert card.swap.swap.after.serving.fat.value < card.swap.swap.before.serving.fat.value
    assert meal_parts(place.session.kitchen, 1)[2].food == "ground-beef"
    card.swap.make_swap()
    assert meal_parts(place.session.kitchen, 1)[2].staple == "soy-crumble"
    assert not card.swap.isVisible()


def test_the_right_button_opens_what_can_be_done_with_a_meal_and_of_each_adds_columns(
    place: MealsPlace,
) -> None:
    named(place, "camp stew")
    meals, menu = place.meals.list.list, place.meals.more_button.menu()
    meals.customContextMenuRequested.emit(meals.visualItemRect(meals.item(0)).center())
    assert menu.isVisible()
    menu.close()
    row = place.meals.card.parts.rows[0]
    assert not row.water.isVisible()
    row.of_each.trigger()
    assert row.water.isVisible()
    assert row.water.text()
    assert row.energy.text().endswith("kcal")
    assert preference(place.session.kitchen, "columns.ingredients") == "yes"


def test_what_stands_in_the_card_becomes_a_meal_of_its_own(place: MealsPlace) -> None:
    named(place, "camp stew")
    card = place.meals.card
    typed(card.parts.rows[2].amount, "10 g")
    place.meals.save_as_new.trigger()
    kitchen = place.session.kitchen
    assert (card.meal.name, place.meals.list.current()) == ("camp stew 2", card.meal.id)
    assert [p.mass.si for p in meal_parts(kitchen, card.meal.id)] == [20.0, 80.0, 10.0, 12.0]
    assert meal_parts(kitchen, 1)[2].mass.si == 20.0
    assert card.name.edit.selectedText() == "camp stew 2"
    place.session.undo()
    assert len(kitchen.journal.where(Meal)) == 2


def test_a_swap_may_be_made_in_a_copy(place: MealsPlace) -> None:
    named(place, "camp stew")
    card = place.meals.card
    card.parts.rows[2].swap.trigger()
    card.swap.name.setText("soy crumble")
    card.swap.name.settle()
    card.swap.copy.click()
    assert card.meal.name == "camp stew with soy crumble, textured"
    assert meal_parts(place.session.kitchen, 1)[2].food == "ground-beef"


def test_a_cup_nobody_weighed_is_asked_for_instead_of_a_figure(place: MealsPlace) -> None:
    named(place, "camp stew")
    card = place.meals.card
    assert card.cup.isHidden()
    typed(card.parts.rows[2].amount, "1/2 cup")
    card.reckon()
    assert "a cup of ground beef, cooked weighs is not known" in card.cup.said.text()
    for view in (card.sums.strip.water, card.sums.strip.energy, card.sums.figures["dry_mass"], card.sums.fuel):
        assert view.figure is None
        assert "weigh one cup of ground beef" in view.accessibleDescription() + view.accessibleName()
    card.cup.weight.edit.setText("90 g")
    card.cup.save()
    place.refresh()
    assert card.cup.isHidden()
    assert card.sums.strip.water.figure is not None
    assert card.sheet.parts[2].grams == pytest.approx(45.0)


def test_every_way_of_cooking_is_a_line_and_a_snack_has_neither_water_nor_minutes(place: MealsPlace) -> None:
    named(place, "oat breakfast")
    card = place.meals.card
    card.ways.show_now()
    assert card.ways.said.text().splitlines()[0].startswith("No soak: simmer 5 min; ")
    assert "Cold soak: soak 30 min in cold water, no cooking" in card.ways.said.text()
    assert card.sums.fuel.figure.unit == "kJ"
    card.cooking.set_value("no pot")
    card.reckon()
    card.ways.show_now()
    assert not card.ways.isVisible()
    strip = card.sums.strip
    for view in (strip.water, strip.soak, strip.cook, card.sums.flame, card.sums.fuel):
        assert view.figure is None
    assert strip.energy.figure is not None
    assert "Water" not in meal_page(card.sheet, place.session.style)
    assert "Eaten as it is, no cooking" in meal_page(card.sheet, place.session.style)


def test_a_note_says_what_it_would_take_off_the_shelf(place: MealsPlace) -> None:
    named(place, "camp stew")
    card = place.meals.card
    card.open_note()
    assert card.note.taken.text().startswith("This leaves the shelf: 0.71 oz of carrot (jar by the door).")
    card.note.servings.set_value(2.0)
    card.note.servings.changed.emit()
    assert "1.4 oz of carrot" in card.note.taken.text()


def test_a_note_changes_the_water_and_is_listed(place: MealsPlace) -> None:
    named(place, "camp stew")
    card = place.meals.card
    before = card.sums.strip.water.figure.value
    card.open_note()
    card.note.came_back.set_value("hard")
    card.note.save()
    assert card.sums.strip.water.figure.value > before
    assert "came back hard" in card.notes.note_words(place.session.kitchen.journal.where(_note())[0])
    assert not card.note.isVisible()


def _note():
    from dryhouse.kitchen.records import CookingNote

    return CookingNote


def test_removing_a_meal_can_be_taken_back(place: MealsPlace) -> None:
    named(place, "oat breakfast")
    place.meals.remove()
    assert len(place.session.kitchen.journal.where(Meal)) == 1
    place.session.undo()
    assert len(place.session.kitchen.journal.where(Meal)) == 2
