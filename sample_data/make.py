"""Makes the sample journal's files in `gullwing/`: two seasons in the galley of the Gullwing Canoe Club.

Deterministic: the same program makes the same files. Every table is one a person
could have kept by hand, with quantities as typed; `dryhouse import sample_data/gullwing` reads them.

    python sample_data/make.py
"""

from __future__ import annotations

import csv
import sys
from datetime import datetime
from pathlib import Path
from random import Random
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent)]

from make_batches import batches  # noqa: E402
from make_meals import meals  # noqa: E402
from make_room import room  # noqa: E402
from make_shelf import shelf  # noqa: E402

from dryhouse.science.quantities import parse_mass  # noqa: E402

SEED = 20260815


def tables() -> dict[str, list[dict[str, Any]]]:
    """Every table by name, line by line."""
    chance = Random(SEED)
    made = room()
    made |= batches(chance)
    made |= meals()
    made |= shelf(chance, made)
    return made


def drying_run(made: dict[str, list[dict[str, Any]]]) -> list[tuple[float, float]]:
    """The longest run of apple slices weighed as a whole load: hours from its start, and grams."""
    apples = {
        n for n, batch in enumerate(made["batch"], 1) if batch["food"] == "apple" and batch["state"] == "finished"
    }
    runs: dict[int, list[tuple[datetime, float]]] = {}
    for line in made["weighing"]:
        if line["batch"] in apples and line["scope"] == "load":
            seen = datetime.fromisoformat(line["at"]), parse_mass(line["gross"]).si
            runs.setdefault(line["batch"], []).append(seen)
    longest = max(runs.values(), key=len)
    return [(round((at - longest[0][0]).total_seconds() / 3600, 2), round(grams, 1)) for at, grams in longest]


def write(folder: Path) -> None:
    """The tables as CSV, one file each."""
    folder.mkdir(exist_ok=True)
    made = tables()
    with (folder / "apple_run.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows([("hours", "grams"), *drying_run(made)])
    for name, lines in made.items():
        columns = list(dict.fromkeys(["id", *(column for line in lines for column in line)]))
        with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
            table = csv.DictWriter(file, columns, restval="", lineterminator="\n")
            table.writeheader()
            table.writerows({"id": number, **line} for number, line in enumerate(lines, 1))


if __name__ == "__main__":
    write(HERE / "gullwing")
