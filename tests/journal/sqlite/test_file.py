"""The settings of a connection, and its transactions."""

from __future__ import annotations

import os
import re
import sqlite3
from contextlib import suppress
from pathlib import Path
from threading import Thread

import pytest

import dryhouse.journal
from dryhouse.journal.database import Database, connect, in_memory
from dryhouse.journal.opening import open_journal
from dryhouse.journal.sqlite import file
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from tests.journal.journals import value
from tests.rows import every_row


def setting(database: Database, name: str) -> object:
    return value(database, f"PRAGMA {name}")


def test_every_commit_goes_to_the_disk_and_foreign_keys_hold(tmp_path: Path) -> None:
    journal = open_journal(tmp_path / "journal.dryhouse", write=True)
    assert setting(journal.database, "journal_mode") == "wal"
    assert setting(journal.database, "synchronous") == 2
    assert setting(journal.database, "foreign_keys") == 1
    assert setting(journal.database, "busy_timeout") == 5000
    journal.close()


def test_a_reader_is_held_to_reading(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    open_journal(file, write=True).close()
    database = connect(file, "ro")
    assert setting(database, "query_only") == 1
    database.close()


def test_in_memory_keeps_foreign_keys_too() -> None:
    database = in_memory()
    assert setting(database, "foreign_keys") == 1
    database.close()


def test_a_transaction_inside_another_is_left_out_as_a_whole_and_the_outer_one_goes_on() -> None:
    database = in_memory()
    database.driver.execute("CREATE TABLE jar (id INTEGER)")
    with database.transaction():
        database.driver.execute("INSERT INTO jar VALUES (1)")
        with suppress(ZeroDivisionError), database.transaction():
            database.driver.execute("INSERT INTO jar VALUES (2)")
            raise ZeroDivisionError
        with database.transaction():
            database.driver.execute("INSERT INTO jar VALUES (3)")
        with suppress(ZeroDivisionError), database.transaction():
            database.driver.execute("INSERT INTO jar VALUES (4)")
            with database.transaction():
                database.driver.execute("INSERT INTO jar VALUES (5)")
            raise ZeroDivisionError
    assert not database.driver.in_transaction
    assert [row[0] for row in database.driver.execute("SELECT id FROM jar")] == [1, 3]
    database.close()


def test_reading_a_file_whose_log_was_left_behind_changes_neither(tmp_path: Path) -> None:
    file, left = tmp_path / "journal.dryhouse", tmp_path / "left"
    left.mkdir()
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    for name in (file.name, f"{file.name}-wal"):
        (left / name).write_bytes((tmp_path / name).read_bytes())
    journal.close()
    before = {path.name: path.read_bytes() for path in left.iterdir()}
    reader = open_journal(left / file.name, write=False)
    assert [batch.food for batch in reader.where(Batch)] == ["corn"]
    reader.close()
    assert {name: (left / name).read_bytes() for name in before} == before


def test_nothing_that_only_sqlite_knows_is_said_elsewhere_in_the_journal() -> None:
    folder = Path(dryhouse.journal.__file__).parent
    only = re.compile(r"PRAGMA|sqlite_(?!errorname)|json_(each|group)|\bMATCH\b|INDEXED BY|AUTOINCREMENT|\browid\b")
    said = {path.name for path in folder.glob("*.py") if only.search(path.read_text(encoding="utf-8"))}
    assert said == set()


@every_row(
    ("code", "there", "tried"),
    [
        (sqlite3.SQLITE_FULL, True, [True, False]),
        (sqlite3.SQLITE_IOERR_SHMSIZE, True, [True, False]),
        (sqlite3.SQLITE_CANTOPEN, True, [True, False]),
        (sqlite3.SQLITE_CANTOPEN, False, [True]),
        (sqlite3.SQLITE_BUSY, True, [True]),
        (sqlite3.SQLITE_READONLY, True, [True]),
    ],
)
def test_only_where_the_disk_has_no_room_a_file_is_opened_without_what_lies_beside_it(
    code: int, there: bool, tried: list[bool], tmp_path: Path
) -> None:
    rooms: list[bool] = []

    def opened(path: Path, mode: str, *, room: bool = True) -> str:
        rooms.append(room)
        if room:
            error = sqlite3.OperationalError("as SQLite says it")
            error.sqlite_errorcode = code
            raise error
        return "opened"

    path = tmp_path / f"{code}-{there}.dryhouse"
    if there:
        path.touch()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(file, "_opened", opened)
        if len(tried) == 2:
            assert file.open_file(path, "rw") == "opened"
        else:
            with pytest.raises(sqlite3.OperationalError):
                file.open_file(path, "rw")
    assert rooms == tried


def test_whoever_only_reads_leaves_nothing_beside_the_file(tmp_path: Path) -> None:
    path = tmp_path / "journal.dryhouse"
    open_journal(path, write=True).close()
    reader = file.open_file(path, "ro")
    assert reader.execute("SELECT count(*) FROM batch").fetchone() == (0,)
    reader.close()
    assert [beside.name for beside in tmp_path.iterdir()] == [path.name]


@pytest.mark.parametrize("mode", ["ro", "rw"])
def test_what_is_no_database_is_told_when_it_is_opened(tmp_path: Path, mode: file.Mode) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear canoe club, the apples are dry. " * 99, encoding="utf-8")
    with pytest.raises(sqlite3.DatabaseError, match="not a database"):
        file.open_file(path, mode)


def test_a_file_is_not_made_by_whoever_wants_one_that_is_there(tmp_path: Path) -> None:
    for mode in ("ro", "rw"):
        with pytest.raises(sqlite3.OperationalError):
            file.open_file(tmp_path / "gone.dryhouse", mode)
    assert list(tmp_path.iterdir()) == []
    file.open_file(tmp_path / "new.dryhouse", "rwc").close()
    assert [made.name for made in tmp_path.iterdir()] == ["new.dryhouse"]


def test_a_connection_may_be_closed_on_another_thread(tmp_path: Path) -> None:
    driver = file.in_memory()
    thread = Thread(target=driver.close)
    thread.start()
    thread.join()
    with pytest.raises(sqlite3.ProgrammingError, match="closed"):
        driver.execute("SELECT 1")


def test_a_copy_is_on_the_disk_before_it_has_its_name_and_is_one_file_by_itself(tmp_path: Path) -> None:
    path, copy, done = tmp_path / "journal.dryhouse", tmp_path / "copy.dryhouse", []
    open_journal(path, write=True).close()
    driver = file.open_file(path, "ro")
    with pytest.MonkeyPatch.context() as patch:
        to_disk, renamed = file._to_disk, os.replace
        patch.setattr(file, "_to_disk", lambda what: done.append(what.suffix or "folder") or to_disk(what))
        patch.setattr(os, "replace", lambda part, name: done.append("named") or renamed(part, name))
        file.copy_whole(driver, copy)
    driver.close()
    assert done == [".part", "named", "folder"]
    assert copy.read_bytes()[18:20] == b"\x01\x01", (
        "no log is needed to read it: a journal that is written has 2 here"
    )
    assert sorted(beside.name for beside in tmp_path.iterdir()) == ["copy.dryhouse", "journal.dryhouse"]


def test_a_copy_that_fails_leaves_nothing(tmp_path: Path) -> None:
    driver = file.in_memory()
    driver.execute("CREATE TABLE jar (id INTEGER)")

    def full(_path: Path) -> None:
        raise OSError(28, "No space left on device")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(file, "_to_disk", full)
        with pytest.raises(OSError, match="No space"):
            file.copy_whole(driver, tmp_path / "copy.dryhouse")
    assert list(tmp_path.iterdir()) == []


def test_a_file_is_empty_ours_or_cut_short_by_what_it_says_of_itself(tmp_path: Path) -> None:
    path = tmp_path / "journal.dryhouse"
    driver = file.open_file(path, "rwc")
    assert file.is_empty(driver)
    assert not file.is_ours(driver)
    file.mark_as_ours(driver)
    assert file.is_empty(driver)
    assert file.is_ours(driver)
    driver.execute("CREATE TABLE jar (id INTEGER)")
    assert not file.is_empty(driver)
    assert not file.is_cut_short(driver, path)
    assert file.count_in(driver, "jar") == 0
    driver.execute("INSERT INTO jar VALUES (1), (2), (3)")
    assert file.count_in(driver, "jar") == 3
    assert path.read_bytes()[68:72] == b"DryH", "what the system's file type goes by"
    driver.execute("PRAGMA application_id = 7")
    assert (file.is_ours(driver), file.is_empty(driver)) == (False, False)
    driver.execute("DROP TABLE jar")
    assert not file.is_empty(driver), "another program's"
    size = path.stat().st_size
    os.truncate(path, size - 1)
    assert file.is_cut_short(driver, path)
    path.with_name(path.name + "-wal").write_bytes(b"")
    assert file.is_cut_short(driver, path), "an empty log makes up for nothing"
    path.with_name(path.name + "-wal").write_bytes(b"log")
    assert not file.is_cut_short(driver, path)
    driver.close()


def test_what_is_read_inside_one_moment_does_not_move_and_no_transaction_is_left(tmp_path: Path) -> None:
    path = tmp_path / "journal.dryhouse"
    open_journal(path, write=True).close()
    reader, writer = file.open_file(path, "rw"), file.open_file(path, "rw")
    file.write_ahead(writer)
    counted = lambda: file.count_in(reader, "place")  # noqa: E731
    before = (file.data_version(reader), file.schema_version(reader))
    with file.one_moment(reader):
        with file.one_moment(reader):
            assert counted() == 0
        assert reader.in_transaction, "the inner one leaves the outer one alone"
        writer.execute("INSERT INTO place (id, name) VALUES (1, 'pantry')")
        assert counted() == 0
    assert not reader.in_transaction
    assert counted() == 1
    assert file.data_version(reader) != before[0]
    assert file.schema_version(reader) == before[1]
    with suppress(ZeroDivisionError), file.transaction(writer):
        writer.execute("INSERT INTO place (id, name) VALUES (2, 'cellar')")
        raise ZeroDivisionError
    assert (writer.in_transaction, counted()) == (False, 1)
    reader.close(), writer.close()


def test_damage_and_orphans_are_counted_only_so_far(tmp_path: Path) -> None:
    driver = file.in_memory()
    driver.execute("CREATE TABLE jar (id INTEGER PRIMARY KEY, shelf INTEGER REFERENCES shelf (id))")
    driver.execute("CREATE TABLE shelf (id INTEGER PRIMARY KEY)")
    file.enforce_foreign_keys(driver, False)
    driver.execute("INSERT INTO jar VALUES (1, 7), (2, 8), (3, NULL)")
    assert file.orphans_in(driver) == [("jar", 1, "shelf"), ("jar", 2, "shelf")]
    assert file.orphans_in(driver, 1) == [("jar", 1, "shelf")]
    assert file.damage_in(driver, 9) == file.damage_in(driver, 9, quick=True) == []
    file.enforce_foreign_keys(driver, True)
    with pytest.raises(sqlite3.IntegrityError):
        driver.execute("INSERT INTO jar VALUES (4, 9)")
    driver.close()


WAYS = [
    # mode, a log beside it, room on the disk, the file and the folder may be written: how it is opened, and alone
    ("ro", (False, True, True, True), "rw", False),  # to put away what SQLite keeps beside it
    ("ro", (False, True, False, True), "ro", False),
    ("ro", (False, True, True, False), "ro&immutable=1", False),
    ("ro", (False, True, False, False), "ro&immutable=1", False),
    ("ro", (False, False, True, True), "ro&immutable=1", False),
    ("ro", (True, True, True, True), "ro", False),
    ("ro", (True, True, True, False), "ro", False),
    ("ro", (True, False, True, True), "rw", True),
    ("rw", (False, True, True, True), "rw", False),
    ("rw", (False, True, True, False), "rw", False),
    ("rw", (False, False, True, True), "rw", True),
    ("rwc", (False, True, True, True), "rwc", False),
    ("rwc", (True, True, True, True), "rwc", False),
]


@every_row(("mode", "place", "way", "alone"), WAYS)
def test_a_file_is_opened_by_who_may_write_there_and_what_lies_beside_it(mode, place, way, alone, tmp_path):
    log, room, file_w, folder_w = place
    path = tmp_path / f"{len(list(tmp_path.iterdir()))}.dryhouse"
    path.touch()
    if log:
        path.with_name(path.name + "-wal").write_bytes(b"log")
    said: list[str] = []

    class Driver:
        def execute(self, query: str) -> Driver:
            said.append(query)
            return self

        def fetchone(self) -> None: ...

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(file, "_connect", lambda where: said.append(where) or Driver())
        patch.setattr(file, "may_write", lambda where: file_w if where == path else folder_w)
        file._opened(path, mode, room=room)
    assert said[0].endswith(f"?mode={way}")
    assert ("PRAGMA locking_mode = EXCLUSIVE" in said) is alone
    assert ("PRAGMA query_only = ON" in said) is (mode == "ro")
    assert ("PRAGMA synchronous = FULL" in said) is ("PRAGMA foreign_keys = ON" in said) is (mode != "ro")
    assert said[-1] == "PRAGMA page_count"
