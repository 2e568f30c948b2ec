"""What happened at the dryer, in one line: `13:00 turned`, `heat 145 F`, `tray off 88 g`, `note: edges crisp`.

The same entry takes it as takes the scale's reading: a line that begins or ends with one of these words is no
weight.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from dryhouse.kitchen.dryer.typed_readings import COUNTED, PLAIN, Notation, read_mass
from dryhouse.kitchen.records.weighings import (
    HEAT_CHANGED,
    MOVED,
    NOTED,
    PAUSED,
    RAN,
    REMIND,
    RESUMED,
    TRAY_IN,
    TRAY_OFF,
    TURNED,
)
from dryhouse.kitchen.typed_moments import Wall, read_moment
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature, parse_duration, parse_temperature

_COUNT = rf"(?:(?P<count>\d{{1,2}}|an?|{'|'.join(COUNTED)})\s+)?"
_NAMED = r"(?P<named>tray\s+(?:#\s*)?\d{1,2}\b(?!\s*(?:g|kg|oz|lb)\b))"
_TRAYS = rf"(?:{_NAMED}|{_COUNT}trays?)"
_UNTIL = r"(?P<until>\d\S*(?:\s*(?:h|hours?|min|minutes?|am|pm)\b)?)"
_MASS = r"(?P<mass>\s+[\d¼½¾⅓⅔.,].*)?"
WAS_OFF, BRITTLE, NOT_BRITTLE = "was off", "brittle", "not brittle"
ANSWERS = frozenset({RAN, WAS_OFF, BRITTLE, NOT_BRITTLE})
"""What answers a question that is asked of the batch."""
_SAID: Mapping[str, tuple[str, ...]] = {
    RAN: (r"(?:no,?\s+)?(?:(?:it|(?:the\s+)?dryer)\s+)?(?:was\s+(?:running|on)|kept\s+running|ran\s+on)",),
    WAS_OFF: (r"(?:yes,?\s+)?(?:(?:it|(?:the\s+)?dryer|(?:the\s+)?power)\s+)?was\s+off",),
    BRITTLE: (r"(?:yes,?\s+)?brittle(?:\s+(?:right\s+)?through(?:out)?)?", r"bone[\s-]dry|dry\s+to\s+the\s+bone"),
    NOT_BRITTLE: (r"not\s+(?:yet\s+)?brittle(?:\s+yet)?", r"not\s+yet"),
    NOTED: (r"(?:note|noted|remark)\s*:?\s+(?P<note>.+)", r"[“\"](?P<note>[^“”\"]+)[”\"]"),
    TURNED: (r"(?:trays\s+)?(?:turned|rotated|swapped)(?:\s+(?:the\s+)?trays)?", r"turn(?:\s+(?:the\s+)?trays)?"),
    PAUSED: (r"paused?", r"(?:dryer|power)\s+off", r"stopped"),
    RESUMED: (r"resumed?", r"(?:drying\s+)?goes\s+on", r"(?:dryer|power)\s+on(?:\s+again)?", r"on\s+again"),
    HEAT_CHANGED: (
        r"(?:heat|temp|temperature|dryer|set|turned\s+(?:up|down))\s*(?:to|now|changed\s+to|:)?\s*"
        r"(?P<heat>\d[\d.,]*\s*°?\s*[a-z]*)",
    ),
    TRAY_OFF: (
        rf"{_TRAYS}\s+(?:taken\s+)?(?:off|out)(?:\s+early)?{_MASS}",
        rf"(?:took|take)\s+(?:off|out)\s+{_TRAYS}(?:\s+early)?{_MASS}",
    ),
    TRAY_IN: (
        rf"{_TRAYS}\s+(?:put\s+)?(?:in|added|on)(?:\s+later)?{_MASS}",
        rf"(?:added|add|put\s+in)\s+{_TRAYS}{_MASS}",
    ),
    REMIND: (
        rf"remind(?:\s+me)?(?:\s+in|\s+at)?\s+{_UNTIL}(?:\s+(?:to\s+)?(?P<note>.+))?",
        rf"(?P<note>soak(?:ing)?)(?:\s+for|\s+until)?\s+{_UNTIL}",
    ),
    MOVED: (rf"(?:moved\s+)?{_TRAYS}\s+(?:moved\s+)?(?:to|into)\s+(?:the\s+)?(?P<dryer>[^\d].*)",),
}
_PATTERNS = tuple((kind, re.compile(said, re.I)) for kind, all_said in _SAID.items() for said in all_said)


@dataclass(frozen=True, slots=True)
class Happening:
    """What happened to a batch on the dryer. What is not said of it is None or empty."""

    kind: str
    at: datetime | None = None
    temperature: Temperature | None = None
    note: str = ""
    trays: int | None = None
    mass: Mass | None = None
    """The net weight of what was on the trays."""
    dryer: str = ""
    """The name of the dryer that trays were moved to, as it was typed."""


def read_happening(wall: Wall, text: str, how: Notation = PLAIN) -> Happening | None:
    """What the line says happened, or None where it says nothing of the sort. Raises InputProblem where it does,
    and its time, weight or temperature cannot be read."""
    words = " ".join(text.strip(" .").split()).split(" ")
    for cut in range(len(words) + 1):
        for when, what in ((words[:cut], words[cut:]), (words[cut:], words[:cut])):
            found = _found(wall, " ".join(what).strip(" ,:-"), how)
            if found is None:
                continue
            if not when:
                return found
            at = re.sub(r"^(?:at|@)\s+", "", " ".join(when).strip(" ,:-"), flags=re.I)
            try:
                return replace(found, at=read_moment(wall, at, field="gross"))
            except InputProblem:
                continue
    return None


def _found(wall: Wall, what: str, how: Notation) -> Happening | None:
    for kind, pattern in _PATTERNS:
        match = pattern.fullmatch(what)
        if match is not None:
            said = match.groupdict()
            if kind == REMIND:
                return _reminder(wall, said)
            return Happening(
                kind,
                temperature=_heat(said.get("heat"), how),
                note=(said.get("note") or said.get("named") or "").strip(),
                trays=_trays(said) if kind in (TRAY_OFF, TRAY_IN, MOVED) else None,
                mass=read_mass(said["mass"], how) if said.get("mass") else None,
                dryer=(said.get("dryer") or "").strip(),
            )
    return None


def _reminder(wall: Wall, said: Mapping[str, str | None]) -> Happening:
    """A time ahead, or a length of time from now."""
    until, note = said.get("until") or "", (said.get("note") or "look at it").strip()
    if note.lower().startswith("soak"):
        note = "The soak is over"
    if not re.fullmatch(r"\d{1,2}:\d\d(?:\s*[ap]m)?|\d{1,2}\s*[ap]m", until):
        return Happening(REMIND, wall.now() + timedelta(seconds=parse_duration(until).si), note=note)
    at = read_moment(wall, until)
    return Happening(REMIND, at if at > wall.now() else at + timedelta(days=1), note=note)


def _trays(said: Mapping[str, str | None]) -> int:
    count = (said.get("count") or "one").lower()
    return int(COUNTED.get(count, "1" if count in ("a", "an") else count))


def _heat(text: str | None, how: Notation) -> Temperature | None:
    if not text:
        return None
    return parse_temperature(text, default_unit=how.temperature, decimal_comma=how.decimal_comma)
