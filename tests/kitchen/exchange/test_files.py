"""Exports: there whole or not at all, over nothing of hers, harmless in a spreadsheet, and the same again."""

from __future__ import annotations

import csv
import filecmp
import os
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.journal.sample import sample_folder
from dryhouse.kitchen.exchange import bring_in, every_record, read_records, write_records
from dryhouse.kitchen.exchange.cells import as_written, inert
from dryhouse.kitchen.exchange.files import MANIFEST
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import Batch, Dryer, Lot, Meal, Preference, Weighing
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.quantities import Mass
from tests.fakes import FakeJournal

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
ODD = (
    "=1+1", "+49", "-5 C", "@here", "\tindented", "\rreturned", "'quoted", "'=1+1", "''=1", "'", "''", "＝1",
    "a\x00b", "\x00", "line\nline\r\nline\rline", "\u2028\u2029\x85", "\ufeffmark", '"quotes", commas; semicolons',
    " both ends ",
    "\N{EAR OF MAIZE}\U0010ffff", "e\u0301", "\u202eright to left", "\\ud800", "NaN", "null", "1e5", "yes",
)  # fmt: skip
NAMES = ("all.json", "tables")


def odd_journal() -> list[Record]:
    """A record of several kinds for each odd text, in every field of text."""
    made: list[Record] = [Dryer("shelf dryer", 6, id=4)]
    for n, text in enumerate(ODD, 7):
        made.append(Preference(f"k{text}", text, id=n))
        made.append(Batch("corn", title=text, form=text, notes=text, pretreatment=text, started=NOON, id=2 * n))
        made.append(Weighing(2 * n, NOON, Mass(0.1 + n, text), note=text, id=3 * n))
        made.append(Lot("corn", NOON.date(), name=text, batch=2 * n, pasteurised=text, notes=text, id=n))
        made.append(Meal(f"m{text}", method=text, notes=text, id=n))
    return made


def kitchen(*records: Record) -> Kitchen:
    return Kitchen(FakeJournal(*records), handbook(), lambda: NOON, UTC)


def same_bytes(one: Path, other: Path) -> bool:
    if one.is_file():
        return one.read_bytes() == other.read_bytes()
    names = sorted(f.name for f in one.iterdir())
    return (
        names == sorted(f.name for f in other.iterdir()) and filecmp.cmpfiles(one, other, names, False)[0] == names
    )


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("which", ["sample", "odd"])
def test_what_was_exported_and_imported_exports_the_same_bytes(tmp_path: Path, which: str, name: str) -> None:
    first, second = kitchen(), kitchen()
    bring_in(first, read_records(sample_folder()) if which == "sample" else odd_journal())
    write_records(every_record(first.journal), tmp_path / name)
    bring_in(second, read_records(tmp_path / name))
    (tmp_path / "again").mkdir()
    write_records(every_record(second.journal), tmp_path / "again" / name)
    assert same_bytes(tmp_path / name, tmp_path / "again" / name)
    assert sorted(map(repr, every_record(first.journal))) == sorted(map(repr, every_record(second.journal)))


def test_no_cell_of_a_table_is_a_formula(tmp_path: Path) -> None:
    write_records(odd_journal(), tmp_path / "tables")
    for file in (tmp_path / "tables").iterdir():
        with file.open(encoding="utf-8", newline="") as lines:
            rows = list(csv.reader(lines))
        for cell in (cell for row in rows for cell in row):
            assert cell[:1] not in {"=", "+", "-", "@", "\t", "\r", "＝"}, (file.name, cell)


@pytest.mark.parametrize("text", ODD)
def test_a_text_comes_back_from_its_cell_as_it_was(text: str) -> None:
    assert as_written(inert(text)) == text


