"""What one line of an instrument says: a weight with its unit, and where it has columns for them time and air.

A scale on a cable sends lines with a number and a unit; a logger writes a table with headings. How a line is read
is picked from `PATTERNS`, or is a pattern of one's own with a group named `mass`.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from dryhouse.kitchen.typed_moments import Wall, read_moment
from dryhouse.science.errors import InputProblem
from dryhouse.science.units import MASS, SIZES, to_celsius, written_as

_NUMBER = r"[+-]?\s*\d+(?:[.,]\d+)?"
_UNIT = r"kg|g|oz|lbs?|mg"
PATTERNS: Mapping[str, tuple[str, str]] = {
    "unit": ("the number before a unit, such as ST,GS,+ 860.5 g", rf"(?P<mass>{_NUMBER})\s*(?P<unit>{_UNIT})\b"),
    "last": ("the last number of the line", rf"(?P<mass>{_NUMBER})\s*(?P<unit>{_UNIT})?\s*[^\d]*$"),
    "first": ("the first number of the line", rf"^[^\d+-]*(?P<mass>{_NUMBER})\s*(?P<unit>{_UNIT})?"),
    "table": ("a table with headings, such as time,grams,dryer °C", ""),
}
"""Ways to read a line, by name: in words, and as a regular expression."""
_UNSTEADY = re.compile(r"^\s*(?:US|UN|DY|OL|UL)\b|[?~]\s*$")
"""Marks by which scales say that a reading is not steady or out of range (common practice, no source)."""
_MOST_G = 200_000.0
_AIR = {
    "chamber_c": (-30.0, 150.0),
    "chamber_pct": (0.0, 100.0),
    "kitchen_c": (-30.0, 60.0),
    "kitchen_pct": (0.0, 99.9),
}
"""What a sensor of air may say; beyond it there is something the matter with it."""
_MASS_WORDS = frozenset({"mass", "weight", "grams", "gram", "g", "kg", "oz", "lb", "scale", "load", "net"})


@dataclass(frozen=True, slots=True)
class Sample:
    """What a line says. Masses in grams as the scale shows them, temperatures in °C, humidities in %."""

    grams: float
    unit: str = ""
    """The unit the line named; empty where it named none."""
    at: datetime | None = None
    chamber_c: float | None = None
    chamber_pct: float | None = None
    kitchen_c: float | None = None
    kitchen_pct: float | None = None


@dataclass(frozen=True, slots=True)
class Way:
    """How the lines of an instrument are read."""

    pattern: str = "unit"
    """A name of `PATTERNS`, or a regular expression of one's own."""
    unit: str = "g"
    """Of a number without one."""

    def problem(self) -> str:
        """What is wrong with it, in a sentence; empty where nothing is."""
        if self.pattern in PATTERNS:
            return ""
        try:
            named = re.compile(self.pattern).groupindex
        except re.error as fault:
            return f"That pattern cannot be read ({fault.msg}); pick one of the list, or mend it."
        return "" if "mass" in named else "A pattern of your own names the weight: (?P<mass>…)."


class LineReader:
    """Reads line after line; of a table the headings first."""

    def __init__(self, way: Way, wall: Wall) -> None:
        self.way, self.wall = way, wall
        self._columns: dict[str, int] = {}
        self._fahrenheit: set[str] = set()
        self._table_unit = way.unit
        said = PATTERNS.get(way.pattern, ("", way.pattern))[1]
        self._pattern = re.compile(said, re.I) if said else None

    def read(self, line: str) -> Sample | None:
        """What the line says, or None where it is not steady, a heading, or nothing that is understood."""
        text = line.strip().strip("\x00\x02\x03")
        if not text or _UNSTEADY.search(text):
            return None
        return self._of_table(text) if self._pattern is None else self._of_line(self._pattern, text)

    def _of_line(self, pattern: re.Pattern[str], text: str) -> Sample | None:
        found = pattern.search(text)
        if found is None:
            return None
        named = (found.groupdict().get("unit") or "").lower()
        units = written_as((MASS,))
        unit = units[named].name if named in units else ""
        grams = _number(found["mass"])
        if grams is None:
            return None
        return _sound(Sample(grams * SIZES[unit or self.way.unit], unit))

    def _of_table(self, text: str) -> Sample | None:
        cells = next(csv.reader([text], delimiter=next((mark for mark in "\t;" if mark in text), ",")))
        if not any(re.match(r"\s*[+-]?\d", cell) for cell in cells):
            self._take_headings(cells)
            return None
        if not self._columns:
            self._columns = {"time": 0, "mass": 1} if len(cells) > 1 else {"mass": 0}
        grams = _number(self._cell(cells, "mass"))
        if grams is None:
            return None
        when = self._cell(cells, "time")
        at = _moment(self.wall, when) if when else None
        if when and at is None:
            return None
        air = {name: self._air(cells, name) for name in _AIR}
        return _sound(Sample(grams * SIZES[self._table_unit], "", at, **air))

    def _take_headings(self, cells: Sequence[str]) -> None:
        self._columns, self._fahrenheit = {}, set()
        units = written_as((MASS,))
        for place, cell in enumerate(cells):
            words = set(re.findall(r"[a-z]+|%|°", cell.casefold()))
            name = _column(words)
            self._columns.setdefault(name, place) if name else None
            if name.endswith("_c") and words & {"f", "fahrenheit", "degf"}:
                self._fahrenheit.add(name)
            if name == "mass":
                self._table_unit = next((units[w].name for w in words if w in units), self.way.unit)

    def _cell(self, cells: Sequence[str], name: str) -> str:
        place = self._columns.get(name, -1)
        return cells[place].strip() if 0 <= place < len(cells) else ""

    def _air(self, cells: Sequence[str], name: str) -> float | None:
        value = _number(self._cell(cells, name))
        if value is None:
            return None
        value = to_celsius(value) if name in self._fahrenheit else value
        low, high = _AIR[name]
        return value if low <= value <= high else None


def _column(words: set[str]) -> str:
    """What a heading names; empty where it is nothing that is used here."""
    place = "kitchen" if words & {"kitchen", "room", "ambient", "outside"} else "chamber"
    if words & {"humidity", "rh", "hum"}:
        return f"{place}_pct"
    if words & {"temp", "temperature", "t", "celsius", "fahrenheit", "degc", "degf"} or (
        words & {"c", "f"} and words & {"dryer", "chamber", "kitchen", "room", "air", "inside", "ambient", "°"}
    ):
        return f"{place}_c"
    if words & {"time", "date", "datetime", "timestamp", "when", "clock"}:
        return "time"
    return (
        "mass" if words & {"mass", "weight", "grams", "gram", "g", "kg", "oz", "lb", "scale", "load", "net"} else ""
    )


def _sound(sample: Sample) -> Sample | None:
    return sample if -_MOST_G < sample.grams < _MOST_G else None


def _number(text: str) -> float | None:
    try:
        return float(re.sub(r"\s", "", text).replace(",", "."))
    except ValueError:
        return None


def _moment(wall: Wall, text: str) -> datetime | None:
    """A moment as loggers write it: ISO, seconds since 1970, or as people do."""
    number = _number(text)
    if number is not None and 1e9 < number < 1e11:
        return datetime.fromtimestamp(number, UTC)
    try:
        at = datetime.fromisoformat(text)
    except ValueError:
        try:
            return read_moment(wall, text)
        except InputProblem:
            return None
    if at.tzinfo is None:
        at = at.replace(tzinfo=wall.zone) if wall.zone is not None else at.astimezone()
    return at.astimezone(UTC)
