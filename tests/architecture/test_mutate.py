"""The script that breaks the code on purpose breaks what it says, in a copy, and puts it right again."""

import ast
from subprocess import CompletedProcess

import pytest

from tests import mutate
from tests.forked import Functions
from tests.reached import NOTED as NOTES
from tests.reached import PLUGIN, Notes, Reach, note_everything, read_notes, statement_at

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


@pytest.fixture
def noted(tmp_path):
    (tmp_path / "dryhouse").mkdir()
    (tmp_path / "dryhouse" / "m.py").write_text(NOTED, encoding="utf-8")
    return tmp_path


def test_every_statement_of_a_function_is_noted_when_it_is_run(noted):
    file = noted / "dryhouse" / "m.py"
    places = note_everything(noted, ["dryhouse/m.py"])
    assert sorted(places) == [("dryhouse/m.py", line) for line in (10, 11, 12, 13, 14, 15)]
    code = file.read_text(encoding="utf-8").replace(f"from {PLUGIN} import reached as _reached", "")
    world = {"_reached": (seen := []).append}
    exec(compile(code, "m", "exec"), world)
    for n, lines in ((0, [10, 13, 15]), (1, [10, 13, 14]), (2, [10, 11, 12, 12, 15])):
        seen.clear()
        world["f"](n)
        assert [places[number][1] for number in seen] == lines


@pytest.mark.parametrize(("line", "held"), [(8, None), (9, None), (10, 10), (12, 12), (13, 13), (14, 14)])
def test_a_line_belongs_to_the_innermost_statement_of_a_function(noted, line, held):
    assert statement_at(noted / "dryhouse" / "m.py", line) == held


def test_the_quickest_tests_that_come_by_are_asked_first(noted):
    (noted / NOTES).write_text(
        """{"test": "tests/a.py::slow", "when": "call", "seconds": 2.5, "failed": false, "places": [0]}
{"test": "tests/a.py::quick", "when": "call", "seconds": 0.01, "failed": false, "places": [0]}
{"test": "tests/a.py::wrong", "when": "call", "seconds": 0.0, "failed": true, "places": [0]}
{"test": "tests/b.py::one", "when": "setup", "seconds": 0.2, "failed": false, "places": [1]}
{"test": "tests/b.py::two", "when": "call", "seconds": 0.1, "failed": false, "places": []}
""",
        encoding="utf-8",
    )
    places = [("dryhouse/m.py", 10), ("dryhouse/m.py", 14)]
    notes = Notes({"dryhouse/m.py": NOTED}, {}, read_notes(noted, places))
    reach = notes.reach()

    def come_by(line: int, reach: Reach = reach) -> list[str]:
        return reach.come_by("dryhouse/m.py", line, noted)

    assert come_by(10) == ["tests/a.py::quick", "tests/a.py::slow"]
    assert come_by(14) == ["tests/b.py::two", "tests/b.py::one"]
    assert come_by(15) == []
    assert come_by(8) == come_by(10)[:1] + come_by(14) + come_by(10)[1:]  # what is run on import: whoever comes by
    assert mutate.quick(come_by(10), {"tests/a.py::slow": 1e6}) == ["tests/a.py::quick"]
    notes.moved({"dryhouse/m.py": NOTED.replace("\n\ndef", "\n\nM = 1\n\n\ndef").replace("n > 1", "n > 2")})
    moved = notes.reach().tests["dryhouse/m.py"]
    assert {line: sorted(tests) for line, tests in moved.items()} == {17: ["tests/b.py::one", "tests/b.py::two"]}


def test_what_was_noted_is_kept_and_only_tests_that_changed_are_noted_again(tmp_path):
    tests = [tmp_path / name for name in ("a.py", "b.py", "c.py")]
    for file in tests:
        file.write_text("", encoding="utf-8")
    notes = Notes()
    assert notes.changed(tmp_path, tests) == ["a.py", "b.py", "c.py"]
    notes.tests = {f"{name}::t": {"seconds": 1.0} for name in ("a.py", "b.py", "c.py")}
    notes.write(tmp_path / "kept" / "notes.json")
    tests[1].write_text("more", encoding="utf-8")
    notes = Notes.read(tmp_path / "kept" / "notes.json")
    assert notes.changed(tmp_path, tests[:2]) == ["b.py"]
    assert list(notes.tests) == ["a.py::t"]


def test_functions_that_are_there_already_get_the_code_they_would_have(noted):
    file = noted / "dryhouse" / "m.py"
    exec(compile(NOTED, str(file), "exec"), world := {})
    functions = Functions()
    assert world["f"](3) == 6
    assert functions.broken(file, NOTED.replace("n > 1", "n > 9"))
    assert world["f"](3) == [0, 1, 2]
    assert functions.broken(file, NOTED.replace("k for k in", "k * n for k in"))  # inside what a function makes
    assert world["f"](1) == [0]
    assert functions.broken(file, NOTED.replace("n > 1", "n > 9").replace("k for k in", "k * n for k in"))
    assert world["f"](3) == [0, 3, 6]
    assert not functions.broken(file, NOTED)  # as it stands
    assert not functions.broken(file, NOTED.replace("Path", "PurePath"))  # what is run on import can't be broken so
