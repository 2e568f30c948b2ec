"""A file that grows: every finished line once, whatever is done to the file."""

from __future__ import annotations

import os

import pytest

from dryhouse.kitchen.instruments.growing_file import MOST_BYTES, GrowingFile
from tests.kitchen.drying_room import NOON


@pytest.fixture
def path(tmp_path):
    return tmp_path / "scale.csv"


def append(path, text: str) -> None:
    with path.open("a", encoding="utf-8", newline="") as file:
        file.write(text)


def test_lines_are_answered_once_and_half_a_line_waits_for_its_end(path) -> None:
    append(path, "1\n2\n3")
    file = GrowingFile(path)
    assert file.lines(NOON) == ["1", "2"]
    assert file.lines(NOON) == []
    append(path, "4\r\n5\r\n")
    assert file.lines(NOON) == ["34", "5"]


def test_a_file_that_is_rotated_is_read_to_its_end_and_then_the_new_one_from_its_start(path) -> None:
    append(path, "1\n")
    file = GrowingFile(path)
    assert file.lines(NOON) == ["1"]
    append(path, "2\n")
    os.rename(path, path.with_suffix(".1"))
    append(path, "3\n")
    assert file.lines(NOON) == ["2"]
    assert file.lines(NOON) == ["3"]
    assert file.lines(NOON) == []


def test_a_file_that_is_truncated_is_read_from_its_start_again(path) -> None:
    append(path, "1\n2\n3\n")
    file = GrowingFile(path)
    file.lines(NOON)
    path.write_text("4\n")
    assert file.lines(NOON) == ["4"]


def test_a_file_that_is_not_there_is_waited_for_and_one_that_went_too(path) -> None:
    file = GrowingFile(path)
    assert file.lines(NOON) == []
    assert file.gone
    append(path, "1\n")
    assert file.lines(NOON) == ["1"]
    path.unlink()
    file.lines(NOON)
    assert file.gone
    append(path, "2\n")
    assert file.lines(NOON) == ["2"]


def test_from_its_end_only_what_is_added_counts(path) -> None:
    append(path, "1\n")
    file = GrowingFile(path, from_start=False)
    assert file.lines(NOON) == []
    append(path, "2\n")
    assert file.lines(NOON) == ["2"]


def test_a_large_file_is_read_part_by_part_and_no_line_is_lost(path) -> None:
    wanted = [f"line {n}" for n in range(60_000)]
    path.write_text("\n".join(wanted) + "\n")
    file, found = GrowingFile(path), []
    while more := file.lines(NOON):
        assert len("\n".join(more)) <= MOST_BYTES + 100
        found += more
    assert found == wanted


def test_bytes_that_are_no_text_do_no_harm(path) -> None:
    path.write_bytes(b"\xff\xfe\x00\n860 g\n")
    assert GrowingFile(path).lines(NOON)[1] == "860 g"


def test_each_file_is_let_go_when_another_takes_its_place_or_it_went(path, monkeypatch) -> None:
    opened, closed = [], []
    whole, shut = os.open, os.close
    monkeypatch.setattr(os, "open", lambda *how: opened.append(whole(*how)) or opened[-1])
    monkeypatch.setattr(os, "close", lambda end: closed.append(end) or shut(end))
    file = GrowingFile(path)
    assert not file.gone
    append(path, "1\n")
    assert file.lines(NOON) == ["1"]
    assert not file.gone
    os.rename(path, path.with_suffix(".1"))
    append(path, "2\n")
    assert file.lines(NOON) == ["2"]
    assert closed == opened[:1]
    path.unlink()
    file.lines(NOON)
    assert file.gone
    assert closed == opened
    file.close()
    assert closed == opened
