"""Makes a large journal for benchmarks: plausible batches by the thousand, straight into the tables.

python sample_data/large.py FILE [--batches 100000] [--weighings 2000000]
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from dryhouse.handbook.reader import handbook
from dryhouse.journal.opening import open_journal

_HOUR = 3_600_000_000
_FIRST = 1_420_113_600_000_000
"""New Year's Day 2015, in microseconds."""
_FORMS = ("slices", "dice", "strips", "pieces", "halves")
_WORDS = (
    "crisp",
    "muggy night",
    "thin cut",
    "outer trays ahead",
    "for the circuit",
    "windows open",
    "",
    "",
    "",
    "",
)
_DRYERS = (("shelf dryer", 6), ("box dryer", 10))
_BATCH = (
    "id, food, state, form, prepared_mass_g, prepared_mass_typed, dryer, trays, set_temperature_c, "
    "set_temperature_typed, started, ended, kitchen_humidity_pct, dried_mass_g, dried_mass_typed, notes, rating, "
    "made_from, title, pretreatment, prepared_volume_ml, prepared_volume_typed"
)
_WEIGHING = "id, batch, at, gross_g, gross_typed, scope"


def make(file: Path, batches: int, weighings: int, seed: int = 1) -> None:
    """A new journal of that size. An existing file is refused."""
    if file.exists():
        raise SystemExit(f"{file} is already there; name a new file.")
    journal = open_journal(file, write=True)
    driver = journal.database.driver
    driver.execute("PRAGMA synchronous = OFF")
    driver.execute("BEGIN")
    driver.executemany("INSERT INTO dryer (name, trays, retired) VALUES (?, ?, 0)", _DRYERS)
    each = weighings // batches if batches else 0
    runs = _Runs(batches, np.random.default_rng(seed))
    driver.executemany(_insert("batch", _BATCH), runs.batches())
    driver.executemany(_insert("weighing", _WEIGHING), runs.weighings(each))
    driver.execute("COMMIT")
    driver.execute("PRAGMA optimize")
    driver.execute("ANALYZE")
    journal.close()


def _insert(table: str, columns: str) -> str:
    return f"INSERT INTO {table} ({columns}) VALUES ({', '.join('?' * (columns.count(',') + 1))})"


class _Runs:
    """The numbers of all batches at once, so that weighings agree with the batch they belong to."""

    def __init__(self, count: int, chance: np.random.Generator) -> None:
        foods = [
            (slug, food.facts["water"].value) for slug, food in handbook().foods.items() if "water" in food.facts
        ]
        pick = chance.integers(0, len(foods), count)
        self.food = [foods[i][0] for i in pick]
        solids = 1 - np.array([water for _, water in foods])[pick] / 100
        self.count = count
        self.prepared = np.round(chance.uniform(400, 4000, count))
        self.solids = self.prepared * solids * chance.lognormal(0, 0.05, count)
        self.dried = np.round(
            np.minimum(self.solids / (1 - chance.uniform(0.04, 0.18, count)), self.prepared * 0.98), 1
        )
        self.hours = chance.uniform(5, 16, count)
        self.started = _FIRST + (np.sort(chance.uniform(0, 11.8 * 365.25 * 24, count)) * 60).astype(np.int64) * (
            _HOUR // 60
        )
        self.dryer = chance.integers(1, 3, count)
        self.heat = chance.integers(48, 63, count)
        self.humidity = np.round(chance.uniform(30, 75, count))
        self.word = chance.integers(0, len(_WORDS), count)
        self.form = chance.integers(0, len(_FORMS), count)
        self.rating = chance.integers(0, 6, count)

    def batches(self) -> Iterator[tuple[Any, ...]]:
        """Rows of the batch table."""
        arrays = (
            self.prepared, self.dryer, self.heat, self.started, self.hours, self.humidity, self.dried,
            self.word, self.rating, self.form,
        )  # fmt: skip
        for at, values in enumerate(zip(*(a.tolist() for a in arrays), strict=True)):
            prepared, dryer, heat, started, hours, humidity, dried, word, rating, form = values
            ended = started + int(hours * 60) * (_HOUR // 60)
            volume = (prepared * 1.6, f"{prepared * 1.6:.0f} ml") if at % 2 else (None, None)
            yield (
                at + 1, self.food[at], "finished", _FORMS[form], prepared, f"{prepared:.0f} g", dryer, 4 + at % 3,
                float(heat), f"{heat} C", started, ended, humidity, dried, f"{dried:.1f} g", _WORDS[word],
                rating or None, "fresh", "", "", *volume,
            )  # fmt: skip

    def weighings(self, each: int) -> Iterator[tuple[Any, ...]]:
        """Rows of the weighing table: a falling curve a batch."""
        steps = np.linspace(0, 1, max(each, 2))
        fall = (np.exp(-3.5 * steps) - np.exp(-3.5)) / (1 - np.exp(-3.5))
        number = 0
        for at in range(self.count if each else 0):
            grams = np.round(self.dried[at] + (self.prepared[at] - self.dried[at]) * fall).tolist()
            minutes = (self.hours[at] * 60 * steps).astype(np.int64).tolist()
            started = int(self.started[at])
            for minute, gross in zip(minutes[:each], grams[:each], strict=True):
                number += 1
                yield number, at + 1, started + minute * (_HOUR // 60), gross, f"{gross:.0f} g", "load"


def main() -> None:
    """The command line."""
    parser = argparse.ArgumentParser(description="Make a large journal.")
    parser.add_argument("file", type=Path)
    parser.add_argument("--batches", type=int, default=100_000)
    parser.add_argument("--weighings", type=int, default=2_000_000)
    args = parser.parse_args()
    began = time.perf_counter()
    make(args.file, args.batches, args.weighings)
    print(f"{args.file}: {args.file.stat().st_size / 1e6:.0f} MB in {time.perf_counter() - began:.1f} s")


if __name__ == "__main__":
    main()
