"""Export and import: every record survives unchanged, nothing comes twice, bad files change nothing."""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, given, settings

from dryhouse.handbook.reader import handbook
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.exchange import bring_in, every_record, read_records, write_records
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Journal
from dryhouse.kitchen.records import RECORD_KINDS, Batch, Dryer, Lot, LotMove, OwnFood, Place, Preference, Weighing
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.words.messages import problem_sentence
from tests.fakes import FakeJournal
from tests.often import often
from tests.records import journals

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
GALLEY = (
    Dryer("shelf dryer", 6, temperature_high=Temperature(68.0, "155 F"), id=1),
    Batch(
        "corn", dryer=1, prepared_mass=Mass(907.18474, "2 lb"), started=NOON, notes="Über ¾ muggy,\r\n“night”", id=3
    ),
    Weighing(3, NOON, Mass(850.0, "850 g"), Mass(342.0), id=8),
    Place("pantry", id=1),
    Lot("corn", date(2026, 8, 2), batch=3, sealed=False, id=2),
    LotMove(2, 1, NOON, id=1),
)


def kitchen(journal: Journal) -> Kitchen:
    return Kitchen(journal, handbook())


def everything(journal: Journal) -> list[object]:
    return sorted(every_record(journal), key=repr)


@pytest.mark.parametrize("name", ["journal.json", "folder"])
@given(listed=journals())
@settings(max_examples=often(12), deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_every_record_survives_export_and_import(name: str, listed: list) -> None:
    with TemporaryDirectory() as folder:
        file = Path(folder) / name
        assert write_records(every_record(FakeJournal(*listed)), file) == len(listed)
        empty = FakeJournal()
        bring_in(kitchen(empty), read_records(file))
        assert everything(empty) == sorted(listed, key=repr)


@given(listed=journals())
@settings(max_examples=often(6), deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_every_record_survives_from_one_file_to_another(listed: list) -> None:
    with TemporaryDirectory() as folder:
        first, second = (open_journal(Path(folder) / f"{n}.dryhouse", write=True) for n in "ab")
        bring_in(kitchen(first), listed)
        write_records(every_record(first), Path(folder) / "a.json")
        bring_in(kitchen(second), read_records(Path(folder) / "a.json"))
        assert everything(second) == everything(first) == sorted(listed, key=repr)
        first.close()
        second.close()


@given(listed=journals())
@settings(max_examples=often(12), deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_importing_twice_adds_nothing(listed: list) -> None:
    journal = FakeJournal(*listed)
    done = bring_in(kitchen(journal), listed)
    assert done.changes == ()
    assert everything(journal) == sorted(listed, key=repr)


@given(mine=journals(most=2), theirs=journals(most=2))
@settings(max_examples=often(12), deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_two_journals_join_without_losing_anything_and_undo_parts_them(mine: list, theirs: list) -> None:
    journal = FakeJournal(*mine)
    done = bring_in(kitchen(journal), theirs)
    there = everything(journal)
    assert all(record in there for record in mine)
    for kind in RECORD_KINDS:
        if kind not in (OwnFood, Preference):
            assert len(journal.where(kind)) <= sum(type(r) is kind for r in (*mine, *theirs))
    assert bring_in(kitchen(journal), theirs).changes == ()
    journal.write(done.undone().changes)
    assert everything(journal) == sorted(mine, key=repr)


def test_numbers_that_are_taken_are_given_anew_with_all_that_belongs() -> None:
    journal = FakeJournal(Dryer("box dryer", 10, id=1), Batch("apple", dryer=1, id=3), Place("cellar", id=1))
    bring_in(kitchen(journal), GALLEY)
    corn = journal.where(Batch, food="corn")[0]
    assert corn.id != 3
    assert journal.get(Dryer, corn.dryer or 0) == replace(GALLEY[0], id=corn.dryer)
    assert [w.gross.typed for w in journal.where(Weighing, batch=corn.id)] == ["850 g"]
    lot = journal.where(Lot, batch=corn.id)[0]
    move = journal.where(LotMove, lot=lot.id)[0]
    assert journal.get(Place, move.place) == Place("pantry", id=move.place)


def test_a_dryer_that_is_there_already_is_not_doubled() -> None:
    journal = FakeJournal(replace(GALLEY[0], id=7))
    bring_in(kitchen(journal), GALLEY)
    assert [d.id for d in journal.where(Dryer)] == [7]
    assert journal.where(Batch, dryer=7)


def test_a_setting_of_one_s_own_stays_over_an_imported_one() -> None:
    journal = FakeJournal(Preference("units", "metric", id=1))
    bring_in(kitchen(journal), [Preference("units", "us", id=1)])
    assert journal.where(Preference) == (Preference("units", "metric", id=1),)


def test_importing_is_one_act_that_undo_takes_back() -> None:
    journal = FakeJournal()
    done = bring_in(kitchen(journal), GALLEY)
    assert "6 records" in done.what
    journal.write(done.undone().changes)
    assert everything(journal) == []


def test_a_table_kept_by_hand_is_read_as_typed(tmp_path: Path) -> None:
    (tmp_path / "batch.csv").write_text(
        "food,prepared_mass,set_temperature,started,rating\n"
        "corn,2 lb 8 oz,125 F,2026-08-01 18:30-05:00,4\n"
        "apple,,,,\n",
        encoding="utf-8",
    )
    journal = FakeJournal()
    bring_in(kitchen(journal), read_records(tmp_path))
    corn, apple = journal.where(Batch)
    assert corn.prepared_mass is not None
    assert corn.prepared_mass.typed == "2 lb 8 oz"
    assert corn.prepared_mass.si == pytest.approx(1133.98, abs=0.01)
    assert corn.started == datetime(2026, 8, 1, 23, 30, tzinfo=UTC)
    assert corn.rating == 4
    assert apple == Batch("apple", id=2)


def test_the_tables_open_in_a_spreadsheet(tmp_path: Path) -> None:
    write_records(GALLEY, tmp_path / "tables")
    with (tmp_path / "tables" / "batch.csv").open(encoding="utf-8", newline="") as file:
        (line,) = csv.DictReader(file)
    assert (line["prepared_mass_g"], line["prepared_mass_typed"], line["food"]) == ("907.18474", "2 lb", "corn")
    assert {f.suffix for f in (tmp_path / "tables").iterdir()} == {".csv"}


def exported(tmp_path: Path) -> dict:
    file = tmp_path / "whole.json"
    write_records(GALLEY, file)
    return json.loads(file.read_text(encoding="utf-8"))


def broken(tmp_path: Path, content: object) -> Path:
    file = tmp_path / "broken.json"
    file.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
    return file


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda c: c["records"]["Batch"][0].update(food=5), "“food” is “5”; it should be text"),
        (lambda c: c["records"]["Batch"][0].pop("food"), "no “food”"),
        (lambda c: c["records"]["Batch"][0].update(colour="red"), "has “colour”"),
        (lambda c: c["records"]["Batch"][0].update(started="2026-08-01T12:00"), "without its zone"),
        (lambda c: c["records"]["Batch"][0].update(started="yesterday"), "should be a moment"),
        (lambda c: c["records"]["Batch"][0].update(prepared_mass=907.0), "should look like"),
        (lambda c: c["records"]["Batch"][0].update(prepared_mass={"g": True, "typed": ""}), "should be a number"),
        (lambda c: c["records"]["Batch"][0].update(state="lost"), "should be one of planned, drying, finished"),
        (lambda c: c["records"]["Weighing"][0].update(batch=99), "belongs to Batch 99, which is not there"),
        (lambda c: c["records"]["Batch"].append(c["records"]["Batch"][0]), "stands twice"),
        (lambda c: c["records"].update(Recipe=[]), "kind not known here: “Recipe”"),
        (lambda c: c["records"].update(Batch={}), "no list of records"),
        (lambda c: c["records"]["Lot"].append(3), "is not a record"),
        (lambda c: c.update(version=2), "version 2"),
        (lambda c: c.update(format="other"), "not a journal's export"),
    ],
)
def test_a_file_with_a_mistake_is_refused_in_a_sentence_and_changes_nothing(
    tmp_path: Path, spoil, said: str
) -> None:
    content = exported(tmp_path)
    spoil(content)
    journal = FakeJournal(Dryer("box dryer", 10, id=1))
    with pytest.raises(InputProblem) as problem:
        bring_in(kitchen(journal), read_records(broken(tmp_path, content)))
    assert said in problem_sentence(problem.value)
    assert everything(journal) == [Dryer("box dryer", 10, id=1)]


@pytest.mark.parametrize("text", ["", "{", "[]", "null", '{"format": "dryhouse journal"', "[" * 100_000])
def test_what_is_no_export_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(InputProblem, match="not a journal's export"):
        read_records(broken(tmp_path, text))


def test_a_picture_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "jar.json"
    file.write_bytes(b"\x89PNG\r\n\x1a\n\xff\xfe")
    with pytest.raises(InputProblem, match="not text"):
        read_records(file)


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ("id,food,colour\n1,corn,red\n", "column “colour”"),
        ("id,food\n1,corn,extra\n", "line 2 has not as many cells"),
        ("id,food,trays\n1,corn,six\n", "“trays” is “six”; it should be a whole number"),
        ("id,food,prepared_mass\n1,corn,heavy\n", "batch.csv, line 2: “heavy”"),
        ("id,food,prepared_mass_g\n1,corn,nan\n", "should be a number"),
        ("id,food\n1,\n", ""),
    ],
)
def test_a_table_with_a_mistake_names_the_line(tmp_path: Path, table: str, said: str) -> None:
    (tmp_path / "batch.csv").write_text(table, encoding="utf-8")
    if not said:
        assert read_records(tmp_path) == [Batch("", id=1)]
        return
    with pytest.raises(InputProblem) as problem:
        read_records(tmp_path)
    assert said in problem_sentence(problem.value)


def test_a_folder_without_tables_and_a_missing_file_are_refused(tmp_path: Path) -> None:
    with pytest.raises(InputProblem, match="none of the tables"):
        read_records(tmp_path)
    with pytest.raises(InputProblem, match="no “"):
        read_records(tmp_path / "gone.json")


def test_an_export_never_replaces_a_file(tmp_path: Path) -> None:
    file = tmp_path / "journal.json"
    file.write_text("mine")
    with pytest.raises(InputProblem, match="already there"):
        write_records(GALLEY, file)
    assert file.read_text() == "mine"
    with pytest.raises(InputProblem, match=r"neither a .json file nor a folder"):
        write_records(GALLEY, tmp_path / "journal.xlsx")


def test_an_empty_journal_exports_and_imports(tmp_path: Path) -> None:
    assert write_records((), tmp_path / "empty.json") == 0
    assert read_records(tmp_path / "empty.json") == []
