"""What is due on the dryers: a finish that is likely now, a weighing that would better the estimate now."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta

from dryhouse.kitchen.dryer.run_moments import moment_of
from dryhouse.kitchen.dryer.run_words import finish_moment, weigh_again_moment
from dryhouse.kitchen.dryer.runs import DryingRun, running
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.values import Caution

FINISH, WEIGH, PAST = "finish", "weigh", "past"
LATE = timedelta(hours=1)
"""So long after the late end of a forecast nobody has looked (our own choice)."""


@dataclass(frozen=True, slots=True)
class Due:
    """One thing to do at a moment. `after` is the weighing it was reckoned from (0: none yet)."""

    batch: int
    kind: str
    at: datetime
    after: int
    sentence: str
    cautions: tuple[Caution, ...] = ()
    """Of the batch; its stops are part of the sentence, in a few words."""


def reminders_due(kitchen: Kitchen) -> tuple[Due, ...]:
    """What will be due for every running batch, by time. A paused batch is left in peace."""
    found = [due for run in running(kitchen) if run.clock.paused_since is None for due in _dues_of(kitchen, run)]
    return tuple(sorted(found, key=lambda due: due.at))


def _dues_of(kitchen: Kitchen, run: DryingRun) -> list[Due]:
    last = run.points[-1].weighing if run.points else None
    after = last.id if last else 0
    briefs = dict.fromkeys(c.brief.rstrip(".") for c in run.cautions if c.severity == "stop")
    stops = "".join(f" Stop: {brief}." for brief in briefs)
    name = f"{run.title[:1].upper()}{run.title[1:]}, batch {run.batch.id}"
    found = []
    again, finish = weigh_again_moment(kitchen, run), finish_moment(kitchen, run)
    if again is not None:
        said = f"{name}: weigh now for a better estimate.{stops}"
        found.append(Due(run.batch.id, WEIGH, again, after, said, run.cautions))
    if finish is not None:
        said = f"{name} may be dry by now. Weigh it and check by hand.{stops}"
        found.append(Due(run.batch.id, FINISH, finish, after, said, run.cautions))
        late = moment_of(kitchen, run, _late_end(run)) + LATE
        said = f"{name} was to be looked at before now: weigh it and check by hand.{stops}"
        found.append(Due(run.batch.id, PAST, late, after, said, run.cautions))
    return found


def _late_end(run: DryingRun) -> float:
    """Hours from the first point by which it is likely dry four times in five; where that is open, the middle
    one."""
    found = run.expected.forecast
    assert found is not None
    return found.finish.high80 if math.isfinite(found.finish.high80) else 1.5 * found.finish.median
