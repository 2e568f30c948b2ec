"""The forecast tried on published runs: how often its bands hold the true finish, and how far off it is.

Run: python tests/benchmarks/forecast_on_published_runs.py [--each] [--runs DIR]

With `--runs`, the runs of a folder are judged instead: CSV files with the columns hours,grams[,temperature_c] and,
on any line, `dry_matter_g` or `start_moisture` (% wet basis). A file that says neither is taken to have ended with
3 % of its weight as water.

A run is cut at 40 % (then 60 %) of the time it took to a target; the forecast sees the weighings up to there, the
dry matter and the target, and nothing else: no food, no temperature, no equilibrium moisture, no earlier runs.
Targets: 30, 20, 10 and 5 % of the first free water left, where the run gets there, else its last weighing. The true
finish is read off straight lines between the weighings. Every run counts once, however many targets it reaches.

The weights of the shapes and the sizes of the errors in the forecast are round numbers held against made runs (see
doubt_in_kitchens.py); these runs can only reject them. They are few, and were seen while the forecast was made, so
they are not blind. The second set is unreviewed student sheets. Runs with a supposed dry matter say so in their
data file.
"""

from __future__ import annotations

import argparse
import csv
from pathlib import Path

import numpy as np

from dryhouse.science.dry_matter import exactly
from dryhouse.science.forecast import Beforehand, forecast

DATA = Path(__file__).parents[1] / "published" / "data"
SHARES = (0.30, 0.20, 0.10, 0.05)
FARTHEST = 50.0
"""A bound later than so many times the run counts as none."""
SUPPOSED_DRY = {
    "geankoplis_foodstuff": 3765.0,
    "lab_carrot_tray": 0.118 * 186.4,
    "lab_sweetpotato_2": 0.115,
    "lab_watermelon_tray1": 0.2809,
    "thesis_isd_1cm": 125.0,
}
"""Dry matter in grams of the runs given as mass: printed, or (carrot, thesis) from usual moisture."""
DRY_NAMES = ("dry_matter_g", "start_moisture")
Run = tuple[np.ndarray, np.ndarray, float]


def published() -> dict[str, Run]:
    """Hours, grams and dry matter of the series in drying_runs.csv; moisture ratios made a load of 80 % water."""
    runs = {}
    for name, rows in _series("drying_runs.csv").items():
        hours = np.array([float(r["time_h"]) for r in rows])
        if name in SUPPOSED_DRY:
            mass, dry = np.array([float(r["mass_g"]) for r in rows]), SUPPOSED_DRY[name]
        elif rows[0]["moisture_ratio"]:
            mass, dry = 200.0 + 800.0 * np.array([float(r["moisture_ratio"]) for r in rows]), 200.0
        else:
            mass, dry = 1000.0 * (1.0 + np.array([float(r["moisture_db"]) for r in rows])), 1000.0
        runs[name] = (hours, mass, dry)
    return runs


def further() -> dict[str, Run]:
    """The runs of drying_runs_more.csv."""
    return {
        name: (
            np.array([float(r["time_h"]) for r in rows]),
            np.array([float(r["mass_g"]) for r in rows]),
            float(rows[0]["dry_matter_g"]),
        )
        for name, rows in _series("drying_runs_more.csv").items()
    }


def of_folder(folder: Path) -> dict[str, Run]:
    """The runs of every CSV file in a folder. Raises ValueError for one without the columns hours and grams."""
    runs = {}
    for file in sorted(folder.glob("*.csv")):
        with file.open(encoding="utf-8-sig", newline="") as lines:
            rows = list(csv.DictReader(lines))
        if not rows or not {"hours", "grams"} <= set(rows[0]):
            raise ValueError(f"{file.name}: the columns hours and grams are needed")
        hours, grams = (np.array([float(r[name]) for r in rows]) for name in ("hours", "grams"))
        told = {name: next((float(r[name]) for r in rows if r.get(name)), None) for name in DRY_NAMES}
        dry = 0.97 * float(grams.min())
        if told["start_moisture"] is not None:
            dry = grams[0] * (1.0 - told["start_moisture"] / 100.0)
        runs[file.stem] = (hours - hours[0], grams, told["dry_matter_g"] or dry)
    return runs


def _series(file: str) -> dict[str, list[dict[str, str]]]:
    series: dict[str, list[dict[str, str]]] = {}
    with (DATA / file).open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            series.setdefault(row["series_id"], []).append(row)
    return series


def targets(run: Run) -> list[tuple[str, float, float]]:
    """(name, target mass, true finish) of a run."""
    hours, mass, dry = run
    found = []
    for share in SHARES:
        aim = dry + share * (mass[0] - dry)
        if mass[-1] <= aim:
            i = int(np.flatnonzero(mass > aim)[-1]) + 1
            part = (mass[i - 1] - aim) / (mass[i - 1] - mass[i])
            found.append((f"{share:.0%}", aim, float(hours[i - 1] + part * (hours[i] - hours[i - 1]))))
    if len(found) < 2 and mass[0] - mass[-1] > 0.5 * (mass[0] - dry):
        found.append(("end", float(mass[-1]), float(hours[int(np.argmax(mass <= mass[-1]))])))
    return found


