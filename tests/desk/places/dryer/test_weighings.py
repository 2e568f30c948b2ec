"""The table of what was weighed and what happened: noted, put right, removed."""

from __future__ import annotations

from datetime import timedelta

from PySide6.QtCore import Qt

from dryhouse.desk.places.dryer.detail import WEIGHINGS
from dryhouse.kitchen.dryer.drying import events_of, weighings_of
from dryhouse.kitchen.instruments.follower import Instrument, Kept, record_kept
from dryhouse.kitchen.instruments.lines import Sample
from dryhouse.kitchen.records.weighings import HEAT_CHANGED
from tests.desk.places.dryer.sitting import ENTER, drying
from tests.kitchen.drying_room import NOON


def test_what_happens_is_noted_and_a_pause_stops_the_clock(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(2)
    strip = sitting.strip
    strip._pause()
    hands.wait(6)
    sitting.place.column.tick()
    assert "2 h of drying, paused since 14:00" in strip.clock.text()
    assert strip.pause_action.text() == "Resume"
    strip._pause()
    hands.wait(1)
    sitting.place.column.tick()
    assert "3 h of drying, 6 h of pauses not counted" in strip.clock.text()
    strip._ask_heat()
    sitting.type("60 C", ENTER)
    assert events_of(hands.kitchen, batch)[-1].kind == HEAT_CHANGED


def test_weighings_are_corrected_and_removed_in_their_table(sitting, hands) -> None:
    batch = drying(sitting)
    for grams in (8000, 700):
        hands.wait(1)
        sitting.type(str(grams), ENTER)
        sitting.press(Qt.Key.Key_F9)
    sitting.ctrl(Qt.Key.Key_L)
    pane = sitting.place.detail.weighings
    assert sitting.place.detail.pages.currentIndex() == WEIGHINGS
    assert [pane.table.item(n, 4).text() for n in range(2)] == ["700 g", "8000 g"], "the newest first"
    pane.table.setCurrentCell(1, 0)
    sitting.press(ENTER)
    assert pane.gross.edit.hasFocus()
    sitting.type("800 g", ENTER)
    first, second = weighings_of(hands.kitchen, batch)
    assert first.net_g == 800
    assert first.at == NOON + timedelta(hours=1)
    assert not pane.editor.isVisible()
    assert pane.chosen().net_g == 800, "the one that was put right stays chosen"
    pane.table.setCurrentCell(0, 0)
    pane.table.setFocus()
    sitting.press(Qt.Key.Key_Delete)
    assert weighings_of(hands.kitchen, batch) == (first,)
    sitting.session.undo()
    assert weighings_of(hands.kitchen, batch) == (first, second)
    assert pane.table.rowCount() == 2


def test_the_air_an_instrument_read_stands_beside_its_weight_and_survives_a_correction(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(1)
    sample = Sample(900.0, chamber_c=57.0, chamber_pct=18.0)
    kept = [Kept(NOON + timedelta(minutes=30), 900.0, sample)]
    sitting.session.act(record_kept, Instrument("the pantry scale", "log.csv", batch), kept)
    sitting.ctrl(Qt.Key.Key_L)
    pane = sitting.place.detail.weighings
    assert pane.table.item(0, 7).text() == "57 °C, 18 % humidity"
    sitting.press(ENTER)
    sitting.type("905 g", ENTER)
    (corrected,) = weighings_of(hands.kitchen, batch)
    assert (corrected.net_g, corrected.dryer_humidity_pct) == (905, 18)


def test_a_correction_that_cannot_be_stays_open_and_says_why(sitting, hands) -> None:
    drying(sitting)
    hands.wait(1)
    sitting.type("800", ENTER)
    sitting.ctrl(Qt.Key.Key_L)
    sitting.press(ENTER)
    pane = sitting.place.detail.weighings
    pane.at.edit.setText("2026-08-14 11:00")
    sitting.press(ENTER)
    assert pane.editor.isVisible()
    assert "before the batch was started" in pane.at.sentence.text()
    sitting.press(Qt.Key.Key_Escape)
    assert not pane.editor.isVisible()
