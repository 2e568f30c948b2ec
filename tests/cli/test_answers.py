"""What every answer is made of: lines while there is room, stops always, one JSON object with its version."""

from __future__ import annotations

import argparse
import io
import json
import sys

import pytest

from dryhouse.cli import answers
from dryhouse.cli.verbs.plan import _folded
from dryhouse.cli.verbs.shelf import _nth
from dryhouse.science.display import METRIC, Style
from dryhouse.science.values import Basis, Caution, Figure, Measure

PLAIN = {"json": False, "workings": False, "cautions": False}
STOP, WARN, NOTE = (Caution(s, f"{s} it.", "a source", rule=s, moment="now") for s in ("stop", "warn", "note"))


def asked(**more: bool) -> argparse.Namespace:
    return argparse.Namespace(**(PLAIN | more))


def said(capsys, say, *given, **more) -> list[str]:
    say(*given, **more)
    return capsys.readouterr().out.splitlines()


def test_a_figure_is_said_with_its_interval_its_measure_and_what_it_rests_on(capsys) -> None:
    figure = Figure(198.4, "g", 170.0, 227.0, Measure(1.5, "cup"), (Basis("handbook", "a table"), Basis("entered")))
    lines = said(capsys, answers.say_figure, "Yield", figure, Style(METRIC), asked(), details=["more"])
    assert lines == [
        "Yield: 198 g  (80 %: 170 g to 227 g)",
        "  by measure: 355 ml",
        "  basis: handbook: a table, and 1 more",
        "  more",
        "  the arithmetic: add --workings",
    ]
    bare = said(
        capsys, answers.say_figure, "Keeps", Figure(9.0, "day", measure=Measure(9.0, "day")), Style(), asked()
    )
    assert bare == ["Keeps: 9 days"]
    one = said(capsys, answers.say_figure, "A", Figure(1.0, "g", basis=(Basis("entered"),)), Style(METRIC), asked())
    assert one[:2] == ["A: 1 g", "  basis: entered"]
    every = said(capsys, answers.say_figure, "Yield", figure, Style(METRIC), asked(workings=True))
    assert [line for line in every if "basis" in line] == ["  basis: handbook: a table", "  basis: entered"]
    water = Figure(156.0, "ml", 120.0, 210.0, Measure(0.66, "cup"))
    told = said(capsys, answers.say_figure, "Water", water, Style(METRIC), asked())
    assert told == ["Water: 160 ml  (80 %: 120 ml to 210 ml)"], "milliliters are not said twice"


def test_no_line_of_the_arithmetic_is_said_twice(capsys) -> None:
    lines = said(
        capsys,
        answers.say_answer,
        asked(workings=True),
        ["5 g"],
        details=["a"],
        workings=["a", "b", "c", "b", "5 g"],
    )
    assert lines == ["5 g", "  a", "  b", "  c"]
    nothing_more = said(capsys, answers.say_answer, asked(), ["5 g"], details=["a"], workings=["a"])
    assert nothing_more == ["5 g", "  a"]


def test_the_json_of_a_figure_has_its_version_and_what_is_beside_it(capsys) -> None:
    answers.say_figure("Yield", Figure(1.0, "g"), Style(), asked(json=True), more={"n": 3})
    found = json.loads(capsys.readouterr().out)
    assert (found["value"], found["n"], found["schema"]) == (1.0, 3, 2)


def test_an_answer_is_twelve_lines_and_its_stops(capsys) -> None:
    details = [f"detail {n}" for n in range(20)]
    lines = said(
        capsys, answers.say_answer, asked(), ["head"], details=details, cautions=[STOP, WARN, NOTE], rows=["row"]
    )
    assert lines[:2] == ["head", "row"]
    assert lines.count("  STOP: stop it. [a source]") == 1
    assert len(lines) == answers.MOST_LINES + 2  # a row of a list and a stop are not counted
    assert lines[-1] == "  the arithmetic: add --workings"
    assert len([line for line in lines if line.startswith("  detail")]) == 8
    full = said(capsys, answers.say_answer, asked(workings=True), ["head"], details=details, workings=["1 + 1"])
    assert (len(full), full[-1]) == (22, "  1 + 1")
    fits = said(capsys, answers.say_answer, asked(), ["head"], details=details[:10])
    assert len(fits) == 11
    over = said(capsys, answers.say_answer, asked(), ["head"], details=details[:11])
    assert over[-1] == "  the arithmetic: add --workings"


