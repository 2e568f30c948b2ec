"""Finding a food by what people write: plurals, word order, other names, typing errors, half a word.

Two questions are answered. `find` offers whatever could be meant, best first, while a person types.
`identify` takes a name as it was typed and must not guess: only a name the food is listed under, or one that is
a single letter away from it and from no other, is taken, and never an animal for a plant or a plant for an animal.
Everything else is asked back.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dryhouse.handbook.animal_words import animal_words, near_animal_word
from dryhouse.handbook.neighbors import neighbors
from dryhouse.handbook.spelling import core_of, ordered, plain_of, slips_forgiven, words
from dryhouse.handbook.tables import Food
from dryhouse.science.errors import InputProblem

_LIKENESS = 0.7
"""How like a name must be to be offered: 1 less the share of letters that are wrong."""
_HOLDS = frozenset({"animal", "egg", "dairy"})
_ENDING = 4
"""Fewer letters than this say nothing as the end of a word."""


class WhichFood(InputProblem):
    """A name that is not clear. `near` are the foods that could be meant, best first; there may be none. `kinds`
    are those with every word of it in a name of theirs: the kinds of cherry, where “cherries” was typed. What is
    `clear` is a food that is not here: these are only its neighbors."""

    def __init__(
        self, typed: str, near: tuple[Food, ...], kinds: tuple[Food, ...] = (), *, clear: bool = False
    ) -> None:
        self.typed, self.near, self.kinds = typed, near, kinds
        listed = "; ".join(food.name for food in near[:5])
        said = f"No food called “{typed}” is known: check the spelling, or add it as a food of your own."
        if clear:
            said = f"The handbook has no “{typed}”: add it as a food of your own. Nearest to it are: {listed}."
        elif near:
            said = f"Which food is “{typed}”? The nearest are: {listed}."
        super().__init__(said, "food")


@dataclass(frozen=True, slots=True)
class _Name:
    """One name of a food: its words, whose it is, and whether it is the name the food is shown by."""

    parts: tuple[str, ...]
    food: int
    shown: bool


class Finder:
    """An index over the names of some foods. Build it once; asking is fast enough for every keystroke."""

    def __init__(self, foods: Iterable[Food], besides: Iterable[Food] = ()) -> None:
        """`besides` are foods known only by the names that none of `foods` bears."""
        self._foods: list[Food] = list(foods)
        self._exact: dict[str, list[int]] = defaultdict(list)
        self._spellings: dict[str, list[int]] = defaultdict(list)
        self._by_word: dict[str, list[_Name]] = defaultdict(list)
        for number, food in enumerate(self._foods):
            for name in (food.name, food.slug, *food.other_names):
                self._add(_Name(words(name), number, name == food.name))
        taken = set(self._exact)
        for food in besides:
            names = [n for n in (food.name, food.slug, *food.other_names) if not self._keys(words(n)) & taken]
            if food.name in names:
                for name in names:
                    self._add(_Name(words(name), len(self._foods), name == food.name))
                self._foods.append(food)
        self._holds_animal = [bool(food.traits & _HOLDS) or food.animal for food in self._foods]
        self._words = sorted(self._by_word)
        self._choices = list(self._spellings)

    def _add(self, name: _Name) -> None:
        for spelling in {" ".join(name.parts), ordered(name.parts)}:
            self._spellings[spelling].append(name.food)
        for key in self._keys(name.parts):
            if name.food not in self._exact[key]:
                self._exact[key].append(name.food)
        for part in set(name.parts):
            self._by_word[part].append(name)

    @staticmethod
    def _keys(parts: tuple[str, ...]) -> set[str]:
        """What a name is looked up by: its words in any order, or written as one."""
        return {ordered(parts), "".join(parts)}

    def find(self, text: str, limit: int = 8) -> list[Food]:
        """The foods that could be meant, best first; none where nothing is near. Empty text finds nothing."""
        parts = words(text)
        if not parts:
            return []
        core = core_of(parts)
        named = [*self._named(parts), *self._beside(parts)]
        found = dict.fromkeys([*named, *self._named(core), *self._named(plain_of(core))])
        for way in (self._beginning, self._ending, self._one_slip_away, self._mended, self._alike):
            for said in dict.fromkeys((parts, core)) if len(found) < limit else ():
                found.update(dict.fromkeys(way(said)))
        if not found:
            found = dict.fromkeys(self._sharing(core))
        offered = list(found)
        if animal_words(text):
            offered.sort(key=lambda number: not self._holds_animal[number])
        return [self._foods[number] for number in offered[:limit]]

    def identify(self, text: str, *, slips: bool = True) -> Food:
        """The one food of this name; with `slips`, also of a name one letter away from it.

        Raises WhichFood where there is none, or more than one could be meant.
        """
        parts = words(text)
        if not text.strip() or not any(c.isalnum() for c in text):
            raise InputProblem("Name a food, for example “sour cherry”.", field="food")
        for way in (self._named, self._prepared, self._misspelt if slips else self._named):
            if len(meant := way(parts)) == 1:
                return self._foods[meant[0]]
        if beside := self._beside(parts):
            raise WhichFood(text.strip(), tuple(self._foods[n] for n in beside), clear=True)
        named = [self._foods[n] for n in self._with_all(core_of(parts))]
        raise WhichFood(text.strip(), tuple(self.find(text, limit=8)), tuple(named))

    def _beside(self, parts: tuple[str, ...]) -> list[int]:
        """The nearest foods to one that is known not to be here."""
        near = neighbors().get(ordered(parts), ())
        return [number for slug in near for number in self._named(words(slug)) if self._foods[number].slug == slug]

    def _prepared(self, parts: tuple[str, ...]) -> list[int]:
        """Foods that bear the words left without those of preparing them. What is raw is not one that is cooked;
        where another food has all the words in its name it is not clear which is meant (dry milk is no milk)."""
        found = self._named(core_of(parts))
        whole = set(self._with_all(parts))
        if whole and not whole.issuperset(found):
            return []
        raw = "raw" in parts
        return [n for n in found if not (raw and "cooked" in words(self._foods[n].name))]

    def _named(self, parts: tuple[str, ...]) -> list[int]:
        """Foods that bear exactly these words as a name, in any order, or written as one word."""
        return self._exact.get(ordered(parts)) or self._exact.get("".join(parts)) or []

    def _with_all(self, parts: tuple[str, ...]) -> list[int]:
        """Foods with a name that has each of these words whole."""
        names = self._by_word.get(parts[0], ()) if parts else ()
        return sorted({name.food for name in names if set(parts) <= set(name.parts)})

    def _begun_with(self, part: str) -> Iterator[str]:
        """The known words that begin with `part`."""
        for word in self._words[bisect_left(self._words, part) :]:
            if not word.startswith(part):
                return
            yield word

    def _beginning(self, parts: tuple[str, ...]) -> list[int]:
        """Foods with a name in which each word typed begins a word.

        Whole words come before half ones, the name shown before other names, names that begin as typed before
        those that don't; then the order of the table.
        """
        best: dict[int, tuple[bool, bool, bool, int]] = {}
        first = max(parts, key=len)
        for word in self._begun_with(first):
            for name in self._by_word[word]:
                if not all(any(known.startswith(part) for known in name.parts) for part in parts):
                    continue
                whole = all(part in name.parts for part in parts)
                rank = (not whole, not name.shown, not name.parts[0].startswith(parts[0]), name.food)
                best[name.food] = min(best.get(name.food, rank), rank)
        return sorted(best, key=best.__getitem__)

    def _ending(self, parts: tuple[str, ...]) -> list[int]:
        """Foods shown by a name in which a word ends with the one word typed: all berries for `berry`."""
        if len(parts) != 1 or len(parts[0]) < _ENDING:
            return []
        ended = [name for word in self._words if word.endswith(parts[0]) for name in self._by_word[word]]
        return sorted({name.food for name in ended if name.shown})

    def _mended(self, parts: tuple[str, ...]) -> list[int]:
        """Foods found when each unknown word is replaced by the known word nearest to it."""
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        mended = []
        for part in parts:
            near = None
            if part not in self._by_word:
                near = process.extractOne(part, self._words, scorer=OSA.distance, score_cutoff=slips_forgiven(part))
            mended.append(near[0] if near else part)
        core = core_of(tuple(mended))
        return [*self._named(core), *self._beginning(core)] if core != parts else []

    def _alike(self, parts: tuple[str, ...]) -> list[int]:
        """Foods with a name a few typing errors away, nearest first."""
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        best: dict[int, float] = {}
        for query in {" ".join(parts), ordered(parts)}:
            for spelling, likeness, _ in process.extract(
                query, self._choices, scorer=OSA.normalized_similarity, score_cutoff=_LIKENESS, limit=16
            ):
                for number in self._spellings[spelling]:
                    best[number] = max(best.get(number, 0.0), likeness)
        return sorted(best, key=lambda number: (-best[number], self._foods[number].name))

    def _sharing(self, parts: tuple[str, ...]) -> list[int]:
        """Foods with a name that shares a word with what was typed, those that share most first."""
        shared: dict[int, int] = {}
        for name in dict.fromkeys(name for part in parts for name in self._by_word.get(part, ())):
            shared[name.food] = max(shared.get(name.food, 0), len(set(parts) & set(name.parts)))
        return sorted(shared, key=lambda number: (-shared[number], number))

    def _misspelt(self, parts: tuple[str, ...]) -> list[int]:
        """The one food a single letter away, where what is wrong with a word typed can only be its spelling.

        A word known here is meant as it stands (a turkey berry is no turkey jerky, lean beef no beet green), and
        a word that is as near to two known ones is not clear. A name with an animal word in it is no plant.
        """
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        if all(part in self._by_word for part in parts):
            return []
        for part in parts:
            if part in self._by_word:
                continue
            forgiven = min(slips_forgiven(part), 1)
            near = process.extract(part, self._words, scorer=OSA.distance, score_cutoff=forgiven, limit=2)
            if len(near) == 2:
                return []
        found = self._one_slip_away(parts, most=1)
        animals = bool(animal_words(" ".join(parts)))
        return [n for n in found if self._foods[n].animal or not (animals or self._near_an_animal(parts))]

    def _near_an_animal(self, parts: tuple[str, ...]) -> bool:
        """Whether a word that is not known here may be a slip of an animal word, as `steek` is."""
        strange = [part for part in parts if part not in self._by_word and slips_forgiven(part)]
        return any(near_animal_word(part) for part in strange)

    def _one_slip_away(self, parts: tuple[str, ...], most: int = 2) -> list[int]:
        """Foods with a name one slip away (two in a long name, or at `most`) that begins with the same letter.

        Short names are never corrected, and the first letter never: one letter turns a goat into an oat. A
        number is never corrected either: beef of 90 % lean is not beef of 80 %.
        """
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        for query in dict.fromkeys((" ".join(parts), ordered(parts))):
            nearest: dict[int, int] = {}
            for spelling, slips, _ in process.extract(
                query, self._choices, scorer=OSA.distance, score_cutoff=min(slips_forgiven(query), most), limit=16
            ):
                if spelling[0] != query[0] or _digits(spelling) != _digits(query):
                    continue
                for number in self._spellings[spelling]:
                    nearest[number] = min(nearest.get(number, slips), slips)
            if nearest:
                fewest = min(nearest.values())
                return [number for number, slips in nearest.items() if slips == fewest]
        return []


def _digits(text: str) -> list[str]:
    """The digits of a text, in order of size, since words may stand in any order."""
    return sorted(filter(str.isdigit, text))
