"""Places are found by scanning, and refresh only when they are seen."""

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QPushButton

from dryhouse.desk.place import DeskPlace, PlaceSpec, places
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


def test_where_the_keyboard_goes_comes_into_view_and_the_next_place_begins_at_its_head(window, qtbot):
    window.resize(900, 600)
    window.theme.enlarge(9)
    bar = window.room.area.verticalScrollBar()
    journal = window.go("journal")
    qtbot.waitUntil(lambda: bar.maximum() > 200)
    bar.setValue(0)
    shown = [b for b in journal.findChildren(QPushButton) if b.isVisible()]
    last = max(shown, key=lambda b: b.mapTo(window, QPoint(0, 0)).y())
    assert last.visibleRegion().isEmpty()
    last.setFocus()
    qtbot.waitUntil(lambda: not last.visibleRegion().isEmpty())
    assert bar.value() > 0
    window.go("yields")
    qtbot.waitUntil(lambda: bar.value() == 0)
    window.theme.enlarge(0)
