"""Breaks the code on purpose, one small place at a time, and says which breaks no test notices.

    python tests/mutate.py [--seed 1] [--mutants 100] [--first N] [--workers 2] [--only dryhouse/science]
                           [--lines FILE:LINE …] [--sweep] [--near] [--anew]

Mutants are picked by chance from operators, comparisons, `and` and `or`, `not`, numbers, truth values, calls
whose answer nobody uses, and what a function returns. Which tests come by which statement is noted once, in a copy
of the tree, by running all tests without a window (`tests/reached.py`); the notes are kept in `.mutants/`, and only
tests that changed are noted again (`--anew`: all). Then each mutant is tried, never in place, with the quickest of
the tests that come by: in one run of pytest that has read all tests (`tests/forked.py`), and again by itself where
it survived there or is run on import; where hardly any test comes by, those that name its module are asked too, and
those of the modules that use it where it is run on import.
`--sweep` leaves that second trial out: many mutants in little time, some of whose survivors a test would notice.
`--near` does without notes; `--all` asks every test that needs no window at the end. A survivor either changes
nothing a person could see, or shows a test that is missing. Exit code 1 where there are survivors.
"""

from __future__ import annotations

import argparse
import ast
import json
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor, as_completed
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path
from queue import SimpleQueue

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.imports import imports_of  # noqa: E402
from tests.reached import PLUGIN, Notes, Reach, note_everything, read_notes, statement_at  # noqa: E402

FOLDERS = ("science", "handbook", "kitchen", "journal", "words", "cli")
WITHOUT_WINDOW = ("tests/science", "tests/kitchen", "tests/words", "tests/cli", "tests/handbook", "tests/journal",
         "tests/published", "tests/plots", "tests/journeys/test_command_line.py")  # fmt: skip
LONGEST_S = 1200
TOLD = "\x1eBREAK "
"""How an answer of `tests/forked.py` begins."""
ENOUGH_S = 60.0
"""Seconds of tests that come by a mutant, the quickest first; the slow ones are asked last and rarely needed."""
FEW = 4
"""Where fewer tests come by than this, what is reckoned there may be remembered, and others live on it unseen."""
NOTES = ROOT / ".mutants" / "reached.json"
LEFT_OUT = (".git", ".mutants", ".hypothesis", "__pycache__", ".venv", ".mypy_cache", ".ruff_cache", "build",
         "dist")  # fmt: skip

OPERATORS = {"+": "-", "-": "+", "*": "/", "/": "*", "//": "/", "%": "*", "**": "*", "&": "|", "|": "&"}
COMPARISONS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "is": "is not", "is not": "is",
               "in": "not in", "not in": "in"}  # fmt: skip


@dataclass(frozen=True)
class Mutant:
    """One break: in this file, from here to there in its text, these words in place of those."""

    path: str
    line: int
    start: int
    end: int
    before: str
    after: str

    def __str__(self) -> str:
        before, after = " ".join(self.before.split()), " ".join(self.after.split())
        return f"{self.path}:{self.line}  {before[:70]}  ->  {after[:70]}"


def mutants_of(path: Path) -> list[Mutant]:
    """Every break of one module."""
    text = path.read_text(encoding="utf-8")
    starts = [0]
    for line in text.splitlines(keepends=True):
        starts.append(starts[-1] + len(line.encode()))
    raw = text.encode()

    def at(line: int, column: int) -> int:
        return starts[line - 1] + column

    def span(node: ast.AST) -> tuple[int, int]:
        return at(node.lineno, node.col_offset), at(node.end_lineno, node.end_col_offset)

    def made(line: int, start: int, end: int, after: str) -> Mutant:
        return Mutant(str(path.relative_to(ROOT)), line, start, end, raw[start:end].decode(), after)

    def between(line: int, left: ast.AST, right: ast.AST, swaps: dict[str, str]) -> Iterator[Mutant]:
        """The operator that stands between two nodes, perhaps with brackets and line breaks round it."""
        start, end = span(left)[1], span(right)[0]
        gap = raw[start:end].decode()
        word = gap.strip(" ()\n\\")
        if word in swaps and "#" not in gap:
            first = start + gap.index(word)
            yield made(line, first, first + len(word), swaps[word])

    def breaks(node: ast.AST) -> Iterator[Mutant]:
        if isinstance(node, ast.BinOp):
            yield from between(node.lineno, node.left, node.right, OPERATORS)
        elif isinstance(node, ast.Compare):
            for left, right in pairwise([node.left, *node.comparators]):
                yield from between(node.lineno, left, right, COMPARISONS)
        elif isinstance(node, ast.BoolOp):
            for left, right in pairwise(node.values):
                yield from between(left.end_lineno, left, right, {"and": "or", "or": "and"})
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            yield made(node.lineno, *span(node), ast.unparse(node.operand))
        elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
            yield made(node.lineno, *span(node), str(not node.value))
        elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
            yield made(node.lineno, *span(node), repr(node.value + 1))
        elif isinstance(node, ast.Expr) and isinstance(node.value, ast.Call):
            yield made(node.lineno, *span(node), "pass")
        elif isinstance(node, ast.Return) and node.value is not None and ast.unparse(node.value) != "None":
            yield made(node.lineno, *span(node), "return None")

    return [mutant for node in _walked(ast.parse(text)) for mutant in breaks(node)]


