"""What a command says where it stumbles: one line, and the journal named where a record in it is the cause."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from dryhouse.cli import main
from dryhouse.cli.verbs import shelf


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    file = tmp_path / "journal.dryhouse"
    assert main(["--journal", str(file), "log", "--food", "corn", "--fresh", "2 lb", "--dried", "8 oz"]) == 0
    return file


@pytest.mark.parametrize("food", ["moon\nfruit", "moon\r\nfruit", "moon\u2028fruit"])
def test_a_name_with_line_breaks_is_refused_in_one_line(food, capsys) -> None:
    assert main(["cautions", food]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_a_record_that_cannot_be_right_is_named_as_the_cause_and_else_it_is_our_own_mistake(
    journal, monkeypatch, capsys
) -> None:
    def stumble(*_asked: object, **_named: object) -> None:
        raise KeyError(7)

    monkeypatch.setattr(shelf, "open_kitchen", stumble)
    with pytest.raises(KeyError):
        main(["--journal", str(journal), "shelf"])
    with closing(sqlite3.connect(journal)) as raw:
        raw.execute("UPDATE batch SET prepared_mass_g = 9e999")
        raw.commit()
    capsys.readouterr()
    assert main(["--journal", str(journal), "shelf"]) == 1
    assert "holds records that cannot be right" in (said := capsys.readouterr().err)
    assert "dryhouse check" in said


@pytest.mark.parametrize(
    "words",
    [
        ["pack", "4"],
        ["plan", "lake", "--write"],
        ["plan", "lake", "--keep-hours"],
        ["meal", "chili", "--copy-as", "chili again"],
        ["after", "lake", "--again", "2027-08-21"],
        ["weigh", "4", "500 g"],
    ],
)
def test_what_is_not_there_begins_no_journal(words, tmp_path, monkeypatch, capsys) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert main(words) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
    assert not list(tmp_path.rglob("*.dryhouse"))
