"""What is typed at the scale, in one line: `860`, `13:00 860 g`, `yesterday 22:10 1 lb 14 oz tray 3 tare 210 g`.

A line holds one weight and, in any order around it, a time, a tray or jar, a tare, the temperature in the dryer
and a remark in parentheses. Lines pasted from a sheet or a chat are read one below the other: times without a
day run back from the last one. What could be read two ways is refused.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import pairwise

from dryhouse.kitchen.records.weighings import LOAD, SAMPLE
from dryhouse.kitchen.typed_moments import Wall, read_day, read_moment
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature, parse_mass, parse_temperature
from dryhouse.science.units import LENGTH, MASS, TIME, VOLUME, written_as
from dryhouse.words.messages import problem_sentence

EXAMPLE = "860, 13:00 860 g, or yesterday 22:10 1 lb 14 oz tray 3"
MOST_LINES = 1000
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
COUNTED = {word: str(number) for number, word in enumerate(_NUMBERS, start=1)}

_CLOCK = r"\d{1,2}:\d\d(?::\d\d)?(?:\s*[ap]\.?m\.?)?"
_WEIGHT = r"kg|kilos?|grams?|gr|gm|g|ounces?|ozs?|lbs?|pounds?|mg"
_CHAT = re.compile(rf"^\s*\[?(?P<when>[^\[\]]*?{_CLOCK})\]?\s*(?:[-–]\s*)?(?P<who>[^\W\d][^:\d]{{0,40}}):\s+", re.I)
_VESSEL = re.compile(
    rf"\b(?:on\s+|in\s+)?(?P<what>tray|jar|rack|sheet)\s*(?:no\.?\s*|#\s*)?"
    rf"(?P<which>\d{{1,2}}|[a-z]|{'|'.join(COUNTED)})\b(?![.,]\d)(?!\s*(?:{_WEIGHT})\b)\s*:?",
    re.I,
)
_SAMPLE = re.compile(r"\b(?:the\s+)?sample(?:\s+tray\b(?!\s*\d{1,2}\b(?!\s*\S)))?", re.I)
_LOAD = re.compile(r"\b(?:the\s+)?(?:whole\s+|full\s+|entire\s+)?load\b|\ball\s+trays\b", re.I)
_NO_TARE = re.compile(r"\b(?:no|without(?:\s+a)?)\s+tare\b|\bnet\b", re.I)
_AMOUNT = r"[\d.,/\s¼½¾⅓⅔⅛⅜⅝⅞]*[\d¼½¾⅓⅔⅛⅜⅝⅞]\s*(?:" + _WEIGHT + r")?\b"
_TARE = re.compile(rf"(?:\b(?:tare|minus|less)\b|(?<=\s)[-−](?=\s+\d))\s*:?\s*(?P<tare>(?:{_AMOUNT}\s*)+)", re.I)
_HEAT = re.compile(
    r"(?:\b(?:at|dryer|in the dryer)\s+)?(?P<heat>\d{2,3}(?:[.,]\d)?\s*°?\s*(?:f|c|fahrenheit|celsius))\b", re.I
)
_REMARK = re.compile(r"\((?P<said>[^()]*)\)")
_BARE = re.compile(r"\d+(?:[.,]\d+)?")


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read off the scale. What is not said of it is None or empty."""

    gross: Mass
    at: datetime | None = None
    scope: str | None = None
    vessel: str = ""
    tare: Mass | None = None
    heat: Temperature | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Notation:
    """How she writes: the unit of a bare number, and whether a comma is a decimal mark."""

    unit: str = "g"
    decimal_comma: bool = False
    temperature: str = "F"
    """The scale of a bare temperature."""


PLAIN = Notation()


@dataclass(frozen=True, slots=True)
class _Line:
    """A line taken apart, its time still in words."""

    reading: Reading
    when: str


def read_reading(wall: Wall, text: str, how: Notation = PLAIN) -> Reading:
    """One line. Raises InputProblem saying what is wrong and what would be right."""
    line = _apart(wall, text, how)
    return replace(line.reading, at=read_moment(wall, line.when, field="gross") if line.when else None)