def _walked(node: ast.AST) -> Iterator[ast.AST]:
    """Every node that is run: no annotations, no decorators, nothing for the type checker alone."""
    yield node
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list", "type_params"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.If) and "TYPE_CHECKING" in ast.unparse(child.test):
                continue
            if isinstance(child, ast.AST):
                yield from _walked(child)


# --- which tests ---------------------------------------------------------------------------------------------


def _imports(path: Path) -> set[str]:
    """The modules of ours that a file names."""
    found = [(module, *(f"{module}.{name}" for name in names)) for module, names in imports_of(path)]
    return {name for names in found for name in names}


@cache
def _tests() -> dict[str, set[str]]:
    files = [p for p in (ROOT / "tests").rglob("test_*.py") if p.relative_to(ROOT / "tests").parts[0] != "desk"]
    return {str(p.relative_to(ROOT)): _imports(p) for p in files}


@cache
def _modules() -> dict[str, set[str]]:
    return {_dotted(p.relative_to(ROOT)): _imports(p) for p in (ROOT / "dryhouse").rglob("*.py")}


def _dotted(path: Path) -> str:
    return ".".join(path.with_suffix("").parts).removesuffix(".__init__")


def stages(path: str) -> list[list[str]]:
    """The tests that name a module (or stand beside it), those of the modules that use it, and all that need no
    window."""
    module = _dotted(Path(path))
    users = {name for name, used in _modules().items() if module in used} - {module}
    mirror = "tests/" + path.removeprefix("dryhouse/").replace(Path(path).name, "test_" + Path(path).name)
    near = sorted(t for t, used in _tests().items() if module in used or t == mirror)
    near = near or [str(_folder(ROOT / mirror).relative_to(ROOT))]
    next_to = sorted(t for t, used in _tests().items() if used & users and t not in near)
    broad = [folder for folder in WITHOUT_WINDOW if (ROOT / folder).exists()]
    return [stage for stage in (near, next_to, broad) if stage]


def _folder(mirror: Path) -> Path:
    """Where the tests of a module stand that no test names: in the folder like its own, or the next one above."""
    return next(folder for folder in mirror.parents if folder.exists())


# --- trying ----------------------------------------------------------------------------------------------------


def copied(into: Path) -> Path:
    """The tree, without what tools leave in it."""
    shutil.copytree(ROOT, into, ignore=shutil.ignore_patterns(*LEFT_OUT))
    return into


@contextmanager
def broken(mutant: Mutant, tree: Path) -> Iterator[None]:
    """The copy of the tree with this mutant in it; put right again at the end."""
    file = tree / mutant.path
    raw, was = file.read_bytes(), file.stat()
    file.write_bytes(raw[: mutant.start] + mutant.after.encode() + raw[mutant.end :])
    try:
        yield
    finally:
        file.write_bytes(raw)
        os.utime(file, ns=(was.st_atime_ns, was.st_mtime_ns))


def caught(mutant: Mutant, tree: Path, left_out: set[str], asked: Iterable[list[str]]) -> str:
    """How a mutant was noticed in this copy of the tree by the tests `asked`, one list after the other; empty where
    it was not.

    A test that fails as the code stands can't tell the mutant from it: it joins `left_out`, and the rest are asked.
    """
    for stage in asked:
        while True:
            with broken(mutant, tree):
                noticed = _failed(stage, tree, left_out)
            if not noticed:
                break
            test = noticed.split(" ", 1)[1]
            if not test.startswith("tests/") or test in left_out or not _failed([test], tree, set()):
                return noticed
            left_out.add(test)
    return ""


