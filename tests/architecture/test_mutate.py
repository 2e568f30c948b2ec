"""The script that breaks the code on purpose breaks what it says, in a copy, and puts it right again."""

import ast

import pytest

from tests import mutate

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
    monkeypatch.setattr(mutate, "stages", lambda path: [["tests"]])
    monkeypatch.setattr(mutate, "_failed", lambda tests, tree, left_out: seen.append(module.read_text()) or "")
    for mutant in mutate.mutants_of(module):
        assert mutate.caught(mutant, tmp_path, set()) == ""
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

    monkeypatch.setattr(mutate, "stages", lambda path: [["tests"]])
    monkeypatch.setattr(mutate, "_failed", failed)
    left_out = set()
    assert mutate.caught(mutate.mutants_of(module)[0], tmp_path, left_out) == "FAILED tests/a.py::notices"
    assert left_out == {"tests/a.py::fails_anyway"}
    assert [broken for broken, _ in asked] == [True, False, True, False]


def test_the_same_seed_picks_the_same_breaks():
    assert mutate.picked(7, 5, "dryhouse/science/units", []) == mutate.picked(7, 5, "dryhouse/science/units", [])
