"""Every module below the desk is tested by name: it has its mirror, or a test imports from it.

A part of the window is tested in the view that shows it, a verb by a test that runs it.
"""

import ast
import importlib
import re
from pathlib import Path

import pytest

from dryhouse.cli import parser
from tests.imports import imports_of
from tests.rows import every_row

ROOT = Path(__file__).parents[2]
PACKAGE, TESTS = ROOT / "dryhouse", ROOT / "tests"
SHARED = (PACKAGE / "desk/widgets", PACKAGE / "desk/labels")
LAYERS = ("science", "handbook", "words", "kitchen", "plots", "journal")
MODULES = sorted(p for layer in LAYERS for p in (PACKAGE / layer).rglob("*.py") if p.name != "__init__.py")


def dotted(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts)


def imported() -> set[str]:
    """The modules that tests import from; a name a package passes on counts for the module it was made in."""
    found = set()
    for path in TESTS.rglob("*.py"):
        if path.relative_to(TESTS).parts[0] == "benchmarks":
            continue
        for module, names in imports_of(path):
            found.add(module)
            for name in names:
                found.add(f"{module}.{name}")
                made = getattr(importlib.import_module(module), name, None)
                found.add(getattr(made, "__module__", ""))
    return found


@pytest.fixture(scope="module")
def named() -> set[str]:
    return imported()


@every_row("path", MODULES, ids=dotted)
def test_a_module_has_its_mirror_or_is_imported_by_a_test(path, named):
    mirror = TESTS / path.relative_to(PACKAGE).with_name(f"test_{path.name}")
    assert mirror.exists() or dotted(path) in named


def is_tested(path: Path, named: set[str]) -> bool:
    mirror = TESTS / path.relative_to(PACKAGE).with_name(f"test_{path.name}")
    return mirror.exists() or dotted(path) in named


def test_each_part_of_the_window_is_shown_by_a_module_of_its_folder_that_is_tested(named):
    files = {dotted(p): p for p in (PACKAGE / "desk").rglob("*.py") if p.name not in ("__init__.py", "spec.py")}
    uses = {module: {used for used, _ in imports_of(path)} & files.keys() for module, path in files.items()}
    reached = {module for module, path in files.items() if is_tested(path, named)}
    while True:
        further = {
            module
            for user in reached
            for module in uses[user]
            if files[module].parent in (files[user].parent, *files[user].parents) or files[module].parent in SHARED
        }
        if further <= reached:
            break
        reached |= further
    assert files.keys() - reached == set()


def test_each_verb_of_the_command_line_is_run_by_a_test():
    left = set(next(a for a in parser()._actions if a.metavar == "VERB").choices)
    for path in TESTS.rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        if any(re.search(rf"""["']{verb}["']""", text) for verb in left):
            left -= {n.value for n in ast.walk(ast.parse(text)) if isinstance(n, ast.Constant) and n.value in left}
    assert left == set()
