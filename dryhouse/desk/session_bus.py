"""The little of D-Bus that a notice takes: connect to the session's bus, call a method, hear a signal.

Written from the D-Bus specification (freedesktop.org, message protocol, version 1). Qt's own binding sends every
whole number signed, which the service of notices does not take.
"""

from __future__ import annotations

import os
import struct
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

_CALL, _RETURN, _ERROR, _SIGNAL = 1, 2, 3, 4
_PATH, _INTERFACE, _MEMBER, _REPLY, _TO, _SIGNATURE = 1, 2, 3, 5, 6, 8
_ALIGNED = {"y": 1, "b": 4, "i": 4, "u": 4, "s": 4, "o": 4, "g": 1, "a": 4, "v": 1, "(": 8, "{": 8}
_PLAIN = {"y": "<B", "b": "<I", "i": "<i", "u": "<I"}
_LARGEST = 1 << 22
BUS, BUS_PATH = "org.freedesktop.DBus", "/org/freedesktop/DBus"


@dataclass(frozen=True, slots=True)
class Heard:
    """One message that came: its kind, what it answers, its member and what it holds."""

    kind: int
    replies_to: int
    member: str
    body: tuple[Any, ...]


class SessionBus:
    """One connection. Raises OSError where there is no bus, or it does not answer in time."""

    def __init__(self, patience_s: float = 2.0) -> None:
        import socket

        self._socket = socket.socket(socket.AF_UNIX, socket.SOCK_STREAM)
        self._socket.settimeout(patience_s)
        self._serial, self._waiting = 0, b""
        self._signals: list[Heard] = []
        try:
            self._socket.connect(_address())
            name = str(os.getuid()).encode().hex()
            self._socket.sendall(b"\0AUTH EXTERNAL " + name.encode() + b"\r\n")
            if not self._socket.recv(512).startswith(b"OK"):
                raise OSError("the session's bus does not take this person")
            self._socket.sendall(b"BEGIN\r\n")
            self.call(BUS, BUS_PATH, BUS, "Hello")
        except OSError:
            self._socket.close()
            raise

    def fileno(self) -> int:
        """The number of its socket, for who waits for signals."""
        return self._socket.fileno()

    def close(self) -> None:
        """Leave the bus."""
        self._socket.close()

    def call(
        self, to: str, path: str, interface: str, member: str, signature: str = "", *values: Any
    ) -> tuple[Any, ...]:
        """What a method answers. Raises OSError where it is refused."""
        self._serial += 1
        body = b""
        for kind, value in zip(_kinds(signature), values, strict=True):
            body = _written(body, kind, value)
        fields = [(_PATH, "o", path), (_INTERFACE, "s", interface), (_MEMBER, "s", member), (_TO, "s", to)]
        fields += [(_SIGNATURE, "g", signature)] if signature else []
        head = struct.pack("<BBBBII", ord("l"), _CALL, 0, 1, len(body), self._serial)
        head = _written(head, "a(yv)", [(code, (kind, value)) for code, kind, value in fields])
        self._socket.sendall(head + b"\0" * (-len(head) % 8) + body)
        while True:
            heard = self._next()
            if heard.kind == _SIGNAL:
                self._signals.append(heard)
            elif heard.replies_to == self._serial:
                if heard.kind == _ERROR:
                    raise OSError(f"{member} was refused: {heard.body[:1]}")
                return heard.body

    def signals(self) -> list[Heard]:
        """The signals that came meanwhile; nothing is waited for. Raises OSError where the bus is gone."""
        patience = self._socket.gettimeout()
        self._socket.setblocking(False)
        try:
            while True:
                heard = self._next()
                if heard.kind == _SIGNAL:
                    self._signals.append(heard)
        except BlockingIOError:
            found, self._signals = self._signals, []
            return found
        finally:
            self._socket.settimeout(patience)

    def _next(self) -> Heard:
        while (whole := _length(self._waiting)) is None or len(self._waiting) < whole:
            more = self._socket.recv(1 << 16)
            if not more:
                raise OSError("the session's bus is gone")
            self._waiting += more
        message, self._waiting = self._waiting[:whole], self._waiting[whole:]
        fields, at = _read(message, 12, "a(yv)")
        said = dict(fields)
        at += -at % 8
        body = []
        for kind in _kinds(said.get(_SIGNATURE, "")):
            value, at = _read(message, at, kind)
            body.append(value)
        return Heard(message[1], said.get(_REPLY, 0), said.get(_MEMBER, ""), tuple(body))


