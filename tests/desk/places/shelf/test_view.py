"""The shelf as a new user would try it: pack, move, open, find what to use first, look ahead, print labels."""

from __future__ import annotations

import subprocess
from datetime import date, timedelta
from shutil import which

import pytest
from PySide6.QtCore import Qt

from dryhouse.desk.places.shelf.state import ShelfState, read_ahead, state_of
from dryhouse.kitchen.records import Batch, Lot, LotCheck, LotDraw, LotMove
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.kitchen.shelf.lots import Found, check_lot, move
from dryhouse.kitchen.shelf.packing import Package, pack, split
from dryhouse.kitchen.shelf.places import set_temperature
from dryhouse.science.quantities import Temperature
from tests.kitchen.shelf_room import CELLAR, FREEZER, NOW, PANTRY, TODAY, packed


def settle(qtbot, place):
    qtbot.wait(60)
    return place.panel


def test_an_empty_shelf_says_what_to_do_next(shelf):
    assert shelf.pages.currentWidget() is shelf.empty_state
    assert shelf.empty_state.buttons[0].text() == "Pack a batch"


def test_a_batch_is_packed_into_three_jars_one_moved_one_opened_and_the_first_to_use_found(qtbot, shelf, kitchen):
    qtbot.mouseClick(shelf.empty_state.buttons[0], Qt.MouseButton.LeftButton)
    form = shelf._pack
    form.batch.set_value(1)
    form.count.edit.setText("3")
    assert len(form.rows) == 3
    assert form.kind.value() is None, "no package is chosen beforehand"
    form.kind.set_value("jar")
    form.place.set_value(CELLAR)
    qtbot.mouseClick(form.save_button, Qt.MouseButton.LeftButton)
    lots = [lot.id for lot in kitchen.journal.where(Lot)]
    assert len(lots) == 3
    assert shelf.pages.currentWidget() is shelf.lists
    assert shelf.listing.selected() == lots, "all of them are chosen, for their labels"

    shelf.listing.show_row(lots[1])
    settle(qtbot, shelf)
    shelf.ask("move")
    shelf.form.fields["place"].set_value(FREEZER)
    qtbot.mouseClick(shelf.form.save_button, Qt.MouseButton.LeftButton)
    assert shelf.state.line(lots[1]).place == "freezer"

    shelf.listing.show_row(lots[0])
    settle(qtbot, shelf)
    shelf.ask("open")
    qtbot.keyClick(shelf.form.fields["on"].edit, Qt.Key.Key_Return)
    panel = settle(qtbot, shelf)
    assert panel.status.word == "check first"
    assert "Opened" in panel.status.sentence()
    first = next(line for line in shelf.state.lines().values() if line.first == 1)
    assert first.lot.id in lots[1:]


def test_a_lot_without_a_recorded_precook_shows_its_stop_with_the_source(qtbot, shelf, window):
    lot = window.session.act(pack, 2, [Package(place=FREEZER)]).record
    shelf.listing.show_row(lot.id)
    panel = settle(qtbot, shelf)
    stops = [c for c in panel.cautions.cautions if c.severity == "stop"]
    assert stops
    assert "USDA" in stops[0].source
    assert panel.status.word == "do not eat"


def test_acts_by_keyboard_draw_check_and_throw_out(qtbot, shelf, session, window, kitchen):
    lot = window.session.act(pack, 1, [Package(place=CELLAR)]).record
    shelf.listing.show_row(lot.id)
    settle(qtbot, shelf)
    shelf.listing.table.setFocus()
    qtbot.keyClick(shelf.listing.table, Qt.Key.Key_T)
    form = shelf.form
    assert form.heading.text().startswith("Take some of")
    form.fields["mass"].edit.setText("40 g")
    qtbot.keyClick(form.fields["mass"].edit, Qt.Key.Key_Return)
    assert [d.mass.si for d in kitchen.journal.where(LotDraw)] == [40.0]

    qtbot.keyClick(shelf.listing.table, Qt.Key.Key_C)
    form.fields["moist"].set_value(True)
    qtbot.keyClick(form.fields["note"].edit, Qt.Key.Key_Return)
    assert kitchen.journal.where(LotCheck)[0].moist is True
    panel = settle(qtbot, shelf)
    assert panel.status.word == "check first"

    shelf.listing.table.setFocus()
    qtbot.keyClick(shelf.listing.table, Qt.Key.Key_Delete)
    assert form.heading.text().startswith("Throw out")
    assert set(shelf.state.lines()) == {lot.id}, "nothing is thrown out by a key alone"
    form.fields["note"].edit.setText("smelled off")
    qtbot.keyClick(form.fields["note"].edit, Qt.Key.Key_Return)
    assert shelf.state.lines() == {}
    assert kitchen.journal.where(LotDraw)[-1].note == "smelled off"
    window.session.undo()
    assert set(shelf.state.lines()) == {lot.id}


