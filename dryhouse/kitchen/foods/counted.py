"""Amounts by the piece: `3 medium`, `2 ears`, `4 cloves`, `6 eggs`: a number alone is none."""

from __future__ import annotations

import re

from dryhouse.handbook.pieces import pieces
from dryhouse.handbook.spelling import words
from dryhouse.handbook.tables import Food
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, parse
from dryhouse.science.values import Fact

_COUNT = re.compile(r"(\d{1,4}(?:\.\d+)?|½|¼|¾)\s*(\D*)")
_PARTS = {"½": 0.5, "¼": 0.25, "¾": 0.75}
_KINDS = ("bunch", "can", "head", "ear", "clove", "stalk", "piece", "bulb", "package")
_SIZES = ("small", "medium", "extra large", "large")


def mass_typed(food: Food | None, text: str, *, default_unit: str = "", decimal_comma: bool = False) -> Mass:
    """A weight as it is typed for a food, or so many pieces of it. Raises InputProblem."""
    counted = counted_mass(food, text) if food is not None else None
    if counted is not None:
        return counted[0]
    return parse(text, Mass, default_unit=default_unit, decimal_comma=decimal_comma)


def without_pieces(said: str) -> str:
    """The words without those that only say what is counted: `medium apples` is `apples`, `corn ears` is `corn`."""
    return " ".join(w for w in said.split() if not set(words(w)) & {*_KINDS, *" ".join(_SIZES).split()})


def counted_mass(food: Food, text: str) -> tuple[Mass, Fact] | None:
    """The mass of so many pieces, as if typed in grams, and what one weighs; None where the text counts none.

    Without a size the medium piece is meant (of eggs the large one), else the only one. Raises InputProblem where
    what is counted (a bunch, a can) has no published weight.
    """
    found = _COUNT.fullmatch(text.strip().casefold())
    if found is None or not found[2].strip():
        return None  # a number alone may be anything
    own = {word for name in (food.name, *food.other_names) for word in words(name)} - {*_KINDS, *_SIZES}
    left = [word for word in words(found[2]) if word not in own and word != "of"]
    kind = next((k for k in _KINDS if k in left), "")
    size = next((s for s in _SIZES if set(s.split()) <= set(left)), "")
    if set(left) - {kind, *size.split()}:
        return None
    each = _piece(food, f"{size} {kind}".strip())
    if each is None:
        what = f"{size} {kind}".strip() or "piece"
        raise InputProblem(
            f"What one {what} of {food.name} weighs is not published here; give its weight, such as 8 oz.",
            "amount",
        )
    count = _PARTS.get(found[1]) or float(found[1])
    return (Mass(count * each.value, f"{count * each.value:g} g"), each) if count else None


def _piece(food: Food, named: str) -> Fact | None:
    known = pieces().get(food.slug, {})
    usual = "large" if food.category == "egg" else "medium"
    bare = named in ("", "piece")
    wanted = (usual, "piece") if bare else (named, f"{usual} {named}")
    return next((known[name] for name in wanted if name in known), None)
