"""Places and how warm they are."""

from __future__ import annotations

from dryhouse.kitchen.records import Place
from dryhouse.kitchen.shelf.packing import Package, pack
from tests.kitchen.shelf_room import CELLAR


def test_places_are_added_and_their_temperatures_put_right(qtbot, shelf, kitchen):
    shelf.show_places()
    page = shelf._places
    page.new()
    page.name_.edit.setText("boathouse loft")
    page.temperature.edit.setText("80 F")
    page.save()
    assert page.place.name == "boathouse loft"
    page.history.itemClicked.emit(page.history.item(0))
    page.temperature.edit.setText("75 F")
    page.save()
    assert "75 °F" in page.history.item(0).text()
    assert page.history.count() == 1
    page.remove()
    assert "boathouse loft" not in {p.name for p in kitchen.journal.where(Place)}


def test_a_place_lots_stood_in_stays_and_says_why(shelf, window):
    window.session.act(pack, 1, [Package(place=CELLAR)])
    shelf.show_places()
    shelf._places.remove()
    assert "keep-by needs it" in window.session.messages.latest.text
