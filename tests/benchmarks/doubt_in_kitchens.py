"""Many kitchens made by chance: the solids of each load stray from the table's figure, and the bands must hold.

Run: python tests/benchmarks/doubt_in_kitchens.py [--kitchens 400] [--seed 7]

A load's solids are drawn round the handbook's figure with their published spread; it dries along a law (Page, or
one that the forecast does not hold, see made_runs.py), on a scale of one gram, and settles at its equilibrium
moisture. The forecast sees the weighings up to a part of the run and the food's belief, nothing else. Counted is
how often the 80 % bands of moisture now, target mass and finish hold the truth, how wide they are, and how often
they end. Four kinds of runs: by Page's law; by laws that the forecast does not hold, at a pace that wanders; nearly
straight to the end; cold trays that take long to warm up. `mixed` is the four together, in `SHARES`.

Then come the laws of `FURTHER`, looked at only after the forecast's weights had been chosen. Those that slow down
for good later than two fifths of the run can't be foreseen there; they say how far off that puts the forecast.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from dryhouse.science.dry_matter import prior_belief
from dryhouse.science.dry_matter_test import TESTED_SD
from dryhouse.science.forecast import Beforehand, forecast

sys.path.insert(0, str(Path(__file__).parent))

from made_runs import LAWS, law_of, paced


@dataclass(frozen=True)
class KitchenRun:
    """One load: weighings, what the table says of its solids, and the truth."""

    hours: np.ndarray
    grams: np.ndarray
    solids_pct: float
    log_sd: float
    target_pct: float
    true_share: float
    finish: float
    slip: float
    """What a dry-matter test reads, over the truth."""


SHARES = {"plain": 0.5, "other": 0.3, "straight": 0.1, "warm": 0.1}
"""How common each kind is among the mixed: an assumption."""


FURTHER = ("early loss", "warming", "falling late", "hardening", "change of pace", "uneven trays")
"""Laws that no weight of the forecast was chosen by."""


def kitchens(count: int, seed: int = 7, kind: str = "mixed") -> Iterator[KitchenRun]:
    """That many runs that do end, the same for the same seed."""
    rng = np.random.default_rng(seed)
    made = 0
    while made < count:
        run = _run(
            rng, kind if kind in (*SHARES, *FURTHER) else str(rng.choice(list(SHARES), p=list(SHARES.values())))
        )
        if run is not None:
            made += 1
            yield run


def _ratio(rng: np.random.Generator, kind: str, hours: np.ndarray, half: float) -> np.ndarray:
    """Moisture ratio of a run of this kind."""
    time = hours / half
    if kind == "plain":
        return np.exp(-np.log(2) * time ** rng.uniform(0.95, 1.3))
    if kind == "straight":
        knee, gone = rng.uniform(0.02, 0.15), 0.5 * time
        return np.where(gone < 1 - knee, 1 - gone, knee * np.exp(-np.minimum((gone - (1 - knee)) / knee, 300.0)))
    if kind == "warm":
        lag = rng.uniform(0.15, 0.4)
        return np.exp(
            -np.log(2) * np.maximum(time - lag * (1 - np.exp(-time / lag)), 0.0) ** rng.uniform(0.95, 1.2)
        )
    if kind in FURTHER:
        return _further(rng, kind, time)
    law = str(rng.choice(LAWS[:-1]))
    return np.interp(paced(rng, hours, half), hours, law_of(rng, law, time))


def _further(rng: np.random.Generator, kind: str, time: np.ndarray) -> np.ndarray:
    """Moisture ratio by one of the laws in `FURTHER`, at times in half-times."""
    n = rng.uniform(0.95, 1.25)
    if kind == "early loss":
        quick = rng.uniform(0.0, 0.1)
        return (1 - quick) * 0.5**time + quick * 0.5 ** (12 * time)
    if kind == "uneven trays":
        return np.mean([0.5 ** ((time * np.exp(rng.normal(0, 0.25))) ** n) for _ in range(5)], axis=0)
    if kind == "change of pace":
        at, factor = rng.uniform(0.5, 4.0), np.exp(rng.normal(0, 0.2))
        return 0.5 ** (np.where(time < at, time, at + (time - at) * factor) ** n)
    left = np.linspace(1.0, 1e-4, 5000)
    rate = left
    if kind == "falling late":
        knee, order = rng.uniform(0.2, 0.8), rng.uniform(0.6, 1.4)
        rate = np.where(left > knee, 1.0, (left / knee) ** order)
    elif kind == "hardening":
        rate = left * (1 - rng.uniform(0.3, 0.8) / (1 + np.exp((left - 0.3) / 0.06)))
    took = np.concatenate(([0.0], np.cumsum(-np.diff(left) * (1 / rate[1:] + 1 / rate[:-1]) / 2)))
    if kind == "warming":
        lag = rng.uniform(0.05, 0.4)
        time = time - lag * (1 - np.exp(-time / lag))
    return np.interp(time * np.interp(-0.5, -left, took), took, left)


def _run(rng: np.random.Generator, kind: str) -> KitchenRun | None:
    fruit, slip = rng.random() < 0.4, float(np.exp(rng.normal(0.0, TESTED_SD)))
    solids = float(rng.uniform(0.08, 0.28))
    log_sd = float(rng.uniform(0.08, 0.15))
    share = solids * float(np.exp(rng.normal(0.0, log_sd)))
    target = 0.20 if fruit else 0.10
    first = float(rng.uniform(300, 1200))
    settles = float(np.clip(np.exp(rng.normal(np.log(0.035), 0.6)), 0.005, 0.10))
    if settles > 0.9 * target / (1 - target):
        return None
    half = float(np.exp(rng.normal(np.log(2.2), 0.5)))
    hours = np.linspace(0.0, 40.0, 8001)
    ratio = _ratio(rng, kind, hours, half)
    mass = first * (share * (1 + settles) + (1 - share * (1 + settles)) * ratio)
    aim = first * share / (1 - target)
    if mass[-1] > aim:
        return None
    finish = float(np.interp(-aim, -mass, hours))
    count = int(rng.integers(6, 16))
    times = np.unique(np.round(finish * np.linspace(0.0, 1.1, count), 2))
    grams = np.round(np.interp(times, hours, mass))
    return KitchenRun(times, grams, 100 * solids, log_sd, 100 * target, share, finish, slip)


def judge(runs: list[KitchenRun], part: float, *, tested: bool = False) -> dict[str, float]:
    """Shares of runs whose truth lies in the bands, their median widths, and how many finishes have an end."""
    rows = []
    for run in runs:
        seen = run.hours <= part * run.finish
        if np.count_nonzero(seen) < 2:
            continue
        belief = prior_belief(run.solids_pct, run.log_sd)
        if tested:
            belief = belief.tested(run.true_share * run.slip)
        answer = forecast(
            run.hours[seen], run.grams[seen], Beforehand(solids=belief, target_moisture_pct=run.target_pct)
        )
        done, first = answer.finish, run.grams[0]
        now = answer.belief.moisture(run.grams[seen][-1] / first)
        aim = answer.belief.target(run.target_pct)
        truth_now = 100 * (1 - run.true_share * first / run.grams[seen][-1])
        truth_aim = run.true_share / (1 - run.target_pct / 100)
        rows.append((
            now.low <= truth_now <= now.high, now.high - now.low,
            aim.low <= truth_aim <= aim.high, (aim.high - aim.low) / aim.value,
            done.low80 <= run.finish <= done.high80, (min(done.high80, 99.0) - done.low80) / run.finish,
            done.low50 <= run.finish <= done.high50, np.isfinite(done.high80), abs(done.median / run.finish - 1),
            np.log(min(done.median, 99.0) / run.finish),
        ))  # fmt: skip
    table = np.array(rows, dtype=float)
    names = ("moisture in", "moisture width", "target in", "target width", "finish in 80", "finish width",
             "finish in 50", "ends", "off", "late")  # fmt: skip
    middle = {"moisture width", "target width", "finish width", "off"}
    return {n: float(np.median(c) if n in middle else c.mean()) for n, c in zip(names, table.T, strict=True)}


def main() -> None:
    """The table, at 40 % and 70 % of the run."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--kitchens", type=int, default=400)
    parser.add_argument("--seed", type=int, default=7)
    args = parser.parse_args()
    for kind in (*SHARES, "mixed", *FURTHER):
        runs = list(kitchens(args.kitchens, args.seed, kind))
        for part in (0.4, 0.7):
            for tested in (False, True):
                found = judge(runs, part, tested=tested)
                title = f"{kind}, {part:.0%}, {'tested' if tested else 'by food'}"
                print(f"{title:30s}" + "  ".join(f"{n} {v:.2f}" for n, v in found.items()))


if __name__ == "__main__":
    main()
