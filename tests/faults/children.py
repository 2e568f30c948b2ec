"""Programs that are killed, starved or crowded by the tests beside this file."""

from __future__ import annotations

from tests.warm import Program, started

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


def start(code: str, *arguments: object) -> Program:
    """A child that runs this code after the imports above, with its answers readable line by line."""
    return started(OPENING + code, *arguments)


def run(code: str, *arguments: object) -> str:
    """What such a child said in all; its errors fail the test."""
    child = start(code, *arguments)
    said, errors = child.communicate()
    assert child.returncode == 0, errors
    return said


def kill_after(child: Program, lines: int) -> list[str]:
    """Let a child say so many lines, kill it without warning, and answer all it had said."""
    said = []
    for _ in range(lines):
        line = child.stdout.readline()
        assert line, child.stderr.read()
        said.append(line.strip())
    child.kill()
    said += [line.strip() for line in child.stdout.read().splitlines() if line.strip()]
    child.wait()
    child.close()
    return said
