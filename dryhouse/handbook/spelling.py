"""How people spell names: plurals, accents, joining words, and words that only say how food was prepared."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

_PREPARED = frozenset(
    re.findall(
        r"\w+",
        "fresh raw dried dry dehydrated cooked boiled roasted frozen ripe whole sliced slice diced dice chopped "
        "shredded grated piece peeled pitted cubed cube homegrown garden organic the a an of some",
    )
)
_PUT_UP = frozenset(
    re.findall(
        r"\w+",
        "canned tinned jarred bottled smoked pickled creamed candied salted unsalted leftover rotisserie crushed "
        "sun freeze instant minced shelled baby",
    )
)
"""Words by which a food may be another one, though it is of the same plant or animal."""
_IRREGULAR = {"leaves": "leaf", "halves": "half", "loaves": "loaf", "calves": "calf", "geese": "goose"} | {
    f"{word}s": word for word in ("zucchini", "kiwi", "chili", "broccoli")
}
_JOINING = {"and", "with", "or", "in", "on", "n"}
_LETTERS = str.maketrans({"ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i"})
"""Letters of the neighbors' alphabets that do not come apart into a plain one and an accent."""


def singular(word: str) -> str:
    """The word without its plural ending: `cherries` → `cherry`, `tomatoes` and `tomatos` → `tomato`."""
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("oes", "shes", "ches", "xes", "sses")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


def spoken(text: str) -> tuple[str, ...]:
    """The words of a text as they stand: in lower case, without accents, punctuation and plural endings."""
    plain = re.sub(r"\b([dl])['’]", r"\1 ", text.casefold()).replace("'", "").replace("’", "")
    plain = unicodedata.normalize("NFKD", plain.translate(_LETTERS))
    plain = "".join(c for c in plain if not unicodedata.combining(c))
    return tuple(singular(w) for w in re.findall(r"[^\W_]+", plain))


def words(text: str) -> tuple[str, ...]:
    """The words of a name, without those that only join others."""
    return tuple(word for word in spoken(text) if word not in _JOINING)


def ordered(parts: Iterable[str]) -> str:
    """The words in the order of the alphabet, so that word order does not matter."""
    return " ".join(sorted(parts))


def core_of(parts: tuple[str, ...]) -> tuple[str, ...]:
    """The words without those that only say how the food was prepared."""
    return tuple(p for p in parts if p not in _PREPARED) or parts


def plain_of(parts: tuple[str, ...]) -> tuple[str, ...]:
    """The words without those of how it was put up, to be offered and never to be taken for it."""
    return tuple(p for p in parts if p not in _PUT_UP) or parts


def slips_forgiven(spelling: str) -> int:
    """How many typing errors are forgiven in a word or name of this length."""
    return 0 if len(spelling) < 5 else 1 if len(spelling) < 8 else 2