def test_a_refused_draw_is_said_at_its_entry_and_a_cup_will_do(qtbot, shelf, window, kitchen):
    lot = window.session.act(pack, 1, [Package(place=CELLAR)]).record
    shelf.listing.show_row(lot.id)
    settle(qtbot, shelf)
    shelf.ask("draw")
    shelf.form.fields["mass"].edit.setText("900 g")
    shelf.form.save()
    assert "is left" in shelf.form.fields["mass"].sentence.text()
    whole = shelf.state.line(lot.id)
    shelf.form.fields["mass"].edit.setText("1/4 cup")
    shelf.form.save()
    (taken,) = kitchen.journal.where(LotDraw)
    assert taken.mass.si == pytest.approx(59.15 * whole.mass_left_g / whole.volume_left_ml, rel=1e-3)
    shelf.ask("draw")
    qtbot.keyClick(shelf.form, Qt.Key.Key_Escape)
    assert shelf.beside.currentWidget() is shelf.panel


def test_many_lots_move_at_once(qtbot, shelf, window, kitchen):
    window.session.act(pack, 1, split(kitchen, kitchen.journal.get(Batch, 1), 3, Package(place=PANTRY)))
    shelf.listing.table.selectAll()
    settle(qtbot, shelf)
    shelf.ask("move")
    assert "3 lots" in shelf.form.heading.text()
    shelf.form.fields["place"].set_value(CELLAR)
    shelf.form.save()
    assert {line.place for line in shelf.state.lines().values()} == {"cellar"}


def test_search_and_standings_narrow_the_list(qtbot, shelf, window):
    for batch, place in ((1, CELLAR), (2, FREEZER), (4, FREEZER)):
        window.session.act(pack, batch, [Package(place=place)])
    shelf.listing.filter.edit.setText("turk")
    shelf.listing.filter.tell()
    assert len(shelf.listing.table.rows.ids) == 2
    shelf.listing.standing.setCurrentText("Keeping")
    assert len(shelf.listing.table.rows.ids) == 1
    shelf.listing.clear()
    shelf.listing.table.sort_asked.emit("food", True)
    names = [shelf.state.line(id).food_name for id in shelf.listing.table.rows.ids]
    assert names == sorted(names, reverse=True)


def test_where_no_lot_fits_one_click_shows_all_again(shelf, window):
    window.session.act(pack, 1, [Package(place=CELLAR)])
    shelf.listing.filter.edit.setText("zucchini")
    shelf.listing.filter.tell()
    assert shelf.listing.pages.none.isVisible()
    shelf.listing.pages.none.buttons[0].click()
    assert shelf.listing.table.isVisible()
    assert len(shelf.listing.table.rows.ids) == 1


def test_the_shelf_on_the_last_day_of_a_trip(qtbot, shelf, window):
    lot = window.session.act(pack, 1, [Package(place=CELLAR)]).record
    shelf.refresh()
    assert not shelf.day.on.isVisible()
    shelf.day.days.setCurrentIndex(1)
    shelf.day.days.activated.emit(1)
    assert shelf.state.day == date(2027, 8, 28)
    assert shelf.state.line(lot.id).standing == "past keep-by"
    shelf.toggle_timeline()
    assert "Past their keep-by by then" in shelf._timeline.said.text()
    shelf._timeline.pane.canvas.setFocus()
    qtbot.wait(30)
    assert not shelf._timeline.pane.picture().isNull()
    assert shelf._timeline.area.verticalScrollBar().value() == 0
    assert shelf._timeline.pane.canvas.minimumHeight() > 250
    shelf.toggle_timeline()
    shelf.day.days.activated.emit(shelf.day.days.count() - 1)
    assert shelf.day.on.edit.hasFocus()
    shelf.day.on.edit.setText("in 2 weeks")
    assert shelf.state.day == TODAY + timedelta(days=14)
    shelf.day.on.edit.setText("")
    assert shelf.state.on is None


