"""A scale on a serial port: read without waiting, let go, and tried again after two seconds."""

from __future__ import annotations

import sys
from datetime import timedelta
from types import ModuleType, SimpleNamespace

import pytest

from dryhouse.kitchen.instruments import serial_port
from dryhouse.kitchen.instruments.serial_port import BAUDS, SerialPort, ports, pyserial
from dryhouse.science.errors import WorldProblem
from tests.kitchen.drying_room import NOON


class Cable:
    """Every port that is opened, and what comes through it; a fault instead where there is one."""

    def __init__(self) -> None:
        self.opened: list[tuple[tuple[object, ...], dict[str, object]]] = []
        self.closed = 0
        self.comes: list[bytes | Exception] = []
        self.absent = False

    def open(self, *where: object, **waits: object) -> Cable:
        self.opened.append((where, waits))
        if self.absent:
            raise OSError("no such port")
        return self

    def read(self, size: int) -> bytes:
        found = self.comes.pop(0) if self.comes else b""
        if isinstance(found, Exception):
            raise found
        return found[:size]

    def close(self) -> None:
        self.closed += 1


@pytest.fixture
def cable(monkeypatch) -> Cable:
    made = Cable()
    monkeypatch.setattr(serial_port, "pyserial", lambda: SimpleNamespace(Serial=made.open))
    return made


def after(seconds: float):
    return NOON + timedelta(seconds=seconds)


def test_it_is_opened_once_at_its_speed_and_never_waited_for(cable) -> None:
    port = SerialPort("ttyScale", 4800)
    assert not port.gone
    for _ in range(3):
        assert port.lines(NOON) == []
    assert cable.opened == [(("ttyScale", 4800), {"timeout": 0, "write_timeout": 0})]


def test_lines_are_answered_whole_whatever_ends_them(cable) -> None:
    port = SerialPort("ttyScale")
    cable.comes = [b"860 g\r\n85", b"5 g\r", b"", b"850 \xb5g\n\n"]
    assert [port.lines(NOON) for _ in range(4)] == [["860 g"], ["855 g"], [], ["850 µg"]]


def test_noise_without_an_end_is_dropped_but_for_its_last_four_thousand_signs(cable) -> None:
    port = SerialPort("ttyScale")
    cable.comes = [b"#" * 5000, b" 860 g\n"]
    assert port.lines(NOON) == []
    (line,) = port.lines(NOON)
    assert line == "#" * 4096 + " 860 g"


def test_an_absent_port_is_tried_again_after_two_seconds(cable) -> None:
    port = SerialPort("ttyScale")
    cable.absent = True
    for seconds, tries in ((0, 1), (1.9, 1), (2, 2), (3.9, 2), (4, 3)):
        assert port.lines(after(seconds)) == []
        assert port.gone
        assert len(cable.opened) == tries, seconds
    cable.absent = False
    cable.comes = [b"860 g\n"]
    assert port.lines(after(6)) == ["860 g"]
    assert not port.gone


@pytest.mark.parametrize("fault", [OSError("unplugged"), ValueError("closed")])
def test_unplugged_it_is_let_go_and_opened_anew_without_half_a_line_of_before(cable, fault) -> None:
    port = SerialPort("ttyScale")
    cable.comes = [b"860 g\n85", fault, b"840 g\n"]
    assert port.lines(NOON) == ["860 g"]
    assert port.lines(after(10)) == []
    assert (port.gone, cable.closed) == (True, 1)
    assert port.lines(after(11.9)) == []
    assert len(cable.opened) == 1
    assert port.lines(after(12)) == ["840 g"]
    assert not port.gone


def test_it_is_let_go_once(cable) -> None:
    port = SerialPort("ttyScale")
    port.close()
    port.lines(NOON)
    port.close()
    port.close()
    assert cable.closed == 1


def test_without_pyserial_one_is_told_how_to_get_it_and_there_are_no_ports(monkeypatch) -> None:
    for name in ("serial", "serial.tools"):
        monkeypatch.setitem(sys.modules, name, None)
    with pytest.raises(WorldProblem, match="pip install pyserial"):
        pyserial()
    assert ports() == ()


def test_the_ports_of_the_machine_are_listed_in_order(monkeypatch) -> None:
    listing = ModuleType("serial.tools.list_ports")
    listing.comports = lambda: [SimpleNamespace(device=name) for name in ("ttyB", "ttyA")]
    tools = ModuleType("serial.tools")
    tools.list_ports = listing
    for name, module in (("serial", ModuleType("serial")), ("serial.tools", tools), (listing.__name__, listing)):
        monkeypatch.setitem(sys.modules, name, module)
    assert ports() == ("ttyA", "ttyB")
    assert pyserial() is sys.modules["serial"]


def test_the_speeds_offered_are_parts_of_the_fastest_and_the_usual_one_comes_first() -> None:
    assert BAUDS[0] == 9600
    assert max(BAUDS) == 115200
    assert all(115200 % speed == 0 for speed in BAUDS)
    assert len(set(BAUDS)) == 6
