"""A table's rows: read by column, judged before anything is made of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from dryhouse.handbook import reading
from dryhouse.handbook.reading import HandbookFault, read, sources
from dryhouse.science.values import Fact

READ, RECALLED = (
    next(key for key, source in sources().items() if source.how == how) for how in ("read", "recalled")
)


@pytest.fixture
def made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Writes the lines of a table of that name."""
    sources()  # read where they lie, before another folder is looked into
    monkeypatch.setattr(reading, "FOLDER", tmp_path)

    def write(*lines: str) -> None:
        (tmp_path / "made.csv").write_text("\n".join((*lines, "")), encoding="utf-8")

    return write


def test_a_row_is_read_by_its_columns_without_the_blanks_around_them(made) -> None:
    made(
        "key,value,names,source,how",
        f"a, 2.5 , leek ; ;onion,{READ},",
        f"b,,,{READ},recalled",
        f"c,-1,x,{RECALLED},",
    )
    first, second, third = read("made", ("key", "value", "names", "source", "how"), key=("key",))
    assert [row.line for row in (first, second, third)] == [2, 3, 4]
    assert (first.number("value"), first.required("value"), first.names("names")) == (2.5, 2.5, ("leek", "onion"))
    assert (second.number("value"), second.names("names"), second.fact("value", "g")) == (None, (), None)
    assert [row.how() for row in (first, second, third)] == ["read", "recalled", "recalled"]
    assert first.fact("value", "g", "value") == Fact(2.5, "g", sources()[READ].citation, "read", low=2.5)
    assert third.fact("value", "g", "", "value") == Fact(
        -1.0, "g", sources()[RECALLED].citation, "recalled", high=-1.0
    )


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("key,source", f"a,{READ}", "b,hearsay"), "made.csv, line 3: source “hearsay” is not in sources.toml"),
        (("key,source", f"a,{READ}", "b,"), "made.csv, line 3: source “” is not in sources.toml"),
        (("source,key", f"{READ},a"), "made.csv: the columns are ['source', 'key'], expected ['key', 'source']"),
        (("key,source,more", f"a,{READ},x"), "the columns are ['key', 'source', 'more']"),
        (("key,source", f"a,{READ}", f"b,{READ}", f"a ,{READ}"), "made.csv, line 4: {'key': 'a'} stands twice"),
    ],
)
def test_a_table_of_another_form_is_refused_as_a_whole(made, lines, said) -> None:
    made(*lines)
    with pytest.raises(HandbookFault) as fault:
        read("made", ("key", "source"), key=("key",))
    assert said in str(fault.value)


def test_without_a_key_a_line_may_stand_twice_and_without_sources_none_is_asked_for(made) -> None:
    made("key,value", "a,1", "a,1")
    assert [row.required("value") for row in read("made", ("key", "value"))] == [1.0, 1.0]


@pytest.mark.parametrize(
    ("cell", "said"),
    [("many", "value is “many”, which is no number"), ("nan", "value is not finite"), ("", "value is empty")],
)
def test_what_is_no_number_is_a_fault_of_its_line(made, cell, said) -> None:
    made("key,value", f"a,{cell}")
    (row,) = read("made", ("key", "value"))
    with pytest.raises(HandbookFault, match=f"made.csv, line 2: {said}"):
        row.required("value")


def test_how_a_figure_is_known_is_one_of_a_few_words(made) -> None:
    made("key,source,how", f"a,{READ},guessed")
    (row,) = read("made", ("key", "source", "how"))
    with pytest.raises(HandbookFault, match="how is “guessed”; it is one of read, recalled, computed"):
        row.how()
