"""The words of a command as a person types them, put into the order that the parser reads.

What belongs to the whole program may stand after the verb, what belongs to an answer before it; an amount needs no
quotation marks (`--fresh 2 lb 3 oz`, `--fresh 6 ears`), and nothing that follows an option of `log` does; a
journal's file alone is opened.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from pathlib import Path

FOR_ALL = ("--sample", "--timings", "--quit-when-ready")
"""The program's own options without a value."""
OF_AN_ANSWER = ("--json", "--cautions", "--workings")
AMOUNTS = ("--fresh", "--dried", "--tare", "--temp", "--dryer-temp")
"""Options whose value is an amount with its unit."""
FOOD_FIRST = ("target", "water", "yields")
"""Verbs whose own words are a food: where it stands first, all that follows an amount belongs to the amount."""
_NUMBER = re.compile(r"[-\d¼½¾⅓⅔⅛][\d¼½¾⅓⅔⅛.,/]*")
SUFFIX = ".dryhouse"


def in_order(given: Sequence[str], verbs: Collection[str]) -> list[str]:
    """The same words: the program's options, the verb, its own words, what the answer should hold."""
    if given and _is_a_journal(given[0], verbs):
        given = ["--journal", given[0], *given[1:]]
    first: list[str] = []
    rest: list[str] = []
    last: list[str] = []
    words = _unquoted(given)
    while words:
        word = words.pop(0)
        if word in FOR_ALL:
            first.append(word)
        elif word == "--journal":
            first += [word, *words[:1]]
            del words[:1]
        elif word in OF_AN_ANSWER:
            last.append(word)
        elif _takes_all(rest, word):
            rest += [word, *_until_an_option(words)]
        elif word in AMOUNTS:
            rest += [word, *_amount(words)]
        elif word.startswith("--") and "=" not in word and words and not words[0].startswith("--"):
            rest += [word, words.pop(0)]
        else:
            rest.append(word)
    return first + rest + last


def _takes_all(rest: Sequence[str], word: str) -> bool:
    """Whether all that follows this option up to the next belongs to it, after these words."""
    if rest[:1] == ["log"]:
        return word.startswith("--") and "=" not in word
    named = len(rest) > 1 and rest[0] in FOOD_FIRST and not rest[1].startswith("-")
    return named and word in AMOUNTS


def _unquoted(given: Sequence[str]) -> list[str]:
    """The words, of which those between “ and ” are one, as the help writes what belongs together."""
    words: list[str] = []
    left = list(given)
    while left:
        word = left.pop(0)
        while "“" in word and "”" not in word.partition("“")[2] and any("”" in later for later in left):
            word += f" {left.pop(0)}"
        opened = "“" in word and word.endswith("”")
        words.append(word.replace("“", "").replace("”", "") if opened else word)
    return words


def _is_a_journal(word: str, verbs: Collection[str]) -> bool:
    return word not in verbs and not word.startswith("-") and (word.endswith(SUFFIX) or Path(word).is_file())


def _until_an_option(words: list[str]) -> list[str]:
    """The words up to the next option, taken from the front and made one: `log` has no words of its own."""
    said: list[str] = []
    while words and not words[0].startswith("--"):
        said.append(words.pop(0))
    return [" ".join(said)] if said else []


def _amount(words: list[str]) -> list[str]:
    """The words of an amount, taken from the front and made one; none where nothing follows."""
    if not words:
        return []
    amount = [words.pop(0)]
    while words and _NUMBER.fullmatch(amount[0]) and _goes_on(words[0]):
        amount.append(words.pop(0))
    return [" ".join(amount)]


def _goes_on(word: str) -> bool:
    from dryhouse.science.units import UNITS

    return bool(_NUMBER.fullmatch(word)) or any(word.casefold() in unit.written for unit in UNITS)
