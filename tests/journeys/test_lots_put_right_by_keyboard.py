"""What was entered by mistake on the shelf is put right from the list by keys alone, and comes back by undo."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Lot, LotMove
from dryhouse.kitchen.shelf.conditioning import conditioning
from dryhouse.kitchen.shelf.lots import move
from dryhouse.kitchen.shelf.packing import Package, pack
from dryhouse.kitchen.shelf.places import places
from tests.journeys.conftest import CTRL

ENTER, SHIFT = Qt.Key.Key_Return, Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def fruit(person, qtbot) -> int:
    """A jar of apples, packed today and twice moved, chosen in the list."""
    session = person.session
    apples = next(iter(session.kitchen.journal.batch_ids(BatchQuery(foods=("apple",), states=("finished",)))))
    pantry, cellar, *_ = places(session.kitchen)
    done = session.act(pack, apples, [Package(place=pantry.id)], more_than_dried=True)
    lot = next(c.record.id for c in done.changes if isinstance(c.record, Lot))
    session.act(move, [lot], cellar.id)
    qtbot.waitUntil(lambda: person.window.isActiveWindow() and QApplication.focusWidget() is not None)
    person.press(Qt.Key.Key_4, CTRL)
    view = person.window.views["shelf"]
    view.show_record("lot", lot)
    view.listing.table.setFocus()
    return lot


def test_a_lot_goes_off_the_record_and_comes_back(person, fruit):
    journal = person.session.kitchen.journal
    person.press(Qt.Key.Key_Delete, SHIFT)
    assert journal.get(Lot, fruit) is None
    assert journal.where(LotMove, lot=fruit) == ()
    assert person.window.views["shelf"].listing.table.hasFocus()
    person.press(Qt.Key.Key_Z, CTRL)
    assert journal.get(Lot, fruit) is not None
    assert len(journal.where(LotMove, lot=fruit)) == 2


def test_the_newest_move_is_taken_back_and_comes_back(person, fruit):
    journal, panel = person.session.kitchen.journal, person.window.views["shelf"].panel
    before = journal.where(LotMove, lot=fruit)
    was = panel.line.place
    person.press(Qt.Key.Key_W)
    form = person.window.views["shelf"].form
    assert form.isVisible()
    assert was in form.fields["move"].box.currentText()
    form.save_button.setFocus()
    person.press(Qt.Key.Key_Space)
    assert not form.isVisible()
    assert len(journal.where(LotMove, lot=fruit)) == 1
    assert person.window.views["shelf"].state.line(fruit).place != was
    person.press(Qt.Key.Key_Z, CTRL)
    assert set(journal.where(LotMove, lot=fruit)) == set(before)


def test_conditioning_begins_today_is_counted_and_ends_by_one_key(person, fruit, qtbot):
    kitchen, panel = person.session.kitchen, person.window.views["shelf"].panel
    assert "Not conditioned yet" in panel.conditioned.text()
    person.press(Qt.Key.Key_E)
    qtbot.waitUntil(lambda: "day 1 of 10: shake and look at it today" in panel.conditioned.text())
    assert panel.run_button.text() == "&End it"
    person.press(Qt.Key.Key_E)
    assert kitchen.journal.get(Lot, fruit).conditioned_to is not None
    qtbot.waitUntil(lambda: "Conditioned 0 days" in panel.conditioned.text())
    assert "needs 10" in panel.conditioned.text()
    person.press(Qt.Key.Key_Z, CTRL)
    person.press(Qt.Key.Key_Z, CTRL)
    assert next(c for c in conditioning(kitchen) if c.lot.id == fruit).state == "due"


def test_a_treatment_against_insects_is_recorded_and_can_be_none_after_all(person, fruit):
    journal = person.session.kitchen.journal
    person.press(Qt.Key.Key_I)
    form = person.window.views["shelf"].form
    person.type("two days in the freezer")
    form.fields["on"].edit.setFocus()
    person.press(ENTER)
    assert journal.get(Lot, fruit).pasteurised.startswith("two days in the freezer, ")
    person.press(Qt.Key.Key_I)
    form.fields["pasteurised"].set_value("")
    form.fields["on"].edit.setFocus()
    person.press(ENTER)
    assert journal.get(Lot, fruit).pasteurised == ""


def test_food_that_is_no_fruit_has_no_conditioning_to_begin(person, fruit):
    view = person.window.views["shelf"]
    other = next(x.lot.id for x in view.state.lines().values() if x.lot.food == "corn")
    view.show_record("lot", other)
    view.listing.table.setFocus()
    assert view.panel.conditioning.isHidden()
    person.press(Qt.Key.Key_E)
    assert "no conditioning" in person.session.messages.latest.text
    assert person.session.kitchen.journal.get(Lot, other).conditioned_from is None
