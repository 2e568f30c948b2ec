"""Amounts by the piece: `3 medium`, `2 ears`, `4 cloves`, `6 eggs`: a number alone is none."""

from __future__ import annotations

import re

from dryhouse.handbook.pieces import pieces
from dryhouse.handbook.spelling import words
from dryhouse.handbook.tables import Food
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume, parse, parse_amount
from dryhouse.science.typed_numbers import NUMBER, fractions_spelled_out, in_figures, number_in
from dryhouse.science.units import MASS, VOLUME, written_as
from dryhouse.science.values import Fact

_COUNT = re.compile(rf"({NUMBER})\s*([^\d#]*)")
_KINDS = ("bunch", "can", "head", "ear", "clove", "stalk", "piece", "bulb", "package")
_CALLED = {"cob": "ear", "rib": "stalk"}
"""Other words for what is counted."""
_SIZES = ("small", "medium", "extra large", "large")
_CONTAINERS = frozenset({"bag", "box", "package", "pkg", "pack", "packet", "carton", "bunch", "fresh", "prepared"})


def _measured() -> re.Pattern[str]:
    units = "|".join(re.escape(u) for u in sorted(written_as((MASS, VOLUME)), key=len, reverse=True))
    term = rf"{NUMBER}[\s-]*(?:{units})(?![^\W\d_])\.?"
    return re.compile(rf"(?P<amount>{term}(?:\s*(?:,|and|\+)?\s*{term})*)(?:\s+(?P<rest>\D+))?", re.IGNORECASE)


_ARTICLE = re.compile(rf"an?\s+(?={NUMBER})", re.IGNORECASE)
_HEAVIEST_G = 1e6
_MEASURED = _measured()
"""An amount with its units, and words after it."""


def mass_typed(food: Food | None, text: str, *, default_unit: str = "", decimal_comma: bool = False) -> Mass:
    """A weight as it is typed for a food, or so many pieces of it. Raises InputProblem."""
    counted = counted_mass(food, text) if food is not None else None
    if counted is not None:
        return counted[0]
    return parse(bare_amount(food, text), Mass, default_unit=default_unit, decimal_comma=decimal_comma)


def amount_typed(food: Food, text: str, *, decimal_comma: bool = False) -> Mass | Volume:
    """The same of an amount that may be a measure, such as 3 cups. Raises InputProblem."""
    counted = counted_mass(food, text)
    return counted[0] if counted is not None else parse_amount(bare_amount(food, text), decimal_comma=decimal_comma)


def bare_amount(food: Food | None, text: str) -> str:
    """The amount without the name of the food and the bag it came in: `2 lb of carrots`, `a 10-oz bag`.

    What is left over where other words stand there, too, is the text as it was typed.
    """
    found = _MEASURED.fullmatch(in_figures(_ARTICLE.sub("", text.strip())))
    if found is None:
        return text
    left = set(words(found["rest"] or "")) - {"of", *_CONTAINERS} - (_names(food) if food is not None else set())
    return text if left else found["amount"].replace("-", " ")


def without_pieces(said: str) -> str:
    """The words without those that only say what is counted: `medium apples` is `apples`, `corn ears` is `corn`."""
    return " ".join(w for w in said.split() if not set(words(w)) & {*_KINDS, *" ".join(_SIZES).split()})


def counted_mass(food: Food, text: str) -> tuple[Mass, Fact] | None:
    """The mass of so many pieces, as if typed in grams, and what one weighs; None where the text counts none.

    Without a size the medium piece is meant (of eggs the large one), else the only one. Raises InputProblem where
    what is counted (a bunch, a can) has no published weight.
    """
    found = _COUNT.fullmatch(fractions_spelled_out(in_figures(text)))
    if found is None or not found[2].strip():
        return None  # a number alone may be anything
    own = _names(food)
    left = [_CALLED.get(word, word) for word in words(found[2]) if word not in own and word != "of"]
    kind = next((k for k in _KINDS if k in left), "")
    size = next((s for s in _SIZES if set(s.split()) <= set(left)), "")
    if set(left) - {kind, *size.split()}:
        return None
    each = _piece(food, f"{size} {kind}".strip())
    if each is None:
        what = " ".join(filter(None, (size, f"{kind} of {food.name}" if kind else food.name)))
        raise InputProblem(
            f"What one {what} weighs is not published here; give its weight, such as 8 oz.", "amount"
        )
    count = number_in(text, found[1])
    if count * each.value > _HEAVIEST_G:
        return None
    return (Mass(count * each.value, f"{count * each.value:g} g"), each) if count else None


def _names(food: Food) -> set[str]:
    """The words a food is called by."""
    return {word for name in (food.name, *food.other_names) for word in words(name)} - {
        *(*_KINDS, *_CALLED, *_SIZES)
    }


def _piece(food: Food, named: str) -> Fact | None:
    known = pieces().get(food.slug, {})
    usual = "large" if food.category == "egg" else "medium"
    bare = named in ("", "piece")
    wanted = (usual, "piece") if bare else (named, f"{usual} {named}")
    return next((known[name] for name in wanted if name in known), None)
