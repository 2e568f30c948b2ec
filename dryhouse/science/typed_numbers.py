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
_APART = re.compile(r"(?<![\d/.])\d{1,3}(?:\s\d{3}|'\d{3})+(?![\d/])(?!\s*/)")
"""A number whose thousands stand apart: it could be two numbers, or a length in feet."""
_RANGE = re.compile(rf"(?<!\d){NUMBER}\s*(?:-|–|\bto\b)\s*{NUMBER}")
"""Looked for at the first digit of each number only: a key that was held down is read as quickly as it came."""


def fractions_spelled_out(text: str) -> str:
    """Vulgar fractions spelled out: `1½` becomes `1 1/2`, and so does `1-1/2`."""
    for sign in _FRACTIONS:
        if sign in text:
            text = text.replace(sign, " " + unicodedata.normalize("NFKC", sign).replace("⁄", "/"))
    text = re.sub(r"(?<=\d)\s*-\s*(?=\d+\s*/\s*\d)", " ", text.replace("⁄", "/"))
    return text.strip().lower()


_COUNTED = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_IN_WORDS = {
    **{word: str(number) for number, word in enumerate(_COUNTED, 1)},
    "a": "1",
    "an": "1",
    "half a dozen": "6",
    "half dozen": "6",
    "a dozen": "12",
    "dozen": "12",
    "half a": "1/2",
    "half an": "1/2",
    "a half": "1/2",
    "half": "1/2",
    "a quarter": "1/4",
    "quarter": "1/4",
}
_SAID = "|".join(sorted(_IN_WORDS, key=len, reverse=True))
_SPOKEN = re.compile(rf"\s*({_SAID})\s+(?:of\s+)?(?=[^\W\d_])", re.IGNORECASE)


def in_figures(text: str) -> str:
    """The text with a number in words at its beginning as figures: `half a pound`, `a dozen eggs`, `two cups`."""
    said = _SPOKEN.match(text)
    return text if said is None else f"{_IN_WORDS[said[1].lower()]} {text[said.end() :]}"


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
    text = fractions_spelled_out(in_figures(typed))
    text = text.replace("−", "-").replace("\u00a0", " ").replace("\u202f", " ")
    if _APART.search(text):
        raise InputProblem(message(Kind.THOUSANDS_APART, typed=typed))
    if _RANGE.search(text):
        raise InputProblem(message(Kind.A_RANGE, typed=typed))
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