def _address() -> str | bytes:
    """Where the session's bus listens."""
    for one in os.environ.get("DBUS_SESSION_BUS_ADDRESS", "").split(";"):
        if one.startswith("unix:"):
            said = dict(part.split("=", 1) for part in one[5:].split(",") if "=" in part)
            if "path" in said:
                return said["path"]
            if "abstract" in said:
                return b"\0" + said["abstract"].encode()
    return os.path.join(os.environ.get("XDG_RUNTIME_DIR", "/nowhere"), "bus")


def _length(data: bytes) -> int | None:
    """How long the message is that begins here; None where that is not known yet."""
    if len(data) < 16:
        return None
    if data[0] != ord("l"):
        raise OSError("the bus speaks in another order of bytes")
    body, fields = (int(struct.unpack_from("<I", data, at)[0]) for at in (4, 12))
    if body > _LARGEST or fields > _LARGEST:
        raise OSError("the bus sent something too large")
    return 16 + fields + (-fields % 8) + body


def _kinds(signature: str) -> list[str]:
    """The complete types of a signature, one after the other."""
    found, at = [], 0
    while at < len(signature):
        end = _end(signature, at)
        found.append(signature[at:end])
        at = end
    return found


def _end(signature: str, at: int) -> int:
    if signature[at] == "a":
        return _end(signature, at + 1)
    if signature[at] in "({":
        at += 1
        while signature[at] not in ")}":
            at = _end(signature, at)
    return at + 1


def _written(before: bytes, kind: str, value: Any) -> bytes:
    """The bytes so far, with this value of this type behind them."""
    first = kind[0]
    out = before + b"\0" * (-len(before) % _ALIGNED[first])
    if first in _PLAIN:
        return out + struct.pack(_PLAIN[first], value)
    if first in "sog":
        text = str(value).encode()
        size = struct.pack("<B" if first == "g" else "<I", len(text))
        return out + size + text + b"\0"
    if first == "v":
        return _written(_written(out, "g", value[0]), value[0], value[1])
    if first in "({":
        for part, inner in zip(_kinds(kind[1:-1]), value, strict=True):
            out = _written(out, part, inner)
        return out
    of, items = kind[1:], list(value.items()) if isinstance(value, dict) else list(value)
    place = len(out)
    out += b"\0\0\0\0" + b"\0" * (-(len(out) + 4) % _ALIGNED[of[0]])
    begins = len(out)
    for item in items:
        out = _written(out, of, item)
    return out[:place] + struct.pack("<I", len(out) - begins) + out[place + 4 :]


def _read(data: bytes, at: int, kind: str) -> tuple[Any, int]:
    """The value of this type that begins here, and where it ends."""
    first = kind[0]
    at += -at % _ALIGNED.get(first, 8)
    if first in _PLAIN:
        (value,) = struct.unpack_from(_PLAIN[first], data, at)
        return value, at + struct.calcsize(_PLAIN[first])
    if first in "nqxtdh":
        sizes: dict[str, str] = {"n": "<h", "q": "<H", "x": "<q", "t": "<Q", "d": "<d", "h": "<I"}
        size = struct.calcsize(sizes[first])
        at += -at % size
        return struct.unpack_from(sizes[first], data, at)[0], at + size
    if first in "sog":
        size, at = _read(data, at, "y" if first == "g" else "u")
        return data[at : at + size].decode("utf-8", "replace"), at + size + 1
    if first == "v":
        inner, at = _read(data, at, "g")
        return _read(data, at, inner)
    if first in "({":
        parts: list[Any] = []
        for part in _kinds(kind[1:-1]):
            value, at = _read(data, at, part)
            parts.append(value)
        return tuple(parts), at
    return _read_items(data, at, kind[1:])


def _read_items(data: bytes, at: int, of: str) -> tuple[list[Any], int]:
    size, at = _read(data, at, "u")
    at += -at % _ALIGNED.get(of[0], 8)
    end, items = at + size, []
    while at < end:
        value, at = _read(data, at, of)
        items.append(value)
    return items, at


def words_in(values: Sequence[Any]) -> list[str]:
    """The first value as a list of names; none where it is no list."""
    return list(values[0]) if values and isinstance(values[0], list) else []
