"""One window for a journal: a second start brings the first one to the front instead of opening another.

A window that has a journal open answers on a local socket (on Windows a named pipe) that is called after the
journal's file; only the same person can reach it. Whoever asks needs nothing of Qt and next to nothing of Python,
so that a first start does not wait for it.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtNetwork import QLocalSocket

    from dryhouse.desk.window import DeskWindow

_ASK, _DONE = b"to the front", b"it is"
_PRIME = 2**89 - 1
"""A file's name is told by its remainder: short enough for a socket, without the libraries of a digest."""
_PATIENCE_S = 3.0
"""How long a window may take to answer; one that hangs is not waited for, and another one opens."""


def address(journal: Path) -> str:
    """Where the window with this journal answers; the same for a link to it."""
    name = f"{int.from_bytes(os.fsencode(journal.resolve())) % _PRIME:x}"
    if sys.platform == "win32":
        return f"\\\\.\\pipe\\dryhouse-{os.environ.get('USERNAME', '')}-{name}"
    folder = os.environ.get("XDG_RUNTIME_DIR")
    if not folder:
        import tempfile

        folder = tempfile.gettempdir()
    return os.path.join(folder, f"dryhouse-{os.getuid()}-{name}")


def brought_to_front(journal: Path) -> bool:
    """Whether a window has this journal open already; it is in front then."""
    where = address(journal)
    token = os.environ.get("XDG_ACTIVATION_TOKEN", "").encode()
    try:
        if sys.platform == "win32":
            with open(where, "r+b", buffering=0) as pipe:
                pipe.write(_ASK + b"\n")
                return pipe.readline().strip() == _DONE
        if not os.path.exists(where) or os.stat(where).st_uid != os.getuid():
            return False
        import socket

        with socket.socket(socket.AF_UNIX, socket.SOCK_STREAM) as asked:
            asked.settimeout(_PATIENCE_S)
            asked.connect(where)
            asked.sendall(_ASK + b" " + token + b"\n")
            return asked.makefile("rb").readline().strip() == _DONE
    except OSError:
        return False  # nobody answers: it was killed, or it hangs


class OneWindow:
    """Answers for one window, under the address of the journal it has open."""

    def __init__(self, window: DeskWindow) -> None:
        from PySide6.QtNetwork import QLocalServer

        self._window = window
        self._server = QLocalServer(window)
        self._server.setSocketOptions(QLocalServer.SocketOption.UserAccessOption)
        self._server.newConnection.connect(self._answer_all)

    def answer_for(self, journal: Path) -> None:
        """Answer where this journal is asked for, and no longer for another one. Where another window answers
        already, that one goes on answering; what a killed one left is replaced."""
        where = address(journal)
        self._server.close()
        if not is_answered(where):
            self._server.listen(where)

    def close(self) -> None:
        """Answer no more."""
        self._server.close()

    def _answer_all(self) -> None:
        while self._server.hasPendingConnections():
            asked = self._server.nextPendingConnection()
            asked.readyRead.connect(lambda asked=asked: self._answer(asked))
            asked.disconnected.connect(asked.deleteLater)
            if asked.bytesAvailable():
                self._answer(asked)

    def _answer(self, asked: QLocalSocket) -> None:
        if not asked.canReadLine():
            return
        said = bytes(asked.readLine().data()).strip()
        if not said.startswith(_ASK):
            return
        token = said[len(_ASK) :].strip().decode(errors="replace")
        if token:
            os.environ["XDG_ACTIVATION_TOKEN"] = token  # Wayland lets no window come to the front without one
        self._window.come_to_front()
        asked.write(_DONE + b"\n")
        asked.flush()
        asked.disconnectFromServer()


def is_answered(where: str) -> bool:
    """Whether a window answers there, without bringing it to the front."""
    if sys.platform == "win32" or not os.path.exists(where):
        return False
    import socket

    with socket.socket(socket.AF_UNIX, socket.SOCK_STREAM) as asked:
        asked.settimeout(_PATIENCE_S)
        try:
            asked.connect(where)
        except OSError:
            return False
    return True
