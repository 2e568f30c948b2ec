"""Places are found by scanning, and refresh only when they are seen."""

from PySide6.QtWidgets import QLabel, QLineEdit, QWidget

from dryhouse.desk.place import DeskPlace, PlaceSpec, places
from dryhouse.desk.place_area import Room
from dryhouse.desk.widgets.basics import column
from dryhouse.kitchen.batches.dryers import save_dryer
from dryhouse.kitchen.records import Dryer


class Counting(DeskPlace):
    watches = frozenset({Dryer})
    refreshed = 0

    def refresh(self):
        self.refreshed += 1


def test_the_scan_finds_every_place_in_order_with_a_key_each():
    found = places()
    assert [s.order for s in found] == sorted(s.order for s in found)
    assert {"journal", "handbook"} <= {s.id for s in found}
    assert len({s.shortcut for s in found}) == len(found)
    assert all(s.title and s.purpose for s in found)


def test_every_view_can_be_loaded():
    for spec in places():
        assert issubclass(spec.load(), DeskPlace)


def test_a_hidden_place_waits_until_it_is_seen(session, qtbot):
    place = Counting(session)
    qtbot.addWidget(place)
    session.act(save_dryer, Dryer("another", 4))
    assert place.refreshed == 0
    place.show()
    assert place.refreshed == 1
    session.act(save_dryer, Dryer("yet another", 4))
    assert place.refreshed == 2


def test_changes_of_other_kinds_are_none_of_its_business(session, qtbot):
    place = Counting(session)
    place.watches = frozenset()
    qtbot.addWidget(place)
    place.show()
    session.act(save_dryer, Dryer("another", 4))
    assert place.refreshed == 1


def test_a_spec_names_its_view_without_importing_it():
    spec = PlaceSpec("x", "X", 9, "Ctrl+9", "no.such.module:View")
    assert spec.target == "no.such.module:View"


def test_where_the_keyboard_goes_comes_into_view_and_the_next_place_begins_at_its_head(theme, qtbot):
    room, place, other = Room(), QWidget(), QWidget()
    qtbot.addWidget(room)
    entries = [QLineEdit() for _ in range(40)]
    for entry in entries:
        entry.setMinimumHeight(30)
    for page, inside in ((place, entries), (other, [QLabel("as long")])):
        page.setMinimumHeight(1500)
        lines = column(page)
        for widget in inside:
            lines.addWidget(widget)
        room.stack.addWidget(page)
    room.resize(400, 300)
    room.show()
    room.activateWindow()
    assert entries[30].visibleRegion().isEmpty()
    entries[30].setFocus()
    qtbot.waitUntil(lambda: entries[30].visibleRegion().boundingRect().height() >= 30)
    room.stack.setCurrentWidget(other)
    assert room.area.verticalScrollBar().value() == 0
