"""A folder of tables is read table by table: how far the reading is, and each fault with its table and its line."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from dryhouse.kitchen.exchange import entries, read_records, write_records
from dryhouse.kitchen.exchange.cells import as_cells, as_written, columns, from_cells, inert
from dryhouse.kitchen.exchange.files import MANIFEST, every_record, table_file
from dryhouse.kitchen.records import RECORD_KINDS, Batch, BatchEvent, Dryer, Lot, OwnFigure, Place, Weighing
from dryhouse.kitchen.records.links import OWNERS_FIRST
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.quantities import Mass, Temperature
from tests.fakes import FakeJournal
from tests.rows import every_row

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)


def told(folder: Path, **tables: str) -> str:
    """What is said of a folder of these tables."""
    for name, text in tables.items():
        (folder / f"{name}.csv").write_text(text, encoding="utf-8")
    with pytest.raises(InputProblem) as caught:
        read_records(folder)
    for name in tables:
        (folder / f"{name}.csv").unlink()
    return str(caught.value.said)


def test_how_far_the_reading_is_is_the_share_of_all_tables(tmp_path: Path) -> None:
    """Tables are read in blocks: of small ones each is through when its first line is."""
    texts = {Dryer: "name,trays\nbox,6\nshelf,4\n", Place: "name\npantry\ncellar\nloft\n"}
    for kind, text in texts.items():
        (tmp_path / table_file(kind)).write_text(text, encoding="utf-8")
    first, second = sorted(texts, key=OWNERS_FIRST.index)
    through = len(texts[first]) / (len(texts[first]) + len(texts[second]))
    read = [(type(entry.record), entry.share, entry.sound) for entry in entries(tmp_path)]
    assert set(read) == {(first, through, False), (second, 1.0, False)}
    assert [entry.record for entry in entries(tmp_path) if isinstance(entry.record, Place)] == [
        Place("pantry"),
        Place("cellar"),
        Place("loft"),
    ]


def test_a_fault_is_told_with_its_table_and_its_line(tmp_path: Path) -> None:
    many = "cells as the table has columns."
    assert told(tmp_path, place="id,name\n1,loft\n2\n") == f"place.csv, line 3 has not as many {many}"
    assert told(tmp_path, place="id,name\n1,loft,more\n") == f"place.csv, line 2 has not as many {many}"
    assert told(tmp_path, place="id,lid\n") == "place.csv has a column “lid”, which Place records do not have."
    assert told(tmp_path, place="id,id\n") == "place.csv has a column twice; each stands there once."
    assert told(tmp_path, place="") == "place.csv is empty: its first line should name the columns, such as id."
    assert told(tmp_path, place="id\n1\n") == "place.csv, line 2 has no “name”, which every Place needs."
    assert told(tmp_path, dryer='name,trays\n"box\ndryer",6\nshelf,x\n') == (
        "dryer.csv, line 4: “trays” is “x”; it should be a whole number."
    )
    assert told(tmp_path, dryer="name,trays,tray_area\nbox,6,wide\n").startswith("dryer.csv, line 2: “wide”")
    assert told(tmp_path, dryer="name,trays,watts\nbox,6,1_0\n") == (
        "dryer.csv, line 2: “watts” is “1_0”; it should be a number."
    )
    assert told(tmp_path, dryer="name,trays,retired\nbox,6,maybe\n") == (
        "dryer.csv, line 2: “retired” is “maybe”; it should be yes or no."
    )
    assert told(tmp_path, lot="food,packed_on\ncorn,soon\n") == (
        "lot.csv, line 2: “packed_on” is “soon”; it should be a day such as 2026-08-21."
    )
    assert told(tmp_path, batch="food,started\ncorn,2026-08-01T10:00\n") == (
        "batch.csv, line 2: “started” is 2026-08-01T10:00, without its zone; write it like 2026-08-01T10:00+00:00."
    )


def test_a_folder_without_tables_or_one_that_lost_some_is_told_so(tmp_path: Path) -> None:
    assert told(tmp_path) == f"“{tmp_path}” holds none of the tables of a journal, such as batch.csv."
    write_records([Dryer("box", 1, id=1), Dryer("shelf", 2, id=2), Place("loft", 1)], tmp_path / "tables")
    tables = tmp_path / "tables"
    dryers = tables / "dryer.csv"
    whole = dryers.read_text(encoding="utf-8")
    dryers.write_text("".join(whole.splitlines(keepends=True)[:2]), encoding="utf-8")
    assert told(tables) == (
        "dryer.csv has 1 record, and 2 were exported; export the journal again, or remove manifest.csv where you "
        "took lines out yourself."
    )
    dryers.unlink()
    assert told(tables) == f"“{tables}” has lost dryer.csv, which was exported with it; export the journal again."
    dryers.write_text(whole, encoding="utf-8")
    for text in ("", "table,records\nplace.csv\n", "table,records\nplace.csv,-1\n", "tables,records\n"):
        (tables / MANIFEST).write_text(text, encoding="utf-8")
        assert told(tables) == "manifest.csv is not the list of tables that was exported; export the journal again."
    for text in ("table,records\n", f"table,records\nplace.csv,{'9' * 16}\n\n"):
        (tables / MANIFEST).write_text(text, encoding="utf-8")
        assert len(read_records(tables)) == 3
    (tables / MANIFEST).write_text(f"table,records\nplace.csv,{'9' * 15}\n", encoding="utf-8")
    assert told(tables).startswith(f"place.csv has 1 record, and {'9' * 15} were exported; ")


def test_a_table_that_is_not_there_or_cannot_be_read_is_told_with_the_reason(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputProblem) as caught:
        read_records(Path("gone.json"))
    assert caught.value.said == "There is no “gone.json” to import."
    file = tmp_path / "all.json"
    file.write_text("{}", encoding="utf-8")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(WorldProblem, match=r"could not be read \(Permission denied\)\.$"):
        read_records(file)


# --- cells ------------------------------------------------------------------------------------------------------


@every_row(
    ("text", "cell"),
    [
        ("", ""),
        ("corn", "corn"),
        ("=1", "'=1"),
        ("'=1", "''=1"),
        ("''=1", "'''=1"),
        ("'corn", "'corn"),
        ("-5 C", "'-5 C"),
        (" =1", " =1"),
        ("1=1", "1=1"),
    ],
)
def test_what_a_spreadsheet_would_run_goes_out_as_text_and_comes_back(text: str, cell: str) -> None:
    assert inert(text) == cell
    assert as_written(cell) == text


def test_a_record_is_one_line_of_cells_in_the_order_of_its_columns() -> None:
    weighing = Weighing(
        3, NOON, Mass(850.5, "=850.5 g"), scope="load", dryer_temperature=Temperature(57.0), left_out=True,
        dryer_humidity_pct=12.5, id=8,
    )  # fmt: skip
    assert dict(zip(columns(Weighing), as_cells(weighing), strict=True)) == {
        "id": "8",
        "batch": "3",
        "at": "2026-08-01T12:00:00+00:00",
        "gross_g": "850.5",
        "gross_typed": "'=850.5 g",
        "tare_g": "",
        "tare_typed": "",
        "scope": "load",
        "dryer_temperature_c": "57.0",
        "dryer_temperature_typed": "",
        "note": "",
        "vessel": "",
        "left_out": "yes",
        "instrument": "",
        "dryer_humidity_pct": "12.5",
    }
    assert columns(Weighing)[0] == "id"
    cells = dict(zip(columns(Weighing), as_cells(weighing), strict=True))
    assert from_cells(Weighing, cells, "line 2") == weighing


def test_empty_cells_are_missing_and_blanks_round_a_number_are_none_of_it() -> None:
    made = from_cells(
        Batch, {"food": "corn", "rating": " 4 ", "prepared_mass_g": " ", "prepared_mass_typed": "2 lb"}, "line 2"
    )
    assert (made.rating, made.prepared_mass) == (4, None)
    own = from_cells(
        OwnFigure, {"food": "corn", "name": "water", "value": "-0.5", "unit": "%", "note": ""}, "line 2"
    )
    assert (own.value, own.note) == (-0.5, "")
    lot = {"food": "corn", "packed_on": "2026-08-01", "sealed": "No", "package": "", "origin": ""}
    assert from_cells(Lot, lot, "line 2") == Lot("corn", date(2026, 8, 1), sealed=False)
    assert from_cells(Lot, {**lot, "sealed": "YES", "mass": " 8 oz "}, "line 2").mass.typed == "8 oz"


# --- the order of an export ---------------------------------------------------------------------------------------


def test_batches_leave_a_few_at_a_time_with_nothing_left_out(monkeypatch) -> None:
    monkeypatch.setattr("dryhouse.kitchen.exchange.files._AT_ONCE", 2)
    batches = [Batch("corn", id=n) for n in range(1, 6)]
    events = [BatchEvent(n, NOON, "paused", id=n) for n in range(1, 6)]
    journal = FakeJournal(Dryer("box", 1, id=1), *batches, *events)
    assert list(every_record(journal)) == [Dryer("box", 1, id=1), *batches, *events]
    asked: list[tuple[type, object]] = []
    where = journal.where
    journal.where = lambda kind, **equals: (asked.append((kind, equals.get("id"))), where(kind, **equals))[1]
    list(every_record(journal))
    assert [ids for kind, ids in asked if kind is Batch] == [(1, 2), (3, 4), (5,)]


def test_who_follows_an_export_is_told_at_every_five_hundredth_record(tmp_path: Path) -> None:
    counts: list[int] = []
    many = [Place(f"p{n}", n) for n in range(1, 1002)]
    assert write_records(many, tmp_path / "all.json", counts.append) == 1001
    assert counts == [0, 500, 1000]


def test_records_that_come_after_what_refers_to_them_are_our_own_mistake(tmp_path: Path) -> None:
    wrong = iter([Batch("corn", id=1), Dryer("box", 1, id=1)])
    with pytest.raises(ValueError, match="comes after kinds that refer to it"):
        write_records(wrong, tmp_path / "all.json")
    assert list(tmp_path.iterdir()) == []


def test_tables_are_called_by_their_kind() -> None:
    names = [table_file(kind) for kind in RECORD_KINDS]
    assert names[:6] == [
        "preference.csv", "own_food.csv", "own_figure.csv", "dryer.csv", "place.csv", "place_temperature.csv",
    ]  # fmt: skip
    assert len(set(names)) == len(names)
