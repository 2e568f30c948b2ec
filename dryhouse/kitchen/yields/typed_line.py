"""One typed line of the yields: `corn 1 cup`, `1½ lb sliced onions`, `2 cups dried apple`. Read while it is typed.

The line holds an amount, a food, and perhaps which way it goes: the word *dried* means that so much dried
food is wanted, *fresh* that so much fresh food is there.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.catalog import find_foods
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.foods.counted import counted_mass, without_pieces
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.yields.yields import DRIED, FRESH, Direction
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume, parse_amount
from dryhouse.science.typed_numbers import in_figures
from dryhouse.science.units import MASS, VOLUME, written_as
from dryhouse.words.messages import problem_sentence

_FRACTION = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_NUMBER = rf"(?:\d+(?:[.,]\d+)?(?:\s+\d+\s*/\s*\d+|\s*/\s*\d+|\s*[{_FRACTION}])?|\.\d+|[{_FRACTION}])"
_WAYS: dict[str, Direction] = {"dried": DRIED, "dry": DRIED, "fresh": FRESH, "raw": FRESH}
_SMALL_WORDS = frozenset(
    {"of", "for", "from", "some", "i", "want", "wanted", "need", "needed", "have", "to", "get"}
)


@dataclass(frozen=True, slots=True)
class YieldLine:
    """What a line says so far; whatever is not there yet is None or empty."""

    words: str
    """What is left for the food's name."""
    food: Food | None
    others: tuple[Food, ...]
    """Foods the words may mean: instead of the food, or, where it is not clear which is meant, the offers."""
    amount: Mass | Volume | None
    direction: Direction | None
    """Which way the line itself says; None where it does not."""
    hint: str
    """What to type next; empty where the line is whole."""


def read_line(kitchen: Kitchen, text: str, *, decimal_comma: bool = False) -> YieldLine:
    """Read a line as far as it goes. It never raises: a line that is being typed is wrong most of the time."""
    amount, rest, problem = _take_amount(text, decimal_comma)
    spoken = re.findall(r"[^\s,;:→>]+", rest)
    ways = [_WAYS[w.casefold()] for w in spoken if w.casefold() in _WAYS]
    named = " ".join(w for w in spoken if w.casefold() not in _WAYS and w.casefold() not in _SMALL_WORDS)
    if amount is None and problem and without_pieces(named):
        named = without_pieces(named)
    known, others = _foods(kitchen, named)
    if amount is None and problem and known is not None:
        amount, problem = _pieces(known, in_figures(text), problem)
    if not named:
        hint = "Name a food, such as corn."
    elif known is None and others:
        hint = f"Which food is “{named}”? Choose one below, or add it in the Handbook."
    elif known is None:
        hint = f"No food here is called “{named}”; try another name, or add it in the Handbook."
    elif problem:
        hint = problem
    elif amount is None:
        hint = "How much? Add an amount, such as 1 cup, 2 lb or 500 g."
    else:
        hint = ""
    return YieldLine(named, known, others, amount, ways[-1] if ways else None, hint)


def _pieces(known: Food, text: str, problem: str) -> tuple[Mass | None, str]:
    """The weight of so many pieces of the food, wherever in the line their number stands; or what is wrong."""
    number = _BARE.search(text)
    others = "" if number is None else text[: number.start()] + " " + text[number.end() :]
    spoken = " ".join(w for w in others.split() if w.casefold() not in _WAYS and w.casefold() not in _SMALL_WORDS)
    try:
        counted = None if number is None else counted_mass(known, f"{number[0]} {spoken}")
    except InputProblem as refused:
        return None, problem if without_pieces(spoken) == spoken else problem_sentence(refused)
    return (None, problem) if counted is None else (counted[0], "")


@cache
def _amount_pattern() -> re.Pattern[str]:
    units = sorted(written_as((MASS, VOLUME)), key=len, reverse=True)
    unit = "|".join(re.escape(u) for u in units)
    term = rf"{_NUMBER}\s*(?:{unit})(?![^\W\d_])\.?"
    return re.compile(rf"(?<![\w.]){term}(?:\s*(?:,|and|\+)?\s*{term})*", re.IGNORECASE)


_BARE = re.compile(rf"(?<![\w.]){_NUMBER}(?!\w)")


def _take_amount(text: str, decimal_comma: bool) -> tuple[Mass | Volume | None, str, str]:
    """The amount in the line, the line without it, and what is wrong with it."""
    text = _unit_begun(in_figures(text))
    found = _amount_pattern().search(text)
    if found is None:
        bare = _BARE.search(text)
        if bare is None:
            return None, text, ""
        rest = text[: bare.start()] + " " + text[bare.end() :]
        return None, rest, f"{bare[0].strip()} of what? Add a unit: cups, oz, lb, g, ml …"
    rest = text[: found.start()] + " " + text[found.end() :]
    try:
        return parse_amount(found[0], decimal_comma=decimal_comma), rest, ""
    except InputProblem as refused:
        return None, rest, problem_sentence(refused)


_BEGUN = re.compile(rf"({_NUMBER}\s*)([a-z]{{2,}})$", re.IGNORECASE)


def _unit_begun(text: str) -> str:
    """The line with a unit that is only begun at its end (`1 cu`) written out, where only one unit begins so."""
    last = _BEGUN.search(text)
    if last is None:
        return text
    begun = last[2].casefold()
    known = written_as((MASS, VOLUME))
    meant = {unit.name for word, unit in known.items() if word.startswith(begun)}
    if begun in known or len(meant) != 1:
        return text
    return text[: last.start(2)] + meant.pop()


def _foods(kitchen: Kitchen, named: str) -> tuple[Food | None, tuple[Food, ...]]:
    if not named:
        return None, ()
    near = find_foods(kitchen, named, 5)
    try:
        known = find_food(kitchen, named)
    except InputProblem:
        return None, tuple(near)
    return known, tuple(f for f in near if f.slug != known.slug)
