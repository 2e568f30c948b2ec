"""A value in its place in a line of words: a step of the workings, or a message."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from dryhouse.science.display import Style
from dryhouse.science.messages import MessageKind
from dryhouse.science.units import AREA, LENGTH, MASS, TEMPERATURE, TIME, VOLUME, both_scales, both_scales_exactly
from dryhouse.science.workings import Term
from dryhouse.words.amounts import DIGITS, figures, own, worked
from dryhouse.words.dates import day_words
from dryhouse.words.message_lines import LINES

_METERS_A_FOOT = 0.3048
_NOUNS: Mapping[str, str] = {MASS: "a weight", TIME: "a length of time", AREA: "an area"}
_EXAMPLES: Mapping[str, str] = {
    MASS: "2 lb 3 oz, 40 oz, 1.5 kg or 850 g",
    VOLUME: "1 1/2 cups, 3 qt, 12 tbsp, 8 fl oz or 750 ml",
    TIME: "8h30, 8:30, 510 min or 8.5 h",
    LENGTH: "1/4 in, 6 mm or 5000 ft",
    AREA: "900 cm2, 1 sq ft or 30 x 40 cm",
    TEMPERATURE: "135 F or 57 C",
}
"""How each kind of quantity is typed."""
_KINDS: Mapping[str, str] = {"animal": "animal food", "low acid": "low-acid food", "ground": "ground meat"}
"""Kinds of food whose names alone say too little."""


class Slot:
    """A term in its place in a line.

    After a colon the line may ask for `own`, the unit as it is whatever the person's system; `bare`, the
    number without its unit; `both`, in °F and °C or in feet and meters whichever she reads, `exactly` to the tenth
    of a degree; how many digits are known; what is counted, `one|many`; of a kind of quantity, the
    `noun` it goes by or an `example` of how it is typed; of a list of kinds of food, `kinds`.
    """

    def __init__(self, term: Term, style: Style) -> None:
        self._term, self._style = term, style

    def __format__(self, spec: str) -> str:
        value, style = self._term.value, self._style
        if isinstance(value, date):
            return day_words(value)
        if isinstance(value, MessageKind):
            return LINES[value]
        if isinstance(value, str) and spec == "kinds":
            return ", ".join(_KINDS.get(kind, kind) for kind in value.split(", "))
        if isinstance(value, str):
            return _quantity(value, spec) if spec else value
        if "|" in spec:
            one, many = spec.split("|")
            return f"{figures(value, style)} {one if value == 1 else many}"
        if spec in ("both", "exactly"):
            return _in_both(value, self._term.unit, exactly=spec == "exactly")
        if spec == "own":
            return own(value, self._term.unit, style)
        if spec == "bare":
            return figures(value, style)
        return worked(value, self._term.unit, style, int(spec or DIGITS))


def _in_both(value: float, unit: str, *, exactly: bool) -> str:
    if unit == "m":
        return f"{value / _METERS_A_FOOT:.0f} ft ({value:.0f} m)"
    return both_scales_exactly(value) if exactly else both_scales(value)


def _quantity(dimension: str, spec: str) -> str:
    return _EXAMPLES[dimension] if spec == "example" else _NOUNS.get(dimension, f"a {dimension}")