def _segments(line: str) -> list[str]:
    """The readings of one line that names several trays: `tray 1 412, tray 2 398`. A time before them is of all."""
    named = list(_VESSEL.finditer(line))
    if len(named) < 2:
        return [line]
    parts = [part for part in re.split(r"\s*[;,]\s+|\s+and\s+", line) if part.strip()]
    if len(parts) != len(named) or not all(_VESSEL.search(part) for part in parts):
        cuts = [found.start() for found in named[1:]]
        parts = [line[a:b].strip(" ,;") for a, b in zip([0, *cuts], [*cuts, len(line)], strict=True)]
    head = re.match(rf"[^,;]*?{_CLOCK}\s*(?=on\s|in\s|tray|jar|rack|sheet)", line, re.I)
    return [parts[0], *(f"{head[0] if head else ''}{part}" for part in parts[1:])]


def read_readings(
    wall: Wall, text: str, how: Notation = PLAIN, *, started: datetime | None = None
) -> tuple[Reading, ...]:
    """One line or several, in order of time. Where every line is two plain numbers, the first are hours since the
    batch was started. A problem in one of several lines names it. Raises InputProblem."""
    lines = [(n, line) for n, line in enumerate(text.splitlines(), start=1) if line.strip()]
    if len(lines) > MOST_LINES:
        raise InputProblem(f"That is more than {MOST_LINES} lines; bring them in as a file instead.", "gross")
    if len(lines) > 1 and not any(sign.isdigit() for sign in lines[0][1]):
        how = _by_heading(lines.pop(0)[1], how)
    if len(lines) < 2:
        return tuple(read_reading(wall, part, how) for part in _segments(lines[0][1] if lines else text))
    hours = _hours_column([line for _, line in lines], how)
    if hours is not None and started is not None:
        return tuple(Reading(read_mass(mass, how), started + timedelta(hours=after)) for after, mass in hours)
    return _in_time(wall, [(n, _named(n, wall, part, how)) for n, line in lines for part in _segments(line)])


# --- several lines -----------------------------------------------------------------------------------------


def _named(number: int, wall: Wall, line: str, how: Notation) -> _Line:
    try:
        return _apart(wall, line, how)
    except InputProblem as problem:
        raise InputProblem(f"Line {number}: {problem_sentence(problem)}", "gross") from None


def _by_heading(heading: str, how: Notation) -> Notation:
    units = written_as((MASS,))
    named = [units[w].name for w in re.findall(r"[a-z]+", heading.lower()) if w in units]
    return replace(how, unit=named[0]) if named else how


def _hours_column(lines: Sequence[str], how: Notation) -> list[tuple[float, str]] | None:
    """Hours and weights, where each line is two plain numbers and the first of them only grow."""
    found = []
    for line in lines:
        cells = (
            re.split(r"[\t;|]\s*|,\s+|\s+", line.strip())
            if how.decimal_comma
            else re.split(r"[\t;,|\s]+", line.strip())
        )
        if len(cells) != 2 or not all(_BARE.fullmatch(cell) for cell in cells):
            return None
        found.append((float(cells[0].replace(",", ".")), cells[1]))
    grows = all(a[0] < b[0] for a, b in pairwise(found))
    return found if grows and found[-1][0] <= 720 else None


def _in_time(wall: Wall, lines: Sequence[tuple[int, _Line]]) -> tuple[Reading, ...]:
    """Moments of lines that follow each other: from the first that names its day on, else back from the last."""
    if bare := next((n for n, line in lines if not line.when), None):
        raise InputProblem(
            f"Line {bare}: when was it? Several lines need a time each, such as 13:00 860 g.", "gross"
        )
    found: list[Reading] = []
    if _alone(lines[0][1].when):
        limit = wall.now() + timedelta(minutes=1)
        for number, line in reversed(lines):
            at = _moment(wall, number, line.when)
            while _alone(line.when) and at > limit:
                at -= timedelta(days=1)
            found.insert(0, replace(line.reading, at=at))
            limit = at
        return tuple(found)
    for number, line in lines:
        after = found[-1].at if found else None
        found.append(replace(line.reading, at=_moment(wall, number, line.when, after)))
    return tuple(sorted(found, key=lambda reading: reading.at or wall.now()))


