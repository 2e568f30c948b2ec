"""The paged table: never all rows, never a wrong one."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester

from dryhouse.desk.models.paged import KEPT_PAGES, PAGE, Column, PagedModel
from dryhouse.desk.widgets.paged_table import PagedTable

COLUMNS = (
    Column("Number", lambda r: str(r), "id", right=True),
    Column("Square", lambda r: str(r * r), stretch=True),
)


class Source:
    def __init__(self, gone=()):
        self.fetched = []
        self.gone = set(gone)

    def __call__(self, ids):
        self.fetched.append(len(ids))
        return [i for i in ids if i not in self.gone]


@pytest.fixture
def source():
    return Source(gone={5})


@pytest.fixture
def model(source):
    made = PagedModel(COLUMNS, source, lambda r: r)
    made.set_ids(list(range(1, 100_001)))
    return made


@pytest.fixture
def table(source, qtbot):
    made = PagedTable("Numbers", COLUMNS, source, lambda r: r)
    qtbot.addWidget(made)
    made.resize(500, 400)
    made.show()
    return made


def test_it_keeps_the_promises_of_a_model(model):
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    model.set_ids([3, 2, 1])
    model.forget()
    model.set_ids([])
    assert tester.model() is model


def test_a_hundred_thousand_rows_cost_one_page(model, source):
    assert model.rowCount() == 100_000
    assert model.index(70_000, 1).data() == str(70_001**2)
    assert source.fetched == [PAGE]


def test_pages_far_from_the_view_are_dropped(model, source):
    for page in range(KEPT_PAGES + 5):
        model.index(page * PAGE, 0).data()
    assert len(model._pages) == KEPT_PAGES


def test_a_record_that_is_gone_is_an_empty_line_and_not_a_neighbours(model):
    assert model.index(4, 0).data() == ""
    assert model.row_at(4) is None
    assert model.index(5, 0).data() == "6"


def test_only_the_view_is_fetched(table, source):
    table.set_ids(list(range(1, 100_001)))
    table.grab()
    assert sum(source.fetched) <= 2 * PAGE


def test_the_first_line_is_chosen_and_announced(table, qtbot):
    with qtbot.waitSignal(table.chosen) as caught:
        table.set_ids([7, 8, 9])
    assert caught.args == [7]


def test_the_chosen_one_stays_chosen_through_another_filter(table, qtbot):
    table.set_ids([7, 8, 9])
    table.choose(9)
    with qtbot.assertNotEmitted(table.chosen):
        table.set_ids([9, 10])
    assert table.current_id == 9


def test_an_empty_list_chooses_nothing(table, qtbot):
    table.set_ids([7])
    with qtbot.waitSignal(table.chosen) as caught:
        table.set_ids([])
    assert caught.args == [None]


def test_keys_walk_and_enter_opens(table, qtbot):
    table.set_ids([7, 8, 9])
    qtbot.keyClick(table, Qt.Key.Key_Down)
    assert table.current_id == 8
    with qtbot.waitSignal(table.opened) as caught:
        qtbot.keyClick(table, Qt.Key.Key_Return)
    assert caught.args == [8]
    qtbot.keyClick(table, Qt.Key.Key_End)
    assert table.current_id == 9


def test_a_heading_asks_for_an_order(table, qtbot):
    with qtbot.waitSignal(table.sort_asked) as caught:
        table.horizontalHeader().setSortIndicator(0, Qt.SortOrder.AscendingOrder)
    assert caught.args == ["id", False]
    with qtbot.assertNotEmitted(table.sort_asked):
        table.horizontalHeader().setSortIndicator(1, Qt.SortOrder.AscendingOrder)
        table.show_sort("id", True)


def test_what_is_not_listed_cannot_be_chosen(table):
    table.set_ids([7])
    assert not table.choose(99)
    assert table.current_id == 7
