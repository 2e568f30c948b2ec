"""A batch goes on, is weighed four times while its forecast tightens, and comes off again: by keys alone."""

from __future__ import annotations

import math
from datetime import datetime, timedelta

import pytest
from PySide6.QtCore import Qt

from dryhouse.kitchen.dryer.drying import weighings_of
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.batches import DRYING, FINISHED
from tests.journeys.conftest import CTRL


@pytest.fixture
def clock(monkeypatch):
    """The wall clock of the kitchen, set by hand."""
    from dataclasses import replace

    class Clock:
        moved = timedelta()

        def __call__(self) -> datetime:
            from dryhouse.kitchen.kitchen import utc_now

            return utc_now() + self.moved

        def set_on(self, person) -> None:
            person.session.kitchen = replace(person.session.kitchen, now=self)

    return Clock()


def newest(person) -> Batch:
    return max(person.session.kitchen.journal.where(Batch), key=lambda b: b.id)


def test_from_the_trays_to_the_result(person, clock, qtbot) -> None:
    clock.set_on(person)
    person.press(Qt.Key.Key_2, CTRL)
    place = person.window.views["drying"]
    person.press(Qt.Key.Key_N, CTRL)
    person.type("zucchini")
    person.press(Qt.Key.Key_Return)
    person.type("3 lb")
    person.press(Qt.Key.Key_Return)
    batch = newest(person)
    assert (batch.state, batch.prepared_mass.typed) == (DRYING, "3 lb")
    strip = place.strips[batch.id]
    widths, target = [], place.runs[batch.id].target_mass.value
    solids = place.runs[batch.id].load.solids
    for hours in (1, 2.5, 5, 8):
        clock.moved = timedelta(hours=hours)
        grams = solids + math.exp(-0.28 * hours**1.2) * (batch.prepared_mass.si - solids)
        person.type(f"{grams / 28.349523125:.1f} oz")
        person.press(Qt.Key.Key_Return)
        finish = place.runs[batch.id].expected.forecast.finish
        widths.append(finish.high80 - finish.low80)
    assert person.entries == 6
    assert len(weighings_of(person.session.kitchen, batch.id)) == 4
    assert widths[-1] < widths[0]
    assert "of drying" in strip.clock.text()
    assert strip.finish.text().startswith("Dry about")
    clock.moved = timedelta(hours=12)
    person.type(f"{target / 28.349523125 - 0.05:.2f}")
    person.press(Qt.Key.Key_Return)
    assert strip.verdict.text() == "Probably dry"
    person.press(Qt.Key.Key_T, CTRL)
    person.press(Qt.Key.Key_Tab)
    person.press(Qt.Key.Key_B)
    person.press(Qt.Key.Key_Return)
    finished = newest(person)
    assert (finished.state, finished.felt) == (FINISHED, "brittle")
    assert place.detail.figures.sentence.text().startswith("Dry enough by weight and brittle to the hand")
    assert finished.dried_mass is not None
    shown = [v.title for v in place.detail.figures.views if v.isVisible()]
    assert "Yield by weight" in shown
    assert "Water to bring it back" in shown
    person.press(Qt.Key.Key_Z, CTRL)
    assert newest(person).state == DRYING


def test_the_sample_shows_two_batches_on_the_dryers_with_forecasts(person, qtbot) -> None:
    person.press(Qt.Key.Key_2, CTRL)
    place = person.window.views["drying"]
    assert len(place.strips) >= 1
    assert all(strip.finish.text() for strip in place.strips.values())
    assert place.detail.chart.plot.canvas.draw is not None


def test_the_small_window_comes_by_one_key_from_anywhere_and_what_it_records_shows_in_the_large_one(person) -> None:
    person.press(Qt.Key.Key_4, CTRL)
    person.press(Qt.Key.Key_F7)
    small = person.window.small
    assert small.isVisible()
    batch = next(iter(small.strips))
    before = len(weighings_of(person.session.kitchen, batch))
    person.type(weighings_of(person.session.kitchen, batch)[-1].gross.typed)
    person.press(Qt.Key.Key_Return)
    assert len(weighings_of(person.session.kitchen, batch)) == before + 1
    person.window.close()
    assert not small.isVisible()


MOST_ENTRIES = 16


def test_a_whole_day_with_its_mishaps_takes_few_entries(person, clock) -> None:
    """Start, six weighings of which two are back-dated, one that is wrong, a tray early, a pause, the finish."""
    clock.set_on(person)
    person.press(Qt.Key.Key_2, CTRL)
    place = person.window.views["drying"]
    person.press(Qt.Key.Key_N, CTRL)
    for entry in ("zucchini", "3 lb"):
        person.type(entry)
        person.press(Qt.Key.Key_Return)
    batch = newest(person)
    load = place.runs[batch.id].load
    kitchen = person.session.kitchen

    def ounces(hours: float) -> str:
        grams = load.solids + math.exp(-0.28 * hours**1.2) * (load.grams - load.solids)
        return f"{grams / 28.349523125:.1f} oz"

    def enter(text: str, hours: float) -> None:
        clock.moved = timedelta(hours=hours)
        person.type(text)
        person.press(Qt.Key.Key_Return)

    def ago(hours: float) -> str:
        return f"{kitchen.local(batch.started + timedelta(hours=hours)):%Y-%m-%d %H:%M}"

    enter(ounces(1), 1)
    clock.moved = timedelta(hours=3)
    enter(f"{ago(2)} {ounces(2)}", 3)
    enter(ounces(3), 3.05)
    enter("0.9 oz", 3.5)
    assert len(weighings_of(kitchen, batch.id)) == 3, "a weight below the dry matter was kept without a question"
    person.press(Qt.Key.Key_A, CTRL)
    enter(ounces(3.5), 3.55)
    enter("paused", 4)
    enter("resumed", 4.5)
    enter(f"{ago(4.75)} {ounces(4.25)}", 5)
    enter("tray off 1 oz", 5.6)
    on_scale = float(ounces(5.2).removesuffix(" oz")) - 1.0
    enter(f"{on_scale:.1f} oz", 5.7)
    person.press(Qt.Key.Key_T, CTRL)
    person.press(Qt.Key.Key_Return)
    assert person.entries <= MOST_ENTRIES, person.entries
    found = weighings_of(kitchen, batch.id)
    assert len(found) == 6
    assert not any(w.left_out for w in found)
    finished = kitchen.journal.get(Batch, batch.id)
    assert finished.state == FINISHED
    assert [e.kind for e in place.runs[batch.id].events] == [
        "paused",
        "resumed",
        "tray taken off early",
        "taken off",
    ]
    nets = [p.net_g for p in place.runs[batch.id].points]
    assert nets == sorted(nets, reverse=True)
