"""Which tests reach which statements: a copy of the tree notes it while all tests are run once.

A break of a statement can only be noticed by a test that comes by. Knowing those, and how long each takes, a break
is tried with a few quick tests instead of all of them.
"""

from __future__ import annotations

import ast
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

NOTED = "reached.txt"
NOTING = '''"""Notes which test comes by which place."""

import os

_seen = set()
_file = os.path.join(os.path.dirname(os.path.dirname(os.path.abspath(__file__))), "reached.txt")


def reached(place):
    test = os.environ.get("PYTEST_CURRENT_TEST", "")
    if (place, test) not in _seen:
        _seen.add((place, test))
        with open(_file, "a", encoding="utf-8") as notes:
            notes.write(f"{place}\\t{test}\\n")
'''
_TOOK = re.compile(r"^\s*([\d.]+)s (?:call|setup|teardown)\s+(tests/.+?)\s*$", re.MULTILINE)


@dataclass(frozen=True)
class Reach:
    """For each place the tests that come by, the quickest first; for each test the seconds it takes."""

    tests: Mapping[int, tuple[str, ...]]
    seconds: Mapping[str, float]


def note_places(tree: Path, places: Iterable[tuple[int, str, int]]) -> None:
    """Make a copy of the tree note who comes by: each place is a number, a module's path and a line in it.

    A line outside every function is run when the module is imported, and is not noted.
    """
    by_path: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for number, path, line in places:
        by_path[path].append((number, line))
    (tree / "dryhouse" / "noting_places.py").write_text(NOTING, encoding="utf-8")
    for path, lines in by_path.items():
        file = tree / path
        module = ast.parse(file.read_text(encoding="utf-8"))
        for number, line in lines:
            _note(module, number, line)
        at = sum(isinstance(node, ast.Expr) or _is_future(node) for node in module.body[:2])
        brought = ast.parse("from dryhouse.noting_places import reached as _reached").body
        module.body[at:at] = brought
        file.write_text(ast.unparse(ast.fix_missing_locations(module)), encoding="utf-8")


def _is_future(node: ast.stmt) -> bool:
    return isinstance(node, ast.ImportFrom) and node.module == "__future__"


def _note(module: ast.Module, number: int, line: int) -> None:
    """Put a note before the innermost statement of a function that this line belongs to."""
    found: tuple[list[ast.stmt], ast.stmt] | None = None

    def look(node: ast.AST, inside: bool) -> None:
        nonlocal found
        for name, value in ast.iter_fields(node):
            for child in value if isinstance(value, list) else [value]:
                if not isinstance(child, ast.AST):
                    continue
                body = isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and name == "body"
                holds = isinstance(child, ast.stmt) and child.lineno <= line <= (child.end_lineno or 0)
                if holds and (inside or body) and isinstance(value, list):
                    found = (value, child)
                look(child, inside or body)

    look(module, False)
    if found is not None:
        body, statement = found
        note = ast.parse(f"_reached({number})").body[0]
        body.insert(body.index(statement), note)


def read_notes(tree: Path, told: str) -> Reach:
    """What was noted, and how long each test took, from what pytest told with `--durations=0`.

    What is reached while a test is set up is reached for all tests of its file.
    """
    seconds: dict[str, float] = defaultdict(float)
    for took, test in _TOOK.findall(told):
        seconds[test] += float(took)
    by_file: dict[str, list[str]] = defaultdict(list)
    for test in seconds:
        by_file[test.split("::")[0]].append(test)
    found: dict[int, set[str]] = defaultdict(set)
    notes = tree / NOTED
    for note in notes.read_text(encoding="utf-8").splitlines() if notes.exists() else ():
        place, _, who = note.partition("\t")
        test, _, phase = who.rpartition(" ")
        if not test:
            continue
        found[int(place)] |= set(by_file[test.split("::")[0]]) if phase == "(setup)" else {test}
    quickest = {place: tuple(sorted(tests, key=lambda t: (seconds[t], t))) for place, tests in found.items()}
    return Reach(quickest, seconds)
