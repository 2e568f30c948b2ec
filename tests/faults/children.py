"""Programs that are killed, starved or crowded by the tests beside this file."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]

OPENING = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from dryhouse.journal.opening import open_journal
from dryhouse.journal.backup import back_up, restore
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.science.errors import WorldProblem
from dryhouse.science.quantities import Mass
from dryhouse.words.messages import problem_sentence
file = Path(sys.argv[1])

def say(word):
    print(word, flush=True)
"""


def start(code: str, *arguments: object, **how: Any) -> subprocess.Popen[str]:
    """A child that runs this code after the imports above, with its answers readable line by line."""
    return subprocess.Popen(
        [sys.executable, "-c", OPENING + code, *map(str, arguments)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        **how,
    )


def run(code: str, *arguments: object, **how: Any) -> str:
    """What such a child said in all; its errors fail the test."""
    child = start(code, *arguments, **how)
    said, errors = child.communicate(timeout=120)
    assert child.returncode == 0, errors
    return said


def kill_after(child: subprocess.Popen[str], lines: int) -> list[str]:
    """Let a child say so many lines, kill it without warning, and answer all it had said."""
    assert child.stdout is not None
    said = []
    for _ in range(lines):
        line = child.stdout.readline()
        assert line, child.stderr and child.stderr.read()
        said.append(line.strip())
    child.kill()
    said += [line.strip() for line in child.stdout.read().splitlines() if line.strip()]
    child.wait()
    child.stdout.close()
    if child.stderr is not None:
        child.stderr.close()
    return said
