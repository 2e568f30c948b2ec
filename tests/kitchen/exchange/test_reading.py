"""A JSON export is read record by record, however it is laid out and wherever it is cut."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from dryhouse.kitchen.exchange import entries, json_stream, read_records, write_records
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import Batch, Dryer, Lot, LotDraw, Meal, Trip, Weighing
from dryhouse.kitchen.records.links import LINKS
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
DAY = date(2026, 8, 1)
EVERYTHING: tuple[Record, ...] = (
    Dryer("shelf dryer", 6, id=1),
    Trip("lake ½ \N{CANOE}", DAY, DAY, id=2),
    Meal("soup", id=3),
    Batch("corn", dryer=1, trip=2, notes="späte Ähren \N{EAR OF MAIZE}\n", started=NOON, id=4),
    Weighing(4, NOON, Mass(850.5, "850.5 g"), id=5),
    Lot("corn", DAY, batch=4, id=6),
    LotDraw(6, DAY, meal=3, id=7),
)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    write_records(EVERYTHING, tmp_path / "all.json")
    return tmp_path / "all.json"


def content(file: Path) -> dict[str, Any]:
    whole: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    return whole


def in_order(records: list[Record]) -> bool:
    """Whether each record comes after those it refers to."""
    there: set[tuple[type, int]] = set()
    for record in records:
        for name, target in LINKS.get(type(record), {}).items():
            number = getattr(record, name)
            if number is not None and (target, number) not in there:
                return False
        there.add((type(record), record.id))
    return True


@pytest.mark.parametrize(
    "layout", [{"indent": 3}, {"sort_keys": True}, {"ensure_ascii": True}, {"separators": (",", ":")}]
)
def test_any_layout_is_read_and_owners_come_first(file: Path, layout: dict[str, Any]) -> None:
    file.write_text(json.dumps(content(file), **{"ensure_ascii": False, **layout}), encoding="utf-8")
    read = read_records(file)
    assert sorted(map(repr, read)) == sorted(map(repr, EVERYTHING))
    assert in_order(read)


def test_the_kinds_may_stand_in_the_order_of_former_exports(file: Path) -> None:
    whole = content(file)
    whole["records"] = {name: whole["records"][name] for name in reversed(whole["records"])}
    file.write_text("\ufeff" + json.dumps(whole, ensure_ascii=False), encoding="utf-8")
    read = read_records(file)
    assert len(read) == len(EVERYTHING)
    assert in_order(read)


def test_a_kind_that_is_not_there_is_no_kind(file: Path) -> None:
    whole = content(file)
    whole["records"] = {name: listed for name, listed in whole["records"].items() if listed}
    file.write_text(json.dumps(whole), encoding="utf-8")
    assert in_order(read_records(file))


@pytest.mark.parametrize("at_once", [1, 2, 3, 7, 64])
@pytest.mark.parametrize("ascii_only", [True, False])
def test_it_does_not_matter_where_the_file_is_cut_for_reading(
    file: Path, monkeypatch, at_once: int, ascii_only: bool
) -> None:
    file.write_text(json.dumps(content(file), ensure_ascii=ascii_only, sort_keys=True), encoding="utf-8")
    monkeypatch.setattr(json_stream, "_AT_ONCE", at_once)
    assert sorted(map(repr, read_records(file))) == sorted(map(repr, EVERYTHING))


def test_what_says_what_the_file_is_may_come_last_and_must_come(file: Path) -> None:
    whole = content(file)
    last = {"records": whole["records"], "version": 1, "format": whole["format"]}
    file.write_text(json.dumps(last), encoding="utf-8")
    assert len(read_records(file)) == len(EVERYTHING)
    for left_out in ("version", "format"):
        file.write_text(json.dumps({k: v for k, v in last.items() if k != left_out}), encoding="utf-8")
        with pytest.raises(InputProblem, match=r"not a journal's export|has version None"):
            read_records(file)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text[:-2],
        lambda text: text[: len(text) // 2],
        lambda text: text[: text.index('"Dryer":') + len('"Dryer":')],
        lambda text: text[: text.index('"records":') + len('"records":')],
        lambda text: text + "}",
        lambda text: text.replace("},\n", "}\n", 1) if "},\n" in text else text.replace("],", "]", 1),
        lambda text: text.replace('"Dryer": [', '"Dryer": [,'),
        lambda text: text.replace('"Dryer"', "Dryer"),
        lambda text: text.replace('"name": "shelf', '"name": "she\nlf'),
        lambda text: text.replace('"trays": 6', f'"trays": {"[" * 100_000}'),
        lambda text: text.replace('"trays": 6', f'"trays": {"9" * 5000}'),
        lambda text: text.replace('"trays": 6', '"trays": 6.6.6'),
    ],
)
def test_what_is_not_whole_json_is_refused_with_its_line(file: Path, spoil) -> None:
    file.write_text(spoil(file.read_text(encoding="utf-8")), encoding="utf-8")
    with pytest.raises(InputProblem, match=r"not whole JSON \(line \d+\)"):
        read_records(file)


def test_bytes_that_are_no_text_are_refused(file: Path) -> None:
    file.write_bytes(file.read_bytes().replace("½".encode(), b"\xff"))
    with pytest.raises(InputProblem, match="not text"):
        read_records(file)


@pytest.mark.parametrize("name", ["all.json", "tables"])
def test_how_far_the_reading_is_only_grows_up_to_the_whole(tmp_path: Path, name: str) -> None:
    many = [EVERYTHING[0], *(Batch("corn", dryer=1, id=n) for n in range(1, 5000))]
    write_records(many, tmp_path / name)
    shares = [entry.share for entry in entries(tmp_path / name)]
    assert shares == sorted(shares)
    assert shares[0] < 0.5 < shares[-1] <= 1.0


def test_a_name_longer_than_any_file_is_said_to_be(tmp_path: Path) -> None:
    with pytest.raises(InputProblem, match="longer than the name of any file"):
        read_records(tmp_path / ("a" * 5000))


def test_a_file_that_lists_nothing_is_told_from_one_that_breaks_off(file: Path) -> None:
    told = {}
    for text in ("[]", "[", "3", "{}", '{"format": "other"}', '{"format": "dryhouse journal", "version": 12}'):
        file.write_text(text, encoding="utf-8")
        with pytest.raises(InputProblem) as caught:
            read_records(file)
        told[text] = str(caught.value.said)
    other = f"“{file}” is not a journal's export: it does not say “dryhouse journal”."
    assert told == {
        "[]": other,
        "[": f"“{file}” is not a journal's export: it is not whole JSON (line 1).",
        "3": other,
        "{}": other,
        '{"format": "other"}': other,
        '{"format": "dryhouse journal", "version": 12}': f"“{file}” has version 12; this program reads version 1.",
    }


def test_a_number_cut_in_two_is_read_whole(file: Path, monkeypatch) -> None:
    file.write_text('{"version": 12, "format": "dryhouse journal", "records": {}}', encoding="utf-8")
    monkeypatch.setattr(json_stream, "_AT_ONCE", 1)
    with pytest.raises(InputProblem, match="has version 12; this program reads version 1"):
        read_records(file)


def test_what_is_wrong_is_told_with_the_place_of_the_record_in_its_list(file: Path) -> None:
    for kind, said in (
        ({"food": "corn", "rating": "good"}, ": “rating” is “good”; it should be a whole number."),
        ({"food": "corn", "notes": "\ud800"}, " holds half a character, which cannot be kept; write it whole."),
        ({"food": "corn", "lid": 1}, " has “lid”, which Batch records do not have."),
        ({"rating": 4}, " has no “food”, which every Batch needs."),
        (7, " is not a record: it should be a group of named values."),
    ):
        whole = {"format": "dryhouse journal", "version": 1, "records": {"Batch": [{"food": "corn"}, kind]}}
        file.write_text(json.dumps(whole), encoding="utf-8")
        with pytest.raises(InputProblem) as caught:
            read_records(file)
        assert str(caught.value.said) == f"all.json, Batch 2{said}"


def test_the_line_where_the_json_breaks_is_counted_from_the_top(file: Path, monkeypatch) -> None:
    lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
    broken = next(n for n, line in enumerate(lines, 1) if '"shelf dryer"' in line)
    lines[broken - 1] = lines[broken - 1].replace('"shelf dryer"', "shelf dryer")
    file.write_text("".join(lines), encoding="utf-8")
    for at_once in (1 << 16, 5):
        monkeypatch.setattr(json_stream, "_AT_ONCE", at_once)
        with pytest.raises(InputProblem, match=rf"it is not whole JSON \(line {broken}\)"):
            read_records(file)


@pytest.mark.parametrize("at_once", [1, 7, 64, 100, 333, 1000])
def test_whole_lines_are_read_wherever_the_file_is_cut(tmp_path: Path, monkeypatch, at_once: int) -> None:
    many = [EVERYTHING[0], *(Batch("corn", dryer=1, notes="ä," * (n % 5), id=n) for n in range(1, 40))]
    write_records(many, tmp_path / "many.json")
    monkeypatch.setattr(json_stream, "_AT_ONCE", at_once)
    assert read_records(tmp_path / "many.json") == many


def test_one_value_longer_than_anyone_writes_is_refused(file: Path, monkeypatch) -> None:
    file.write_text(file.read_text(encoding="utf-8").replace("späte", "spät" + "e" * 900), encoding="utf-8")
    monkeypatch.setattr(json_stream, "_AT_ONCE", 100)
    monkeypatch.setattr(json_stream, "_LONGEST", 2000)
    assert len(read_records(file)) == len(EVERYTHING)
    monkeypatch.setattr(json_stream, "_LONGEST", 500)
    with pytest.raises(InputProblem, match="it is not whole JSON"):
        read_records(file)


def test_a_list_that_comes_before_what_it_refers_to_is_read_after_it_from_where_it_stands(file: Path) -> None:
    whole = content(file)
    records = whole["records"]
    order = ["Weighing", "LotDraw", "Lot", "Batch", "Meal", "Trip", "Dryer"]
    rest = {name: listed for name, listed in records.items() if name not in order}
    whole["records"] = {name: records[name] for name in order} | rest
    for indent in (None, 1):
        file.write_text(json.dumps(whole, ensure_ascii=False, indent=indent), encoding="utf-8")
        read = read_records(file)
        assert in_order(read)
        assert sorted(map(repr, read)) == sorted(map(repr, EVERYTHING))


def test_lists_of_an_unknown_kind_or_that_are_no_lists_are_told(file: Path) -> None:
    def said(records: object) -> str:
        file.write_text(
            json.dumps({"format": "dryhouse journal", "version": 1, "records": records}), encoding="utf-8"
        )
        with pytest.raises(InputProblem) as caught:
            read_records(file)
        return str(caught.value.said)

    assert said([]) == said({"Batch": {}}) == said("none") == f"“{file}” has no list of records."
    assert said({"Recipe": []}) == f"“{file}” has records of a kind not known here: “Recipe”."
    file.write_text('{"format": "dryhouse journal", "version": 1}', encoding="utf-8")
    with pytest.raises(InputProblem, match="has no list of records"):
        read_records(file)
