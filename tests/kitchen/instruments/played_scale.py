"""A pseudo-terminal that plays a scale on a cable, and the load that dries on it."""

from __future__ import annotations

import math
import os
import random
import tty
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path
from types import SimpleNamespace

from dryhouse.kitchen.instruments import serial_port

LOAD_G, DRY_G = 1000.0, 140.0


def true_g(hours: float) -> float:
    """What lies on the scale: Page's curve of a kilogram."""
    return DRY_G + (LOAD_G - DRY_G) * math.exp(-0.25 * hours**1.1)


class PlayedScale:
    """Sends a line a second under one path, however often it is unplugged."""

    def __init__(self, path: Path, seed: int = 1) -> None:
        self.path = path
        self._dice = random.Random(seed)
        self._ends: tuple[int, int] | None = None
        self.plug_in()

    def plug_in(self) -> None:
        try:
            master, slave = os.openpty()
        except OSError:
            self._plug_in_a_pipe()
            return
        tty.setraw(slave)
        os.set_blocking(master, False)
        self._ends = (master, slave)
        self.path.unlink(missing_ok=True)
        self.path.symlink_to(os.ttyname(slave))

    def _plug_in_a_pipe(self) -> None:
        """Where the system has no terminals to play on (a bare chroot): a pipe for the cable, read as a port is."""
        self.path.unlink(missing_ok=True)
        os.mkfifo(self.path)
        end = os.open(self.path, os.O_RDWR | os.O_NONBLOCK)
        self._ends = (end, os.dup(end))
        serial_port.pyserial = lambda: SimpleNamespace(Serial=PipePort)

    def unplug(self) -> None:
        if self._ends is not None:
            for end in self._ends:
                os.close(end)
            self._ends = None
            self.path.unlink(missing_ok=True)

    def send(self, text: bytes) -> None:
        if self._ends is not None:
            with suppress(BlockingIOError):
                os.write(self._ends[0], text)

    def show(self, hours: float, *, off: float = 0.0, unit: str = "g") -> None:
        """One line: the true weight with noise, a slow drift with the heat, and what is off or put on."""
        noise = self._dice.gauss(0.0, 0.6) + 1.5 * math.sin(hours)
        grams = true_g(hours) + off + noise
        number = grams if unit == "g" else grams / 28.349523125
        steady = "US" if abs(off) > 0 and self._dice.random() < 0.3 else "ST"
        self.send(f"{steady},GS,{number:+9.{1 if unit == 'g' else 2}f} {unit}\r\n".encode())


class PipePort:
    """What `serial.Serial` is to its reader, over a pipe."""

    def __init__(self, port: str, baud: int, **_waits: float) -> None:
        self._end = os.open(port, os.O_RDONLY | os.O_NONBLOCK)

    def read(self, size: int) -> bytes:
        try:
            data = os.read(self._end, size)
        except BlockingIOError:
            return b""
        if not data:
            raise OSError("unplugged")
        return data

    def close(self) -> None:
        os.close(self._end)


class Ticking:
    """A clock that goes on when it is told to."""

    def __init__(self, start: datetime) -> None:
        self.start = self.time = start

    def tick(self, seconds: float = 1.0) -> datetime:
        self.time += timedelta(seconds=seconds)
        return self.time

    @property
    def hours(self) -> float:
        return (self.time - self.start).total_seconds() / 3600
