"""Ten thousand made runs: no figure outside its interval, no negative moisture, no yield beyond its solids.

    python tests/benchmarks/figures_in_bounds.py [--runs 10000] [--first 0] [--seed 1]

Each run is a batch of a food of the handbook in a kitchen of its own: solids that stray by their published spread
and now and then twice as far, a law of drying, a scale of a gram or a tenth of an ounce, sometimes a slip of it
that is taken in all the same, sometimes a sample tray, a stop, a level that was confirmed, a hand test at the end.
What the program says of it on the way and of its card is looked at figure by figure. Prints what was out of bounds,
and how many figures were looked at.
"""

from __future__ import annotations

import argparse
import math
import sys
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import numpy as np

from dryhouse.kitchen.dryer.drying import CameOff
from dryhouse.kitchen.dryer.typed_readings import Reading

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]


from made_runs import LAWS, law_of  # noqa: E402

from dryhouse.handbook.reader import Handbook, handbook  # noqa: E402
from dryhouse.handbook.tables import Food  # noqa: E402
from dryhouse.handbook.yield_spread import water_with_range  # noqa: E402
from dryhouse.kitchen.cards.batch_card import batch_card  # noqa: E402
from dryhouse.kitchen.dryer.drying import add_weighing, leave_out, start_batch, take_off  # noqa: E402
from dryhouse.kitchen.dryer.questions import Asked, answer, questions_of  # noqa: E402
from dryhouse.kitchen.dryer.runs import DryingRun, run_of  # noqa: E402
from dryhouse.kitchen.kitchen import Kitchen  # noqa: E402
from dryhouse.kitchen.records import Batch  # noqa: E402
from dryhouse.kitchen.records.batches import FEELS  # noqa: E402
from dryhouse.kitchen.records.weighings import LOAD, SAMPLE  # noqa: E402
from dryhouse.science.display import METRIC, Style  # noqa: E402
from dryhouse.science.dryness import Verdict  # noqa: E402
from dryhouse.science.errors import InputProblem  # noqa: E402
from dryhouse.science.quantities import Mass, Temperature  # noqa: E402
from dryhouse.science.statuses import FigureId, VerdictName  # noqa: E402
from dryhouse.science.units import SIZES  # noqa: E402
from dryhouse.science.values import MIDDLE_80_SD, Figure  # noqa: E402
from tests.fakes import FakeJournal  # noqa: E402

NOON = datetime(2026, 8, 14, 12, 0, tzinfo=UTC)
WHOLE = handbook()
FOODS = [f for f in WHOLE.foods.values() if (w := f.fact("water")) is not None and 0 < w.value < 100]


class Wall:
    """The clock of one kitchen."""

    def __init__(self) -> None:
        self.time = NOON

    def __call__(self) -> datetime:
        return self.time


def one(rng: np.random.Generator) -> Iterator[tuple[Kitchen, DryingRun, Food, bool]]:
    """A batch from its start to its end: the run after each of some weighings, and finished."""
    food = FOODS[rng.integers(len(FOODS))]
    water = water_with_range(food, food.facts["water"])
    strays = 0.1
    if water.low is not None and water.high is not None and water.low < water.high < 100:
        strays = math.log((100.0 - water.low) / (100.0 - water.high)) / (2.0 * MIDDLE_80_SD)
    strays *= 2.0 if rng.random() < 0.2 else 1.0
    share = float(np.clip((1.0 - water.value / 100.0) * math.exp(rng.normal(0.0, strays)), 0.01, 0.97))
    ounces, first = rng.random() < 0.4, float(rng.uniform(80, 2500))
    wall = Wall()
    kitchen = Kitchen(FakeJournal(), Handbook({food.slug: food}), now=wall, zone=UTC)
    heat = Temperature(57.0, "57 C")
    sampled = rng.random() < 0.15
    draft = Batch(food.slug, prepared_mass=read(4 * first if sampled else first, ounces), set_temperature=heat)
    if rng.random() < 0.3:
        draft = Batch(
            food.slug, prepared_mass=draft.prepared_mass, set_temperature=heat,
            kitchen_temperature=Temperature(22.0, "22 C"), kitchen_humidity_pct=float(rng.uniform(20, 85)),
        )  # fmt: skip
    batch = start_batch(kitchen, draft).record.id
    half = float(np.exp(rng.normal(np.log(2.2), 0.6)))
    law, level = str(rng.choice(LAWS[:-1])), share * (1.0 + float(rng.uniform(0.005, 0.09)))
    hours = np.sort(rng.uniform(0.0, half * float(rng.uniform(1.0, 12.0)), int(rng.integers(1, 12))))
    ratio = law_of(rng, law, hours / half)
    grams = first * (level + max(1.0 - level, 0.0) * ratio)
    slip, stop = int(rng.integers(0, 40)), float(rng.uniform(0, 3)) if rng.random() < 0.15 else 0.0
    for n, (hour, mass) in enumerate(zip(hours, grams, strict=True)):
        wall.time = NOON + timedelta(hours=float(hour) + (stop if n > 3 else 0.0), minutes=n)
        weigh(kitchen, batch, mass * (rng.uniform(0.3, 1.2) if n == slip else 1.0), ounces, sampled)
        if rng.random() < 0.15 or n == len(hours) - 1:
            yield kitchen, run_of(kitchen, batch), food, False
    run = run_of(kitchen, batch)
    for question in questions_of(kitchen, run, Style(METRIC)):
        yes = bool(rng.random() < 0.5 or question.about == Asked.LEVEL)
        try:
            answer(kitchen, batch, question.about, yes, at=question.end)
        except InputProblem:
            continue  # answered together with the one before
        yield kitchen, run_of(kitchen, batch), food, False
    if run.net_g is not None:
        felt = str(rng.choice(FEELS)) if rng.random() < 0.6 else ""
        wall.time += timedelta(minutes=20)
        try:
            take_off(kitchen, batch, CameOff(read(run.net_g, ounces) if not sampled else None, felt=felt))
        except InputProblem:
            return
        yield kitchen, run_of(kitchen, batch), food, True


