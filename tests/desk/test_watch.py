"""Watch without a window: alarms and instruments, and everything let go while a window is there."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings

from dryhouse.desk.instruments import Instruments
from dryhouse.desk.one_window import address
from dryhouse.desk.watch import Watch
from dryhouse.kitchen.cards.alarms import alarms
from dryhouse.kitchen.dryer.drying import weighings_of
from dryhouse.kitchen.instruments.follower import Instrument
from dryhouse.kitchen.instruments.lines import Way
from tests.kitchen.drying_room import NOON, Hands
from tests.kitchen.instruments.played_scale import true_g

MOST_MB = 110


@pytest.fixture
def hands() -> Hands:
    return Hands()


@pytest.fixture
def told() -> list[str]:
    return []


@pytest.fixture
def keeper(qapp, hands, told, monkeypatch, tmp_path):
    monkeypatch.setenv("DRYHOUSE_SETTINGS", str(tmp_path / "settings.ini"))
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", f"unix:path={tmp_path / 'none'}")
    monkeypatch.setenv("XDG_RUNTIME_DIR", str(tmp_path))
    hands.journal.path = tmp_path / "mine.dryhouse"
    keeper = Watch(hands.kitchen, hands.journal.path, told.append, lambda then: then(alarms(hands.kitchen)))
    yield keeper
    keeper.stop()


def test_what_is_due_is_told_once_and_again_after_a_new_weighing(hands, keeper, told) -> None:
    hands.dry(hands.start(), (1, 2, 3, 4))
    keeper.look()
    assert told == []
    for _ in range(120):
        hands.wait(0.5)
        keeper.look()
    assert len(told) == 3
    assert "weigh now" in told[0]
    assert all("check by hand" in said for said in told[1:])


def test_while_a_window_has_the_journal_open_nothing_is_told_and_the_instruments_are_let_go(
    hands, keeper, told, tmp_path
) -> None:
    import socket

    hands.dry(hands.start(), (1, 2, 3, 4))
    path = tmp_path / "log.csv"
    path.write_text("time,grams\n")
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    scale = Instrument("the scale", str(path), 1, Way("table"), journal=str(hands.journal.path))
    Instruments(hands.kitchen, settings, told.append, told.append).follow(scale)
    keeper.look()
    assert [f.instrument.name for f in keeper.instruments.all] == ["the scale"]
    window = socket.socket(socket.AF_UNIX, socket.SOCK_STREAM)
    window.bind(address(hands.journal.path))
    window.listen(1)
    hands.wait(100)
    keeper.look()
    assert keeper.instruments.all == []
    assert told == []
    window.close()
    os.unlink(address(hands.journal.path))
    keeper.look()
    assert keeper.instruments.all
    assert told


def test_the_instruments_are_read_while_no_window_is_open(hands, keeper, tmp_path) -> None:
    hands.start(1000.0)
    path = tmp_path / "log.csv"
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    scale = Instrument("the scale", str(path), 1, Way("table"), journal=str(hands.journal.path))
    Instruments(hands.kitchen, settings, print, print).follow(scale)
    rows = [f"{NOON + timedelta(minutes=m):%Y-%m-%dT%H:%M:%SZ},{true_g(m / 60):.1f}" for m in range(1, 60)]
    path.write_text("\n".join(["time,grams", *rows, ""]))
    hands.wait(1)
    keeper.look()
    keeper.instruments.look()
    assert len(weighings_of(hands.kitchen, 1)) > 5


def test_the_program_watches_in_little_memory_and_ends_when_told(tmp_path) -> None:
    environment = {
        **os.environ, "XDG_DATA_HOME": str(tmp_path), "DRYHOUSE_SETTINGS": str(tmp_path / "s.ini"),
        "DBUS_SESSION_BUS_ADDRESS": f"unix:path={tmp_path / 'none'}",
    }  # fmt: skip
    command = [sys.executable, "-m", "dryhouse", "--sample", "watch"]
    process = subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        assert "batches on the dryer" in process.stdout.readline()
        if sys.platform.startswith("linux"):
            status = Path(f"/proc/{process.pid}/status").read_text()
            most = next(line for line in status.splitlines() if line.startswith("VmHWM"))
            assert int(most.split()[1]) / 1024 < MOST_MB
        process.send_signal(signal.SIGTERM)
        assert process.wait(30) == 0
    finally:
        process.kill()
        process.communicate()
