"""What counts as a word in a search, and which foods a beginning means."""

from __future__ import annotations

from dryhouse.kitchen.records import OwnFood
from dryhouse.kitchen.search_words import begins_a_word, foods_with_word, split_words


def test_words_are_small_and_without_accents_or_signs() -> None:
    assert split_words("Überreif, thin-cut (2nd) box_dryer") == ["uberreif", "thin", "cut", "2nd", "box", "dryer"]


def test_a_beginning_counts_but_a_middle_does_not() -> None:
    assert begins_a_word("mug", "a muggy night")
    assert not begins_a_word("uggy", "a muggy night")


def test_foods_are_meant_by_any_of_their_names_in_either_number() -> None:
    assert "corn" in foods_with_word("maiz")
    assert "carrot" in foods_with_word("carrots")
    assert foods_with_word("zzz") == frozenset()


def test_her_own_foods_are_meant_too() -> None:
    own = [OwnFood("galley-pot", "stew", "mixed", "Friday supper")]
    assert "galley-pot" in foods_with_word("fri", own)