def _alone(when: str) -> bool:
    """Whether a time names no day."""
    return re.fullmatch(rf"{_CLOCK}|\d{{1,2}}[.h]\d\d|\d{{1,2}}\s*[ap]m", when.strip(), re.I) is not None


def _moment(wall: Wall, number: int, when: str, after: datetime | None = None) -> datetime:
    try:
        return read_moment(wall, when, field="gross", after=after)
    except InputProblem as problem:
        raise InputProblem(f"Line {number}: {problem_sentence(problem)}", "gross") from None


# --- one line ----------------------------------------------------------------------------------------------


def _apart(wall: Wall, text: str, how: Notation) -> _Line:
    """Take a line apart: first what names itself, then the weight and the time that are left."""
    if not text.strip():
        raise InputProblem(f"What does the scale show? Type it, such as {EXAMPLE}.", "gross")
    rest = _CHAT.sub(lambda m: m["when"].strip(" ,-") + " ", text, count=1)
    rest = re.sub(rf"({_CLOCK})(?:\s*[-–—]\s+|[-–—](?=\d)|:\s)", r"\1 ", rest, flags=re.I)
    note = tare = heat = scope = None
    vessel = ""
    if remark := _REMARK.search(rest):
        note, rest = remark["said"].strip(), rest.replace(remark[0], " ")
    for pattern, of in ((_SAMPLE, SAMPLE), (_LOAD, LOAD)):
        if pattern.search(rest):
            scope, rest = of, pattern.sub(" ", rest, count=1)
    if named := _VESSEL.search(rest):
        which = named["which"].lower()
        vessel, rest = f"{named['what'].lower()} {COUNTED.get(which, which)}", rest.replace(named[0], " ", 1)
    if warm := _HEAT.search(rest):
        heat, rest = parse_temperature(warm["heat"], decimal_comma=how.decimal_comma), rest.replace(warm[0], " ", 1)
    if _NO_TARE.search(rest):
        tare, rest = Mass(0.0, "0 g"), _NO_TARE.sub(" ", rest, count=1)
    if less := _TARE.search(rest):
        tare, rest = read_mass(less["tare"].strip(), how, zero=True), rest.replace(less[0], " ", 1)
    when, mass = _weight_and_time(wall, _spaced(rest), how, text.strip())
    return _Line(Reading(mass, None, scope, vessel, tare, heat, note or ""), when)


def _spaced(text: str) -> str:
    """Columns one space apart. A comma beside a time parts columns; one inside a number stays."""
    text = re.sub(r"[\t;|=]", " ", text)
    text = re.sub(rf"({_CLOCK})\s*,", r"\1 ", text, flags=re.I)
    text = re.sub(rf",(?=\s*{_CLOCK})", " ", text)
    return " ".join(text.strip(" ,:").split())


def _weight_and_time(wall: Wall, rest: str, how: Notation, typed: str) -> tuple[str, Mass]:
    """The one way to read what is left as a weight, or a weight and a time."""
    words = rest.split()
    found: dict[tuple[str, float], Mass] = {}
    for when, weight in _splits(words):
        moment = _time_words(wall, when) if _may_be_weight(weight) else None
        mass = _weight_in(weight, how) if moment is not None else None
        if mass is not None and moment is not None:
            found[(moment, mass.si)] = mass
    if len(found) == 1:
        ((when_typed, _), mass) = found.popitem()
        return when_typed, mass
    if found:
        said = f"“{typed}” can be read two ways; write the time with a colon, such as 13:00 860 g."
        raise InputProblem(said, "gross")
    after_time: InputProblem | None = None
    after_mass = ""
    for when, weight in _splits(words):
        try:
            read_mass(weight, how)
        except InputProblem as problem:
            after_time = problem if _time_words(wall, when) else after_time
            continue
        if not after_mass or any(c.isalpha() for c in weight):
            after_mass = when
    raise _why(typed, rest, after_time, after_mass, wall, how)


