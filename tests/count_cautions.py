"""How much is said at once: cautions and words of each surface, for foods from the plainest to the gravest.

    python tests/count_cautions.py

Logs a batch of each food into a journal of its own, packs it, cooks it, and counts what the command line says:
stops, lines below them, cautions behind the count, and words. Ends with 1 where an aim is missed: at a look-up at
most 2 below the stops, of a batch of plants at most 1, of animal food and of a pot at most 3; at most 12 lines,
stops not counted.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import re
import sys
import tempfile
from pathlib import Path

from dryhouse.cli import main as command
from dryhouse.handbook.reader import handbook
from dryhouse.house import open_kitchen
from dryhouse.kitchen.meals.meals import save_meal
from dryhouse.kitchen.records import Batch, Meal, MealPart
from dryhouse.kitchen.shelf.packing import Package, pack
from dryhouse.science.quantities import Mass

HANDBOOK = handbook().foods
HEATED = ("--precook", "170 F", "--precook-method", "simmered or steamed", "--precook-measured", "thermometer")
FOODS: tuple[tuple[str, str, tuple[str, ...], int], ...] = (
    ("carrot", "carrot", (), 1),
    ("apple", "apple", (), 1),
    ("basil", "basil", (), 1),
    ("button mushroom", "white mushroom", (), 1),
    ("turkey, heated", "turkey", HEATED, 3),
    ("turkey, not heated", "turkey", (), 3),
    ("ground venison", "ground venison", (), 3),
    ("bean chili", "bean chili", (), 3),
)
AT_A_LOOK_UP, OF_A_POT, LINES = 2, 3, 12
"""The aims: lines below the stops at a look-up and of a pot, and lines in all, stops not counted."""


def counted(text: str) -> tuple[int, int, int, int, int]:
    """Stops, lines below them, cautions behind the count, words, and lines without stops."""
    lines = [line for line in text.splitlines() if line.strip()]
    stops = sum(line.strip().startswith("STOP:") for line in lines)
    below = sum(line.strip().startswith(("WARN:", "NOTE:")) for line in lines)
    folded = sum(int(n) for n in re.findall(r"(\d+) more caution", text))
    return stops, below, folded, len(text.split()), len(lines) - stops


def say(journal: Path, *words: str) -> str:
    """What a command says; a refusal ends the script."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        code = command(["--journal", str(journal), *words])
    if code:
        raise SystemExit(f"{' '.join(words)}: exit {code}")
    return out.getvalue()


def surfaces(journal: Path, name: str, more: tuple[str, ...]) -> dict[str, str]:
    """What is said of one food on each surface, from a batch that is logged, packed and cooked here."""
    weights = ("--fresh", "1 kg", "--dried", "200 g", "--keep-anyway", "--hours", "9", "--start", "2026-10-01 8:00")
    said = {"batch": say(journal, "log", "--food", name, *weights, *more)}
    with open_kitchen(journal, write=True) as kitchen:
        batch = max(kitchen.journal.where(Batch), key=lambda b: b.id)
        pack(kitchen, batch.id, [Package("jar", mass=Mass(100.0, "100 g"))])
        part = MealPart(0, 0, name, batch.food, mass=Mass(50.0, "50 g"))
        save_meal(kitchen, Meal(f"pot of {name} {batch.id}"), [part])
    said["meal"] = say(journal, "meal", f"pot of {name} {batch.id}")
    if batch.food in HANDBOOK:
        said["look-up"] = say(journal, "yields", name, "--fresh", "1 lb")
    return said


def main() -> int:
    """The table, and what is out of its aim."""
    missed = 0
    print(f"{'':32s}{'stops':>7s}{'below':>7s}{'folded':>8s}{'words':>7s}{'lines':>7s}")
    with tempfile.TemporaryDirectory() as folder:
        for title, name, more, most in FOODS:
            for surface, text in surfaces(Path(folder) / "count.dryhouse", name, more).items():
                stops, below, folded, words, lines = counted(text)
                aim = {"look-up": AT_A_LOOK_UP, "meal": OF_A_POT}.get(surface, most)
                good = below <= aim and lines <= LINES
                missed += not good
                row = f"{stops:7d}{below:7d}{folded:8d}{words:7d}{lines:7d}"
                print(f"{title + ', ' + surface:32s}{row}{'' if good else '   over the aim'}")
    print(f"{missed} over the aim")
    return 1 if missed else 0


if __name__ == "__main__":
    argparse.ArgumentParser(description=__doc__.splitlines()[0]).parse_args()
    sys.exit(main())
