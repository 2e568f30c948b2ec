"""Which tests reach which statements: a copy of the tree notes it while all tests are run once.

A break of a statement can only be noticed by a test that comes by. Knowing those, and how long each takes, a break
is tried with a few quick tests instead of all of them. Every statement of every function is noted, so that one
run serves any number of breaks. The notes are kept in a file: a statement is found again by its text when lines
above it have come or gone, and tests that changed since are noted anew.
"""

from __future__ import annotations

import ast
import difflib
import hashlib
import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

NOTED = "reached.jsonl"
PLUGIN = "noting_places"
NOTING = '''"""Notes which test comes by which statement."""

import atexit
import json
import os
from pathlib import Path

_seen = set()
reached = _seen.add
_file = Path(__file__).with_name("reached.jsonl")


def _write(**note):
    places = sorted(_seen)
    _seen.clear()
    with open(_file, "a", encoding="utf-8") as notes:
        notes.write(json.dumps({**note, "places": places}) + "\\n")


def pytest_runtest_logreport(report):
    _write(test=report.nodeid, when=report.when, seconds=report.duration, failed=report.failed)


@atexit.register
def _at_the_end():
    test, _, phase = os.environ.get("PYTEST_CURRENT_TEST", "").rpartition(" ")
    if test and _seen:
        _write(test=test, when=phase.strip("()"), seconds=0.0, failed=False)
'''


@dataclass(frozen=True)
class Reach:
    """The tests that come by each place (a module and a line in it), and how long each test takes."""

    tests: Mapping[str, Mapping[int, frozenset[str]]]
    seconds: Mapping[str, float]
    failed: frozenset[str] = frozenset()
    """What fails as the code stands."""

    def come_by(self, path: str, line: int, root: Path) -> list[str]:
        """The tests that come by the statement of a function that this line of a module belongs to, the quickest
        first; for what is run when the module is imported, those that come by anything in it."""
        noted = self.tests.get(path, {})
        held = statement_at(root / path, line)
        found = frozenset().union(*noted.values()) if held is None else noted.get(held, frozenset())
        return sorted(found - self.failed, key=lambda test: (self.seconds.get(test, 0.0), test))


@dataclass
class Notes:
    """What was noted: for each test its seconds and the lines it came by, and the tree as it stood then."""

    sources: dict[str, str] = field(default_factory=dict)
    files: dict[str, str] = field(default_factory=dict)
    tests: dict[str, dict[str, Any]] = field(default_factory=dict)

    @staticmethod
    def read(file: Path) -> Notes:
        """The notes of a file; none where there is none yet."""
        return Notes(**json.loads(file.read_text(encoding="utf-8"))) if file.exists() else Notes()

    def write(self, file: Path) -> None:
        """Keep them for the next breaks."""
        file.parent.mkdir(exist_ok=True)
        file.write_text(json.dumps(vars(self)), encoding="utf-8")

    def changed(self, root: Path, tests: Iterable[Path]) -> list[str]:
        """The files of tests that are not as they were noted; what is gone is forgotten."""
        now = {str(path.relative_to(root)): _digest(path) for path in tests}
        other = [name for name, digest in now.items() if self.files.get(name) != digest]
        self.tests = {t: n for t, n in self.tests.items() if (f := t.split("::")[0]) in now and f not in other}
        self.files = now
        return sorted(other)

    def moved(self, now: Mapping[str, str]) -> None:
        """Number all lines as these sources have them; what is not in them any more is forgotten."""
        to = {path: _lines_now(was, now.get(path, "")) for path, was in self.sources.items()}
        for noted in self.tests.values():
            for when in ("call", "setup"):
                noted[when] = {p: [to[p][n] for n in lines if n in to[p]] for p, lines in noted[when].items()}
        self.sources = dict(now)

    def reach(self) -> Reach:
        """Who comes by which line."""
        found: dict[str, dict[int, set[str]]] = defaultdict(lambda: defaultdict(set))
        by_file: dict[str, list[str]] = defaultdict(list)
        for test in self.tests:
            by_file[test.split("::")[0]].append(test)
        for test, noted in self.tests.items():
            for when, whose in (("call", [test]), ("setup", by_file[test.split("::")[0]])):
                for path, lines in noted[when].items():
                    for line in lines:
                        found[path][line].update(whose)
        kept = {path: {n: frozenset(tests) for n, tests in lines.items()} for path, lines in found.items()}
        seconds = {test: noted["seconds"] for test, noted in self.tests.items()}
        return Reach(kept, seconds, frozenset(test for test, noted in self.tests.items() if noted["failed"]))


