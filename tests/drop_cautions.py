"""Drop each place that passes cautions on, one at a time, and see that a test fails.

    python tests/drop_cautions.py [--only PART_OF_A_PATH] [--list] [--jobs 2] [TESTS ...]

Works on copies of the tree in a temporary folder, never in place. Prints a line a place, and ends with 1 where a
drop was noticed by no test.
"""

from __future__ import annotations

import argparse
import ast
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from queue import Queue

ROOT = Path(__file__).parents[1]
TESTS = (
    "tests/kitchen/test_every_surface.py",
    "tests/kitchen/nothing_softens",
    "tests/cli",
    "tests/desk/widgets",
    "tests/kitchen",
    "tests/desk",
    "tests/journeys/test_no_caution_is_lost.py",
)
"""Asked in this order, after the tests beside the file, until one fails."""
PASS_ON = frozenset({"cautions_of", "cautions_json"})
"""Functions whose answer is what their first argument holds."""
SHOW = frozenset({"say_cautions", "show_cautions", "set_cautions", "show_stops"})
"""Functions and methods called for what they show."""
MAKE = frozenset(
    {"cautions_for", "food_cautions", "batch_cautions", "lot_cautions", "meal_cautions", "bag_cautions"}
)
"""Functions that ask the rules: a caller may forget them."""
HOLD = frozenset({"cautions", "stops"})
"""Keywords and keys that carry cautions."""


@dataclass(frozen=True)
class Drop:
    """One place: the file, and the text that takes the place of a node's own."""

    path: Path
    node: ast.expr
    instead: str

    @property
    def where(self) -> str:
        return f"{self.path.relative_to(ROOT)}:{self.node.lineno}"

    def applied(self, text: str) -> str:
        """The source with this one drop in it."""
        lines = text.encode().splitlines(keepends=True)
        ends = [0]
        for line in lines:
            ends.append(ends[-1] + len(line))
        start = ends[self.node.lineno - 1] + self.node.col_offset
        end = ends[self.node.end_lineno - 1] + self.node.end_col_offset
        whole = text.encode()
        return (whole[:start] + self.instead.encode() + whole[end:]).decode()


def drops_in(path: Path) -> Iterator[Drop]:
    """Every place in a module where cautions could be lost in one line."""
    text = path.read_text(encoding="utf-8")
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Call):
            yield from _in_call(path, text, node)
        if isinstance(node, ast.Dict):
            for key, value in zip(node.keys, node.values, strict=True):
                if isinstance(key, ast.Constant) and key.value in HOLD and not _is_empty(value):
                    yield Drop(path, value, "[]")


def _in_call(path: Path, text: str, node: ast.Call) -> Iterator[Drop]:
    name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if name == "with_cautions" and isinstance(node.func, ast.Attribute):
        yield Drop(path, node, f"({ast.get_source_segment(text, node.func.value)})")
    elif name in SHOW and node.args and not _is_empty(node.args[0]):
        yield Drop(path, node, "None")
    elif name in MAKE:
        yield Drop(path, node, "()")
    elif name in PASS_ON and node.args:
        yield Drop(path, node.args[0], "()")
    for keyword in node.keywords:
        if keyword.arg in HOLD and not _is_empty(keyword.value):
            yield Drop(path, keyword.value, "()")


def _is_empty(node: ast.expr) -> bool:
    return isinstance(node, ast.Tuple | ast.List) and not node.elts


def all_drops(only: str = "") -> list[Drop]:
    """The places of the whole package, without repeats of one inside another."""
    found = [d for path in sorted((ROOT / "dryhouse").rglob("*.py")) if only in str(path) for d in drops_in(path)]
    return list({(d.path, d.node.lineno, d.node.col_offset, d.node.end_col_offset): d for d in found}.values())


def beside(path: Path, folder: Path) -> Iterator[str]:
    """The tests that know most of a module and are asked first: its own, those of the window, its room's."""
    inside = path.relative_to(ROOT / "dryhouse")
    room = Path("tests") / inside.parent
    shown = [Path("tests/desk/test_cautions_shown.py")] if inside.parts[0] == "desk" else []
    for test in (room / f"test_{path.stem}.py", *shown, room):
        if len(test.parts) > 2 and (folder / test).exists():
            yield str(test)


def noticed_by(drop: Drop, copy: Path, tests: tuple[str, ...]) -> str:
    """The first test file (or folder) that fails with the drop in place; empty where none does."""
    target = copy / drop.path.relative_to(ROOT)
    kept = target.read_text(encoding="utf-8")
    target.write_text(drop.applied(kept), encoding="utf-8")
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONDONTWRITEBYTECODE": "1", "PYTHONPATH": str(copy)}
    try:
        asked = (*beside(drop.path, copy), *(t for t in tests if (copy / t).exists()))
        for test in dict.fromkeys(asked):
            run = [sys.executable, "-m", "pytest", "-q", "-x", "-n", "0", test]
            if subprocess.run(run, cwd=copy, env=env, capture_output=True, check=False).returncode not in (0, 5):
                return test
    finally:
        target.write_text(kept, encoding="utf-8")
    return ""


def main() -> int:
    """Drop each in turn and print who noticed."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("tests", nargs="*", default=TESTS)
    parser.add_argument("--only", default="", help="part of the path of the modules to drop from")
    parser.add_argument("--list", action="store_true", help="print the places and stop")
    parser.add_argument("--jobs", type=int, default=2)
    args = parser.parse_args()
    drops = all_drops(args.only)
    if args.list:
        print("\n".join(d.where for d in drops))
        return 0
    with tempfile.TemporaryDirectory() as folder:
        copies: Queue[Path] = Queue()
        for number in range(args.jobs):
            copy = Path(folder) / str(number)
            shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__", ".*_cache"))
            copies.put(copy)

        def ask(drop: Drop) -> bool:
            copy = copies.get()
            try:
                who = noticed_by(drop, copy, tuple(args.tests))
            finally:
                copies.put(copy)
            print(f"{drop.where:<60} {who or 'NOT NOTICED'}", flush=True)
            return bool(who)

        with ThreadPoolExecutor(args.jobs) as pool:
            missed = [noticed for noticed in pool.map(ask, drops) if not noticed]
    print(f"{len(drops)} places, {len(missed)} not noticed")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
