"""Bought food and staples, shelved where the person says."""

from __future__ import annotations

from datetime import date

from dryhouse.kitchen.records import Lot
from tests.kitchen.shelf_room import CELLAR, PANTRY


def test_bought_food_is_shelved_where_the_person_says(shelf, kitchen):
    shelf.shelve()
    form = shelf._bought
    form.food.set_value("apple")
    form.kind.set_value("bag")
    form.keep_by.edit.setText("2027-06-30")
    form.save()
    assert kitchen.journal.where(Lot) == ()
    assert "Choose a place" in form.place.sentence.text()
    form.place.set_value(CELLAR)
    form.in_oil.set_value(True)
    form.save()
    (lot,) = kitchen.journal.where(Lot)
    assert (lot.origin, lot.in_oil) == ("bought", True)


def test_bought_food_wants_its_date(qtbot, shelf, kitchen):
    shelf.shelve()
    form = shelf._bought
    form.food.set_value("apple")
    form.kind.set_value("bag")
    form.place.set_value(PANTRY)
    form.save()
    assert kitchen.journal.where(Lot) == ()
    assert "printed on the package" in form.keep_by.sentence.text()
    form.keep_by.edit.setText("2027-06-30")
    form.place.set_value(PANTRY)
    form.save()
    assert kitchen.journal.where(Lot)[0].bought_keep_by == date(2027, 6, 30)


def test_a_staple_is_shelved_as_what_it_is(qtbot, shelf, kitchen):
    shelf.shelve()
    form = shelf._bought
    qtbot.keyClicks(form.food.edit, "potato flakes")
    assert form.food.value().slug == "potato-flakes"
    form.kind.set_value("bag")
    form.place.set_value(PANTRY)
    form.keep_by.edit.setText("2027-06-30")
    form.save()
    (lot,) = kitchen.journal.where(Lot)
    assert lot.food == "potato-flakes"


def test_a_bought_package_that_was_begun_is_offered(qtbot, shelf, kitchen):
    shelf.shelve()
    form = shelf._bought
    form.food.edit.setText("apple")
    form.mass.edit.setText("250 g")
    form._leave()
    shelf.shelve()
    assert form.food.is_empty()
    assert form.offer.asked.text() == "Go on with apple, 250 g?"
    form.offer.go_on.click()
    assert (form.food.value().slug, form.mass.text()) == ("apple", "250 g")


def test_a_trip_without_a_place_leads_to_the_places_and_to_the_form_for_bought_food(shelf):
    shelf.show_record("places", 0)
    assert shelf.pages.currentWidget() is shelf._places
    shelf.show_record("bought", 0)
    assert shelf.pages.currentWidget() is shelf._bought
