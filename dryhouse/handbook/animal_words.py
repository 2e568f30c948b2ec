"""Words of food of animal origin, in the languages of the neighbors: is there meat, fish, egg or milk in a name?

`animal_words.csv` lists plain words of the kitchen, without accents and in the singular. A `*` stands for the
rest of a word (`hering*` is also in *Heringssalat*). The kind `plant` lists plants that have such a word in
their names (oyster mushroom, butternut): these words say nothing of an animal. The list only ever makes the
program ask again; it is no statement about a food, and so it needs no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dryhouse.handbook.reading import read
from dryhouse.handbook.spelling import spoken

KINDS = ("meat", "poultry", "fish", "egg", "milk")
PLANT = "plant"
LANGUAGES = frozenset({"en", "es", "fr", "de", "it", "nl", "da", "no", "sv"})

_Phrase = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Words:
    """The table, ready to be asked. Phrases are written as one word too, since people write them so."""

    whole: dict[str, str]
    """One word, and its kind."""
    phrases: dict[_Phrase, str]
    """Several words that stand together, and their kind."""
    begins: tuple[tuple[str, str], ...]
    ends: tuple[tuple[str, str], ...]
    plants: frozenset[_Phrase]
    longest: int
    """The most words in a phrase."""


def animal_words(name: str) -> dict[str, str]:
    """The words of the name that speak of an animal, each with its kind (one of `KINDS`); empty for none.

    >>> animal_words("Duck breast with oyster mushrooms")
    {'duck': 'poultry'}
    """
    said = _without_plants(spoken(name))
    known, found = _table(), dict[str, str]()
    for size in range(known.longest, 1, -1):
        for start in range(len(said) - size + 1):
            if kind := known.phrases.get(said[start : start + size]):
                found[" ".join(said[start : start + size])] = kind
    for word in said:
        if (kind := _kind_of(word)) and not any(word in phrase.split() for phrase in found):
            found[word] = kind
    return found


@cache
def _kind_of(word: str) -> str:
    known = _table()
    if word in known.whole:
        return known.whole[word]
    parts = (
        (kind for w, kind in known.begins if word.startswith(w)),
        (k for w, k in known.ends if word.endswith(w)),
    )
    return next((kind for found in parts for kind in found), "")


@cache
def near_animal_word(word: str) -> str:
    """The word of an animal that is one letter away from this one and begins with the same letter, or nothing."""
    from rapidfuzz.distance import OSA

    alike = (w for w in _table().whole if w[0] == word[0] and abs(len(w) - len(word)) <= 1)
    return next((w for w in alike if len(w) > 4 and OSA.distance(w, word, score_cutoff=1) <= 1), "")


def _without_plants(said: _Phrase) -> _Phrase:
    """The words without the plants named in them: longest first, in either order, or written as one word."""
    plants, longest = _table().plants, _table().longest
    left, at = [], 0
    while at < len(said):
        for size in range(min(longest, len(said) - at), 0, -1):
            here = said[at : at + size]
            if here in plants or (size == 2 and here[::-1] in plants):
                at += size
                left.append("")
                break
        else:
            left.append(said[at])
            at += 1
    return tuple(left)


@cache
def _table() -> _Words:
    whole: dict[str, str] = {}
    phrases: dict[_Phrase, str] = {}
    begins, ends, plants = [], [], set()
    for row in read("animal_words", ("language", "kind", "words")):
        kind = row.text("kind")
        if kind not in (*KINDS, PLANT) or row.text("language") not in LANGUAGES:
            raise row.fault(f"kind “{kind}” or language “{row.text('language')}” is unknown")
        for written in row.names("words"):
            parts = spoken(written)
            if not parts or (kind == PLANT and "*" in written):
                raise row.fault(f"“{written}” is no word")
            if kind == PLANT:
                plants |= {parts, ("".join(parts),)}
            elif written.endswith("*"):
                begins.append((written[:-1], kind))
            elif written.startswith("*"):
                ends.append((parts[0], kind))
            elif len(parts) == 1:
                whole.setdefault(parts[0], kind)
            else:
                phrases.setdefault(parts, kind)
    longest = max(len(parts) for parts in (*phrases, *plants))
    return _Words(whole, phrases, tuple(begins), tuple(ends), frozenset(plants), longest)
