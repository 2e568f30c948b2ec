"""The cells of a file of weighings, and what its columns are taken for."""

from __future__ import annotations

import pytest

from dryhouse.kitchen.dryer import weighing_sheets
from dryhouse.kitchen.dryer.weighing_sheets import (
    HOURS,
    MINUTES,
    MOMENTS,
    Sheet,
    SheetColumns,
    guess,
    read_file,
    read_sheet,
)
from dryhouse.science.errors import InputProblem
from tests.rows import every_row


@every_row(
    ("text", "columns"),
    [
        ("hours,load oz,empty,dryer C\n1,2,3,4\n", SheetColumns(0, 1, HOURS, "oz", 2, 3, "C")),
        ("elapsed min,lb\n1,2\n", SheetColumns(0, 1, MINUTES, "lb")),
        ("temp F,gross kg,tare,minutes\n1,2,3,4\n", SheetColumns(3, 1, MINUTES, "kg", 2, 0, "F")),
        ("when,net\n10:00,2\n", SheetColumns(0, 1, MOMENTS)),
        ("when,net\n3h,2\n", SheetColumns(0, 1, HOURS)),
        ("when,net\n10 pm,2\n", SheetColumns(0, 1, MOMENTS)),
        ("t,reading,air fahrenheit\n1,2,3\n", SheetColumns(0, 1, HOURS, "g", None, 2, "F")),
        ("1,2\n2,1\n", SheetColumns(0, 1)),
        ("1\n2\n", SheetColumns(0, None)),
        ("a;b\n1;2,5\n", SheetColumns(decimal_comma=True)),
        ("grams,other\n1,2\n", SheetColumns(None, 0)),
        ("hours,hours,g\n1,2,3\n", SheetColumns(0, 2)),
    ],
)
def test_columns_are_taken_for_what_their_names_and_first_cells_say(text, columns) -> None:
    assert guess(read_sheet(text)) == columns


def test_only_the_first_five_cells_say_how_times_are_written() -> None:
    rows = "".join(f"{n},900\n" for n in range(1, 5))
    assert guess(read_sheet(f"time,g\n{rows}14:00,800\n")).time_kind == MOMENTS
    assert guess(read_sheet(f"time,g\n{rows}5,850\n14:00,800\n")).time_kind == HOURS


@every_row(
    ("text", "sheet"),
    [
        ("hours,g\n1,2\n", Sheet(("hours", "g"), (("1", "2"),), (2,), False)),
        ("1,2\n3\n", Sheet(("column 1", "column 2"), (("1", "2"), ("3", "")), (1, 2), False)),
        ("# scale; kitchen\n\nhours\tg\n 1 \t 2,5 \n", Sheet(("hours", "g"), (("1", "2,5"),), (4,), True)),
        ("hours;g\n1;1.234,5\n", Sheet(("hours", "g"), (("1", "1.234,5"),), (2,), True)),
        ("hours;g\n1;2.5\n", Sheet(("hours", "g"), (("1", "2.5"),), (2,), False)),
        ("sep=;\nhours;g\n1;2\n", Sheet(("hours", "g"), (("1", "2"),), (3,), False)),
        ("hours,g,,\n1,2,,\n,,,\n2,1,,\n", Sheet(("hours", "g"), (("1", "2"), ("2", "1")), (2, 4), False)),
        ("hours,g\n1,2,3\n", Sheet(("hours", "g"), (("1", "2", "3"),), (2,), False)),
        ("hours,g,note\n1,2\n", Sheet(("hours", "g", "note"), (("1", "2", ""),), (2,), False)),
        (
            "Date,Time,g\n2026-01-02,10:00,900\n,,\n2026-01-02,11:00,800\n",
            Sheet(("Time", "g"), (("2026-01-02 10:00", "900"), ("2026-01-02 11:00", "800")), (2, 4), False),
        ),
        (
            "g,time of day,day\n900,10:00,1/2/2026\n",
            Sheet(("g", "time of day"), (("900", "1/2/2026 10:00"),), (2,), False),
        ),
        (
            "Date,Time,g\n2026-01-02,3h,900\n",
            Sheet(("Date", "Time", "g"), (("2026-01-02", "3h", "900"),), (2,), False),
        ),
        (
            "Date,Time,g\n2026-01-02 9:00,10:00,900\n",
            Sheet(("Date", "Time", "g"), (("2026-01-02 9:00", "10:00", "900"),), (2,), False),
        ),
        ("Date,g\n2026-01-02,900\n", Sheet(("Date", "g"), (("2026-01-02", "900"),), (2,), False)),
    ],
)
def test_cells_are_split_as_spreadsheets_and_scales_write_them(text, sheet) -> None:
    assert read_sheet(text) == sheet


def test_a_day_that_was_not_written_leaves_the_time_alone() -> None:
    sheet = read_sheet("Date,Time,g\n2026-01-02,10:00,900\n,11:00,800\n")
    assert [row[0] for row in sheet.rows] == ["2026-01-02 10:00", "11:00"]


@every_row(
    ("columns", "said"),
    [(200, ""), (201, "Line 2 has 201 cells; a file of weighings has a few columns.")],
)
def test_a_line_of_more_than_two_hundred_cells_is_no_weighing(columns, said) -> None:
    text = "hours,g\n1" + ",2" * (columns - 1) + "\n"
    if not said:
        assert len(read_sheet(text).rows[0]) == columns
        return
    with pytest.raises(InputProblem) as refused:
        read_sheet(text)
    assert refused.value.said == said


def test_a_header_of_more_than_two_hundred_names_is_none() -> None:
    for columns, taken in ((200, True), (201, False)):
        text = "hours" + ",x" * (columns - 1) + "\n1,2\n"
        if taken:
            assert len(read_sheet(text).header) == columns
            continue
        with pytest.raises(InputProblem, match="The first line names 201 columns"):
            read_sheet(text)


@every_row(
    ("text", "said"),
    [
        ("", "The file holds no weighings; it wants a column of times and a column of weights."),
        (",,\n# nothing\n", "The file holds no weighings; it wants a column of times and a column of weights."),
        ("hours,grams\n", "The file has a header and no weighings below it."),
    ],
)
def test_a_file_without_weighings_says_so(text, said) -> None:
    with pytest.raises(InputProblem) as refused:
        read_sheet(text)
    assert refused.value.said == said


def test_files_of_other_letters_and_of_any_size_but_too_large_are_read(tmp_path, monkeypatch) -> None:
    path = tmp_path / "weighings.csv"
    text = "hours,grams ½\n1,900\n"
    for encoding in ("utf-8", "utf-8-sig", "utf-16", "cp1252"):
        path.write_text(text, encoding=encoding)
        assert read_file(path) == Sheet(("hours", "grams ½"), (("1", "900"),), (2,), False), encoding
    monkeypatch.setattr(weighing_sheets, "LARGEST_BYTES", path.stat().st_size)
    assert read_file(path).lines == (2,)
    monkeypatch.setattr(weighing_sheets, "LARGEST_BYTES", path.stat().st_size - 1)
    with pytest.raises(InputProblem, match=r"weighings.csv is larger than a file of weighings can be"):
        read_file(path)


def test_a_line_with_a_day_and_no_time_of_day_keeps_the_two_columns_apart() -> None:
    text = "Date,Time,g\n2026-01-02,10:00,900\n2026-01-03,,800\n"
    assert read_sheet(text).header == ("Date", "Time", "g")
