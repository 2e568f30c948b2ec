"""The words of a text search: what counts as a word, and which foods are meant by the beginning of one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Protocol, TypeVar

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import R
from dryhouse.kitchen.records import OwnFood
from dryhouse.science.errors import InputProblem, NotKnown


def split_words(text: str) -> list[str]:
    """The words of a text: letters and digits, small, without accents."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    return re.findall(r"[^\W_]+", plain.lower())


def begins_a_word(beginning: str, text: str) -> bool:
    """Whether some word of the text begins like this."""
    return any(word.startswith(beginning) for word in split_words(text))


class _Named(Protocol):
    @property
    def id(self) -> int: ...
    @property
    def name(self) -> str: ...


N = TypeVar("N", bound=_Named)


def number_typed(text: str) -> int | None:
    """The number of a record as it was typed, `12` or `#12`; None where it is something else."""
    number = text.strip().lstrip("#")
    return int(number) if number.isdecimal() else None


def numbered(kitchen: Kitchen, kind: type[R], text: str, what: str) -> R:
    """The record of this number, as it was typed. Raises NotKnown; `what` is what a person calls it."""
    number = number_typed(text)
    found = None if number is None else kitchen.journal.get(kind, number)
    if found is None:
        raise NotKnown(f"There is no {what} “{text}”.", what)
    return found


def one_named(known: Sequence[N], text: str, what: str) -> N:
    """The one of this name or number, or the only one whose name holds the words. Raises InputProblem."""
    key = " ".join(text.split()).casefold()
    exact = [k for k in known if k.name.casefold() == key or (key.isdecimal() and k.id == int(key))]
    near = exact or [k for k in known if key and all(w in k.name.casefold() for w in key.split())]
    if len(near) == 1:
        return near[0]
    names = ", ".join(k.name for k in (near or known)) or "none yet"
    raise InputProblem(f"“{text}” is not one of your {what}s ({names}).", what)


def foods_with_word(beginning: str, own: Iterable[OwnFood] = ()) -> frozenset[str]:
    """Slugs of the foods, published or her own, one of whose names has a word that begins like this.

    A plural finds the food as its singular does.
    """
    from dryhouse.handbook.spelling import singular

    starts = (beginning, singular(beginning))
    mine = {f.slug: split_words(f"{f.slug} {f.name} {f.other_names}") for f in own}
    return frozenset(
        slug
        for names in (_handbook_words(), mine)
        for slug, words in names.items()
        if any(word.startswith(starts) for word in words)
    )


@cache
def _handbook_words() -> dict[str, list[str]]:
    from dryhouse.handbook.reader import handbook

    return {
        slug: split_words(" ".join((slug, food.name, *food.other_names))) for slug, food in handbook().foods.items()
    }
