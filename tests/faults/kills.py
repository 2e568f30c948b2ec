"""Programs killed by the thousand, in the middle of whatever they do to a journal.

    python tests/faults/kills.py [--times 1000] [--seed 1]

Each is a process of its own that logs, weighs, imports, exports, backs up, restores or brings a journal up to
date, again and again, until it is killed after a time drawn from its seed. Nothing it acknowledged may be lost,
and nothing may be torn: what is otherwise is printed with its seed. Exit code 1 where there was any.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from random import Random

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from dryhouse.journal.backup_names import backups_of  # noqa: E402
from dryhouse.journal.check import check  # noqa: E402
from dryhouse.journal.file_faults import is_sound  # noqa: E402
from dryhouse.journal.opening import open_journal  # noqa: E402
from dryhouse.journal.sample import build, sample_folder  # noqa: E402
from dryhouse.kitchen.exchange import read_records  # noqa: E402
from dryhouse.kitchen.records import Batch, Weighing  # noqa: E402
from tests.faults.by_seed import Tried, main  # noqa: E402
from tests.faults.children import start  # noqa: E402

KITCHEN = """
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
import shutil
def kitchen_at(file, write=True):
    return Kitchen(open_journal(file, write=write), handbook())
"""
LOG = """
from dryhouse.kitchen.batches.log import BatchDraft, log_batch
kitchen = kitchen_at(file)
say("ready")
while True:
    say(kitchen.do(log_batch, BatchDraft(Batch("corn", notes="noted " * 40))).record.id)
"""
WEIGH = """
from datetime import timedelta
kitchen = kitchen_at(file)
number = kitchen.journal.next_id(Batch)
kitchen.journal.write([Change(None, Batch("corn", state="drying", started=datetime.now(UTC), id=number))])
say("ready")
while True:
    id = kitchen.journal.next_id(Weighing)
    kitchen.journal.write([Change(None, Weighing(number, datetime.now(UTC), Mass(400.0 + id), id=id))])
    say(id)
"""
IMPORT = """
from dryhouse.cli import main
say("ready")
turn = 0
while True:
    new = file.with_name(f"new{turn}.dryhouse")
    assert main(["--journal", str(new), "import", sys.argv[2], "--json"]) == 0
    say(turn)
    turn += 1
"""
EXPORT = """
from dryhouse.cli import main
say("ready")
turn = 0
while True:
    for name in (f"out{turn}.json", f"out{turn}"):
        assert main(["--journal", str(file), "export", str(file.with_name(name)), "--json"]) == 0
    say(turn)
    turn += 1
"""
BACK_UP = """
say("ready")
while True:
    say(back_up(file, keep=3).name)
"""
RESTORE = """
say("ready")
while True:
    restore(Path(sys.argv[2]), file)
    say("restored")
"""
MIGRATE = """
say("ready")
turn = 0
while True:
    old = file.with_name(f"old{turn}.dryhouse")
    shutil.copy(sys.argv[2], old)
    open_journal(old, write=True).close()
    say(turn)
    turn += 1
