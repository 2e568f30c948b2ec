"""Finding a food by what people write: plurals, word order, other names, typing errors, half a word.

Two questions are answered. `find` offers whatever could be meant, best first, while a person types.
`identify` takes a name from a command or a file and must not guess: only a name the food is listed under,
or one clear typing error away from it, is taken; everything else is asked back.
"""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable

from dryhouse.handbook.tables import Food
from dryhouse.science.errors import InputProblem

_PREPARED = frozenset(
    re.findall(
        r"\w+",
        "fresh raw dried dry dehydrated cooked boiled roasted frozen ripe whole sliced slice diced dice chopped "
        "shredded grated piece peeled pitted cubed cube homegrown garden organic the a an of some",
    )
)
_IRREGULAR = {"leaves": "leaf", "halves": "half", "loaves": "loaf", "calves": "calf", "geese": "goose"}
_JOINING = {"and", "with", "or", "in", "n"}
_LIKENESS = 0.7


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


def words(text: str) -> tuple[str, ...]:
    """The words of a name, in lower case, without accents, punctuation, plural endings or joining words."""
    plain = unicodedata.normalize("NFKD", text.casefold().replace("'", "").replace("’", ""))
    plain = "".join(c for c in plain if not unicodedata.combining(c))
    return tuple(singular(w) for w in re.findall(r"[a-z0-9]+", plain) if w not in _JOINING)


def _ordered(parts: Iterable[str]) -> str:
    return " ".join(sorted(parts))


class Finder:
    """An index over the names of some foods. Build it once; asking is fast enough for every keystroke."""

    def __init__(self, foods: Iterable[Food]) -> None:
        self._foods: list[Food] = list(foods)
        self._exact: dict[str, list[int]] = defaultdict(list)
        self._spellings: list[tuple[str, int, int]] = []
        """Every name in its written and its ordered form, whose food it is, 0 for the name it is shown by."""
        by_word: dict[str, set[int]] = defaultdict(set)
        for number, food in enumerate(self._foods):
            for rank, name in enumerate((food.name, food.slug, *food.other_names)):
                parts = words(name)
                for key in {_ordered(parts), "".join(parts)}:
                    if number not in self._exact[key]:
                        self._exact[key].append(number)
                for spelling in {" ".join(parts), _ordered(parts)}:
                    self._spellings.append((spelling, number, min(rank, 1)))
                for part in parts:
                    by_word[part].add(number)
        self._choices = [spelling for spelling, _, _ in self._spellings]
        self._words = sorted(by_word)
        self._by_word = by_word

    def find(self, text: str, limit: int = 8) -> list[Food]:
        """The foods that could be meant, best first; none where nothing is near. Empty text finds nothing."""
        parts = words(text)
        if not parts:
            return []
        found = dict.fromkeys(self._named(parts))
        if len(found) < limit:
            found.update(dict.fromkeys(self._beginning(parts)))
        if len(found) < limit and (core := self._core(parts)) != parts:
            found.update(dict.fromkeys([*self._named(core), *self._beginning(core)]))
        if len(found) < limit:
            found.update(dict.fromkeys(self._alike(parts)))
        return [self._foods[number] for number in list(found)[:limit]]

    def identify(self, text: str) -> Food:
        """The one food of this name. `InputProblem` where there is none, or more than one could be meant."""
        parts = words(text)
        if not parts:
            raise InputProblem("Name a food, for example “sour cherry”.", field="food")
        for name in (parts, self._core(parts)):
            if len(named := self._named(name)) == 1:
                return self._foods[named[0]]
        if len(near := self._one_slip_away(parts)) == 1:
            return self._foods[near[0]]
        near_foods = [food.name for food in self.find(text, limit=5)]
        if not near_foods:
            raise InputProblem(
                f"No food called “{text.strip()}” is known: check the spelling, or add it as a food of your own.",
                field="food",
            )
        raise InputProblem(f"Which food is “{text.strip()}”? Near it are: {', '.join(near_foods)}.", field="food")

    def _core(self, parts: tuple[str, ...]) -> tuple[str, ...]:
        """The words without those that only say how the food was prepared."""
        return tuple(p for p in parts if p not in _PREPARED) or parts

    def _named(self, parts: tuple[str, ...]) -> list[int]:
        """Foods that bear exactly these words as a name, in any order, or written as one word."""
        return self._exact.get(_ordered(parts)) or self._exact.get("".join(parts)) or []

    def _beginning(self, parts: tuple[str, ...]) -> list[int]:
        """Foods with, for each word typed, a word that begins with it; those with the least besides first."""
        candidates: set[int] | None = None
        for part in parts:
            begun: set[int] = set()
            start = bisect_left(self._words, part)
            for word in self._words[start:]:
                if not word.startswith(part):
                    break
                begun |= self._by_word[word]
            candidates = begun if candidates is None else candidates & begun
            if not candidates:
                return []
        typed = " ".join(parts)

        def besides(number: int) -> tuple[bool, int, str]:
            name = " ".join(words(self._foods[number].name))
            return (not name.startswith(typed), len(name), name)

        return sorted(candidates or (), key=besides)

    def _alike(self, parts: tuple[str, ...]) -> list[int]:
        """Foods with a name a few typing errors away, nearest first."""
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        best: dict[int, float] = {}
        for query in {" ".join(parts), _ordered(parts)}:
            for _, likeness, place in process.extract(
                query, self._choices, scorer=OSA.normalized_similarity, score_cutoff=_LIKENESS, limit=24
            ):
                number = self._spellings[place][1]
                best[number] = max(best.get(number, 0.0), likeness)
        return sorted(best, key=lambda number: (-best[number], self._foods[number].name))

    def _one_slip_away(self, parts: tuple[str, ...]) -> list[int]:
        """Foods with a name one slip away (two in a long name) that begins with the same letter.

        Short names are never corrected: one letter turns a goat into an oat.
        """
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        nearest: dict[int, int] = {}
        for query in {" ".join(parts), _ordered(parts)}:
            allowed = 0 if len(query) < 5 else 1 if len(query) < 8 else 2
            if not allowed:
                continue
            for choice, slips, place in process.extract(
                query, self._choices, scorer=OSA.distance, score_cutoff=allowed, limit=24
            ):
                if choice[0] == query[0]:
                    number = self._spellings[place][1]
                    nearest[number] = min(nearest.get(number, slips), slips)
        if not nearest:
            return []
        fewest = min(nearest.values())
        return [number for number, slips in nearest.items() if slips == fewest]
