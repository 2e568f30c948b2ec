"""A scale on a serial port, read without waiting: unplugged and plugged in again it goes on by itself.

pyserial comes with the extra `dryhouse[scale]`; it is imported when a port is first opened.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from dryhouse.science.errors import WorldProblem

BAUDS = (9600, 4800, 2400, 19200, 38400, 115200)
TRY_AGAIN = timedelta(seconds=2)
_LONGEST = 4096
"""More without the end of a line is noise and is dropped."""


class SerialPort:
    """Answers the lines that arrived since the last look. `gone` while the port is not there."""

    def __init__(self, port: str, baud: int = 9600) -> None:
        self.port, self.baud = port, baud
        self.gone = False
        self._open: Any = None
        self._half = b""
        self._not_before: datetime | None = None

    def lines(self, now: datetime) -> list[str]:
        """Every line that is complete by now. Raises WorldProblem where pyserial is not installed."""
        if self._open is None and (self._not_before is None or now >= self._not_before):
            self._try_to_open(now)
        if self._open is None:
            return []
        try:
            data = self._open.read(1 << 16)
        except (OSError, ValueError):
            self.close()
            self.gone, self._not_before = True, now + TRY_AGAIN
            return []
        *whole, self._half = (self._half + data).replace(b"\r", b"\n").split(b"\n")
        self._half = self._half[-_LONGEST:]
        return [line.decode("latin-1") for line in whole if line.strip()]

    def _try_to_open(self, now: datetime) -> None:
        serial = pyserial()
        try:
            self._open = serial.Serial(self.port, self.baud, timeout=0, write_timeout=0)
            self.gone, self._half = False, b""
        except (OSError, ValueError):
            self.gone, self._not_before = True, now + TRY_AGAIN

    def close(self) -> None:
        """Let the port go, at once."""
        if self._open is not None:
            try:
                self._open.close()
            finally:
                self._open = None


def pyserial() -> Any:
    """The library. Raises WorldProblem saying how to get it."""
    try:
        import serial
    except ImportError:
        raise WorldProblem(
            "A scale on a cable needs pyserial, which is not installed here: pip install pyserial."
        ) from None
    return serial


def ports() -> tuple[str, ...]:
    """The serial ports of this machine; none where pyserial is not installed."""
    try:
        from serial.tools import list_ports
    except ImportError:
        return ()
    return tuple(sorted(found.device for found in list_ports.comports()))
