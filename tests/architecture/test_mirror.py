"""Every module below the desk is tested by name: it has its mirror, or a test imports from it."""

import ast
import importlib
from pathlib import Path

import pytest

from tests.rows import every_row

ROOT = Path(__file__).parents[2]
PACKAGE, TESTS = ROOT / "dryhouse", ROOT / "tests"
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
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.ImportFrom) or not (node.module or "").startswith("dryhouse."):
                continue
            found.add(node.module)
            for alias in node.names:
                found.add(f"{node.module}.{alias.name}")
                made = getattr(importlib.import_module(node.module), alias.name, None)
                found.add(getattr(made, "__module__", ""))
    return found


@pytest.fixture(scope="module")
def named() -> set[str]:
    return imported()


@every_row("path", MODULES, ids=dotted)
def test_a_module_has_its_mirror_or_is_imported_by_a_test(path, named):
    mirror = TESTS / path.relative_to(PACKAGE).with_name(f"test_{path.name}")
    assert mirror.exists() or dotted(path) in named
