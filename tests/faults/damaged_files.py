"""Damaged files by the thousand, through every verb, the check and restoring.

    python tests/faults/damaged_files.py [--times 2000] [--seed 1]

Each file is the sample, or four times out of five a tenth of it, damaged in a way drawn from its seed. Whatever it
is, a verb ends with a sentence and no traceback; and afterwards either structure and records all check whole, or
repairing or restoring brings the last good state back. What went otherwise is printed with its seed. Exit code 1
where there was one.
"""

from __future__ import annotations

import contextlib
import io
import shutil
import sys
import tempfile
import traceback
from pathlib import Path
from random import Random

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.faults.by_seed import Tried, main  # noqa: E402
from tests.faults.spoiling import spoil  # noqa: E402

VERBS = (
    ["batches"],
    ["shelf"],
    ["yields", "corn", "--fresh", "2 lb"],
    ["cautions", "--batch", "1"],
    ["meal", "squash and lentil stew"],
    ["plan", "1"],
    ["export", "OUT"],
    ["log", "--food", "corn", "--fresh", "2 lb", "--dried", "8 oz", "--hours", "8"],
    ["weigh", "132", "900 g"],
    ["backup"],
    ["check"],
)
SMALL = max((ROOT / "tests" / "data" / "old_journals").glob("*.dryhouse"))
_NEWEST = ("batches", "--newest", "20")
_VERBS_EACH = 4


def run(file: Path, *arguments: str) -> tuple[int, str]:
    """The exit code of a command on the file, and what it said on standard error; 99 with a traceback."""
    from dryhouse.cli import main as dryhouse

    out, err = io.StringIO(), io.StringIO()
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = dryhouse(["--journal", str(file), *arguments])
    except SystemExit as end:
        code = int(end.code or 0)
    except BaseException:
        return 99, traceback.format_exc()
    return code, err.getvalue()


def one_file(whole: Path, folder: Path, seed: int) -> tuple[str, list[str]]:
    """In which way the file of this seed is damaged, and what went wrong with it."""
    chance, wrong = Random(seed), []
    file = Path(shutil.copy(whole, folder / "journal.dryhouse"))
    assert run(file, "backup")[0] == 0
    kept = Path(shutil.copy(whole, folder / "kept.dryhouse"))
    way = spoil(file, seed)
    for verb in chance.sample(VERBS, _VERBS_EACH):
        code, said = run(file, *(str(folder / "out.json") if word == "OUT" else word for word in verb))
        (folder / "out.json").unlink(missing_ok=True)
        if code not in (0, 1, 2) or said.count("\n") > 1:
            wrong.append(f"{' '.join(verb)} ended with {code}:\n{said}")
    wrong += _recovers(file, kept, repair=chance.random() < 0.5)
    return way, wrong


def _recovers(file: Path, kept: Path, *, repair: bool) -> list[str]:
    code, said = run(file, "check", *(["--repair"] if repair else []))
    if code == 0:
        return [] if run(file, *_NEWEST)[0] == 0 else ["it checks whole and cannot be listed"]
    if code == 99:
        return [f"check ended with a traceback:\n{said}"]
    code, said = run(file, "restore", str(kept))
    if code:
        return [f"restore ended with {code}:\n{said}"]
    code, said = run(file, *_NEWEST)
    if code:
        return [f"after restoring, batches ended with {code}:\n{said}"]
    return [] if _same(file, kept) else ["what was restored is not what was kept"]


def _same(one: Path, other: Path) -> bool:
    from dryhouse.journal.opening import open_journal
    from dryhouse.kitchen.exchange import every_record

    found = []
    for file in (one, other):
        journal = open_journal(file, write=False)
        found.append(list(every_record(journal)))
        journal.close()
    return found[0] == found[1]


def damaged_files(times: int, seed: int) -> Tried:
    """For each file its seed, the way it was damaged, and what went wrong."""
    from dryhouse.journal.sample import build

    with tempfile.TemporaryDirectory(prefix="damaged-") as place:
        sample = Path(place) / "whole.dryhouse"
        build(sample)
        for number in range(seed, seed + times):
            folder = Path(place) / "one"
            folder.mkdir()
            yield number, *one_file(SMALL if number % 5 else sample, folder, number)
            shutil.rmtree(folder)


if __name__ == "__main__":
    sys.exit(main(__doc__ or "", "files", 2000, damaged_files))
