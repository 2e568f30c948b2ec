"""Every empty place says the next step and has its button."""

import pytest
from PySide6.QtCore import Qt

from dryhouse.kitchen.kitchen import Kitchen
from tests.builders import a_kitchen


@pytest.fixture
def kitchen() -> Kitchen:
    """Nothing is recorded yet."""
    return a_kitchen()


def buttons(page):
    return {b.text(): b for b in page.buttons}


def test_nothing_to_pack_leads_to_the_log(window):
    shelf = window.go("shelf")
    shelf.pack()
    assert shelf.nothing_to_pack.isVisible()
    buttons(shelf.nothing_to_pack)["Log a batch"].click()
    journal = window.views["journal"]
    assert window.here == "journal"
    assert journal.pages.currentWidget() is journal.form


def test_bought_food_without_any_place_leads_to_the_places(window):
    shelf = window.go("shelf")
    shelf.shelve()
    assert shelf._bought.no_places.isVisible()
    shelf._bought.no_places.button.click()
    page = shelf._places
    assert page.isVisible()
    assert not page.history.isVisible(), "there is no temperature to list yet"
    page.name_.set_value("pantry")
    page.save()
    page.back.click()
    assert shelf._bought.isVisible(), "back to the form that asked for it"
    assert [shelf._bought.place.box.itemText(n) for n in range(2)] == ["Choose a place", "Pantry"]
    assert not shelf._bought.no_places.isVisible()


def test_enter_after_a_new_places_name_asks_how_warm_it_is_and_enter_there_saves_both(window, qtbot):
    shelf = window.go("shelf")
    shelf.show_places()
    page = shelf._places
    page.name_.edit.setFocus()
    for text, field in (("pantry", page.name_), ("60 F", page.temperature)):
        qtbot.waitUntil(field.edit.hasFocus)
        qtbot.keyClicks(field.edit, text)
        qtbot.keyClick(field.edit, Qt.Key.Key_Return)
    assert page.place.name == "pantry"
    assert "60 °F" in page.history.item(0).text()


def test_a_new_meal_in_a_small_window_has_its_name_in_view_and_the_list_out_of_the_way(window, qtbot):
    window.resize(900, 600)
    window.theme.enlarge(3)
    meals = window.go("meals").meals
    meals.new()
    room = window.room.area
    qtbot.waitUntil(lambda: not meals.list.isVisible())
    assert meals.card.name.isVisible()
    assert not meals.card.name.edit.visibleRegion().isEmpty()
    assert room.horizontalScrollBar().maximum() == 0
    window.theme.enlarge(0)


@pytest.mark.parametrize("place", ["journal", "drying", "yields", "shelf", "meals"])
def test_each_place_of_an_empty_journal_has_a_button_to_begin_with(window, place):
    view = window.go(place)
    empty = getattr(view, "empty_state", None) or getattr(view, "empty", None) or view.meals.empty_state
    assert empty.isVisible()
    assert empty.buttons
    assert empty.sentence.text()
