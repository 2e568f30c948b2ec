"""A single changed bit or value: one sentence, never a traceback, and a backup brings the journal back."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path
from random import Random

import pytest

from dryhouse.journal.backup import restore
from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.journal.sample import build
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.science.errors import WorldProblem
from dryhouse.words.messages import problem_sentence


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("whole") / "whole.dryhouse"
    build(file)
    return file


def read_all(file: Path) -> None:
    journal = open_journal(file, write=False)
    try:
        for kind in RECORD_KINDS:
            journal.where(kind)
            journal.get(kind, 1)
        found = journal.batch_ids(BatchQuery(text="co"))
        journal.batch_rows(found[:50])
        for food in ("corn", "apple"):
            journal.yield_pairs(food)
    finally:
        journal.close()


def said_of(file: Path) -> str:
    """The sentence reading it ends in; empty where it can be read."""
    try:
        read_all(file)
    except WorldProblem as problem:
        return problem_sentence(problem)
    return ""


def recovers(file: Path, whole: Path) -> None:
    """Restoring a whole copy over it works, whatever is wrong with it."""
    restore(whole, file)
    assert check(file) == []
    read_all(file)


@pytest.mark.parametrize("what", [b"CREATE TABLE batch (", b"CREATE TABLE weighing (", b"CREATE TABLE dryer ("])
def test_a_bit_in_the_description_of_a_table(tmp_path: Path, whole: Path, what: bytes) -> None:
    file = Path(shutil.copy(whole, tmp_path / "j.dryhouse"))
    raw = bytearray(file.read_bytes())
    raw[raw.index(what) + 15] ^= 0x80
    file.write_bytes(raw)
    assert "damaged" in said_of(file)
    recovers(file, whole)


def test_bits_anywhere(tmp_path: Path, whole: Path) -> None:
    chance = Random(11)
    sound = whole.read_bytes()
    said = 0
    for turn in range(60):
        file = tmp_path / f"{turn}.dryhouse"
        raw = bytearray(sound)
        raw[chance.randrange(100, 9000 if turn % 2 else len(raw))] ^= 1 << chance.randrange(8)
        file.write_bytes(raw)
        said += bool(said_of(file))
        if turn % 6 == 0:
            recovers(file, whole)
    assert said, "some of them are noticed while reading"


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE batch SET started = 9223372036854775807 WHERE id = 1",
        "UPDATE lot SET packed_on = '32 Foo' WHERE id = 1",
        "UPDATE batch SET notes = CAST(x'ff80ff' AS TEXT) WHERE id = 1",
        "DROP TABLE weighing",
        "DROP TABLE batch_words",
        "ALTER TABLE batch DROP COLUMN energy_kwh",
    ],
)
def test_what_the_program_never_wrote_is_damage(tmp_path: Path, whole: Path, change: str) -> None:
    file = Path(shutil.copy(whole, tmp_path / "j.dryhouse"))
    raw = sqlite3.connect(file)
    raw.execute(change)
    raw.commit()
    raw.close()
    assert "damaged" in said_of(file)
    assert check(file) != []
    recovers(file, whole)
