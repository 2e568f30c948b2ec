"""The check finds what SQLite finds, and what our own records promise each other."""

from __future__ import annotations

import sqlite3
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Lot, LotDraw, Trip, Weighing
from dryhouse.science.errors import WorldProblem
from dryhouse.science.quantities import Mass
from dryhouse.words.messages import problem_sentence
from tests.told import in_words, told


def at(day: int, hour: int = 12) -> datetime:
    return datetime(2026, 8, day, hour, tzinfo=UTC)


SOUND = Batch("corn", started=at(1), ended=at(2), id=1)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "journal.dryhouse"


def keep(file: Path, *records: object) -> None:
    journal = open_journal(file, write=True)
    journal.write([Change(None, r) for r in records])  # type: ignore[arg-type]
    journal.close()


def test_a_sound_journal_has_no_faults(file: Path) -> None:
    keep(
        file,
        SOUND,
        Weighing(1, at(1), Mass(900.0), Mass(300.0), id=1),
        Lot("corn", date(2026, 8, 2), batch=1, id=1),
    )
    assert check(file) == []


@pytest.mark.parametrize(
    ("records", "said"),
    [
        ([Batch("corn", started=at(2), ended=at(1), id=1)], "Batch 1: The batch ends before it starts"),
        ([Batch(" ", id=1)], "Batch 1: Which food was it?"),
        (
            [SOUND, Weighing(1, at(1), Mass(300.0), Mass(900.0), id=4)],
            "Weighing 4: The scale reads 300 g and the tare is 900 g",
        ),
        (
            [Batch("corn", started=at(9), id=1), Weighing(1, at(1), Mass(9.0), id=4)],
            "Weighing 4: That is more than a day before batch 1",
        ),
        (
            [
                Lot(
                    "corn",
                    date(2026, 8, 2),
                    conditioned_from=date(2026, 8, 9),
                    conditioned_to=date(2026, 8, 3),
                    id=1,
                )
            ],
            "Lot 1: Conditioning ends after it began",
        ),
        (
            [
                Lot("corn", date(2026, 8, 2), mass=Mass(100.0), id=1),
                LotDraw(1, date(2026, 8, 3), mass=Mass(70.0), id=1),
                LotDraw(1, date(2026, 8, 4), mass=Mass(70.0), id=2),
            ],
            "Lot 1 (corn) has given more than it weighed.",
        ),
        ([Trip("circuit", date(2026, 8, 30), date(2026, 8, 22), id=1)], "Trip 1: The trip ends before it starts"),
    ],
)
def test_records_that_contradict_themselves_are_named(file: Path, records: list, said: str) -> None:
    keep(file, *records)
    (found,) = in_words(check(file))
    assert found.startswith(said)


def test_what_belongs_to_nothing_is_named(file: Path) -> None:
    keep(file, SOUND, Weighing(1, at(1), Mass(9.0), id=4))
    raw = sqlite3.connect(file)
    raw.execute("DELETE FROM batch")
    raw.commit()
    raw.close()
    assert in_words(check(file)) == ["Weighing 4 belongs to a batch that is not there."]


def test_a_hole_in_the_file_is_found_and_said(file: Path) -> None:
    keep(file, *(Batch("corn", notes="long " * 200, id=n) for n in range(1, 60)))
    whole = file.read_bytes()
    pages = len(whole) // 4096
    file.write_bytes(whole[: (pages - 3) * 4096] + b"\xff" * 4096 + whole[(pages - 2) * 4096 :])
    try:
        found = in_words(check(file))
    except WorldProblem as problem:
        found = [problem_sentence(problem)]
    assert "damaged" in found[0]


def test_checking_changes_nothing(file: Path) -> None:
    keep(file, SOUND)
    before = file.read_bytes()
    check(file)
    assert file.read_bytes() == before


def test_there_is_nothing_to_check_where_no_file_is(file: Path) -> None:
    with told(WorldProblem, "nothing to check"):
        check(file)