def test_a_folder_says_how_many_records_each_table_holds(tmp_path: Path) -> None:
    write_records(odd_journal(), tmp_path / "tables")
    with (tmp_path / "tables" / MANIFEST).open(encoding="utf-8", newline="") as lines:
        told = {line["table"]: int(line["records"]) for line in csv.DictReader(lines)}
    assert (told["batch.csv"], told["dryer.csv"], told["trip.csv"]) == (len(ODD), 1, 0)
    assert set(told) | {MANIFEST} == {f.name for f in (tmp_path / "tables").iterdir()}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_of_hers_is_written_over_and_a_free_name_is_named(tmp_path: Path, name: str) -> None:
    there = tmp_path / name
    if name == "tables":
        there.mkdir()
        there = there / "batch.csv"
    there.write_text("hello", encoding="utf-8")
    stem, dot, ending = name.partition(".")
    (tmp_path / f"{stem}-2{dot}{ending}").touch()
    with pytest.raises(InputProblem, match=f"“[^“]*{stem}-3{dot}{ending}” is a name that is free"):
        write_records([Dryer("box", 1, id=1)], tmp_path / name)
    assert there.read_text(encoding="utf-8") == "hello"


def test_an_empty_folder_may_be_filled(tmp_path: Path) -> None:
    (tmp_path / "tables").mkdir()
    assert write_records([Dryer("box", 1, id=1)], tmp_path / "tables") == 1
    assert read_records(tmp_path / "tables") == [Dryer("box", 1, id=1)]


@pytest.mark.parametrize("name", NAMES)
def test_an_export_that_is_stopped_leaves_nothing(tmp_path: Path, name: str) -> None:
    def records() -> Iterator[Record]:
        yield Dryer("box", 1, id=1)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write_records(records(), tmp_path / name)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", NAMES)
def test_what_a_killed_export_left_is_swept_by_the_next(tmp_path: Path, name: str, monkeypatch) -> None:
    with monkeypatch.context() as killed:
        killed.setattr("dryhouse.kitchen.exchange.files.os.replace", stop)
        killed.setattr("dryhouse.kitchen.exchange.files._remove", lambda _part: None)
        with pytest.raises(KeyboardInterrupt):
            write_records([Dryer("box", 1, id=1)], tmp_path / name)
    assert len(list(tmp_path.iterdir())) == 1
    write_records([Dryer("box", 1, id=1)], tmp_path / name)
    assert [f.name for f in tmp_path.iterdir()] == [name]


def stop(*_paths: Path) -> None:
    raise KeyboardInterrupt


def test_who_is_told_how_far_it_is_may_stop_it(tmp_path: Path) -> None:
    told: list[int] = []

    def tell(count: int) -> None:
        told.append(count)
        if count:
            raise InputProblem("Stopped.")

    with pytest.raises(InputProblem):
        write_records([Dryer("box", 1, id=n) for n in range(1, 2000)], tmp_path / "all.json", tell)
    assert told[0] == 0 < told[1]
    assert list(tmp_path.iterdir()) == []


def test_a_disk_that_fails_is_said(tmp_path: Path, monkeypatch) -> None:
    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("dryhouse.kitchen.exchange.files.os.fsync", full)
    with pytest.raises(WorldProblem, match=r"could not be written \(No space left on device\)\."):
        write_records([Dryer("box", 1, id=1)], tmp_path / "tables")
    assert list(tmp_path.iterdir()) == []


def test_records_come_after_those_they_refer_to() -> None:
    journal = FakeJournal(*odd_journal())
    kinds = list(dict.fromkeys(type(record) for record in every_record(journal)))
    assert kinds.index(Dryer) < kinds.index(Batch) < kinds.index(Weighing)
    assert kinds.index(Batch) < kinds.index(Lot)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_there_is_refused_before_and_after_a_record_is_asked_for(tmp_path: Path, name: str) -> None:
    asked: list[str] = []

    def records() -> Iterator[Record]:
        asked.append("one")
        (tmp_path / name).write_text("mine", encoding="utf-8")
        yield Dryer("box", 1, id=1)

    for _ in range(2):
        with pytest.raises(InputProblem, match="already there and stays as it is"):
            write_records(records(), tmp_path / name)
        assert (tmp_path / name).read_text(encoding="utf-8") == "mine"
    assert asked == ["one"]
    assert [f.name for f in tmp_path.iterdir()] == [name]


