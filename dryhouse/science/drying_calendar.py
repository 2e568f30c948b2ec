"""When the dryers have to start: loads set backward from departure, as late as each dryer allows.

A batch is cut into loads of at most a dryer's trays; loads of the same company share a run where trays are
left over. What has to be ready first (conditioning) is set last, so that it takes the earlier days. Hours
are taken at the high end of their range. A load that would have to start before now does not fit, and the
calendar says how much is left over.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from dryhouse.science.provisioning import Recipe, Span, ToDry

_CRUMB = 1e-9


@dataclass(frozen=True, slots=True)
class Machine:
    """A dryer: its number, its trays and what it draws (W)."""

    id: int
    name: str
    trays: int
    watts: float | None = None


@dataclass(frozen=True, slots=True)
class PlannedLoad:
    """One food on so many trays of one run, in prepared and dried grams."""

    food: str
    trays: int
    prepared: float
    dried: float
    hours: Span
    conditioning_days: int


@dataclass(frozen=True, slots=True)
class Run:
    """One run of one dryer: what is in it and when it has to start, at the latest, to be done in time."""

    machine: Machine
    loads: tuple[PlannedLoad, ...]
    start: datetime
    end: datetime
    company: str = ""

    @property
    def trays(self) -> int:
        """Trays taken."""
        return sum(load.trays for load in self.loads)

    @property
    def kwh(self) -> float | None:
        """Power used at most: the dryer's draw over the whole run; None where its draw is not known."""
        if self.machine.watts is None:
            return None
        return self.machine.watts * (self.end - self.start).total_seconds() / 3.6e6


@dataclass(frozen=True, slots=True)
class Calendar:
    """The runs that fit, soonest first, and per food the dried grams that do not."""

    runs: tuple[Run, ...]
    left_over: Mapping[str, float]


def tray_count(prepared: float, tray_grams: float) -> int:
    """Trays a prepared mass fills; at least one."""
    return max(1, math.ceil(prepared / tray_grams - _CRUMB))


def calendar(
    batches: Sequence[tuple[ToDry, Recipe]],
    machines: Sequence[Machine],
    *,
    now: datetime,
    ready_by: datetime,
    turnaround: timedelta = timedelta(hours=1),
) -> Calendar:
    """Set every batch into the dryers, as late as they allow, the one that must be done first set last.

    A batch is cut into loads of at most a dryer's trays. A load joins a run of its company with trays to
    spare before it opens a run of its own. Batches whose recipe lacks a yield, a tray load or hours cannot
    be set, and count as left over; so does what would have to start before `now`.
    """
    free = {machine.id: ready_by for machine in machines}
    runs: list[Run] = []
    left: dict[str, float] = {}
    order = sorted(
        batches,
        key=lambda b: (b[1].conditioning_days, b[1].company, -(b[1].hours.high if b[1].hours else 0.0), b[1].food),
    )
    for batch, recipe in order:
        rest, prepared = batch.dried, batch.prepared.value if batch.prepared else None
        while rest > _CRUMB:
            placed = None
            if prepared is not None and recipe.hours:
                share = prepared * rest / batch.dried
                placed = _join(runs, recipe, share, rest, ready_by) or _open(
                    machines, free, recipe, share, rest, now, ready_by, turnaround
                )
            if placed is None:
                left[batch.food] = left.get(batch.food, 0.0) + rest
                break
            before, run = placed
            if before is not None:
                runs.remove(before)
            else:
                free[run.machine.id] = run.start - turnaround
            runs.append(run)
            rest -= run.loads[-1].dried
    return Calendar(tuple(sorted(runs, key=lambda r: (r.start, r.machine.id))), left)


def _join(
    runs: list[Run], recipe: Recipe, prepared: float, dried: float, ready_by: datetime
) -> tuple[Run | None, Run] | None:
    """A run of the same company that has trays to spare, runs long enough and ends soon enough."""
    assert recipe.hours is not None
    deadline = ready_by - timedelta(days=recipe.conditioning_days)
    for run in runs:
        spare = run.machine.trays - run.trays
        lasts = (run.end - run.start).total_seconds() / 3600.0 + _CRUMB >= recipe.hours.high
        takes = run.machine.id in recipe.tray_grams and run.company == recipe.company
        if spare > 0 and takes and lasts and run.end <= deadline:
            load = _load(recipe, run.machine, spare, prepared, dried)
            return run, replace(run, loads=(*run.loads, load))
    return None


def _open(
    machines: Sequence[Machine],
    free: Mapping[int, datetime],
    recipe: Recipe,
    prepared: float,
    dried: float,
    now: datetime,
    ready_by: datetime,
    turnaround: timedelta,
) -> tuple[Run | None, Run] | None:
    """A new run on the dryer that can start latest (then the one with most trays); None where none fits."""
    assert recipe.hours is not None
    deadline = ready_by - timedelta(days=recipe.conditioning_days)
    lasts = timedelta(hours=recipe.hours.high)
    fit = [
        (end - lasts, machine.trays, -machine.id, machine, end)
        for machine in machines
        if machine.id in recipe.tray_grams and (end := min(free[machine.id], deadline)) - lasts >= now
    ]
    if not fit:
        return None
    start, _, _, machine, end = max(fit, key=lambda f: f[:3])
    load = _load(recipe, machine, machine.trays, prepared, dried)
    return None, Run(machine, (load,), start, end, recipe.company)


def _load(recipe: Recipe, machine: Machine, trays: int, prepared: float, dried: float) -> PlannedLoad:
    """As much of the rest as so many trays take."""
    assert recipe.hours is not None
    each = recipe.tray_grams[machine.id]
    share = min(1.0, trays * each / prepared)
    used = tray_count(prepared * share, each)
    return PlannedLoad(
        recipe.food, min(used, trays), prepared * share, dried * share, recipe.hours, recipe.conditioning_days
    )
