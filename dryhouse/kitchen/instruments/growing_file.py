"""A file that grows, read to its end again and again: rotated, truncated, half a last line; nothing twice."""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path

MOST_BYTES = 1 << 18
"""Read at once; the rest waits for the next look, so that a look is short."""


class GrowingFile:
    """Answers the lines that were finished since the last look. `gone` while there is no such file."""

    def __init__(self, path: Path, *, from_start: bool = True) -> None:
        self.path = path
        self.gone = False
        self._from_start = from_start
        self._file: int | None = None
        self._identity: tuple[int, int] | None = None
        self._offset = 0
        self._half = b""

    def lines(self, _now: datetime) -> list[str]:
        """Every line that is complete by now and was not answered before."""
        try:
            if self._file is None:
                self._open()
            found = self._read()
            if not found and self._was_replaced():
                self.close()
                self._from_start = True
                self._open()
                found = self._read()
        except OSError:
            self.close()
            self.gone = True
            return []
        self.gone = False
        return found

    def _open(self) -> None:
        self._file = os.open(self.path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
        about = os.fstat(self._file)
        self._identity, self._half = (about.st_dev, about.st_ino), b""
        self._offset = 0 if self._from_start else about.st_size
        self._from_start = True

    def _read(self) -> list[str]:
        assert self._file is not None
        if os.fstat(self._file).st_size < self._offset:
            self._offset, self._half = 0, b""
        os.lseek(self._file, self._offset, os.SEEK_SET)
        data = os.read(self._file, MOST_BYTES)
        self._offset += len(data)
        *whole, self._half = (self._half + data).replace(b"\r\n", b"\n").split(b"\n")
        return [line.decode("utf-8", "replace") for line in whole]

    def _was_replaced(self) -> bool:
        about = os.stat(self.path)
        return (about.st_dev, about.st_ino) != self._identity

    def close(self) -> None:
        """Let the file go."""
        if self._file is not None:
            os.close(self._file)
            self._file = None
