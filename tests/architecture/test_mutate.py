"""The script that breaks the code on purpose breaks what it says, in a copy, and puts it right again."""

import ast
from subprocess import CompletedProcess

import pytest

from tests import mutate
from tests.reached import NOTED as NOTES
from tests.reached import note_places, read_notes

SOURCE = '''"""A module."""
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    N = 1 + 1


def f(a: int = 1, b: float = 0.5) -> bool:
    g(a)
    if not a or b < 2 and a is not None:
        return (a) + (b)
    return False


def g(x):
    return None
'''


@pytest.fixture
def module(tmp_path, monkeypatch):
    monkeypatch.setattr(mutate, "ROOT", tmp_path)
    path = tmp_path / "m.py"
    path.write_text(SOURCE, encoding="utf-8")
    return path


def test_each_kind_of_break_is_found_where_it_is_and_nothing_else(module):
    found = [(m.line, m.before, m.after) for m in mutate.mutants_of(module)]
    assert sorted(found) == sorted(
        [
            (8, "1", "2"),
            (8, "0.5", "1.5"),
            (9, "g(a)", "pass"),
            (10, "or", "and"),
            (10, "not a", "a"),
            (10, "and", "or"),
            (10, "<", "<="),
            (10, "2", "3"),
            (10, "is not", "is"),
            (11, "return (a) + (b)", "return None"),
            (11, "+", "-"),
            (12, "return False", "return None"),
            (12, "False", "True"),
        ]
    )


def test_every_break_is_still_a_program_and_the_tree_is_put_right(module, tmp_path, monkeypatch):
    seen = []
    monkeypatch.setattr(mutate, "_failed", lambda tests, tree, left_out: seen.append(module.read_text()) or "")
    for mutant in mutate.mutants_of(module):
        assert mutate.caught(mutant, tmp_path, set(), [["tests"]]) == ""
        assert seen[-1] != SOURCE
        ast.parse(seen[-1])
        assert module.read_text(encoding="utf-8") == SOURCE


def test_a_test_that_fails_as_the_code_stands_does_not_count(module, tmp_path, monkeypatch):
    asked = []

    def failed(tests, tree, left_out):
        broken = module.read_text() != SOURCE
        asked.append((broken, tests))
        if tests != ["tests/a.py::notices"] and "tests/a.py::fails_anyway" not in left_out:
            return "FAILED tests/a.py::fails_anyway"
        return "FAILED tests/a.py::notices" if broken else ""

    monkeypatch.setattr(mutate, "_failed", failed)
    left_out = set()
    assert (
        mutate.caught(mutate.mutants_of(module)[0], tmp_path, left_out, [["tests"]]) == "FAILED tests/a.py::notices"
    )
    assert left_out == {"tests/a.py::fails_anyway"}
    assert [broken for broken, _ in asked] == [True, False, True, False]


def test_a_file_that_cannot_be_read_as_the_code_stands_is_not_asked(tmp_path, monkeypatch):
    asked = []
    ended = CompletedProcess([], 0, "", "")
    monkeypatch.setattr(mutate, "_pytest", lambda arguments, tree: asked.append(arguments) or ended)
    left_out = {"tests/a.py", "tests/b.py::fails"}
    assert mutate._failed(["tests/a.py", "tests/b.py"], tmp_path, left_out) == ""
    assert mutate._failed(["tests/a.py"], tmp_path, left_out) == ""
    assert asked == [["-x", "-n", "0", "--ignore=tests/a.py", "--deselect=tests/b.py::fails", "tests/b.py"]]


def test_a_module_no_test_names_asks_the_tests_that_stand_beside_it():
    assert mutate.stages("dryhouse/cli/verbs/log.py")[0] == ["tests/cli"]


def test_the_same_seed_picks_the_same_breaks():
    assert mutate.picked(7, 5, "dryhouse/science/units", []) == mutate.picked(7, 5, "dryhouse/science/units", [])


NOTED = '''"""A module."""

from __future__ import annotations

from pathlib import Path


def f(n):
    """What it does."""
    if n > 1:
        for each in range(n):
            n += each
    elif n:
        return [k for k in range(n)]
    return n
'''


def test_only_what_a_function_does_when_it_is_called_is_noted(tmp_path):
    (tmp_path / "dryhouse").mkdir()
    file = tmp_path / "dryhouse" / "m.py"
    file.write_text(NOTED, encoding="utf-8")
    note_places(tmp_path, [(1, "dryhouse/m.py", 12), (2, "dryhouse/m.py", 14), (3, "dryhouse/m.py", 8)])
    inside = {"range": range}
    code = file.read_text(encoding="utf-8").replace("from dryhouse.noting_places import reached as _reached", "")
    seen = []
    exec(compile(code, "m", "exec"), inside | (world := {"_reached": seen.append}), world)
    for n, places in ((0, []), (1, [2]), (3, [1, 1, 1])):
        seen.clear()
        world["f"](n)
        assert seen == places


def test_the_quickest_tests_that_come_by_are_asked_first(tmp_path):
    (tmp_path / NOTES).write_text(
        "7\ttests/a.py::slow (call)\n7\ttests/a.py::quick (call)\n8\ttests/b.py::one (setup)\n9\t\n",
        encoding="utf-8",
    )
    told = (
        "2.50s call     tests/a.py::slow\n0.01s call tests/a.py::quick\n0.2s setup  tests/b.py::one\n"
        "0.10s call tests/b.py::two\n"
    )
    reach = read_notes(tmp_path, told)
    assert reach.tests == {7: ("tests/a.py::quick", "tests/a.py::slow"), 8: ("tests/b.py::two", "tests/b.py::one")}
    assert mutate.quick(reach.tests[7], {**reach.seconds, "tests/a.py::slow": 1e6}) == ["tests/a.py::quick"]
