"""What every table offers: several lines, copying as a table, columns, a file."""

import csv

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QAbstractItemView, QTableView

from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.kitchen.records import Batch


@pytest.fixture
def place(window):
    return window.go("journal")


@pytest.fixture
def table(place):
    return place.listing.table


def lines(text):
    return [line.split("\t") for line in text.splitlines()]


def test_several_lines_are_copied_with_their_headings_as_text_and_as_a_table(window, place, table):
    table.selectAll()
    place.table_menu.copy()
    held = QGuiApplication.clipboard().mimeData()
    head, *rows = lines(held.text())
    assert head[:2] == ["Started", "Food"]
    assert {row[1] for row in rows} == {"Sweet corn (kernels)", "Apple (slices)", "Turkey, cooked (kernels)"}
    assert held.html().count("<tr>") == 4
    assert "<td>Apple (slices)</td>" in held.html()
    assert "3 lines" in window.session.messages.latest.text


def test_control_c_copies_the_line_the_keyboard_is_on(window, table, qtbot):
    window.activateWindow()
    table.setFocus()
    qtbot.waitUntil(table.hasFocus)
    copy = next(
        a for m in window.menuBar().actions() for a in m.menu().actions() if a.shortcut().toString() == "Ctrl+C"
    )
    copy.trigger()
    assert len(lines(QGuiApplication.clipboard().text())) == 2


def test_the_list_as_it_is_in_view_is_saved_for_a_spreadsheet(place, table, tmp_path):
    place.listing.filter.edit.setText("apple")
    place.listing.filter.tell()
    place.table_menu.save(tmp_path / "batches.csv")
    with (tmp_path / "batches.csv").open(encoding="utf-8-sig", newline="") as file:
        head, *rows = csv.reader(file)
    assert "Food" in head
    assert [row[head.index("Food")] for row in rows] == ["Apple (slices)"]


def test_a_folder_that_cannot_be_written_is_said_in_a_sentence(window, place, tmp_path):
    place.table_menu.save(tmp_path / "no such folder" / "batches.csv")
    assert "was not saved" in window.session.messages.latest.text


def test_a_column_is_shown_by_choice_and_stays_so_next_time(window, place, table):
    titles = [c.title for c in table.rows.columns]
    rating = next(a for a in table.column_menu().actions() if a.text() == "Rating")
    assert table.isColumnHidden(titles.index("Rating"))
    rating.setChecked(True)
    assert not table.isColumnHidden(titles.index("Rating"))
    again = type(place.listing)(window.session).table
    assert not again.isColumnHidden(titles.index("Rating"))


def test_columns_dragged_into_another_order_are_copied_and_kept_so(window, place, table):
    header = table.horizontalHeader()
    header.moveSection(header.visualIndex(1), 0)
    place.table_menu.copy()
    assert lines(QGuiApplication.clipboard().text())[0][:2] == ["Food", "Started"]
    again = type(place.listing)(window.session).table
    assert again.horizontalHeader().logicalIndex(0) == 1


def test_several_batches_are_removed_in_one_act_and_come_back_in_one(window, place, table):
    table.selectAll()
    place.delete()
    assert window.session.kitchen.journal.where(Batch) == ()
    window.session.undo()
    assert len(window.session.kitchen.journal.where(Batch)) == 3


def test_the_menu_offers_what_can_be_done_with_one_and_with_several(place, table):
    one = [a.text() for a in place.table_menu.menu().actions()]
    assert any(t.startswith("&Edit") for t in one)
    table.selectAll()
    many = [a.text() for a in place.table_menu.menu().actions()]
    assert any("Remove 3 batches" in t for t in many)
    assert not any(t.startswith("&Edit") for t in many)


def test_every_table_of_the_places_that_lists_records_has_its_menu(window):
    without = []
    for spec in window.specs:
        for table in window.go(spec.id).findChildren(QTableView):
            chooses = table.selectionMode() == QAbstractItemView.SelectionMode.ExtendedSelection
            if chooses and table.findChild(TableMenu, options=Qt.FindChildOption.FindDirectChildrenOnly) is None:
                without.append((spec.id, table.accessibleName()))
    assert without == []