def _failed(tests: list[str], tree: Path, left_out: set[str]) -> str:
    tests = [test for test in tests if test not in left_out]
    if not tests:
        return ""
    try:
        ended = _pytest(["-x", "-n", "0", *map(_without, sorted(left_out)), *tests], tree)
    except subprocess.TimeoutExpired:
        return "it never ends"
    if ended.returncode in (0, 5):  # all passed, or none were left to ask
        return ""
    told = [line for line in ended.stdout.splitlines() if line.startswith(("FAILED ", "ERROR "))]
    return told[0].split(" - ")[0] if told else f"pytest ends with {ended.returncode}"


def _without(test: str) -> str:
    """How a test is not asked; a whole file that can't be read as the code stands is not even opened."""
    return f"--deselect={test}" if "::" in test else f"--ignore={test}"


def _pytest(
    arguments: list[str], tree: Path, longest_s: float | None = LONGEST_S
) -> subprocess.CompletedProcess[str]:
    around = os.environ | {"PYTHONPATH": str(tree), "CI": "true", "QT_QPA_PLATFORM": "offscreen"}
    command = [sys.executable, "-m", "pytest", "-q", "--no-header", "--tb=no", *arguments]
    return subprocess.run(
        command, cwd=tree, env=around, capture_output=True, text=True, timeout=longest_s, check=False
    )


def modules() -> list[Path]:
    """Every module that is broken."""
    return sorted(p for folder in FOLDERS for p in (ROOT / "dryhouse" / folder).rglob("*.py"))


def picked(seed: int, count: int, only: str, lines: list[str]) -> list[Mutant]:
    """So many mutants by chance, or every one of the lines named."""
    found = [m for p in modules() if str(p.relative_to(ROOT)).startswith(only) for m in mutants_of(p)]
    if lines:
        return [m for m in found if f"{m.path}:{m.line}" in lines]
    return random.Random(seed).sample(found, min(count, len(found)))


def reach_of(anew: bool) -> Reach:
    """Which tests come by which statement: those that were not noted yet, or changed since, are run once in a copy
    of the tree."""
    notes = Notes() if anew else Notes.read(NOTES)
    places = [ROOT / place for place in WITHOUT_WINDOW]
    files = [p for place in places for p in (place, *place.rglob("test_*.py")) if p.is_file()]
    notes.moved({str(p.relative_to(ROOT)): p.read_text(encoding="utf-8") for p in modules()})
    if changed := notes.changed(ROOT, files):
        print(f"noting who comes by what: {len(changed)} files of tests", flush=True)
        with tempfile.TemporaryDirectory(prefix="mutants-") as folder:
            tree = copied(Path(folder) / "noting")
            noted = note_everything(tree, list(notes.sources))
            _pytest(["-n", "0", "-p", PLUGIN, *changed], tree, None)
            notes.tests |= read_notes(tree, noted)
        notes.write(NOTES)
    return notes.reach()


def nearest(path: str, tests: list[str], seconds: Mapping[str, float]) -> list[str]:
    """These tests, those that name the module counting as twenty times as quick: they are likelier to notice."""
    near = set(stages(path)[0])
    return sorted(tests, key=lambda test: seconds.get(test, 0.0) / (20.0 if test.split("::")[0] in near else 1.0))


def quick(tests: Iterable[str], seconds: Mapping[str, float], enough_s: float = ENOUGH_S) -> list[str]:
    """The quickest of the tests, until they come to so many seconds."""
    kept, total = [], 0.0
    for test in tests:
        total += seconds.get(test, 0.0)
        if kept and total > enough_s:
            break
        kept.append(test)
    return kept


