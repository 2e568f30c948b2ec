"""Bad input by the thousand over the command line and the files it reads: a sentence each, and nothing changed.

    python tests/faults/bad_inputs.py [--times 100000] [--seed 1]

What is right is spoiled by chance: words are cut, doubled, swapped and stretched, files have bytes, cells, values
and brackets changed. Whatever comes of it, the program ends with 0, 1 or 2; with 2 it says one sentence and the
journal is as it was.
"""

from __future__ import annotations

import argparse
import contextlib
import hashlib
import io
import json
import os
import random
import sys
import tempfile
import traceback
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any
from unittest import mock

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from dryhouse import cli  # noqa: E402
from dryhouse.cli import main  # noqa: E402
from dryhouse.cli.parsing import verbs  # noqa: E402
from dryhouse.journal.opening import open_journal  # noqa: E402
from dryhouse.kitchen.ports import Change  # noqa: E402
from dryhouse.kitchen.records import Batch, Dryer, Lot, Meal, MealPart, Trip, TripMeal  # noqa: E402
from tests.desk.conftest import SHELF, a_batch  # noqa: E402

LINES: tuple[tuple[str, ...], ...] = (
    ("yields", "corn", "--fresh", "2 lb"),
    ("yields", "apple", "--dried", "3 oz", "--form", "slices"),
    ("target", "tomato", "--fresh", "40 oz", "--solids", "6%", "--moisture", "10%"),
    ("water", "carrot", "--dried", "1 cup"),
    ("keeps", "apple", "--temp", "70 F", "--package", "jar"),
    ("cautions", "ground beef"),
    ("cautions", "--batch", "1"),
    (
        "log",
        "--food",
        "corn",
        "--fresh",
        "2 lb",
        "--dried",
        "6 oz",
        "--start",
        "2026-08-20 18:00",
        "--hours",
        "8:30",
    ),
    ("log", "--food", "turkey", "--fresh", "1 kg", "--dried", "260 g", "--precook", "165 F", "--temp", "145 F"),
    ("weigh", "3", "412 g"),
    ("batches", "--json"),
    ("shelf",),
    ("meal", "stew"),
    ("plan", "lake"),
    ("export", "FOLDER/out.json"),
    ("curve", "FILE.csv", "--food", "corn", "--until-moisture", "10"),
    ("import", "FILE.json"),
)
ODD = (
    "", " ", "-", "--", "½", "1½2 lb", "٣ kg", "9" * 400, "1e999", "nan", "-0", "\ud800", "\u202e", "a" * 5000,
    "=1+1", "2 lb 2 lb",
    "0x10", "1/0 cup", "../..", "*", "%s%n", "\n", "\t", "’", "NULL", "0:99", "2026-02-30",
    "1,5", "1.000,5",
)  # fmt: skip
VALUES: tuple[Any, ...] = (
    None, True, -1, 0, 10**30, 1e308, -1e308, "", "x", "\ud800", [], {}, [[[[]]]], {"g": 1},
    "9999-12-31T23:59:59-14:00", "0001-01-01", "9" * 3000, 2**63, 1.5,
)  # fmt: skip
VERBS = frozenset(verbs())
CURVE = "hours,grams\n" + "".join(f"{h},{1000 - 90 * h}\n" for h in range(9))


class Spoiler:
    """Spoils by chance, the same for the same seed."""

    def __init__(self, seed: int, folder: Path) -> None:
        self.chance = random.Random(seed)
        self.folder = folder
        self.whole: dict[str, Any] = {}

    def word(self, word: str) -> str:
        """A word with something done to it."""
        c = self.chance
        at = c.randrange(len(word) + 1)
        return c.choice(
            (
                lambda: c.choice(ODD),
                lambda: word[:at] + word[at + 1 :],
                lambda: word[:at] + c.choice(ODD)[:40] + word[at:],
                lambda: word * 2,
                lambda: word[::-1],
                lambda: word[:at] + chr(c.choice((0x09, 0x2F, 0xA0, 0x301, 0x661, 0xFF11, 0x1F33D))) + word[at:],
                lambda: word.upper(),
            )
        )()

    def line(self) -> list[str]:
        """A command with some of its words spoiled, left out, doubled or in another order."""
        c = self.chance
        words = list(c.choice(LINES))
        for _ in range(c.randrange(4)):
            at = c.randrange(len(words))
            what = c.randrange(5)
            if what == 0 and len(words) > 1:
                del words[at]
            elif what == 1:
                words.insert(at, c.choice(c.choice(LINES)))
            elif what == 2:
                words[at], words[-1] = words[-1], words[at]
            elif words[at] not in ("FILE.csv", "FILE.json", "FOLDER/out.json"):
                words[at] = self.word(words[at])
        files = {"FILE.csv": self.table, "FILE.json": self.export}
        return [
            str(self.written(word, files[word])) if word in files else word.replace("FOLDER", str(self.folder))
            for word in words
        ]

    def written(self, name: str, make: Callable[[], bytes]) -> Path:
        """A spoiled file."""
        file = self.folder / name
        file.write_bytes(make())
        return file

    def table(self) -> bytes:
        """A curve with cells and bytes changed."""
        c = self.chance
        rows = [line.split(",") for line in CURVE.splitlines()]
        for _ in range(c.randrange(1, 4)):
            row = c.choice(rows)
            if c.random() < 0.2:
                row[:] = [""] * c.choice((0, 1, 3, 30_000))
            elif row:
                row[c.randrange(len(row))] = self.word(c.choice(row))
        return self.bytes("\n".join(",".join(row) for row in rows).encode("utf-8", "surrogatepass"))

    def export(self) -> bytes:
        """An export with values, brackets and bytes changed."""
        c = self.chance
        whole = json.loads(json.dumps(self.whole))
        for _ in range(c.randrange(1, 3)):
            listed = c.choice([each for each in whole["records"].values() if each] or [[]])
            if not listed:
                break
            record = c.choice(listed)
            if isinstance(record, dict) and record:
                record[c.choice([*record, "colour"])] = c.choice(VALUES)
        text = json.dumps(whole)
        return self.bytes(text.encode()) if c.random() < 0.3 else text.encode()

    def bytes(self, content: bytes) -> bytes:
        """Bytes changed, cut or doubled; often as they are."""
        c = self.chance
        if not content or c.random() < 0.5:
            return content
        at, more = c.randrange(len(content)), c.randrange(1, 40)
        new = bytes(c.choice((0, 10, 34, 44, 91, 123, 255)) for _ in range(c.randrange(3)))
        return c.choice((content[:at], content[:at] + new + content[at + more :], content[:at] + content[at:] * 2))


