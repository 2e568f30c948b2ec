"""A session's bus with a service of notices on it: the system's own daemon where there is one, else a played
one."""

from __future__ import annotations

import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.desk.bus.played import PlayedBus

SERVICE = Path(__file__).with_name("service.py")


BUSES = ["played", *(["the system's own"] if shutil.which("dbus-daemon") else [])]


@pytest.fixture(params=BUSES)
def bus(request, tmp_path, monkeypatch) -> Iterator[Path]:
    """The file that the service writes its notices into."""
    address, file, end = (_played if request.param == "played" else _real)(tmp_path)
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", address)
    yield file
    end()


def _played(folder: Path) -> tuple[str, Path, Callable[[], None]]:
    played = PlayedBus(folder)
    return played.address, played.file, played.end


def _real(folder: Path) -> tuple[str, Path, Callable[[], None]]:
    file, socket = folder / "notices", folder / "bus"
    daemon = subprocess.Popen(
        ["dbus-daemon", "--session", "--nofork", f"--address=unix:path={socket}"], stderr=subprocess.DEVNULL
    )
    address = f"unix:path={socket}"
    _wait(socket.exists)
    service = subprocess.Popen([sys.executable, str(SERVICE), str(file)], env=_with(address))
    _wait(file.exists)

    def end() -> None:
        for process in (service, daemon):
            process.terminate()
            process.wait(10)

    return address, file, end


def _with(address: str) -> dict[str, str]:
    import os

    return {**os.environ, "DBUS_SESSION_BUS_ADDRESS": address}


def _wait(ready: Callable[[], bool]) -> None:
    for _ in range(600):
        if ready():
            return
        time.sleep(0.05)
    raise AssertionError("the bus did not come up")