def _digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def _lines_now(was: str, now: str) -> dict[int, int]:
    """From the number of each line as it was to its number now."""
    if was == now:
        return {n: n for n in range(1, was.count("\n") + 2)}
    blocks = difflib.SequenceMatcher(None, was.splitlines(), now.splitlines(), autojunk=False).get_matching_blocks()
    return {a + n: b + n for a, b, size in blocks for n in range(1, size + 1)}


# --- a copy of the tree that notes ----------------------------------------------------------------------------


def note_everything(tree: Path, paths: Iterable[str]) -> list[tuple[str, int]]:
    """Make a copy of the tree note who comes by each statement of a function of these modules: what each number in
    the notes stands for, a module and a line. What is run when a module is imported is not noted."""
    places: list[tuple[str, int]] = []
    (tree / f"{PLUGIN}.py").write_text(NOTING, encoding="utf-8")
    for path in paths:
        file = tree / path
        module = ast.parse(file.read_text(encoding="utf-8"))
        for body, statement in list(_statements(module)):
            note = ast.parse(f"_reached({len(places)})").body[0]
            body.insert(next(n for n, held in enumerate(body) if held is statement), note)
            places.append((path, statement.lineno))
        at = sum(isinstance(node, ast.Expr) or _is_future(node) for node in module.body[:2])
        module.body[at:at] = ast.parse(f"from {PLUGIN} import reached as _reached").body
        file.write_text(ast.unparse(ast.fix_missing_locations(module)), encoding="utf-8")
    return places


def _is_future(node: ast.stmt) -> bool:
    return isinstance(node, ast.ImportFrom) and node.module == "__future__"


def _statements(node: ast.AST, inside: bool = False) -> Iterator[tuple[list[Any], ast.stmt]]:
    """Every statement inside a function, with the list it stands in; what a docstring says is none."""
    for name, value in ast.iter_fields(node):
        body = inside or (isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and name == "body")
        for child in list(value) if isinstance(value, list) else [value]:
            if not isinstance(child, ast.AST):
                continue
            if body and isinstance(child, ast.stmt) and not _says_nothing(child):
                yield value, child
            yield from _statements(child, body)


def _says_nothing(statement: ast.stmt) -> bool:
    return isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant)


@cache
def _spans(file: Path) -> list[tuple[int, int]]:
    module = ast.parse(file.read_text(encoding="utf-8"))
    return [(s.lineno, s.end_lineno or s.lineno) for _, s in _statements(module)]


def statement_at(file: Path, line: int) -> int | None:
    """The line on which the innermost statement of a function begins that this line belongs to."""
    held = [first for first, last in _spans(file) if first <= line <= last]
    return max(held, default=None)


def read_notes(tree: Path, places: list[tuple[str, int]]) -> dict[str, dict[str, Any]]:
    """What was noted in a copy of the tree, for each test."""
    found: dict[str, dict[str, Any]] = {}
    file = tree / NOTED
    for line in file.read_text(encoding="utf-8").splitlines() if file.exists() else ():
        note = json.loads(line)
        held = found.setdefault(note["test"], {"seconds": 0.0, "failed": False, "call": {}, "setup": {}})
        held["seconds"] += note["seconds"]
        held["failed"] |= note["failed"]
        lines = held["setup" if note["when"] == "setup" else "call"]
        for number in note["places"]:
            path, at = places[number]
            lines.setdefault(path, []).append(at)
    return found