def test_all_of_it_is_on_the_disk_before_it_has_its_name(tmp_path: Path, monkeypatch) -> None:
    synced: list[str] = []
    to_disk = os.fsync

    def fsync(handle: int) -> None:
        there = os.fstat(handle).st_ino
        names = [tmp_path, *tmp_path.rglob("*")]
        synced.extend(path.name for path in names if path.stat().st_ino == there)
        to_disk(handle)

    monkeypatch.setattr("dryhouse.kitchen.exchange.files.os.fsync", fsync)
    opened = len(os.listdir("/dev/fd"))
    write_records([Dryer("box", 1, id=1)], tmp_path / "tables")
    assert sorted(synced[:-2]) == sorted(f.name for f in (tmp_path / "tables").iterdir())
    assert synced[-2:] == [".tables.dryhouse-part", tmp_path.name]
    synced.clear()
    write_records([Dryer("box", 1, id=1)], tmp_path / "all.json")
    assert synced == [".all.json.dryhouse-part", tmp_path.name]
    assert len(os.listdir("/dev/fd")) == opened


# --- a folder that is not whole -------------------------------------------------------------------------------


@pytest.fixture
def tables(tmp_path: Path) -> Path:
    write_records(odd_journal(), tmp_path / "tables")
    return tmp_path / "tables"


def test_a_table_of_no_bytes_is_refused(tables: Path) -> None:
    (tables / "batch.csv").write_bytes(b"")
    with pytest.raises(InputProblem, match=r"batch.csv is empty"):
        read_records(tables)


def test_a_table_that_lost_lines_is_refused_and_the_way_on_is_said(tables: Path) -> None:
    lines = (tables / "dryer.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    (tables / "dryer.csv").write_text(lines[0], encoding="utf-8")
    with pytest.raises(InputProblem, match=r"dryer.csv has 0 records, and 1 were exported"):
        read_records(tables)
    (tables / MANIFEST).unlink()
    assert not [r for r in read_records(tables) if isinstance(r, Dryer)]


def test_a_table_that_is_gone_is_missed(tables: Path) -> None:
    (tables / "lot.csv").unlink()
    with pytest.raises(InputProblem, match=r"has lost lot.csv"):
        read_records(tables)


def test_a_line_may_be_added_by_hand(tables: Path) -> None:
    with (tables / "dryer.csv").open("a", encoding="utf-8", newline="") as file:
        cells = dict(zip(("id", "name", "trays", "retired"), ("9", "box", "10", "no"), strict=True))
        with (tables / "dryer.csv").open(encoding="utf-8", newline="") as there:
            names = next(csv.reader(there))
        csv.writer(file).writerow([cells.get(name, "") for name in names])
    assert Dryer("box", 10, id=9) in read_records(tables)


@pytest.mark.parametrize(
    "said", ["table\n", "table,records\nbatch.csv,many\n", "\x00", "table,records\nbatch.csv\n"]
)
def test_a_list_of_tables_that_is_none_is_refused(tables: Path, said: str) -> None:
    (tables / MANIFEST).write_text(said, encoding="utf-8")
    with pytest.raises(InputProblem, match="not the list of tables"):
        read_records(tables)


def test_a_column_that_stands_twice_is_refused(tmp_path: Path) -> None:
    (tmp_path / "batch.csv").write_text("id,food,food\n1,corn,apple\n", encoding="utf-8")
    with pytest.raises(InputProblem, match="column twice"):
        read_records(tmp_path)


@pytest.mark.parametrize("trays", ["1_0", "६"])
def test_a_number_in_a_cell_is_written_with_digits_alone(tmp_path: Path, trays: str) -> None:
    (tmp_path / "batch.csv").write_text(f"id,food,trays\n1,corn,{trays}\n", encoding="utf-8")
    with pytest.raises(InputProblem, match="should be a whole number"):
        read_records(tmp_path)


def test_a_batch_kept_by_hand_may_leave_numbers_out(tmp_path: Path) -> None:
    (tmp_path / "batch.csv").write_text("food\ncorn\napple\n", encoding="utf-8")
    into = kitchen()
    bring_in(into, read_records(tmp_path))
    assert into.journal.where(Batch) == (replace(Batch("corn"), id=1), replace(Batch("apple"), id=2))