def read(grams: float, ounces: bool) -> Mass:
    """What the scale shows."""
    if ounces:
        shown = max(round(grams / SIZES["oz"], 1), 0.1)
        return Mass(shown * SIZES["oz"], f"{shown:.1f} oz")
    return Mass(float(max(round(grams), 1)), f"{max(round(grams), 1)} g")


def weigh(kitchen: Kitchen, batch: int, grams: float, ounces: bool, sampled: bool) -> None:
    """A reading; one that can't be true is taken in all the same."""
    try:
        made = add_weighing(
            kitchen, batch, Reading(read(grams, ounces), scope=SAMPLE if sampled else LOAD), keep=True
        ).record
    except InputProblem:
        return
    if made.left_out:
        leave_out(kitchen, made.id, out=False)


def wrong(kitchen: Kitchen, run: DryingRun, food: Food, finished: bool, seen: Counter[str]) -> Iterator[str]:
    """What is out of bounds, a line each."""
    figures: dict[str, Figure | None] = {
        "moisture": run.moisture, "dry basis": run.moisture_dry_basis, "ratio": run.moisture_ratio,
        "target mass": run.target_mass, "settles at": run.expected.equilibrium,
        "water activity": run.expected.water_activity,
    }  # fmt: skip
    if finished:
        card = batch_card(kitchen, run.batch.id)
        figures |= {f"card {f.id}": f.figure for f in card.figures}
        by_weight = card.figure(FigureId.YIELD_BY_WEIGHT)
        if by_weight is not None and not 0 < by_weight.value <= 100:
            yield f"a yield of {by_weight.value:.1f} %"
        if isinstance(card.verdict, Verdict):
            yield from of_verdict(card.verdict)
    for name, figure in figures.items():
        if figure is None:
            continue
        seen["figures"] += 1
        low = -math.inf if figure.low is None else figure.low
        high = math.inf if figure.high is None else figure.high
        slack = 1e-9 * max(abs(figure.value), 1.0)
        if not low - slack <= figure.value <= high + slack or not math.isfinite(figure.value):
            yield f"{name} {figure.value} outside {low} to {high}"
        if figure.value < 0 or (low < 0 and figure.low is not None):
            yield f"{name} is negative: {figure.value}, {low} to {high}"
    if run.moisture is not None and not 0.0 <= run.moisture.value < 100.0:
        yield f"a moisture of {run.moisture.value} %"
    if isinstance(run.verdict, Verdict):
        yield from of_verdict(run.verdict)
    found = run.expected.forecast
    if found is not None:
        seen["forecasts"] += 1
        f = found.finish
        if not 0.0 <= f.low80 <= f.low50 <= f.median <= f.high50 <= f.high80:
            yield f"finish bands {f}"
        for bands, least, most in ((found.mass, 0.0, math.inf), (found.moisture, 0.0, 100.0)):
            rows = [bands.low80, bands.low50, bands.median, bands.high50, bands.high80]
            ordered = all(np.all(a <= b + 1e-9) for a, b in pairwise(rows))
            if not ordered or np.min(rows) < least or np.max(rows) > most:
                yield "bands of what lies ahead"


def of_verdict(found: Verdict) -> Iterator[str]:
    """Dry enough has 80 % behind it, and the moisture of the verdict lies in its interval."""
    if (found.name == VerdictName.DRY_ENOUGH) != (found.probability is not None and found.probability >= 0.80):
        yield f"{found.name} with {found.probability}"
    now = found.now
    if now is not None and now.low is not None and now.high is not None and not now.low <= now.value <= now.high:
        yield f"verdict at {now.value} outside {now.low} to {now.high}"


def main() -> None:
    """Make the runs and say what was out of bounds."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--runs", type=int, default=10_000)
    parser.add_argument("--first", type=int, default=0, help="the number of the first run")
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    seen: Counter[str] = Counter()
    amiss: Counter[str] = Counter()
    for number in range(args.first, args.first + args.runs):
        rng = np.random.default_rng([args.seed, number])
        for kitchen, run, food, finished in one(rng):
            seen["runs looked at"] += 1
            for line in wrong(kitchen, run, food, finished, seen):
                amiss[line.split(" ")[0]] += 1
                if amiss.total() <= 40:
                    print(f"run {number}, {food.slug}: {line}", flush=True)
        seen["runs"] += 1
        if (number + 1) % 1000 == 0:
            print(f"{number + 1} runs, {seen['figures']} figures, {amiss.total()} out of bounds", flush=True)
    print(f"{dict(seen)}; out of bounds: {amiss.total()} {dict(amiss)}")


if __name__ == "__main__":
    main()
