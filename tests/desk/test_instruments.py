"""Instruments that are followed: what they read is written, shown and marked; the port is let go at once."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import QSettings

from dryhouse.desk.instruments import Instruments, followed
from dryhouse.kitchen.dryer.drying import take_off, weighings_of
from dryhouse.kitchen.instruments.follower import Instrument
from dryhouse.kitchen.instruments.lines import Way
from dryhouse.kitchen.instruments.serial_port import SerialPort
from tests.kitchen.drying_room import NOON, Hands
from tests.kitchen.instruments.played_scale import PlayedScale, true_g


@pytest.fixture
def hands() -> Hands:
    hands = Hands()
    hands.start(1000.0)
    return hands


@pytest.fixture
def settings(tmp_path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


class Heard:
    def __init__(self, hands: Hands, settings: QSettings) -> None:
        self.said: list[str] = []
        self.written: list[object] = []
        self.instruments = Instruments(hands.kitchen, settings, self.said.append, self.written.append)


def scale(source, **more) -> Instrument:
    return Instrument("the scale", str(source), 1, journal="in memory", **more)


def test_a_file_that_grows_fills_the_batch_and_is_followed_at_the_next_start_too(qtbot, hands, settings, tmp_path):
    path = tmp_path / "log.csv"
    path.write_text("time,grams\n")
    first = Heard(hands, settings)
    first.instruments.follow(scale(path, way=Way("table")))
    for minute in range(1, 121):
        with path.open("a") as file:
            file.write(f"{NOON + timedelta(minutes=minute):%Y-%m-%dT%H:%M:%SZ},{true_g(minute / 60):.1f}\n")
        hands.time = NOON + timedelta(minutes=minute)
        first.instruments.look()
    found = weighings_of(hands.kitchen, 1)
    assert len(found) > 10
    assert len(first.written) == len(found)
    assert {w.instrument for w in found} == {"the scale"}
    first.instruments.stop()
    second = Heard(hands, settings)
    second.instruments.start()
    assert [f.instrument.source for f in second.instruments.all] == [str(path)]
    second.instruments.look()
    times = [w.at for w in weighings_of(hands.kitchen, 1)]
    assert len(times) == len(set(times)) <= len(found) + 1
    second.instruments.stop()


def test_the_port_is_let_go_at_once_when_it_is_followed_no_more(qtbot, hands, settings, tmp_path) -> None:
    played = PlayedScale(tmp_path / "ttyScale")
    heard = Heard(hands, settings)
    heard.instruments.follow(scale(played.path, serial=True))
    heard.instruments.look()
    heard.instruments.leave("the scale")
    assert heard.instruments.all == []
    assert followed(settings) == []
    again = SerialPort(str(played.path))
    assert again.lines(NOON) == []
    played.show(0.0)
    assert len(again.lines(NOON)) == 1
    again.close()
    played.unplug()


def test_what_belongs_to_another_journal_or_is_off_the_dryer_is_not_followed(
    qtbot, hands, settings, tmp_path
) -> None:
    heard = Heard(hands, settings)
    heard.instruments.follow(scale(tmp_path / "a"))
    heard.instruments.stop()
    take_off(hands.kitchen, 1)
    heard.instruments.start()
    assert heard.instruments.all == []


def test_settings_that_cannot_be_read_follow_nothing(settings) -> None:
    settings.setValue("instruments/followed", "{[")
    assert followed(settings) == []
