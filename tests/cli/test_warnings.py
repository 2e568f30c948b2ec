"""What a library warns a programmer of does not reach a person."""

import os
import subprocess
import sys

WARNS = (
    "import warnings; from dryhouse import cli; cli.main = lambda: warnings.warn('divide by zero') or 0; cli.run()"
)


def told(*options: str) -> str:
    around = {name: value for name, value in os.environ.items() if name != "PYTHONWARNINGS"}
    around["PYTHONPATH"] = os.getcwd()
    ended = subprocess.run(
        [sys.executable, *options, "-c", WARNS], env=around, capture_output=True, text=True, timeout=60, check=True
    )
    return ended.stderr


def test_no_warning_is_printed_unless_it_is_asked_for():
    assert told() == ""
    assert "divide by zero" in told("-W", "default")
