"""Runs spread over the time there is: each near its share of the time, on a day that suits, never too late."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from dryhouse.science.drying_loads import Placed, Setting

_DAY = 48
_NIGHT = 1.5
"""A run that is over within one day is worth moving this many days for."""


def spread_out(setting: Setting, runs: Sequence[Placed], begin: int) -> list[Placed]:
    """The runs, those moved forward that need not be late; each ends no later than it did, and no two meet.

    The runs of a dryer keep their order. A run is aimed at its share of the time from `begin` (or from when the
    first of its foods keeps) to the last of them.
    """
    free = sorted((run for run in runs if not run.late), key=lambda run: run.start)
    if not free:
        return list(runs)
    first = max(setting.now, begin, min(run.earliest for run in free))
    last = max(first, free[-1].start)
    aims = {id(run): first + (last - first) * (n + 1) // len(free) for n, run in enumerate(free)}
    moved: list[Placed] = []
    for machine in setting.machines:
        mine = sorted((run for run in runs if run.machine.id == machine.id), key=lambda run: run.start)
        taken = setting.taken.get(machine.id, ())
        after = 0
        for run in mine:
            after = max([after, *(end + setting.turnaround for begin, end in taken if begin <= run.start)])
            if not run.late:
                run = _near(setting, run, max(after, first), aims[id(run)])
            moved.append(run)
            after = run.end + setting.turnaround
    return moved


def _near(setting: Setting, run: Placed, lowest: int, aim: int) -> Placed:
    """The run on the day nearest to its aim, rather without a night in it, and early on that day."""
    ends = setting.grid.ends(run.slots)
    starts = np.arange(lowest if run.early else max(lowest, run.earliest), run.start + 1)
    starts = starts[ends[starts] >= 0]
    if not len(starts):
        return run
    aim = max(min(aim, run.start), run.earliest)
    off = ends[starts]
    away = np.abs(starts // _DAY - aim // _DAY) + _NIGHT * (starts // _DAY != off // _DAY)
    best = int(starts[np.argmin(away)])
    return replace(run, start=best, end=int(ends[best]))
