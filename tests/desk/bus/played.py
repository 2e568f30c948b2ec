"""A bus for machines without one: it takes one connection, checks what it is sent, and presses a button.

It knows nothing of the program's own code; only the few messages that a notice takes.
"""

from __future__ import annotations

import json
import socket
import struct
import threading
from pathlib import Path

NUMBER = 7
NOTIFY = b"susssasa{sv}i"


class PlayedBus:
    """Listens at `address` in a thread of its own until it is ended."""

    def __init__(self, folder: Path) -> None:
        self.file = folder / "notices"
        self.file.touch()
        self._listens = socket.socket(socket.AF_UNIX, socket.SOCK_STREAM)
        self._listens.bind(str(folder / "bus"))
        self._listens.listen(4)
        self.address = f"unix:path={folder / 'bus'}"
        self._serial = 0
        self._thread = threading.Thread(target=self._serve, daemon=True)
        self._thread.start()

    def end(self) -> None:
        self._listens.close()

    def _serve(self) -> None:
        while True:
            try:
                one, _ = self._listens.accept()
            except OSError:
                return
            threading.Thread(target=self._talk, args=(one,), daemon=True).start()

    def _talk(self, one: socket.socket) -> None:
        with one:
            try:
                assert one.recv(512).startswith(b"\0AUTH EXTERNAL ")
                one.sendall(b"OK 0123456789abcdef0123456789abcdef\r\n")
                data = b""
                while not data.startswith(b"BEGIN\r\n"):
                    data += one.recv(512)
                data = data[7:]
                while True:
                    while len(data) < 16 or len(data) < _whole(data):
                        more = one.recv(4096)
                        if not more:
                            return
                        data += more
                    whole = _whole(data)
                    self._answer(one, data[:whole])
                    data = data[whole:]
            except OSError:
                return

    def _answer(self, one: socket.socket, message: bytes) -> None:
        body, serial, _ = struct.unpack_from("<III", message, 4)
        member = next(
            name for name in (b"Hello", b"ListNames", b"ListActivatableNames", b"AddMatch", b"Notify")
            if b"\x03\x01s\0" + struct.pack("<I", len(name)) + name + b"\0" in message
        )  # fmt: skip
        if member == b"Notify":
            assert b"\x08\x01g\0" + bytes([len(NOTIFY)]) + NOTIFY + b"\0" in message, "other types"
            texts = [part.decode() for part in _texts(message[len(message) - body :])]
            with self.file.open("a") as file:
                file.write(
                    json.dumps([texts[0], 0, texts[2], texts[3], texts[4:8], ["desktop-entry", "urgency"]]) + "\n"
                )
            one.sendall(self._reply(serial, b"u", struct.pack("<I", NUMBER)))
            one.sendall(self._signal(struct.pack("<I", NUMBER) + _string(b"put-off")))
        elif member in (b"ListNames", b"ListActivatableNames"):
            inside = _string(b"org.freedesktop.Notifications")
            one.sendall(self._reply(serial, b"as", struct.pack("<I", len(inside)) + inside))
        elif member == b"Hello":
            one.sendall(self._reply(serial, b"s", _string(b":1.1")))
        else:
            one.sendall(self._reply(serial, b"", b""))

    def _reply(self, to: int, types: bytes, body: bytes) -> bytes:
        fields = b"\x05\x01u\0" + struct.pack("<I", to)
        return self._message(2, fields, types, body)

    def _signal(self, body: bytes) -> bytes:
        path, interface = b"/org/freedesktop/Notifications", b"org.freedesktop.Notifications"
        fields = b""
        for code, kind, value in ((1, b"o", path), (2, b"s", interface), (3, b"s", b"ActionInvoked")):
            fields += b"\0" * (-len(fields) % 8) + bytes([code, 1]) + kind + b"\0" + _string(value)
        return self._message(4, fields, b"us", body)

    def _message(self, kind: int, fields: bytes, types: bytes, body: bytes) -> bytes:
        self._serial += 1
        if types:
            fields += b"\0" * (-len(fields) % 8) + b"\x08\x01g\0" + bytes([len(types)]) + types + b"\0"
        head = struct.pack("<BBBBIII", ord("l"), kind, 0, 1, len(body), self._serial, len(fields)) + fields
        return head + b"\0" * (-len(head) % 8) + body


def _string(text: bytes) -> bytes:
    return struct.pack("<I", len(text)) + text + b"\0"


def _whole(data: bytes) -> int:
    body, fields = struct.unpack_from("<I", data, 4)[0], struct.unpack_from("<I", data, 12)[0]
    return 16 + fields + (-fields % 8) + body


def _texts(body: bytes) -> list[bytes]:
    """The texts of a notice: name, icon, title, text and what is on its buttons; the number stands after the
    first."""
    found, at = [], 0
    for place in range(4):
        at += -at % 4
        size = struct.unpack_from("<I", body, at)[0]
        found.append(body[at + 4 : at + 4 + size])
        at += 5 + size
        if place == 0:
            at += -at % 4 + 4
    at += -at % 4
    end = at + 4 + struct.unpack_from("<I", body, at)[0]
    at += 4
    while at < end:
        at += -at % 4
        size = struct.unpack_from("<I", body, at)[0]
        found.append(body[at + 4 : at + 4 + size])
        at += 5 + size
    return found