def test_what_is_folded_is_counted_with_the_way_to_it(capsys) -> None:
    many = [Caution("warn", f"warn {n}", "a source", rule=str(n)) for n in range(4)]
    lines = said(capsys, answers.say_answer, asked(), ["head"], cautions=many)
    assert lines[-1] == "  and 2 more cautions: add --cautions"
    lines = said(capsys, answers.say_answer, asked(), ["head"], cautions=many[:3])
    assert lines[-1] == "  and 1 more caution: add --cautions"
    lines = said(capsys, answers.say_answer, asked(cautions=True), ["head"], cautions=many)
    assert (len(lines), "add --" in lines[-1]) == (5, False)
    lines = said(capsys, answers.say_answer, asked(), ["head"], cautions=many, most=1, workings=["1 + 1"])
    assert lines[-1] == "  and 3 more cautions: add --cautions; the arithmetic: add --workings"


def test_a_list_says_each_row_with_its_stops_and_how_much_more_there_is(capsys) -> None:
    rows = [("corn", [NOTE, WARN]), ("turkey", [WARN, STOP])]
    lines = said(capsys, answers.say_items, [{}, {}], rows, asked(), if_none="None yet.")
    assert lines == ["corn", "turkey", "        STOP: stop it. [a source]", "and 3 more cautions: add --cautions"]
    every = said(capsys, answers.say_items, [{}, {}], rows, asked(cautions=True), if_none="None yet.")
    assert len(every) == 6
    assert said(capsys, answers.say_items, [], [], asked(), if_none="None yet.") == ["None yet."]
    answers.say_items([{"id": 7}], rows, asked(json=True), if_none="None yet.")
    assert json.loads(capsys.readouterr().out) == {"items": [{"id": 7}], "schema": 2}


@pytest.mark.parametrize(
    ("typed", "system"),
    [
        ("2 lb", "us"),
        ("850 g", METRIC),
        ("3#", "us"),
        ("1 cup", "us"),
        ("2 lb 500 ml", METRIC),
        ("7", None),
        ("", None),
    ],
)
def test_an_answer_is_in_the_system_of_the_unit_that_was_typed(typed, system) -> None:
    for own in (Style(), Style(METRIC, decimal_comma=True)):
        shown = answers.as_typed(own, typed)
        assert (shown.system, shown.decimal_comma) == (system or own.system, own.decimal_comma)


def test_a_terminal_of_few_letters_gets_json_it_can_write(monkeypatch) -> None:
    for encoding, has in (("ascii", "\\u00bd"), ("utf-8", "½"), ("UTF-8", "½")):
        raw = io.BytesIO()
        monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding=encoding))
        answers.say_json({"a": "½"})
        sys.stdout.flush()
        assert has in raw.getvalue().decode(encoding)


def test_the_longest_list_is_cut_first_and_says_how_much_of_it_there_is() -> None:
    long, short = [f"row {n}" for n in range(10)], ["a", "b"]
    assert _folded([long, short], 20) == [long, short]
    assert _folded([long, short], 12) == [long, short]
    assert _folded([long, short], 8) == [[*long[:5], "  and 5 more: add --full"], short]
    assert _folded([long, long], 1) == [[*long[:2], "  and 8 more: add --full"]] * 2


def test_the_order_of_use_is_said_as_it_is_spoken() -> None:
    assert [_nth(n) for n in (None, 1, 2, 3, 4, 10, 11, 12, 13, 20, 21, 22, 23, 30, 111, 121)] == [
        "", "first", "second", "third", "4th", "10th", "11th", "12th", "13th", "20th", "21st", "22nd", "23rd",
        "30th", "111th", "121st",
    ]  # fmt: skip
