"""Packing a batch: more than there is, no place, a bag for each serving."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt

from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Lot, LotMove
from tests.kitchen.shelf_room import CELLAR, FREEZER


def test_more_than_was_dried_is_refused_at_the_entry_and_nothing_is_packed(qtbot, shelf, kitchen):
    shelf.pack(1)
    form = shelf._pack
    form.rows[0].mass.edit.setText("900 g")
    form.kind.set_value("jar")
    form.place.set_value(CELLAR)
    form.save()
    assert kitchen.journal.where(Lot) == ()
    assert "is left to pack" in shelf.session.messages.latest.text
    assert form.more.isVisible()
    form.more.setChecked(True)
    form.save()
    assert len(kitchen.journal.where(Lot)) == 1


def test_no_place_is_chosen_beforehand_and_packing_asks_for_one(shelf, kitchen):
    shelf.empty_state.buttons[0].click()
    form = shelf._pack
    form.batch.set_value(2)
    form.count.edit.setText("2")
    form.save()
    assert "Choose a package" in form.kind.sentence.text()
    form.kind.set_value("bag")
    form.save()
    assert kitchen.journal.where(Lot) == ()
    assert form.place.value() is None
    assert "Choose a place" in form.place.sentence.text()
    form.place.set_value(FREEZER)
    form.in_oil.set_value(False)
    form.save()
    assert [lot.in_oil for lot in kitchen.journal.where(Lot)] == [False, False]
    assert {m.place for m in kitchen.journal.where(LotMove)} == {FREEZER}
    form.begin()
    assert (form.place.value(), form.in_oil.value()) == (None, None)


def test_a_pot_is_offered_a_bag_for_each_serving(qtbot, shelf, kitchen):
    batch = kitchen.journal.get(Batch, 1)
    kitchen.journal.write([Change(batch, replace(batch, servings=4.0))])
    shelf.pack(1)
    form = shelf._pack
    assert form.by_servings.isVisible()
    assert form.by_servings.text() == "A bag for each serving (4 of them)"
    assert [row.name for row in form.rows] == ["1 of 4", "2 of 4", "3 of 4", "4 of 4"]
    assert {row.kind.value() for row in form.rows} == {"bag"}
    form.by_servings.setChecked(False)
    form.count.edit.setText("2")
    assert [row.name for row in form.rows] == ["", ""]
    form.by_servings.setChecked(True)
    form.place.set_value(CELLAR)
    qtbot.mouseClick(form.save_button, Qt.MouseButton.LeftButton)
    assert [lot.name for lot in kitchen.journal.where(Lot)] == ["1 of 4", "2 of 4", "3 of 4", "4 of 4"]
