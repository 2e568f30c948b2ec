"""A figure carries everything that is known about it."""

from dryhouse.science.values import Basis, Caution, Fact, Figure, cautions_json, gravest_first

STOP, WARN, NOTE = (Caution(s, s, "a source") for s in ("stop", "warn", "note"))


def test_cautions_are_said_once_and_the_gravest_first():
    assert gravest_first([NOTE, STOP, WARN, STOP]) == (STOP, WARN, NOTE)
    assert Figure(1, "g", cautions=(NOTE,)).with_cautions([STOP, NOTE]).cautions == (STOP, NOTE)


def test_the_same_words_for_two_reasons_are_written_once():
    twice = [Caution("stop", "Heat it.", "a source", reason="turkey"), Caution("stop", "Heat it.", "a source")]
    assert cautions_json(twice) == [{"severity": "stop", "text": "Heat it.", "source": "a source"}]


def test_a_recalled_fact_says_so_and_an_entered_one_is_entered():
    assert "recalled" in Fact(1, "g", "a book", "recalled").basis.source
    assert Fact(1, "g", "entered by you", "entered").basis.kind == "entered"
    assert str(Basis("own", "", 4)) == "own records, n=4"
