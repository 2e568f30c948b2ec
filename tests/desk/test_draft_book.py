"""The book of what was typed and not saved: a file beside the journal."""

from __future__ import annotations

import stat
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtWidgets import QWidget

from dryhouse.desk.draft_book import ENDING, MOST, DraftBook
from dryhouse.desk.session import Session


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "mine.dryhouse"


def test_a_form_that_cannot_be_read_takes_no_other_with_it_and_the_window_still_closes(
    file: Path, session: Session, qtbot: Any
) -> None:
    drafts = session.drafts
    seen: list[str] = []

    def fails() -> None:
        raise ValueError("no such entry")

    form = QWidget()
    qtbot.addWidget(form)
    drafts.watch(form, fails)
    drafts.watch(form, lambda: seen.append("other"))
    with pytest.raises(ValueError, match="no such entry"):
        drafts.close()
    assert seen == ["other"]
    drafts.keep()
    assert seen == ["other"], "it is looked at no more"


def test_a_book_is_read_again_as_it_was_written_and_only_its_owner_may_read_it(file: Path) -> None:
    book = DraftBook(file)
    odd = {"name": "½ \N{EAR OF MAIZE} \ud800", "trays": 4, "kept": None, "parts": [["corn", "2 lb"]]}
    book.put("dryer", "3", [odd, {"name": "box"}])
    book.save()
    kept = file.with_name(file.name + ENDING)
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    assert DraftBook(file).get("dryer", "3") == [odd, {"name": "box"}]
    assert DraftBook(file).get("dryer") == []


def test_a_book_without_drafts_is_no_file(file: Path) -> None:
    book = DraftBook(file)
    book.save()
    assert not list(file.parent.iterdir())
    book.put("dryer", "", ["x"])
    book.save()
    book.put("dryer", "", [])
    book.save()
    assert not list(file.parent.iterdir())


def test_only_the_last_few_of_each_are_kept(file: Path) -> None:
    book = DraftBook(file)
    book.put("dryer", "", list(range(MOST + 3)))
    assert book.get("dryer") == list(range(MOST))


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "null", '{"dryer": 3}', '{"dryer": {"": 3}}', "[" * 100_000, "\x00"]
)
def test_a_book_that_cannot_be_read_holds_none(file: Path, text: str) -> None:
    file.with_name(file.name + ENDING).write_text(text, encoding="utf-8")
    book = DraftBook(file)
    assert book.get("dryer") == []
    book.put("dryer", "", ["x"])
    book.save()
    assert DraftBook(file).get("dryer") == ["x"]


def test_a_disk_that_fails_costs_the_drafts_alone(file: Path, monkeypatch) -> None:
    def full(*_paths: object) -> None:
        raise OSError(28, "No space left on device")

    book = DraftBook(file)
    book.put("dryer", "", ["x"])
    with monkeypatch.context() as broken:
        broken.setattr("dryhouse.desk.draft_book.os.replace", full)
        book.save()
    assert not list(file.parent.iterdir())
    book.save()
    assert DraftBook(file).get("dryer") == ["x"]


def test_a_journal_in_memory_writes_nothing(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    book = DraftBook(Path("in memory"))
    book.put("dryer", "", ["x"])
    book.save()
    assert not list(tmp_path.iterdir())
