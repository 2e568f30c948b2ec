"""What the command line prints, from the first line to the last, kept in `whole_answers/`.

    python tests/cli/whole_answers.py [CHAPTER.txt …]

writes every answer anew: what a change of words changes is then read like any other change. A chapter is a file of
commands, one after another on one small journal of its own (`canoe_kitchen.py`): `$ dryhouse …` is what is typed,
and what follows is what is said; lines of stderr begin with `! `, and `[2]` is an exit code that is not 0. To add a
command, write its line and run this. `(metric)` in a chapter's title is a journal shown in metric units.
"""

from __future__ import annotations

import argparse
import io
import json
import os
import re
import shlex
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from datetime import timedelta
from itertools import count
from pathlib import Path
from typing import Any

import pytest

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[2]))

from dryhouse import house
from dryhouse.cli import main
from dryhouse.handbook.reader import handbook
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.display import METRIC, US
from tests.cli.canoe_kitchen import NOW, RUN, ZONE, fill

CHAPTERS = sorted((Path(__file__).parent / "whole_answers").glob("*.txt"))
COMMAND = "$ dryhouse "
JOURNAL = "kitchen.dryhouse"
WIDE = 110


@contextmanager
def that_evening() -> Iterator[None]:
    """The clock stands still, and the wall it hangs on is in the club's zone."""

    def opened(file: Path, *, write: bool) -> Kitchen:
        return Kitchen(open_journal(file, write=write), handbook(), lambda: NOW, ZONE, house._follow)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(house, "_open", opened)
        ticks = (NOW + timedelta(seconds=n) for n in count())  # no two copies bear one name
        patch.setattr("dryhouse.journal.backup.stamp", lambda: f"{next(ticks):%Y-%m-%dT%H%M%S.%f}")
        patch.setenv("COLUMNS", "100")
        yield


def kitchens(folder: Path) -> dict[str, Path]:
    """The journal, once for each way of showing units."""
    made = {}
    for units in (US, METRIC):
        made[units] = folder / f"{units}.dryhouse"
        with that_evening(), house.open_kitchen(made[units], write=True) as kitchen:
            fill(kitchen, units)
    return made


def commands(chapter: str) -> list[str]:
    """What is typed in a chapter."""
    return [line.removeprefix(COMMAND) for line in chapter.splitlines() if line.startswith(COMMAND)]


def told(chapter: str, journals: dict[str, Path]) -> str:
    """The chapter as it is now: its title, and each command with all that it says."""
    title = chapter.splitlines()[0]
    with tempfile.TemporaryDirectory() as folder, that_evening(), pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        shutil.copyfile(journals[METRIC if "(metric)" in title else US], JOURNAL)
        Path("run.csv").write_text(RUN, encoding="utf-8")
        return "\n".join([title, *(f"\n{COMMAND}{typed}\n{answer(typed)}" for typed in commands(chapter))])


def answer(typed: str) -> str:
    """Everything one command says, and how it ends."""
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        try:
            code = main(["--journal", JOURNAL, *shlex.split(typed)])
        except SystemExit as left:  # help and version
            code = int(left.code or 0)
    said = out.getvalue().replace(os.getcwd(), "HERE")
    if said.startswith("{"):
        said = in_lines(rounded(json.loads(said))) + "\n"
    elif typed.endswith("--help"):
        said = _usage_in_a_line(said)
    lines = [*said.splitlines(), *(f"! {line}" for line in err.getvalue().splitlines())]
    return "".join(f"{line.rstrip()}\n" for line in [*lines, *([] if code == 0 else [f"[{code}]"])])


def _usage_in_a_line(text: str) -> str:
    """A page of help, whose first paragraph is broken elsewhere by each Python."""
    usage, gap, rest = text.partition("\n\n")
    return re.sub(r"\s+", " ", usage) + gap + rest


def rounded(value: Any) -> Any:
    """Numbers to eight figures: more differ from one processor to the next."""
    if isinstance(value, float):
        return float(f"{value:.8g}")
    if isinstance(value, dict):
        return {key: rounded(each) for key, each in value.items()}
    return [rounded(each) for each in value] if isinstance(value, list) else value


def in_lines(value: Any, indent: str = "") -> str:
    """JSON with what fits a line in one, and what holds no more lists or objects."""
    flat = json.dumps(value, ensure_ascii=False)
    simple = isinstance(value, dict) and not any(isinstance(each, dict | list) for each in value.values())
    if len(indent) + len(flat) <= WIDE or simple or not isinstance(value, dict | list):
        return flat
    inner = f"{indent} "
    if isinstance(value, dict):
        each = [f"{inner}{json.dumps(key)}: {in_lines(one, inner)}" for key, one in value.items()]
        return "{\n" + ",\n".join(each) + f"\n{indent}}}"
    return "[\n" + ",\n".join(f"{inner}{in_lines(one, inner)}" for one in value) + f"\n{indent}]"


if __name__ == "__main__":
    asked = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    asked.add_argument("chapters", nargs="*", type=Path, metavar="CHAPTER.txt", help="only these")
    chapters = asked.parse_args().chapters or CHAPTERS
    with tempfile.TemporaryDirectory() as made:
        journals = kitchens(Path(made))
        for file in chapters:
            file.write_text(told(file.read_text(encoding="utf-8"), journals), encoding="utf-8")
