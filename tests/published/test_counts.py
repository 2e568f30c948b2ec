"""How many checks come from outside: publications that the program's own tables and formulas were not made from."""

from collections.abc import Iterator
from importlib import import_module
from math import prod
from pathlib import Path

HERE = Path(__file__).parent


def checks(folder: str) -> dict[str, int]:
    """How many checks each module of a folder holds: its tests, each as often as it has rows of its own."""
    found = {}
    for path in sorted((HERE / folder).rglob("test_*.py")):
        module = import_module(".".join(path.relative_to(HERE.parents[1]).with_suffix("").parts))
        found[path.stem] = sum(map(times, inside(module)))
    return found


def inside(holder: object) -> Iterator[object]:
    """The tests of a module or a class, and of the classes in it."""
    for name, held in vars(holder).items():
        if name.startswith("test_"):
            yield held
        elif name.startswith("Test"):
            yield from inside(held)


def times(test: object) -> int:
    """How often a test is run: once for each row."""
    return prod(len(mark.args[1]) for mark in getattr(test, "pytestmark", ()) if mark.name == "parametrize")


def test_at_least_two_hundred_checks_come_from_outside():
    """Unit identities and the solver's certified problems lie in `certified`, what the tables themselves say in
    `consistency`: neither is counted."""
    outside = checks("outside")
    assert sum(outside.values()) >= 200
    for about in ("test_uptake", "test_dried_cups", "test_hours", "test_weighed_batches"):
        assert outside[about], about
