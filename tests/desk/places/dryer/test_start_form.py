"""Starting a batch: what stands ready, what is refused, what was left, and the stop above the entries."""

from __future__ import annotations

from PySide6.QtCore import Qt

from dryhouse.desk.cautions import stops_of
from dryhouse.kitchen.dryer.drying import CameOff, take_off
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.kitchen.records.batches import PLANNED
from dryhouse.science.quantities import Mass
from tests.desk.places.dryer.sitting import ENTER, Sitting, drying
from tests.kitchen.drying_room import NOON, Hands


def test_a_planned_batch_waits_here_and_is_started(qtbot) -> None:
    hands = Hands(Batch("apple", state=PLANNED, prepared_mass=Mass(900.0, "900 g"), id=40))
    sitting = Sitting(qtbot, hands)
    waiting = sitting.place.column.waiting
    assert waiting.isVisible()
    assert waiting.is_open
    sitting.place.show_record("batch", 40)
    form = sitting.place.form
    assert form.heading.text() == "Start a planned batch"
    assert form.fields["prepared_mass"].text() == "900 g"
    sitting.press(ENTER)
    assert list(sitting.place.strips) == [40]
    assert hands.journal.get(Batch, 40).started == NOON
    assert not waiting.isVisible()


def test_a_start_that_is_refused_says_so_at_its_entry(sitting, hands) -> None:
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("apple", ENTER)
    form = sitting.place.form
    form.fields["trays"].edit.setText("40")
    form.start()
    assert "has 6 trays" in form.fields["trays"].sentence.text()
    assert hands.journal.where(Batch) == ()
    sitting.press(Qt.Key.Key_Escape)
    assert sitting.place.side.currentWidget() is not form


def test_a_start_that_was_left_is_offered_and_never_swallows_the_next(sitting) -> None:
    form = sitting.place.form
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("apple", ENTER)
    form.fields["prepared_mass"].edit.setText("2 lb")
    sitting.press(Qt.Key.Key_Escape)
    sitting.ctrl(Qt.Key.Key_N)
    assert form.food.is_empty()
    assert form.fields["prepared_mass"].is_empty()
    assert form.offer.asked.text() == "Go on with apple, 2 lb?"
    form.offer.go_on.click()
    assert form.food.value().slug == "apple"
    assert form.fields["prepared_mass"].text() == "2 lb"


def test_habits_of_the_last_batch_stand_ready(sitting, hands) -> None:
    drying(sitting)
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("apple", ENTER)
    form = sitting.place.form
    assert form.fields["trays"].text() == "4"
    assert form.fields["set_temperature"].text() == "57 C"
    assert form.fields["prepared_mass"].text() == ""
    assert "Remembered" in form.remembered.text()


def test_the_form_says_stop_above_its_entries_until_the_heat_is_written_down(qtbot, with_turkey) -> None:
    sitting = Sitting(qtbot, with_turkey)
    form = sitting.place.form
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("turkey", ENTER)
    assert form.cautions.isVisible()
    assert form.cautions.y() < form.fields["prepared_mass"].y()
    before = stops_of(form.cautions.cautions)
    assert before
    form.fields["precook_temperature"].edit.setText("165 F")
    form.fields["precook_measured"].set_value("thermometer")
    form.fields["precook_method"].set_value("simmered or steamed")
    assert len(stops_of(form.cautions.cautions)) < len(before)


def test_where_there_is_no_dryer_the_form_has_the_way_to_add_one(sitting, hands) -> None:
    form = sitting.place.form
    for dryer in hands.journal.where(Dryer):
        hands.journal.write([Change(dryer, None)])
    sitting.place.start()
    assert form.no_dryers.isVisible()
    asked = []
    sitting.session.open_asked.connect(lambda *where: asked.append(where))
    form.no_dryers.button.click()
    assert asked == [("journal", "dryers", 0)]
    hands.journal.write([Change(None, Dryer("shelf dryer", 6, id=1))])
    sitting.place.start()
    assert not form.no_dryers.isVisible()


def test_the_same_again_starts_like_a_past_batch_with_what_is_loaded_still_to_be_typed(sitting, hands) -> None:
    hands.start(1000.0, form="rings", title="Ring")
    hands.wait(9)
    take_off(hands.kitchen, 1, CameOff(Mass(180.0)))
    sitting.session.open_asked.connect(lambda _place, kind, id: sitting.place.show_record(kind, id))
    sitting.place.show_record("batch", 1)
    sitting.place.detail.like.click()
    form = sitting.place.form
    assert form.isVisible()
    assert form.fields["prepared_mass"].text() == ""
    assert "As batch 1 was done" in form.remembered.text()
    sitting.type("900 g", ENTER)
    started = hands.journal.get(Batch, 2)
    assert (started.food, started.form, started.title, started.trays) == ("apple", "rings", "Ring", 4)
    assert started.prepared_mass.si == 900