"""
_LONGEST_S = 0.5
"""A child is killed at any moment of this long after it is ready."""


def killed(code: str, seed: int, *arguments: object) -> list[str]:
    """What a child had said when it was killed."""
    chance = Random(seed)
    child = start(KITCHEN + code, *arguments)
    said = [child.stdout.readline().strip()]
    time.sleep(chance.random() ** 2 * _LONGEST_S)
    child.kill()
    said += [line.strip() for line in child.stdout.read().splitlines()]
    errors = child.stderr.read()
    child.wait()
    child.close()
    return said if said[0] == "ready" else [f"did not begin: {errors}"]


def numbers(file: Path, kind: type) -> set[int]:
    """The numbers of the records in the file."""
    journal = open_journal(file, write=False)
    try:
        return {record.id for record in journal.where(kind)}
    finally:
        journal.close()


def log(file: Path, seed: int) -> list[str]:
    """What is logged and acknowledged is there."""
    return _acknowledged(file, killed(LOG, seed, file), Batch)


def weigh(file: Path, seed: int) -> list[str]:
    """What is weighed and acknowledged is there."""
    return _acknowledged(file, killed(WEIGH, seed, file), Weighing)


def _acknowledged(file: Path, said: list[str], kind: type) -> list[str]:
    if said[0] != "ready":
        return said
    told = {int(word) for word in said[1:] if word.isdecimal()}
    lost = told - numbers(file, kind)
    return [f"{len(lost)} acknowledged are gone: {sorted(lost)}"] if lost else []


def bring_in(file: Path, seed: int) -> list[str]:
    """Of an import all is there, or nothing; and it can be made once more."""
    said = killed(IMPORT, seed, file, sample_folder())
    whole = {record.id for record in read_records(sample_folder()) if isinstance(record, Batch)}
    wrong = [] if said[0] == "ready" else said
    done = sum(word.isdecimal() for word in said)
    for turn, new in enumerate(sorted(file.parent.glob("new*.dryhouse"), key=lambda f: int(f.stem[3:]))):
        there = numbers(new, Batch)
        if there not in ((whole,) if turn < done else (set(), whole)):
            wrong.append(f"{new.name} holds {len(there)} of {len(whole)} batches")
        wrong += map(str, check(new))
    return wrong


def export(file: Path, seed: int) -> list[str]:
    """An export is whole, or not there."""
    said = killed(EXPORT, seed, file)
    wrong = [] if said[0] == "ready" else said
    whole = len(numbers(file, Batch))
    out = [path for path in file.parent.glob("out*") if path.suffix == ".json" or path.is_dir()]
    for path in out:
        if path.name.startswith("out") and "part" not in path.name:
            try:
                there = sum(isinstance(record, Batch) for record in read_records(path))
            except Exception as problem:
                there = -1
                wrong.append(f"{path.name} cannot be read: {problem}")
            if there != whole:
                wrong.append(f"{path.name} holds {there} of {whole} batches")
    return wrong


def back_up(file: Path, seed: int) -> list[str]:
    """Every backup is whole."""
    said = killed(BACK_UP, seed, file)
    wrong = [] if said[0] == "ready" else said
    there = {kept.name for kept in backups_of(file)}
    wrong += [f"{kept.name} is not whole" for kept in backups_of(file) if not is_sound(kept)]
    told = [word for word in said[1:] if word.endswith(".dryhouse")]
    return wrong + [f"{name} was acknowledged and is gone" for name in told[-2:] if name not in there]


def restore(file: Path, seed: int) -> list[str]:
    """The journal is the former one, or the restored."""
    other = file.with_name("other.dryhouse")
    build(other)
    journal = open_journal(other, write=True)
    before = numbers(file, Batch)
    journal.close()
    said = killed(RESTORE, seed, file, other)
    wrong = [] if said[0] == "ready" else said
    after = numbers(file, Batch)
    if after not in (before, numbers(other, Batch)) or ("restored" in said and after != numbers(other, Batch)):
        wrong.append(f"{len(after)} batches, neither the former {len(before)} nor the restored ones")
    return wrong


def migrate(file: Path, seed: int) -> list[str]:
    """An older journal is of its old shape or of the new one, with all that was in it."""
    old = ROOT / "tests" / "data" / "old_journals" / "0001.dryhouse"
    whole = numbers(old, Batch)
    said = killed(MIGRATE, seed, file, old)
    wrong = [] if said[0] == "ready" else said
    done = sum(word.isdecimal() for word in said)
    for turn in range(done + 1):
        new = file.with_name(f"old{turn}.dryhouse")
        if new.exists() and (turn < done or new.stat().st_size == old.stat().st_size):
            open_journal(new, write=True).close()
            if numbers(new, Batch) != whole:
                wrong.append(f"{new.name} lost batches")
            wrong += map(str, check(new))
    return wrong


ACTS: dict[str, Callable[[Path, int], list[str]]] = {
    "log": log,
    "weigh": weigh,
    "import": bring_in,
    "export": export,
    "back up": back_up,
    "restore": restore,
    "migrate": migrate,
}


def kills(times: int, seed: int) -> Tried:
    """For each program that was killed its seed, what it did, and what went wrong."""
    with tempfile.TemporaryDirectory(prefix="kills-") as place:
        whole = Path(place) / "whole.dryhouse"
        build(whole)
        for turn in range(times):
            folder = Path(place) / "one"
            folder.mkdir()
            file = Path(shutil.copy(whole, folder / "journal.dryhouse"))
            act = list(ACTS)[turn % len(ACTS)]
            wrong = ACTS[act](file, seed + turn)
            wrong += map(str, check(file))
            yield seed + turn, act, wrong
            shutil.rmtree(folder)


if __name__ == "__main__":
    sys.exit(main(__doc__ or "", "kills", 1000, kills))
