"""The Journal: finding, choosing, changing, deleting, drafts."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QTextDocument

from dryhouse.desk.places.batches.view import JournalPlace
from dryhouse.desk.session import Session
from dryhouse.kitchen.batches.log import delete_batch
from dryhouse.kitchen.records import Batch, Trip
from tests.builders import NOW, a_kitchen
from tests.desk.conftest import BOX, SHELF, a_batch
from tests.kitchen.shelf_room import HEATED


@pytest.fixture
def place(session, qtbot):
    made = JournalPlace(session)
    qtbot.addWidget(made)
    made.resize(1080, 760)
    made.show()
    qtbot.waitUntil(lambda: made.panel.batch is not None)
    return made


def listed(place):
    return list(place.listing.table.rows.ids)


def cells(place, line):
    rows = place.listing.table.rows
    return [rows.index(line, i).data() for i in range(rows.columnCount()) if rows.columns[i].usual]


def test_the_newest_batch_is_first_and_its_card_is_beside_it(place):
    assert listed(place) == [1, 2, 3]
    assert cells(place, 0) == ["23 Nov 2026", "Sweet corn (kernels)", "shelf dryer", "2 lb 3 oz", "9 oz", "26 %"]
    assert place.panel.heading.text() == "Sweet corn, batch 1"
    assert place.panel.card.status.word == "dry enough"


def test_what_was_last_dried_is_chosen_before_what_is_planned(theme, qtbot):
    later = NOW + timedelta(days=200)
    planned = a_batch(2, state="planned", started=later, ended=None, dried_mass=None)
    drying = a_batch(3, state="drying", started=NOW, ended=None, dried_mass=None)
    place = JournalPlace(Session(a_kitchen(SHELF, a_batch(1), planned, drying), theme))
    qtbot.addWidget(place)
    place.show()
    assert listed(place) == [2, 3, 1]
    qtbot.waitUntil(lambda: place.panel.batch is not None)
    assert place.panel.batch.id == 1
    place.show_record("batch", 2)
    assert place.panel.card.status.sentence() == "Start it in Drying now when its trays go in."
    place.show_record("batch", 3)
    assert "drying chart" in place.panel.card.status.sentence()


def colors_of(table, index):
    seen = table.viewport().grab(table.visualRect(index)).toImage()
    return {seen.pixelColor(x, y).name() for x in range(seen.width()) for y in range(seen.height())}


def nearest(ink, names):
    """How far the nearest of these colors is from the ink, in all three parts together."""
    return min(sum(abs(a - b) for a, b in zip(ink.getRgb(), QColor(n).getRgb(), strict=True)) for n in names)


def test_what_must_not_be_eaten_says_so_in_the_list_with_its_own_look(place, qtbot):
    table = place.listing.table
    food = table.rows.index(2, 1)
    qtbot.waitUntil(lambda: food.data().startswith("Do not eat: Turkey"))
    assert [table.rows.index(line, 1).data().startswith("Do not eat") for line in (0, 1)] == [False, False]
    ink = QColor(place.session.theme.tokens.tint("do not eat").ink)
    assert nearest(ink, colors_of(table, food)) < 40
    assert nearest(ink, colors_of(table, table.rows.index(1, 1))) > 80


def test_what_is_heated_afterwards_is_no_longer_marked(place, qtbot, session):
    from dryhouse.kitchen.batches.log import BatchDraft, edit_batch

    food = place.listing.table.rows.index(2, 1)
    qtbot.waitUntil(lambda: food.data().startswith("Do not eat: Turkey"))
    heated = replace(session.kitchen.journal.get(Batch, 3), **HEATED)
    session.act(edit_batch, 3, BatchDraft(heated))
    place.freshen()
    qtbot.wait(200)
    assert place.listing.table.rows.index(2, 1).data().startswith("Turkey")


def test_typing_finds_by_food(place, qtbot):
    qtbot.keyClicks(place.listing.filter.edit, "appl")
    qtbot.waitUntil(lambda: listed(place) == [2])
    qtbot.waitUntil(lambda: place.panel.batch.id == 2)
    assert place.listing.count.text() == "1 batch"


def test_dryer_state_and_year_narrow_the_list(place):
    place.listing.dryer.setCurrentIndex(place.listing.dryer.findText("box dryer"))
    assert listed(place) == [3]
    place.listing.clear()
    assert listed(place) == [1, 2, 3]
    place.listing.state.setCurrentIndex(place.listing.state.findText("Drying"))
    assert listed(place) == []
    assert place.pages.currentWidget() is place.lists
    place.listing.clear()
    place.listing.period.setCurrentIndex(place.listing.period.findText("2026"))
    assert listed(place) == [1, 2, 3]


def test_headings_sort(place):
    place.listing.table.horizontalHeader().setSortIndicator(1, Qt.SortOrder.AscendingOrder)
    foods = [cells(place, i)[1].removeprefix("Do not eat: ") for i in range(3)]
    assert [food.split()[0] for food in foods] == ["Apple", "Sweet", "Turkey,"]


def test_deleting_can_be_taken_back(place):
    place.delete(1)
    assert listed(place) == [2, 3]
    assert place.session.messages.latest.undo
    place.session.undo()
    assert listed(place) == [1, 2, 3]
    assert place.listing.table.current_id == 1


def test_after_deleting_the_next_one_is_chosen(place):
    place.listing.show_row(2)
    place.delete(2)
    assert place.listing.table.current_id == 3
    place.delete(3)
    assert place.listing.table.current_id == 1


def test_where_nothing_fits_one_click_shows_all_again(place):
    place.listing.filter.edit.setText("nothing like it")
    place.listing.filter.tell()
    assert place.listing.pages.none.isVisible()
    place.listing.pages.none.buttons[0].click()
    assert listed(place) == [1, 2, 3]
    assert place.listing.table.isVisible()


def test_a_narrow_list_keeps_food_and_dried_weight(place):
    place.listing.resize(420, 500)
    place.listing.table.resize(400, 500)
    hidden = [
        c.title for i, c in enumerate(place.listing.table.rows.columns) if place.listing.table.isColumnHidden(i)
    ]
    assert hidden
    assert not {"Food", "Dried", "Started"} & set(hidden)


def test_a_batch_hidden_by_the_filter_is_brought_into_view(place, qtbot):
    place.listing.filter.edit.setText("apple")
    place.listing.filter.tell()
    place.show_record("batch", 3)
    assert place.listing.table.current_id == 3
    assert place.panel.batch.id == 3


def test_enter_opens_the_form_on_the_chosen_batch(place, qtbot):
    qtbot.keyClick(place.listing.table, Qt.Key.Key_Return)
    assert place.pages.currentWidget() is place.form
    assert place.form.editing.id == 1
    place.form.left.emit()
    assert place.pages.currentWidget() is place.lists


def begin(place, food="corn", fresh="35 oz"):
    place.log()
    place.form.entries.food.edit.setText(food)
    place.form.entries.set_text("fresh", fresh)


def test_a_draft_that_was_left_is_offered_and_comes_back_when_asked_for(place):
    begin(place)
    place.form.left.emit()
    place.log()
    assert place.form.is_blank()
    assert place.form.offer.isVisible()
    assert place.form.offer.asked.text() == "Go on with sweet corn, 35 oz?"
    place.form.offer.go_on.click()
    assert place.form.typed()["fresh"] == "35 oz"
    assert place.form.entries.food.value().slug == "corn"
    assert place.form.offer.isHidden()


def test_a_draft_never_swallows_what_is_typed_next(place, qtbot):
    begin(place, "turkey", "7 oz")
    place.form.left.emit()
    place.log()
    qtbot.keyClicks(place.form.entries.food.edit, "apple")
    enter = place.form.entries.set_text
    enter("fresh", "4 lb")
    place.form.save()
    (batch,) = place.session.kitchen.journal.where(Batch, id=4)
    assert (batch.food, batch.prepared_mass.typed) == ("apple", "4 lb")
    place.log()
    assert place.form.offer.asked.text() == "Go on with turkey, cooked, 7 oz?"


def test_of_two_drafts_neither_is_lost(place):
    begin(place, "turkey", "7 oz")
    place.form.left.emit()
    begin(place, "apple", "4 lb")
    place.form.left.emit()
    place.log()
    assert place.form.offer.asked.text() == "Go on with apple, 4 lb?"
    place.form.offer.forget.click()
    assert place.form.offer.asked.text() == "Go on with turkey, cooked, 7 oz?"


def test_what_stands_in_the_form_stays_there_while_another_place_is_looked_at(place):
    begin(place)
    place.leave()
    place.log()
    assert place.form.typed()["fresh"] == "35 oz"
    assert place.form.offer.isHidden()


def test_a_draft_outlives_the_window(place, session, qtbot):
    place.log()
    place.form.entries.set_text("fresh", "35 oz")
    place.leave()
    again = JournalPlace(session)
    qtbot.addWidget(again)
    again.log()
    again.form.offer.go_on.click()
    assert again.form.typed()["fresh"] == "35 oz"


def test_a_saved_batch_leaves_no_draft(place):
    begin(place)
    place.form.left.emit()
    place.log()
    place.form.offer.go_on.click()
    place.form.save()
    assert place.session.drafts.book.get("batch") == []
    assert place.panel.batch.id == 4


def test_keeping_a_draft_is_no_act_to_undo(place):
    place.log()
    place.form.entries.set_text("fresh", "35 oz")
    place.form.left.emit()
    assert not place.session.can_undo


def test_the_chart_of_a_batch_is_opened_in_its_own_place(place, qtbot):
    with qtbot.waitSignal(place.session.open_asked) as caught:
        place.panel.chart.click()
    assert caught.args == ["drying", "batch", 1]


def test_the_batch_is_printed_with_its_workings(place):
    page = place.printout()
    assert isinstance(page, QTextDocument)
    text = page.toPlainText()
    for part in ("Sweet corn, batch 1", "Yield by weight: 25.7 %", "dried ÷", "Basis"):
        assert part in text


def test_an_empty_journal_says_what_to_do_next(theme, qtbot):
    empty = JournalPlace(Session(a_kitchen(SHELF), theme))
    qtbot.addWidget(empty)
    empty.show()
    assert empty.pages.currentWidget() is empty.empty_state
    empty.empty_state.buttons[0].click()
    assert empty.pages.currentWidget() is empty.form


def test_a_change_elsewhere_shows_when_the_place_is_seen_again(place, session):
    place.hide()
    session.act(delete_batch, 2)
    assert listed(place) == [1, 2, 3]
    place.show()
    assert listed(place) == [1, 3]


def test_a_batch_of_a_food_nobody_knows_still_shows_its_record(theme, qtbot):
    place = JournalPlace(Session(a_kitchen(SHELF, BOX, a_batch(1, "gone-food")), theme))
    qtbot.addWidget(place)
    place.show()
    qtbot.waitUntil(lambda: place.panel.batch is not None)
    assert place.panel.trouble.isVisible()
    assert "Loaded 2 lb 3 oz" in place.panel.facts.text()


def test_metric_people_see_grams(place):
    from dryhouse.kitchen.settings import set_preference

    place.session.act(set_preference, "units", "metric")
    assert cells(place, 0)[3:5] == ["992 g", "255 g"]
    assert place.session.kitchen.journal.get(Batch, 1).prepared_mass.typed == "35 oz"


def test_a_planned_batch_goes_by_its_food_in_the_list_and_beside_it(theme, qtbot):
    trip = Trip("Lake circuit", date(2027, 8, 20), date(2027, 8, 28), 4, id=1)
    planned = a_batch(2, state="planned", started=NOW + timedelta(days=200), ended=None, dried_mass=None, trip=1)
    place = JournalPlace(Session(a_kitchen(SHELF, trip, planned), theme))
    qtbot.addWidget(place)
    place.show()
    qtbot.waitUntil(lambda: place.panel.batch is not None)
    assert cells(place, 0)[1] == "Sweet corn (kernels, planned)"
    assert place.panel.heading.text() == "Sweet corn, batch 2"
    assert "Start by" in place.panel.facts.text()
    assert "To load 2 lb 3 oz, about" in place.panel.facts.text()


def test_another_place_leads_to_the_dryers(place):
    place.show_record("dryers", 0)
    assert place.pages.currentWidget() is place.dryers
