"""A figure carries everything that is known about it."""

from dryhouse.science.values import Caution, Fact, Figure, gravest_first
from dryhouse.words.cautions import cautions_json

STOP, WARN, NOTE = (Caution(s, s, "a source") for s in ("stop", "warn", "note"))


def test_cautions_are_said_once_and_the_gravest_first():
    assert gravest_first([NOTE, STOP, WARN, STOP]) == (STOP, WARN, NOTE)
    assert Figure(1, "g", cautions=(NOTE,)).with_cautions([STOP, NOTE]).cautions == (STOP, NOTE)


def test_the_same_words_for_two_reasons_are_written_once():
    twice = [Caution("stop", "Heat it.", "a source", reasons=("turkey",)), Caution("stop", "Heat it.", "a source")]
    assert [(c["text"], c["reason"]) for c in cautions_json(twice)] == [("Heat it.", "turkey")]
    third = Caution("stop", "Heat it.", "a source", reasons=("turkey", "duck"))
    assert [c["reason"] for c in cautions_json([*twice, third])] == ["turkey; duck"]


def test_cautions_of_one_weight_stand_by_their_moment_and_then_by_their_rule():
    def said(moment, rank):
        return Caution("warn", f"{moment} {rank}", "a source", moment=moment, rank=rank)

    late, early, pot, now = said("always", 3), said("always", 1), said("pot", 9), said("now", 20)
    assert gravest_first([late, early, pot, now]) == (now, pot, early, late)
    assert gravest_first([late, Caution("stop", "s", "a source", rank=90)])[0].severity == "stop"


def test_only_a_stop_that_is_not_to_be_eaten_forbids_eating():
    assert Caution("stop", "s", "a source", effect="not to be eaten").forbids_eating
    assert not Caution("stop", "s", "a source", effect="limits storage").forbids_eating
    assert not Caution("warn", "s", "a source", effect="not to be eaten").forbids_eating


def test_a_recalled_fact_says_so_and_an_entered_one_is_entered():
    assert "from memory, not yet checked" in Fact(1, "g", "a book", "recalled").basis.source
    assert Fact(1, "g", "entered by you", "entered").basis.kind == "entered"
