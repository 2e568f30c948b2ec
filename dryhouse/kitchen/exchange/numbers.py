"""The numbers of the records of a file: each once, and what those are called here that others refer to."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from dryhouse.kitchen.records.field_problems import short
from dryhouse.kitchen.records.links import LINKS
from dryhouse.science.errors import InputProblem

_REFERRED_TO = {target for links in LINKS.values() for target in links.values()}
_HIGHEST = 2**62
"""A journal numbers on from the highest there is; nobody gets there by counting."""
_COUNTED = 1 << 27
"""Up to here a bit says whether a number has come; what lies beyond is listed."""


class Numbers:
    """What has come of each kind."""

    def __init__(self) -> None:
        self._bits: defaultdict[type, bytearray] = defaultdict(bytearray)
        self._beyond: defaultdict[type, set[int]] = defaultdict(set)
        self._highest: defaultdict[type, int] = defaultdict(int)
        self._called: defaultdict[type, dict[int, int]] = defaultdict(dict)

    def take(self, record: Any) -> int:
        """The record's number; one without takes the next, as a table kept by hand means its lines in order.

        Raises InputProblem where it is taken, or cannot be one.
        """
        kind = type(record)
        highest = self._highest[kind]
        number: int = record.id or highest + 1
        if not 0 < number <= _HIGHEST or not self._is_first(kind, number):
            raise InputProblem(
                f"{kind.__name__} {short(number)} stands twice, or has a number below 1; each needs its own."
            )
        if number > highest:
            self._highest[kind] = number
        return number

    def note(self, kind: type, number: int, here: int) -> None:
        """What a record is called here."""
        if kind in _REFERRED_TO:
            self._called[kind][number] = here

    def of(self, kind: type, number: int) -> int | None:
        """What a record of the file is called here; None where there is none of that number."""
        return self._called[kind].get(number)

    def _is_first(self, kind: type, number: int) -> bool:
        if number >= _COUNTED:
            beyond = self._beyond[kind]
            new = number not in beyond
            beyond.add(number)
            return new
        bits, byte, bit = self._bits[kind], number >> 3, 1 << (number & 7)
        if byte >= len(bits):
            bits.extend(bytes(max(byte + 1, 2 * len(bits)) - len(bits)))
        new = not bits[byte] & bit
        bits[byte] |= bit
        return new
