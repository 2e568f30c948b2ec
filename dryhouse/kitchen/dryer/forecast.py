"""What lies ahead of a batch: when it will be dry, whether it ever will here, and its water activity now."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from dryhouse.handbook.activation import activation_of
from dryhouse.handbook.gab import isotherms
from dryhouse.handbook.keeping_table import water_activity_limits
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.dryer.earlier_runs import earlier_runs, prior_from, prior_from_durations
from dryhouse.kitchen.dryer.published_rates import published_expectation
from dryhouse.kitchen.dryer.running_time import Clock
from dryhouse.kitchen.foods.dryer_air import chamber_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.records.weighings import HEAT_CHANGED
from dryhouse.science.chamber import Chamber, slow_reason
from dryhouse.science.dry_matter import Belief, Between, belief_between
from dryhouse.science.errors import InputProblem
from dryhouse.science.forecast import Beforehand, Equilibrium, Forecast, Heating, Prior, forecast
from dryhouse.science.messages import Message
from dryhouse.science.moisture import SCALE_G, Load, wet_to_dry
from dryhouse.science.sorption import below, equilibrium_moisture, water_activity_figure
from dryhouse.science.values import Fact, Figure, merge_bases
from dryhouse.science.workings import Step, step
from dryhouse.science.workings import StepKind as Kind
from dryhouse.words.messages import problem_sentence

ROOM_C = 25.0
"""Where the kitchen's temperature is not recorded, water activity is estimated for this room (assumption)."""


@dataclass(frozen=True, slots=True)
class RunForecast:
    """None and empty where the records do not carry an answer. Hours count from the first point of the run."""

    forecast: Forecast | None = None
    why_none: str = ""
    """Why there is no forecast, in a sentence."""
    slow_day: Message | None = None
    """Why this batch dries slowly or may never be dry here, in a sentence; empty where nothing is the matter."""
    chamber: Chamber | None = None
    equilibrium: Figure | None = None
    """Moisture (dry basis, g/g) the food settles at in the air of the dryer."""
    water_activity: Figure | None = None
    taught: Between | None = None
    """The dry matter after the run's weighings, as a share of the load, as it is kept with a batch that was taken
    off; None where too little was weighed."""

    @property
    def learned(self) -> Belief | None:
        """The belief about it that every figure of the run rests on."""
        return None if self.taught is None else belief_between(self.taught)


@dataclass(frozen=True, slots=True)
class Course:
    """How a run went: hours of drying from its first point, net grams, the dryer's heat (°C), where it was changed
    all of them, and the hours up to which the dryer is known to have run."""

    hours: Sequence[float]
    grams: Sequence[float]
    heat_c: float | None = None
    heating: Heating | None = None
    ran: Sequence[float] = ()


def run_forecast(
    kitchen: Kitchen, batch: Batch, food: Food, load: Load | None, target: Fact | None, course: Course
) -> RunForecast:
    """What to expect of a run.

    The forecast and the moisture rest on one belief about the dry matter of the load; what the run taught of it
    stands in `taught`. Weighings heavier than the load are left out
    of it, and there is none from such a one. A batch that is off the dryer has no
    forecast; its water activity is of its last weighing.
    """
    grams, heat = course.grams, course.heat_c
    if load is None or target is None or not grams:
        return RunForecast(why_none="A forecast needs the starting moisture, the target and one weighing.")
    activity = _activity(food, batch, load, grams[-1])
    if batch.state != DRYING:
        return RunForecast(water_activity=activity)
    chamber = chamber_of(batch, heat)
    settles = None
    if chamber is not None and heat is not None:
        settles = equilibrium_moisture(isotherms(food.slug), chamber.relative_humidity_pct / 100.0, heat)
    slow = slow_reason(chamber, settles, wet_to_dry(target.value / 100.0)) if chamber is not None else None
    level = None
    if settles is not None and settles.low is not None and settles.high is not None and settles.basis:
        level = Equilibrium(settles.value, settles.low, settles.high, settles.basis[0])
    sound = [(h, g) for h, g in zip(course.hours, grams, strict=True) if g <= load.grams + SCALE_G]
    if grams[-1] > load.grams + SCALE_G:
        why = "the last weighing is more than was loaded."
        return RunForecast(
            why_none=why, slow_day=slow, chamber=chamber, equilibrium=settles, water_activity=activity
        )
    try:
        found = forecast(
            [h for h, _ in sound],
            [g for _, g in sound],
            Beforehand(
                load.belief.scaled(load.grams / sound[0][1]),
                target.value,
                equilibrium=level,
                prior=prior_for(kitchen, batch, food, load, target, heat),
                basis=merge_bases((i.water.basis for i in load.ingredients), [target.basis]),
            ),
            heating=course.heating,
            ran=course.ran,
        )
    except InputProblem as problem:
        return RunForecast(
            why_none=problem_sentence(problem),
            slow_day=slow,
            chamber=chamber,
            equilibrium=settles,
            water_activity=activity,
        )
    taught = found.belief.scaled(sound[0][1] / load.grams).between if len(sound) > 2 else None
    return RunForecast(found, "", slow, chamber, settles, activity, taught)


