"""Numbers as people type them: `1½`, `2 1/4`, `1,000`, a decimal comma where that is used.

What could be read two ways is refused.
"""

from __future__ import annotations

import re
import unicodedata

from dryhouse.science.errors import InputProblem
from dryhouse.science.messages import MessageKind as Kind
from dryhouse.science.messages import message

_FRACTIONS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_RUN_ON = re.compile(rf"([{_FRACTIONS}])[.,]?[\d{_FRACTIONS}]")
NUMBER = r"(?:\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+(?:\.\d*)?|\.\d+)"
"""A number as people write it, without a sign: `4`, `2.5`, `1 1/2`, `3/4`."""


def fractions_spelled_out(text: str) -> str:
    """Vulgar fractions spelled out: `1½` becomes `1 1/2`."""
    for sign in _FRACTIONS:
        if sign in text:
            text = text.replace(sign, " " + unicodedata.normalize("NFKC", sign).replace("⁄", "/"))
    return text.replace("⁄", "/").strip().lower()


def tidied(typed: str, decimal_comma: bool, what: str) -> str:
    """What was typed with plain numbers in it: no groups of thousands, a point for a decimal mark, small letters.

    `what` names the entry in what is told. Raises InputProblem where it is empty or a number could be read two
    ways.
    """
    if not typed.strip():
        raise InputProblem(message(Kind.EMPTY, what=what))
    if any(sign.isdecimal() and not sign.isascii() for sign in typed):
        raise InputProblem(message(Kind.OTHER_DIGITS, typed=typed))
    if run_on := _RUN_ON.search(typed):
        raise InputProblem(message(Kind.FRACTION_RUNS_ON, typed=typed, fraction=run_on[1]))
    text = fractions_spelled_out(typed).replace("−", "-").replace("\u00a0", " ").replace("\u202f", " ")
    if decimal_comma:
        text = re.sub(r"(?<=\d)\.(?=\d{3}(?:\.\d{3})*,\d)", "", text)
        if re.search(r"\d\.\d{3}(?!\d)", text):
            raise InputProblem(message(Kind.TWO_WAYS, typed=typed))
        return re.sub(r"(?<=\d),(?=\d)", ".", text)
    grouped = re.sub(r"(?<=\d),(?=\d{3}(?!\d))", "", text)
    if re.search(r"\d,\d", grouped):
        raise InputProblem(message(Kind.DECIMAL_COMMA, typed=typed))
    return grouped


def number_in(typed: str, text: str) -> float:
    """The value of a `NUMBER` found in what was typed. Raises InputProblem where it divides by zero."""
    whole = 0.0
    if "/" in text:
        *before, fraction = re.sub(r"\s*/\s*", "/", text).split()
        whole = float(before[0]) if before else 0.0
        top, bottom = fraction.split("/")
        if float(bottom) == 0:
            raise InputProblem(message(Kind.DIVIDES_BY_ZERO, typed=typed))
        return whole + float(top) / float(bottom)
    return float(text)
