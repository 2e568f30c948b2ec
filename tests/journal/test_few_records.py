"""Records there are only a few of are read once, and again as soon as one has changed, here or elsewhere."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest

from dryhouse.journal import few_records
from dryhouse.journal.opening import open_journal
from dryhouse.journal.store import SqlJournal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, OwnFood, Preference

STEW, POT = OwnFood("stew", "stew", "mixed", id=1), OwnFood("pot", "pot", "mixed", id=2)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "journal.dryhouse"


@pytest.fixture
def journal(file: Path) -> Iterator[SqlJournal]:
    opened = open_journal(file, write=True)
    assert isinstance(opened, SqlJournal)
    opened.write([Change(None, STEW), Change(None, POT), Change(None, Batch("stew", id=1))])
    yield opened
    opened.close()


def test_they_are_read_once_and_found_by_their_fields(journal: SqlJournal, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = []
    real = few_records.every
    monkeypatch.setattr(few_records, "every", lambda *given: asked.append(given) or real(*given))
    for _ in range(3):
        assert journal.where(OwnFood) == (STEW, POT)
        assert journal.where(OwnFood, slug="pot") == (POT,)
        assert journal.where(OwnFood, slug=("stew", "plum")) == (STEW,)
        assert journal.where(Preference, key="units") == ()
    assert len(asked) == 2, "once for each kind"


def test_what_is_written_is_found_at_once(journal: SqlJournal) -> None:
    assert journal.where(OwnFood, name="supper") == ()
    later = OwnFood("pot", "supper", "mixed", id=2)
    journal.write([Change(POT, later), Change(STEW, None)])
    assert journal.where(OwnFood) == (later,)


def test_what_another_program_writes_is_found_too(journal: SqlJournal, file: Path) -> None:
    assert journal.where(OwnFood, name="supper") == ()
    other = sqlite3.connect(file)
    other.execute("UPDATE own_food SET name = 'supper' WHERE id = 1")
    other.commit()
    other.close()
    assert [food.slug for food in journal.where(OwnFood, name="supper")] == ["stew"]