def test_labels_are_previewed_and_saved(qtbot, shelf, window, tmp_path):
    window.session.act(pack, 2, [Package(place=FREEZER)])
    shelf.listing.table.setFocus()
    settle(qtbot, shelf)
    shelf.ask("labels")
    page = shelf._labels
    assert page.picture.pixmap() is not None
    file = tmp_path / "labels.pdf"
    assert page.save(file)
    assert file.read_bytes().startswith(b"%PDF")
    if which("pdftotext"):
        text = subprocess.run(["pdftotext", str(file), "-"], capture_output=True, text=True, check=True).stdout
        assert "STOP" in text
        assert "165 °F" in text
    assert not page.save(tmp_path / "no such folder" / "labels.pdf")
    assert "not saved" in window.session.messages.latest.text


def test_the_sheet_of_labels_follows_her_units_until_she_chooses_one(shelf, window):
    session = window.session
    session.act(pack, 2, [Package(place=FREEZER)])
    shelf.listing.table.setFocus()
    for system, paper in (("us", "Letter"), ("metric", "A4")):
        session.act(set_preference, UNITS_KEY, system)
        shelf.ask("labels")
        assert shelf._labels.job().sheet.page == paper
        shelf.show_list()
    shelf._labels.sheet.box.setCurrentIndex(1)
    chosen = shelf._labels.sheet.value()
    session.act(set_preference, UNITS_KEY, "us")
    shelf.ask("labels")
    assert shelf._labels.sheet.value() == chosen


def test_conditioning_is_entered_and_changes_the_standing(qtbot, shelf, window):
    lot = window.session.act(pack, 3, [Package(place=CELLAR)], packed_on=TODAY - timedelta(days=20)).record
    shelf.listing.show_row(lot.id)
    settle(qtbot, shelf)
    shelf.ask("conditioning")
    shelf.form.fields["conditioned_from"].edit.setText((TODAY - timedelta(days=12)).isoformat())
    shelf.form.fields["conditioned_to"].edit.setText((TODAY - timedelta(days=1)).isoformat())
    shelf.form.save()
    assert shelf.state.line(lot.id).standing == "keeping"


def test_the_page_that_is_printed_names_every_stop(shelf, window):
    assert shelf.printout() is None
    window.session.act(pack, 2, [Package(place=FREEZER)])
    text = shelf.printout().toPlainText()
    assert "Stop:" in text
    assert "USDA" in text


def test_a_reading_made_ahead_takes_in_what_was_done_meanwhile(qtbot, session, kitchen):
    packed(kitchen, 1, CELLAR)
    state = state_of(session)
    assert state_of(session) is state
    read_ahead(session)
    session.act(pack, 2, [Package(place=FREEZER)])
    qtbot.waitUntil(lambda: state._book is not None)
    assert len(state.book.lots) == 2
    lot = kitchen.journal.where(Lot)[0]
    session.act(move, [lot.id], FREEZER)
    session.act(check_lot, lot.id, Found(moist=False))
    assert len(state.book.moves[lot.id]) == len(kitchen.journal.where(LotMove, lot=lot.id)) == 2


def test_a_place_grown_warmer_is_seen_at_once(shelf, window):
    lot = window.session.act(pack, 1, [Package(place=CELLAR)]).record
    before = shelf.state.line(lot.id).keep_by
    window.session.act(set_temperature, CELLAR, Temperature(30.0), since=NOW - timedelta(days=10))
    assert shelf.state.line(lot.id).keep_by < before


def test_a_state_belongs_to_its_session(session):
    assert isinstance(state_of(session), ShelfState)
    assert state_of(session).lines() == {}
