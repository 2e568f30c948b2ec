"""A damaged, foreign, newer or read-only file: one clear sentence, and the file as it was."""

from __future__ import annotations

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest

from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import BatchQuery, Change
from dryhouse.kitchen.records import RECORD_KINDS, Batch
from dryhouse.science.errors import WorldProblem
from dryhouse.words.messages import problem_sentence
from tests.told import told

NOBODY = 65534


def journal_at(file: Path, batches: int = 200) -> Path:
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", notes="noted " * 60, id=n)) for n in range(1, batches)])
    journal.close()
    return file


def refused(file: Path, *words: str) -> None:
    """Both ways of opening refuse with the same plain sentence, and the file stays byte for byte."""
    before = file.read_bytes()
    for write in (False, True):
        with pytest.raises(WorldProblem) as problem:
            open_journal(file, write=write)
        assert str(file) in problem_sentence(problem.value)
        assert problem_sentence(problem.value).endswith(".")
        assert all(word in problem_sentence(problem.value) for word in words)
        assert file.read_bytes() == before


@pytest.mark.parametrize(
    "content", [b"corn, 2 lb\n" * 600, Random(5).randbytes(9000), b"\x89PNG\r\n" + bytes(8000)]
)
def test_a_file_that_is_no_journal(tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "list.dryhouse"
    file.write_bytes(content)
    refused(file, "not a Dryhouse journal", "left as it is")


def test_another_program_s_database(tmp_path: Path) -> None:
    file = tmp_path / "photos.db"
    raw = sqlite3.connect(file)
    raw.execute("CREATE TABLE photo (id INTEGER PRIMARY KEY)")
    raw.execute("CREATE TABLE alembic_version (version_num TEXT)")
    raw.commit()
    raw.close()
    refused(file, "not a Dryhouse journal")


def test_a_journal_of_a_newer_program(tmp_path: Path) -> None:
    file = journal_at(tmp_path / "journal.dryhouse")
    raw = sqlite3.connect(file)
    raw.execute("UPDATE alembic_version SET version_num = '0420'")
    raw.commit()
    raw.execute("PRAGMA journal_mode = DELETE")
    raw.close()
    refused(file, "newer version", "0420", "Nothing was changed")


def test_a_journal_that_lost_its_revision(tmp_path: Path) -> None:
    file = journal_at(tmp_path / "journal.dryhouse")
    raw = sqlite3.connect(file)
    raw.execute("DROP TABLE alembic_version")
    raw.commit()
    raw.execute("PRAGMA journal_mode = DELETE")
    raw.close()
    refused(file, "damaged", "backups")


def test_a_journal_that_says_it_is_older_than_it_is(tmp_path: Path) -> None:
    file = journal_at(tmp_path / "journal.dryhouse")
    raw = sqlite3.connect(file)
    raw.execute("UPDATE alembic_version SET version_num = '0001'")
    raw.commit()
    raw.execute("PRAGMA journal_mode = DELETE")
    raw.close()
    with told(WorldProblem, "damaged"):
        open_journal(file, write=False)
    before = file.read_bytes()
    with told(WorldProblem, "damaged"):
        open_journal(file, write=True)
    assert file.read_bytes() == before


@pytest.mark.parametrize("part", [0.02, 0.3, 0.6, 0.95])
def test_a_file_cut_short(tmp_path: Path, part: float) -> None:
    file = journal_at(tmp_path / "journal.dryhouse")
    whole = file.read_bytes()
    file.write_bytes(whole[: int(len(whole) * part)])
    refused(file, "damaged")


def test_a_header_overwritten(tmp_path: Path) -> None:
    file = journal_at(tmp_path / "journal.dryhouse")
    file.write_bytes(b"\0" * 100 + file.read_bytes()[100:])
    refused(file, "beginning is damaged")


def test_any_page_overwritten_is_refused_or_said_and_never_a_crash(tmp_path: Path) -> None:
    whole = journal_at(tmp_path / "sound.dryhouse").read_bytes()
    said: list[str] = []
    for page in range(1, len(whole) // 4096, 5):
        file = tmp_path / f"page{page}.dryhouse"
        file.write_bytes(whole[: page * 4096] + Random(page).randbytes(4096) + whole[(page + 1) * 4096 :])
        try:
            journal = open_journal(file, write=False)
        except WorldProblem as problem:
            said.append(problem_sentence(problem))
            continue
        try:
            for kind in RECORD_KINDS:
                journal.where(kind)
            journal.batch_ids(BatchQuery(text="no"))
        except WorldProblem as problem:
            said.append(problem_sentence(problem))
        finally:
            journal.close()
    assert said
    assert all("damaged" in sentence for sentence in said)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that a person without special rights may enter; permissions bind only such a person."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o777)
        if hasattr(os, "geteuid") and os.geteuid() == 0:
            os.chown(folder, NOBODY, NOBODY)
        yield folder
        folder.chmod(0o777)


@pytest.fixture
def ordinary_person() -> Iterator[None]:
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


def protected(folder: Path, *, file_mode: int, folder_mode: int) -> Path:
    file = journal_at(folder / "journal.dryhouse")
    file.chmod(file_mode)
    folder.chmod(folder_mode)
    return file


@pytest.mark.parametrize(("file_mode", "folder_mode"), [(0o444, 0o777), (0o644, 0o555), (0o444, 0o555)])
def test_a_read_only_journal_can_be_read_but_not_written(
    open_folder: Path, ordinary_person: None, file_mode: int, folder_mode: int
) -> None:
    file = protected(open_folder, file_mode=file_mode, folder_mode=folder_mode)
    before = file.read_bytes()
    with told(WorldProblem, "read-only"):
        open_journal(file, write=True)
    reader = open_journal(file, write=False)
    assert len(reader.where(Batch)) == 199
    reader.close()
    assert file.read_bytes() == before


def test_a_folder_that_lets_no_one_write_says_so(open_folder: Path, ordinary_person: None) -> None:
    open_folder.chmod(0o555)
    with told(WorldProblem, "read-only"):
        open_journal(open_folder / "journal.dryhouse", write=True)
    assert list(open_folder.iterdir()) == []


def test_a_folder_that_cannot_be_made_says_so(open_folder: Path, ordinary_person: None) -> None:
    open_folder.chmod(0o555)
    with told(WorldProblem, "only be read"):
        open_journal(open_folder / "deeper" / "journal.dryhouse", write=True)
    open_folder.chmod(0o777)
    (open_folder / "deeper").write_text("a file, not a folder")
    with pytest.raises(WorldProblem):
        open_journal(open_folder / "deeper" / "journal.dryhouse", write=True)


def test_an_act_that_is_refused_for_damage_changes_no_byte(tmp_path: Path) -> None:
    whole = journal_at(tmp_path / "sound.dryhouse").read_bytes()
    refused_in = 0
    for page in range(1, len(whole) // 4096, 4):
        file = tmp_path / f"page{page}.dryhouse"
        file.write_bytes(whole[: page * 4096] + Random(page).randbytes(4096) + whole[(page + 1) * 4096 :])
        before = file.read_bytes()
        try:
            journal = open_journal(file, write=True)
        except WorldProblem:
            refused_in += 1
            assert file.read_bytes() == before
            continue
        try:
            with journal.alone():
                journal.where(Batch)
                journal.write([Change(None, Batch("pear", id=journal.next_id(Batch)))])
        except WorldProblem:
            refused_in += 1
            assert file.read_bytes() == before
        finally:
            journal.close()
    assert refused_in > 5
