"""What instruments read is read again beside the window, and never put in the place of something newer."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication, QWidget

from dryhouse.desk.places.dryer.runs_read import RunsRead
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.kitchen.dryer.drying import add_weighing
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import Hands


@pytest.fixture
def hands() -> Hands:
    hands = Hands()
    hands.start(1000.0)
    hands.wait(1)
    return hands


def test_a_run_is_read_beside_the_window_and_stands_when_it_is_told(qtbot, hands) -> None:
    owner = QWidget()
    qtbot.addWidget(owner)
    runs = RunsRead(Session(hands.kitchen, Theme(QApplication.instance(), "light")))
    runs.read([1])
    before = runs[1]
    done = add_weighing(hands.kitchen, 1, Reading(Mass(900.0, "900 g")))
    runs.note(done, done.kinds)
    told: list[float] = []
    runs.read_ahead(owner, lambda: told.append(runs[1].points[-1].net_g))
    assert runs[1] is before
    qtbot.waitUntil(lambda: bool(told))
    assert told == [900.0]
    now = runs[1]
    runs.read([1])
    assert runs[1] is now, "it is not read twice"


def test_what_was_written_meanwhile_is_not_covered_by_what_was_read_before(qtbot, hands) -> None:
    owner = QWidget()
    qtbot.addWidget(owner)
    runs = RunsRead(Session(hands.kitchen, Theme(QApplication.instance(), "light")))
    runs.read([1])
    first = add_weighing(hands.kitchen, 1, Reading(Mass(900.0, "900 g")))
    runs.note(first, first.kinds)
    told: list[bool] = []
    runs.read_ahead(owner, lambda: told.append(True))
    hands.wait(1)
    second = add_weighing(hands.kitchen, 1, Reading(Mass(800.0, "800 g")))
    runs.note(second, second.kinds)
    runs.read([1])
    newest = runs[1]
    qtbot.wait(400)
    assert told == []
    assert runs[1] is newest
