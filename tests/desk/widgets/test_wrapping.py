"""Things side by side go on below where the width does not hold them."""

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton, QWidget

from dryhouse.desk.widgets.basics import Pages, column, row, scrolling, text_label
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.desk.widgets.wrapping import Tiles, Wrapping


def held(layout, qtbot, width):
    made = QWidget()
    qtbot.addWidget(made)
    made.setLayout(layout)
    made.resize(width, 300)
    made.show()
    QApplication.processEvents()
    return made


def boxes(count):
    made = [QPushButton(f"button {n}") for n in range(count)]
    for box in made:
        box.setFixedWidth(100)
    return made


def test_what_does_not_fit_the_line_goes_into_the_next(theme, qtbot):
    three = boxes(3)
    whole = held(Wrapping(*three), qtbot, 230)
    assert [box.y() > 0 for box in three] == [False, False, True]
    whole.resize(400, 300)
    QApplication.processEvents()
    assert len({box.y() for box in three}) == 1


def test_a_stretch_pushes_what_follows_to_the_other_side(theme, qtbot):
    first, last = boxes(2)
    whole = held(Wrapping(first, 1, last), qtbot, 500)
    assert first.x() == 0
    assert last.x() + last.width() == whole.width()


def test_what_is_hidden_takes_no_room(theme, qtbot):
    three = boxes(3)
    whole = held(Wrapping(*three), qtbot, 230)
    three[0].hide()
    QApplication.processEvents()
    assert whole.isVisible()
    assert {box.y() for box in three[1:]} == {0}


@pytest.mark.parametrize(("width", "lines"), [(640, 1), (430, 2), (150, 4)])
def test_tiles_are_all_of_one_width_and_as_many_in_a_line_as_fit(theme, qtbot, width, lines):
    four = [QLabel(f"figure {n}") for n in range(4)]
    whole = held(Tiles(*four, least=140), qtbot, width)
    assert len({tile.y() for tile in four}) == lines
    assert {tile.width() for tile in four} == {four[0].width()}
    assert max(tile.geometry().right() for tile in four) < whole.width()


def test_two_things_go_one_above_the_other_where_both_do_not_fit(theme, qtbot):
    left, right = QLabel("list"), QLabel("panel")
    across = row(side_by_side(left, right, sizes=(400, 400), least=(300, 300)))
    whole = held(across, qtbot, 800)
    assert left.mapTo(whole, left.pos()).y() == right.mapTo(whole, right.pos()).y()
    assert right.x() > left.x()
    whole.resize(500, 700)
    QApplication.processEvents()
    assert right.y() > left.y()
    assert left.width() == right.width() == 500


def test_pages_need_the_room_of_the_one_in_view(theme, qtbot):
    small, large = QLabel("small"), QLabel("large")
    large.setMinimumSize(900, 700)
    pages = Pages(small, large)
    qtbot.addWidget(pages)
    assert pages.minimumSizeHint().width() < 300
    pages.setCurrentWidget(large)
    assert pages.minimumSizeHint().width() == 900


def test_what_scrolls_is_never_narrower_than_what_it_holds(theme, qtbot):
    inside = QWidget()
    inside.setMinimumWidth(500)
    area = scrolling(inside)
    qtbot.addWidget(area)
    assert area.minimumSizeHint().width() >= 500


def test_a_page_out_of_sight_asks_for_no_height(theme, qtbot):
    short, long = QWidget(), QWidget()
    for page, text in ((short, "short"), (long, "a long story " * 200)):
        column(page).addWidget(text_label(text))
    pages = Pages(short, long)
    whole = held(row(pages), qtbot, 400)
    assert whole.layout().minimumHeightForWidth(400) < 100
    pages.setCurrentIndex(1)
    QApplication.processEvents()
    assert whole.layout().minimumHeightForWidth(400) > 300


def test_the_lines_of_what_wraps_are_asked_for_where_nobody_asks_by_width(theme, qtbot):
    three = boxes(3)
    whole = held(Wrapping(*three), qtbot, 230)
    assert whole.minimumSizeHint().height() > three[2].geometry().bottom()
    whole.resize(400, 300)
    QApplication.processEvents()
    assert whole.minimumSizeHint().height() < 2 * three[0].height()


def test_a_list_gives_way_to_a_form_where_both_do_not_fit(theme, qtbot):
    left, right = QLabel("list"), QLabel("form")
    both = side_by_side(left, right, sizes=(400, 400), least=(300, 300))
    whole = held(row(both), qtbot, 500)
    assert left.isVisible()
    both.give_way(True)
    assert not left.isVisible()
    whole.resize(800, 300)
    QApplication.processEvents()
    assert left.isVisible()
    whole.resize(500, 300)
    both.give_way(False)
    assert left.isVisible()


def test_the_entry_she_types_in_stays_where_it_is_when_something_appears_above_it(theme, qtbot):
    caution, page = QLabel("a caution\nof two lines"), QWidget()
    entries = [QLineEdit() for _ in range(30)]
    inside = column(page)
    caution.hide()
    for piece in (caution, *entries):
        inside.addWidget(piece)
    area = scrolling(page)
    whole = held(row(area), qtbot, 300)
    whole.activateWindow()
    entries[12].setFocus()
    qtbot.waitUntil(entries[12].hasFocus)
    qtbot.wait(5)

    def stands():
        return entries[12].mapTo(area, QPoint(0, 0)).y()

    before, scrolled = stands(), area.verticalScrollBar().value()
    caution.show()
    qtbot.waitUntil(lambda: area.verticalScrollBar().value() > scrolled)
    assert stands() == before
    caution.hide()
    qtbot.waitUntil(lambda: area.verticalScrollBar().value() == scrolled)
    assert stands() == before