def kitchen(file: Path) -> None:
    """A small journal with something of everything that is asked for."""
    from datetime import date

    journal = open_journal(file, write=True)
    day = date(2026, 8, 22)
    records = (
        SHELF,
        Dryer("box dryer", 10, id=2),
        *(a_batch(n, food) for n, food in enumerate(("corn", "apple", "turkey"), 1)),
        Batch("corn", state="drying", started=a_batch(1).started, dryer=1, id=4),
        Lot("corn", day, batch=1, id=1),
        Meal("stew", id=1),
        MealPart(1, 0, "sweet corn", food="corn", id=1),
        Trip("lake", day, day, id=1),
        TripMeal(1, 1, day, id=1),
    )
    journal.write([Change(None, record) for record in records])
    journal.close()


def tried(words: list[str], journal: Path) -> tuple[str, str]:
    """How a command ended: `0`, `1`, `2`, or what is wrong with that; and what it said."""
    before = hashlib.sha256(journal.read_bytes()).digest()
    out, err = io.StringIO(), io.StringIO()
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = main(["--journal", str(journal), *words])
    except SystemExit as ended:
        code = int(ended.code or 0)
    except BaseException:
        return "a traceback", traceback.format_exc()
    said = err.getvalue()
    if code not in (0, 1, 2):
        return f"code {code}", said
    if code == 2:
        if hashlib.sha256(journal.read_bytes()).digest() != before:
            return "refused, and the journal changed", said
        if not said.strip() or len(said.strip().splitlines()) > 1 or "Traceback" in said:
            return "no single sentence", said
    return str(code), said


@contextlib.contextmanager
def parsers_kept() -> Iterator[None]:
    """The parser of each verb made once: making it is a third of the time, and no input changes it."""
    made: dict[str, argparse.ArgumentParser] = {}
    make = cli.parser

    def parser(given: Sequence[str] = ()) -> argparse.ArgumentParser:
        found = [word for word in given if word in VERBS]
        if len(found) != 1 or given[0] not in (found[0], "--journal"):
            return make(given)
        if found[0] not in made:
            made[found[0]] = make(found)
        return made[found[0]]

    with mock.patch.object(cli, "parser", parser):
        yield


def run(times: int, seed: int) -> tuple[Counter[str], list[str]]:
    """So many inputs; how they ended, and each that ended wrong."""
    wrong: list[str] = []
    ends: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder), parsers_kept():
        spoiler = Spoiler(seed, Path(folder))
        journal, kept = Path(folder) / "journal.dryhouse", Path(folder) / "kept.dryhouse"
        kitchen(kept)
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        tried(["export", str(Path(folder) / "whole.json")], kept)
        spoiler.whole = json.loads((Path(folder) / "whole.json").read_text(encoding="utf-8"))
        for n in range(times):
            if n % 50 == 0:
                for beside in Path(folder).glob("journal.dryhouse*"):
                    beside.unlink()
                journal.write_bytes(kept.read_bytes())
            (Path(folder) / "out.json").unlink(missing_ok=True)
            words = spoiler.line()
            end, said = tried(words, journal)
            ends[end] += 1
            if end not in ("0", "1", "2"):
                wrong.append(f"{end}: {[w[:80] for w in words]!r}\n{said[-1500:]}")
    return ends, wrong


def begin() -> None:
    """The command line."""
    options = argparse.ArgumentParser(description="Try spoiled input.")
    options.add_argument("--times", type=int, default=100_000)
    options.add_argument("--seed", type=int, default=1)
    asked = options.parse_args()
    ends, wrong = run(asked.times, asked.seed)
    for said in wrong[:20]:
        print(said.encode("utf-8", "replace").decode(), end="\n\n")
    print(", ".join(f"{end}: {count}" for end, count in sorted(ends.items())))
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    begin()
