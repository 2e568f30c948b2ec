"""What lies ahead of a batch: when it will be dry, whether it ever will here, and its water activity now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.earlier_runs import earlier_runs, prior_from
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.room import Kitchen
from dryhouse.science.errors import InputProblem
from dryhouse.science.forecast import Forecast, Prior, forecast
from dryhouse.science.moisture import Load
from dryhouse.science.values import Fact, Figure, merge_bases

MIDDLE_80 = 2.5631
"""Width of the middle 80 % of a normal distribution in standard deviations."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """None and empty where the records do not carry an answer. Hours count from the first point of the run."""

    forecast: Forecast | None = None
    why_none: str = ""
    """Why there is no forecast, in a sentence."""
    slow_day: str = ""
    """Why this batch dries slowly or may never be dry here, in a sentence; empty where nothing is the matter."""
    equilibrium: Figure | None = None
    water_activity: Figure | None = None


def outlook_of(
    kitchen: Kitchen,
    batch: Batch,
    food: Food,
    load: Load | None,
    target: Fact | None,
    hours: Sequence[float],
    grams: Sequence[float],
    *,
    running: bool,
) -> Outlook:
    """The outlook of a run whose points stand at these hours (from the first point) with these net masses.

    A batch that is off the dryer has no forecast, and nothing slow about it.
    """
    if load is None or target is None or not grams:
        return Outlook(why_none="A forecast wants the starting moisture, the target and one weighing.")
    if not running:
        return Outlook()
    try:
        found = forecast(
            hours,
            grams,
            dry_matter_g=load.solids,
            dry_matter_sd_g=(load.solids_high - load.solids_low) / MIDDLE_80,
            target_moisture_pct=target.value,
            prior=prior_for(kitchen, batch, food),
            basis=merge_bases((i.water.basis for i in load.ingredients), [target.basis]),
        )
    except InputProblem as problem:
        return Outlook(why_none=problem.sentence)
    return Outlook(forecast=found)


def prior_for(kitchen: Kitchen, batch: Batch, food: Food) -> Prior | None:
    """What is expected before the first weighing: her own runs, or None where she has none."""
    heat = batch.set_temperature.si if batch.set_temperature else None
    own = earlier_runs(kitchen, food, but=batch.id)
    return prior_from(own, form=batch.form, temperature_c=heat, activation=None)
