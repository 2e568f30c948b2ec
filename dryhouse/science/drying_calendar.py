"""When the dryers run: whole loads in hours that somebody keeps, spread over the time there is.

1. Loads. A food goes on as few runs as it can; what shares its dryer (heat and smell) fills the trays it leaves.
   Every run is set as late as its dryer, the hours and its conditioning allow. Food that should be fresh on the
   trip (meat last of all) is set first and so takes the latest hours.
2. Spread. Runs that need not be late are moved forward, evenly over the time there is, never past the hours found
   in the first step. So a spread never costs a load.
3. A dryer more never makes it later: what fewer dryers finish is the latest that more may take.

Hours are counted at the high end of their range. What does not fit is left over, and the calendar says how much.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from dryhouse.science.drying_hours import SLOT, Grid, Hours
from dryhouse.science.drying_loads import Placed, Setting, filled
from dryhouse.science.drying_runs import Asked, Busy, Machine, Run
from dryhouse.science.drying_spread import spread_out

TURNAROUND = timedelta(hours=1)
APART = timedelta(hours=6)
_WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Calendar:
    """The runs that fit, soonest first, and per food the dried grams that do not."""

    runs: tuple[Run, ...]
    left_over: Mapping[str, float]

    @property
    def done(self) -> datetime | None:
        """When the last run is over."""
        return max((run.end for run in self.runs), default=None)


@dataclass(frozen=True, slots=True)
class Household:
    """The dryers' hours over the time that is planned: when they are tended, and what has them already."""

    hours: Hours
    midnight: datetime
    """When the day of `now` begins, so that half-hours are hers."""
    now: datetime
    ready_by: datetime
    spread_from: datetime | None = None
    busy: tuple[Busy, ...] = ()
    turnaround: timedelta = TURNAROUND
    apart: timedelta = APART


def calendar(asked: Sequence[Asked], machines: Sequence[Machine], household: Household) -> Calendar:
    """Set everything asked into the dryers. What lacks a yield, a tray load or hours cannot be set, and counts as
    left over; so does what finds no free hours before it has to be ready."""
    grid = Grid(household.hours, household.midnight, household.ready_by)
    best = Calendar((), {a.batch.food: a.batch.dried for a in asked if a.batch.dried > 1e-6})
    for count in range(1, len(machines) + 1):
        made = _planned(asked, machines[:count], household, grid, None)
        if best.done is not None and _worth(made, household.now) > _worth(best, household.now):
            made = _planned(asked, machines[:count], household, grid, best.done)
        best = min(made, best, key=lambda one: _worth(one, household.now))
    return best


def fits_the_hours(hours: float, household: Household) -> bool:
    """Whether a run of so many hours can be started and taken off in the hours that are kept; less than a week
    ahead nobody can tell."""
    if household.ready_by - household.midnight < _WEEK:
        return True
    grid = Grid(household.hours, household.midnight, household.ready_by)
    return bool((grid.ends(grid.slots(hours)) >= 0).any())


def _worth(made: Calendar, now: datetime) -> tuple[float, datetime]:
    """Less left over before all; then done sooner."""
    return round(sum(made.left_over.values()), 3), made.done or now


def _planned(
    asked: Sequence[Asked], machines: Sequence[Machine], household: Household, grid: Grid, until: datetime | None
) -> Calendar:
    """The calendar of these dryers, the last of them done by `until` where one is given."""
    taken: dict[int, tuple[tuple[int, int], ...]] = {}
    for busy in household.busy:
        span = (grid.at_or_before(busy.begin), grid.at_or_after(busy.end))
        taken[busy.machine] = (*taken.get(busy.machine, ()), span)
    setting = Setting(
        grid=grid,
        machines=tuple(machines),
        now=max(0, grid.at_or_after(household.now)),
        ready=grid.at_or_before(household.ready_by),
        last=grid.at_or_before(until or household.ready_by),
        taken=taken,
        turnaround=household.turnaround // SLOT,
        apart=household.apart // SLOT,
    )
    filling = filled(setting, asked)
    begin = setting.now if household.spread_from is None else grid.at_or_after(household.spread_from)
    runs = (_run(grid, placed) for placed in spread_out(setting, filling.runs, begin))
    return Calendar(tuple(sorted(runs, key=lambda run: (run.start, run.machine.id))), filling.left_over)


def _run(grid: Grid, placed: Placed) -> Run:
    moments = (grid.moment(placed.start), grid.moment(placed.end), grid.moment(placed.latest))
    return Run(placed.machine, placed.loads, *moments, placed.temperature_c, placed.early)
