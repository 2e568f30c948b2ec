"""A JSON file read value by value, however long it is: only the value at hand is held."""

from __future__ import annotations

import codecs
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, BinaryIO

from dryhouse.kitchen.exchange.formats import may_hold_halves
from dryhouse.science.errors import InputProblem

_AT_ONCE = 1 << 16
"""Bytes read at once: of a few hundred records, which stay near the processor while they are judged."""
_LONGEST = 1 << 24
"""Characters of one record: far more than anyone writes."""
_BLANKS = re.compile(r"[ \t\n\r]*")
_MARK = codecs.BOM_UTF8


class JsonStream:
    """The text of a JSON file and a place in it. What is not whole JSON is an InputProblem that names the line."""

    def __init__(self, file: BinaryIO, path: Path) -> None:
        self._file, self._path = file, path
        self.halves = False
        """Whether anything read so far may be half of a character."""
        self._by_lines = True
        """Whether lists may hold one value a line, as in what this program writes."""
        self._decode = json.JSONDecoder().raw_decode
        self.go_to((len(_MARK) if file.read(len(_MARK)) == _MARK else 0, 1))

    def place(self) -> tuple[int, int]:
        """Where the reading stands, to come back to: bytes, and the line."""
        done = self._text[: self._at]
        return self._begins + len(done.encode("utf-8")), self._line + done.count("\n")

    def reached(self) -> int:
        """How far the reading has come, in bytes; nearly, so that what has been read is not counted again."""
        return self._begins + self._at

    def go_to(self, place: tuple[int, int]) -> None:
        """Go on from a place."""
        self._begins, self._line = place
        """Where in the file the text at hand begins."""
        self._file.seek(self._begins)
        self._bytes = codecs.getincrementaldecoder("utf-8")()
        self._text, self._at, self._ended = "", 0, False

    def next_mark(self) -> str:
        """The next character that is no blank; empty at the end."""
        while True:
            found = _BLANKS.match(self._text, self._at)
            assert found is not None
            self._at = found.end()
            if self._at < len(self._text):
                return self._text[self._at]
            if not self._more():
                return ""

    def take(self, mark: str) -> None:
        """Go past a mark that must be there."""
        if self.next_mark() != mark:
            raise self._broken()
        self._at += 1

    def value(self) -> Any:
        """The value that stands here."""
        self.next_mark()
        while True:
            try:
                found, end = self._decode(self._text, self._at)
            except RecursionError:
                raise self._broken() from None
            except ValueError:
                if len(self._text) - self._at < _LONGEST and self._more():
                    continue
                raise self._broken() from None
            if end == len(self._text) and self._more():
                continue
            self._at = end
            return found

    def members(self) -> Iterator[str]:
        """The names in the group that begins here; after each, its value must be read before the next."""
        self.take("{")
        first = True
        while self.next_mark() != "}":
            if not first:
                self.take(",")
            first = False
            if self.next_mark() != '"':
                raise self._broken()
            name = self.value()
            self.take(":")
            yield name
        self.take("}")

    def bunches(self) -> Iterator[list[Any]]:
        """The values of a list whose bracket has been taken, as many at once as are at hand."""
        first = True
        while (mark := self.next_mark()) != "]":
            if not first:
                if mark != ",":
                    raise self._broken()
                self._at += 1
            first = False
            yield self._whole_lines() or [self.value()]
        self._at += 1

    def _whole_lines(self) -> list[Any]:
        """The values of a list from here on, as far as the text at hand holds whole lines of them; nothing where
        values do not end with their lines. Many at once take half the time of one by one."""
        end = self._text.rfind(",\n", self._at) if self._by_lines else -1
        if end < 0:
            return []
        try:
            found: tuple[list[Any], int] = self._decode(f"[{self._text[self._at : end]}]")
        except (RecursionError, ValueError):
            self._by_lines = False
            return []
        many, read = found
        self._at += read - 2  # the brackets; where the list itself ends here, its own bracket stands next
        return many

    def _more(self) -> bool:
        if self._ended:
            return False
        new = self._file.read(max(_AT_ONCE, len(self._text) - self._at))
        self._ended = not new
        self._begins, self._line = self.place()
        self._text = self._text[self._at :] + self._bytes.decode(new, final=self._ended)
        self._at = 0
        self.halves = self.halves or may_hold_halves(self._text)
        return not self._ended or bool(self._text)

    def _broken(self) -> InputProblem:
        line = self.place()[1]
        return InputProblem(f"“{self._path}” is not a journal's export: it is not whole JSON (line {line}).")
