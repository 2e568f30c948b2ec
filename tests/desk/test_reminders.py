"""Notices with a clock that is set: each thing is said once."""

from __future__ import annotations

import pytest

from dryhouse.desk.reminders import Reminders
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.kitchen.dryer.drying import add_weighing
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.records import Lot
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import Hands


@pytest.fixture
def hands() -> Hands:
    return Hands()


@pytest.fixture
def session(qapp, hands) -> Session:
    return Session(hands.kitchen, Theme(qapp, "light"))


@pytest.fixture
def said(session) -> list[str]:
    texts: list[str] = []
    session.messages.posted.connect(lambda m: texts.append(m.text))
    return texts


@pytest.fixture
def reminders(session) -> Reminders:
    return Reminders(session, session)


def test_to_look_costs_no_number(reminders, hands) -> None:
    for _ in range(3):
        hands.wait(24)
        reminders.look()
    assert hands.journal.next_id(Lot) == 1, "her first jar is lot 1"


def test_nothing_running_nothing_said(reminders, said, hands) -> None:
    hands.wait(100)
    reminders.look()
    assert said == []


def test_a_weighing_and_a_finish_are_each_said_once_when_their_time_comes(hands, reminders, said) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 3, 4))
    reminders.look()
    assert said == []
    for _ in range(200):
        hands.wait(0.25)
        reminders.look()
    assert len(said) == 3
    assert "weigh now for a better estimate" in said[0]
    assert "may be dry by now" in said[1]
    assert "was to be looked at before now" in said[2]


def test_a_new_weighing_makes_a_new_forecast_that_may_be_said(hands, session, reminders, said) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 3, 4))
    hands.wait(40)
    reminders.look()
    assert len(said) == 1
    assert "was to be looked at before now" in said[0]
    reading = Mass(330.0, "330 g")
    assert session.act(add_weighing, batch, Reading(reading)) is not None
    said.clear()
    reminders.look()
    assert said == []
    for _ in range(400):
        hands.wait(1)
        reminders.look()
    assert 1 <= len(said) <= 3


def test_two_batches_due_together_are_one_notice(hands, reminders, said) -> None:
    for _ in range(2):
        batch = hands.start()
        hands.dry(batch, (1, 2, 3))
    hands.wait(60)
    reminders.look()
    assert len(said) == 1
    assert "batch 1" in said[0]
    assert "batch 2" in said[0]


def test_it_looks_by_itself_and_stops_when_told(hands, reminders, said, qtbot) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 3))
    hands.wait(60)
    reminders.first.setInterval(1)
    with qtbot.waitSignal(reminders.session.messages.posted, timeout=5000):
        reminders.start()
    reminders.stop()
    assert not reminders.timer.isActive()
