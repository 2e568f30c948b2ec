"""A list that is narrowed: what is asked for is shown even where the narrowing hides it."""

import pytest

from dryhouse.desk.models.paged import Column
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.choices import choice_box, offer
from dryhouse.desk.widgets.filter_bar import FilterBar
from dryhouse.desk.widgets.narrowed_list import NarrowedList
from dryhouse.desk.widgets.paged_table import PagedTable
from tests.builders import a_kitchen


class Numbers(NarrowedList):
    """One to forty, all of them or those that a number divides; found by a digit."""

    def __init__(self, session):
        super().__init__(session, sort="id")
        self.by = choice_box("Divided by")
        offer(self.by, [("any", 1), ("two", 2), ("seven", 7)])
        table = PagedTable("Numbers", (Column("Number", str, "id"),), lambda ids: list(ids), lambda r: r)
        bar = FilterBar("Find", "Find", self.by)
        self.build(table, bar, (self.by,), picture="journal", none_fits="No number fits")

    def list_again(self):
        found = [n for n in range(1, 41) if n % self.by.currentData() == 0 and self.filter.text() in str(n)]
        self.table.set_ids(found[::-1] if self._descending else found)
        self.pages.show_fitting(bool(found))
        self.counted.emit(len(found), len(found) < 40)


@pytest.fixture
def numbers(qtbot, theme):
    made = Numbers(Session(a_kitchen(), theme))
    qtbot.addWidget(made)
    made.show()
    made.list_again()
    return made


def test_boxes_and_words_narrow_it_together_and_all_of_it_is_taken_away_at_once(numbers):
    told = []
    numbers.counted.connect(lambda *said: told.append(said))
    numbers.by.setCurrentIndex(2)
    numbers.filter.edit.setText("2")
    numbers.filter.tell()
    assert list(numbers.table.rows.ids) == [21, 28]
    numbers.clear()
    assert (numbers.by.currentIndex(), numbers.filter.text()) == (0, "")
    assert told[0] == (5, True)
    assert told[-1] == (40, False)


def test_a_record_that_is_hidden_is_shown_and_chosen_without_the_filter(numbers):
    numbers.by.setCurrentIndex(1)
    numbers.show_row(28)
    assert (numbers.table.current_id, numbers.by.currentIndex()) == (28, 1)
    numbers.show_row(7)
    assert (numbers.table.current_id, numbers.by.currentIndex()) == (7, 0)


def test_where_nothing_fits_a_page_says_so_and_its_button_shows_all(numbers):
    numbers.filter.edit.setText("99")
    numbers.filter.tell()
    assert numbers.pages.currentWidget() is numbers.pages.none
    numbers.pages.none.buttons[0].click()
    assert numbers.pages.currentWidget() is numbers.table


def test_the_order_asked_for_is_the_order_listed(numbers):
    numbers.table.sort_asked.emit("id", True)
    assert list(numbers.table.rows.ids)[:2] == [40, 39]