def _splits(words: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Every way to part the words in two, the one before the other or the other way round."""
    for cut in range(len(words) + 1):
        before, after = " ".join(words[:cut]), " ".join(words[cut:])
        yield before, after
        yield after, before


def _may_be_weight(text: str) -> bool:
    """Whether it is made of numbers and units of weight: what is not need not be read."""
    known = written_as((MASS,))
    return bool(text) and all(word in known or word == "and" for word in re.findall(r"[a-z#]+", text.lower()))


def _weight_in(text: str, how: Notation) -> Mass | None:
    try:
        return read_mass(text, how)
    except InputProblem:
        return None


def _why(
    typed: str, rest: str, after_time: InputProblem | None, after_mass: str, wall: Wall, how: Notation
) -> InputProblem:
    """The sentence for a line that could not be read."""
    times = len(re.findall(_CLOCK, rest, re.I))
    if _time_words(wall, rest):
        return InputProblem(f"“{typed}” names a time and no weight; write it like {EXAMPLE}.", "gross")
    if after_time is not None and times < 2:
        return InputProblem(after_time.said, "gross")
    if not any(sign.isdigit() for sign in rest):
        return InputProblem(f"“{typed}” is not a weight; write it like {EXAMPLE}.", "gross")
    if times > 1:
        return InputProblem(f"“{typed}” names more than one time; write one reading a line.", "gross")
    if after_mass:
        return InputProblem(_why_not_after_mass(typed, after_mass, wall, how), "gross")
    try:
        read_mass(rest, how)
    except InputProblem as problem:
        return InputProblem(problem.said, "gross")
    return InputProblem(f"“{typed}” was not understood; write it like {EXAMPLE}.", "gross")


def _why_not_after_mass(typed: str, after: str, wall: Wall, how: Notation) -> str:
    """The sentence for what stands after a weight and is no time."""
    if any(c.isalpha() for c in after) and _weight_in(after, how) is not None:
        return f"“{typed}” names two weights; write one reading a line."
    if read_day(after, wall.local(wall.now()).date()) is not None:
        return f"“{typed}” names a day and no time; write it like {EXAMPLE}."
    if after.lower().rstrip(".") in written_as((VOLUME, TIME, LENGTH)):
        return f"“{typed}” is no weight; write it like {EXAMPLE}."
    if not any(sign.isdigit() for sign in after):
        return f"“{after}” was not understood; write the line like {EXAMPLE}."
    return f"“{after}” is no time; write the line like {EXAMPLE}."


def _time_words(wall: Wall, words: str) -> str | None:
    """The words of a time without the `at` before them; empty where there are none, None where it is no time."""
    words = re.sub(r"^(?:at|@|on|um)\s+", "", words.strip(" ,"), flags=re.I)
    if not words:
        return ""
    try:
        read_moment(wall, words)
    except InputProblem:
        return None
    return words


def read_mass(text: str, how: Notation, *, zero: bool = False) -> Mass:
    """A weight. A bare number after pounds is ounces, after kilograms grams; after anything else it is refused."""
    text = text.strip(" ,")
    unit = how.unit
    if trailing := re.fullmatch(r".*?[\d¼½¾⅓⅔⅛⅜⅝⅞]\s*(?P<unit>[a-z#]+)\.?\s*(?:,|and)?\s*\d[\d./\s]*", text, re.I):
        smaller = {"lb": "oz", "kg": "g"}
        units = written_as((MASS,))
        larger = units[trailing["unit"].lower()].name if trailing["unit"].lower() in units else ""
        if larger and larger not in smaller:
            raise InputProblem(f"“{text}” ends in a number without a unit; write it like 2 lb 3 oz.", "gross")
        text = f"{text} {smaller.get(larger, unit)}"
    mass = parse_mass(text, default_unit=unit, decimal_comma=how.decimal_comma, allow_zero=zero)
    return mass if any(sign.isalpha() for sign in text) else replace(mass, typed=f"{text} {unit}")
