"""How many checks come from outside: publications that the program's own tables and formulas were not made from."""

import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent


def collected(folder):
    """The ids of the checks in a folder, as pytest collects them."""
    found = subprocess.run(
        [
            sys.executable,
            "-m",
            "pytest",
            "--collect-only",
            "-q",
            "-n",
            "0",
            "-p",
            "no:cacheprovider",
            str(HERE / folder),
        ],
        capture_output=True,
        text=True,
        check=True,
        cwd=HERE.parents[1],
    )
    return [line for line in found.stdout.splitlines() if "::" in line]


def test_at_least_two_hundred_checks_come_from_outside():
    """Unit identities and the solver's certified problems lie in `certified`, what the tables themselves say in
    `consistency`: neither is counted."""
    outside = collected("outside")
    assert len(outside) >= 200
    for about in ("test_uptake", "test_dried_cups", "test_hours", "test_weighed_batches"):
        assert any(f"{about}.py::" in check for check in outside), about