def heating_of(
    batch: Batch, food: Food, events: Iterable[BatchEvent], clock: Clock, first: float
) -> Heating | None:
    """The dryer's heats in hours from the first point, which stands at `first` hours of drying; None where it was
    not changed, or what it was before is not recorded."""
    changed = sorted((e.at, e.id, e.temperature.si) for e in events if e.kind == HEAT_CHANGED and e.temperature)
    if batch.set_temperature is None or not changed:
        return None
    heats = [(0.0, batch.set_temperature.si)]
    for moment, _, celsius in changed:
        at = max(clock.hours(moment) - first, 0.0)
        if at <= heats[-1][0]:
            heats.pop()
        heats.append((at, celsius))
    return Heating(tuple(at for at, _ in heats), tuple(heat for _, heat in heats), activation_of(food.slug))


def prior_for(
    kitchen: Kitchen, batch: Batch, food: Food, load: Load, target: Fact, heat_c: float | None
) -> Prior | None:
    """What is expected of the run before its first weighing: her own weighed runs of the food, else the hours
    of her logged batches, else the published drying time, else published drying constants, else nothing."""
    own, energy = earlier_runs(kitchen, food, but=batch.id), activation_of(food.slug)
    mine = prior_from(own, form=batch.form, temperature_c=heat_c, activation=energy)
    if mine is not None:
        return mine
    ratio = target_ratio(load, target)
    logged = [p for p in kitchen.journal.yield_pairs(food.slug) if p.batch != batch.id]
    return prior_from_durations(
        logged, ratio=ratio, temperature_c=heat_c, activation=energy
    ) or published_expectation(food, ratio, heat_c, batch.form)


def target_ratio(load: Load, target: Fact) -> float:
    """The moisture ratio X/X₀ at which the target is reached."""
    return wet_to_dry(target.value / 100.0) / wet_to_dry(load.moisture_pct / 100.0)


def _activity(food: Food, batch: Batch, load: Load, grams: float) -> Figure | None:
    known = isotherms(food.slug)
    if not known or grams <= load.solids_high:
        return None
    low, middle, high = (grams / s - 1.0 for s in (load.solids_high, load.solids, load.solids_low))
    room = batch.kitchen_temperature.si if batch.kitchen_temperature else ROOM_C
    found = water_activity_figure(known, low, middle, high, room)
    return replace(found, workings=(*found.workings, *_against_limits(found, food))) if found else None


def _against_limits(figure: Figure, food: Food) -> tuple[Step, ...]:
    """The cautious end against the published limits, and what an estimate is worth."""
    limits = water_activity_limits()
    wanted = ("no growth", "jerky", "low acid") if food.animal else ("no growth", "low acid")
    high = figure.high if figure.high is not None else figure.value
    lines = [
        step(
            Kind.ACTIVITY_BELOW if below(figure, fact.value) else Kind.ACTIVITY_NOT_BELOW,
            high=(high, "aw"),
            limit=(fact.value, "aw", fact.source),
            what=fact.note,
        )
        for fact in (limits[name] for name in wanted)
    ]
    return (*lines, step(Kind.NO_MEASUREMENT))