def tried_at_once(
    asked: Mapping[int, tuple[Mutant, list[str]]], tree: Path, children: int, seconds: Mapping[str, float]
) -> Iterator[tuple[int, str]]:
    """Each mutant with how it was noticed by its tests, as the answers come; `import` where it is run on import.

    All tests are read once (`tests/forked.py`).
    """
    breaks = tree / "breaks.jsonl"
    with breaks.open("w", encoding="utf-8") as lines:
        for number, (m, tests) in asked.items():
            longest = 30 + 10 * sum(seconds.get(test, 0.0) for test in tests)
            told = vars(m) | {"number": number, "tests": tests, "longest": longest}
            lines.write(json.dumps(told) + "\n")
    files = sorted({test.split("::")[0] for _, tests in asked.values() for test in tests})
    around = os.environ | {"PYTHONPATH": str(tree), "CI": "true", "QT_QPA_PLATFORM": "offscreen"}
    around |= {"BREAKS": str(breaks), "CHILDREN": str(children)}
    command = [sys.executable, "-m", "pytest", "-q", "-p", "tests.forked", "--capture=sys", "-n", "0", *files]
    with subprocess.Popen(command, cwd=tree, env=around, stdout=subprocess.PIPE, text=True) as run:
        for line in run.stdout or ():
            if TOLD in line:
                answer = json.loads(line.split(TOLD, 1)[1])
                yield answer["number"], answer["noticed"]


def main() -> int:
    """The script."""
    asked = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--mutants", type=int, default=100)
    asked.add_argument("--first", type=int, default=0, help="go on behind the first so many, tried before")
    asked.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    asked.add_argument("--only", default="", help="only files whose path begins so")
    asked.add_argument("--lines", nargs="*", default=[], metavar="FILE:LINE", help="every mutant of these lines")
    asked.add_argument("--near", action="store_true", help="ask only the tests that name the module: quick")
    asked.add_argument("--all", action="store_true", help="ask every test in the end: slow")
    asked.add_argument("--anew", action="store_true", help="note anew who comes by what")
    asked.add_argument("--sweep", action="store_true", help="no second trial of survivors")
    given = asked.parse_args()
    mutants = picked(given.seed, given.mutants, given.only, given.lines)[given.first :]
    reach = Reach({}, {}) if given.near else reach_of(given.anew)
    come_by = [nearest(m.path, reach.come_by(m.path, m.line, ROOT), reach.seconds) for m in mutants]
    survivors: list[Mutant] = []

    def told(number: int, noticed: str) -> None:
        by = f"({len(come_by[number])} tests come by)"
        print(f"{'caught  ' if noticed else 'SURVIVED'}  {mutants[number]}  {noticed or by}", flush=True)
        survivors.extend([] if noticed else [mutants[number]])

    again = list(range(len(mutants)))
    with tempfile.TemporaryDirectory(prefix="mutants-") as folder, ThreadPoolExecutor(given.workers) as pool:
        trees: SimpleQueue[Path] = SimpleQueue()
        for n in range(given.workers):
            trees.put(copied(Path(folder) / str(n)))
        if not given.near:
            tests = {n: (m, quick(come_by[n], reach.seconds)) for n, m in enumerate(mutants) if come_by[n]}
            tree = copied(Path(folder) / "at-once")
            for number, noticed in tried_at_once(tests, tree, given.workers, reach.seconds):
                if (noticed and noticed != "import") or (given.sweep and not noticed):
                    told(number, noticed)
                    again.remove(number)
        left_out: set[str] = set(reach.failed)

        def tried(number: int) -> str:
            mutant, tree = mutants[number], trees.get()
            quickest = quick(come_by[number], reach.seconds)
            on_import = statement_at(ROOT / mutant.path, mutant.line) is None
            few = len(quickest) < FEW or on_import
            by_module = stages(mutant.path)[: 3 if given.all else 2 if on_import else 1 if given.near or few else 0]
            in_turn = [*by_module[:1], quickest, *by_module[1:]] if on_import else [quickest, *by_module]
            try:
                return caught(mutant, tree, left_out, [stage for stage in in_turn if stage])
            finally:
                trees.put(tree)

        asked_for = {} if given.sweep else {pool.submit(tried, number): number for number in again}
        for done in as_completed(asked_for):
            told(asked_for[done], done.result())
    for test in sorted(left_out):
        print(f"fails as the code stands, so it was not asked: {test}")
    print(f"\n{len(mutants)} mutants, {len(mutants) - len(survivors)} caught; survivors:")
    for mutant in survivors:
        print(f"  {mutant}")
    return 1 if survivors else 0


if __name__ == "__main__":
    sys.exit(main())