def judge(runs: dict[str, Run], part: float, *, each: bool, dry_error: float = 0.0) -> list[float]:
    """Share in the 80 % band, in the 50 % band, median error, mean ln ratio, median width of the 80 % band, share
    of bands that end; of all runs alike.

    `dry_error` is added to the starting moisture told (as a fraction); the target is then that moisture's own.
    """
    rows, weights = [], []
    for name, (hours, mass, true_dry) in runs.items():
        dry = true_dry - dry_error * mass[0]
        goals = targets((hours, mass, dry)) if 0 < dry < mass.min() else []
        for goal, aim, finish in goals:
            seen = hours <= part * finish * (1 + 1e-9)
            answer = forecast(
                hours[seen],
                mass[seen],
                Beforehand(solids=exactly(dry / mass[0]), target_moisture_pct=100 * (1 - dry / aim)),
            ).finish
            quantiles = [answer.low80, answer.low50, answer.median, answer.high50, answer.high80]
            ratio = np.minimum(np.array(quantiles) / finish, FARTHEST)
            rows.append(ratio)
            weights.append(1.0 / len(goals))
            if each:
                print(
                    f"    {name:26s}{goal:>5s} {np.count_nonzero(seen):4d} weighings  "
                    + " ".join(f"{r:6.2f}" for r in ratio)
                )
    ratio, weight = np.array(rows), np.array(weights)
    inside80 = (ratio[:, 0] <= 1) & (ratio[:, 4] >= 1)
    inside50 = (ratio[:, 1] <= 1) & (ratio[:, 3] >= 1)
    return [
        float(np.average(inside80, weights=weight)),
        float(np.average(inside50, weights=weight)),
        _middle(np.abs(ratio[:, 2] - 1.0), weight),
        float(np.average(np.log(ratio[:, 2]), weights=weight)),
        _middle(ratio[:, 4] - ratio[:, 0], weight),
        float(np.average(ratio[:, 4] < FARTHEST, weights=weight)),
    ]


def _middle(values: np.ndarray, weight: np.ndarray) -> float:
    """The weighted median."""
    order = np.argsort(values)
    return float(values[order][np.searchsorted(np.cumsum(weight[order]), 0.5 * weight.sum())])


def main() -> None:
    """One table: published runs, then made ones (see made_runs.py); or the runs of a folder."""
    from made_runs import made_runs  # beside this script

    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--each", action="store_true", help="a line for every run and target")
    parser.add_argument("--runs", type=Path, metavar="DIR", help="judge the CSV runs of this folder instead")
    args = parser.parse_args()
    each = args.each
    if args.runs:
        sets = {"all runs": of_folder(args.runs)}
    else:
        sets = {"drying_runs.csv": published(), "further runs": further()}
        sets["all runs"] = {**sets["drying_runs.csv"], **sets["further runs"]}
    print(
        f"{'':34s}{'runs':>5s}{'in 80 %':>9s}{'in 50 %':>9s}{'median error':>14s}{'late by':>9s}"
        f"{'width':>8s}{'ends':>7s}"
    )
    for part in (0.4, 0.6):
        for name, runs in sets.items():
            line(f"{part:.0%} of the run, {name}", runs, part, each=each and (len(sets) == 1 or name != "all runs"))
        for error in (-0.03, 0.03):
            line(f"{part:.0%}, start moisture {100 * error:+.0f} points", sets["all runs"], part, dry_error=error)
        if not args.runs:
            made = made_runs()
            say(f"{part:.0%}, made runs", len(made), judge_made(made, part))


def judge_made(runs: list, part: float) -> list[float]:
    """The same figures on made runs, each with its own target."""
    rows = []
    for run in runs:
        seen = run.hours <= part * run.finish
        if np.count_nonzero(seen) >= 2:
            f = forecast(
                run.hours[seen],
                run.grams[seen],
                Beforehand(solids=exactly(run.dry / run.grams[0]), target_moisture_pct=run.target_pct),
            ).finish
            rows.append(np.array([f.low80, f.low50, f.median, f.high50, f.high80]) / run.finish)
    ratio = np.minimum(np.array(rows), FARTHEST)
    return [
        float(np.mean((ratio[:, 0] <= 1) & (ratio[:, 4] >= 1))),
        float(np.mean((ratio[:, 1] <= 1) & (ratio[:, 3] >= 1))),
        float(np.median(np.abs(ratio[:, 2] - 1))),
        float(np.mean(np.log(ratio[:, 2]))),
        float(np.median(ratio[:, 4] - ratio[:, 0])),
        float(np.mean(ratio[:, 4] < FARTHEST)),
    ]


def line(label: str, runs: dict[str, Run], part: float, *, each: bool = False, dry_error: float = 0.0) -> None:
    """One line of the table."""
    say(label, len(runs), judge(runs, part, each=each, dry_error=dry_error))


def say(label: str, runs: int, figures: list[float]) -> None:
    """The figures of one line, printed."""
    inside80, inside50, middle, late, width, ends = figures
    print(
        f"{label:34s}{runs:5d}{inside80:9.0%}{inside50:9.0%}{middle:14.1%}{np.expm1(late):9.1%}{width:8.2f}{ends:7.0%}"
    )


if __name__ == "__main__":
    main()
