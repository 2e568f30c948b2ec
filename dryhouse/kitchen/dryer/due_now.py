"""What is due on the dryers: a finish that is likely now, a weighing that would tell most now."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from dryhouse.kitchen.dryer.run_words import finish_moment, weigh_again
from dryhouse.kitchen.dryer.runs import DryingRun, running
from dryhouse.kitchen.kitchen import Kitchen

FINISH, WEIGH = "finish", "weigh"


@dataclass(frozen=True, slots=True)
class Due:
    """One thing to do at a moment. `after` is the weighing it was reckoned from (0: none yet)."""

    batch: int
    kind: str
    at: datetime
    after: int
    sentence: str


def dues(kitchen: Kitchen) -> tuple[Due, ...]:
    """What will be due for every running batch, by time. A paused batch is left in peace."""
    found = [due for run in running(kitchen) if run.clock.paused_since is None for due in _dues_of(kitchen, run)]
    return tuple(sorted(found, key=lambda due: due.at))


def _dues_of(kitchen: Kitchen, run: DryingRun) -> list[Due]:
    last = run.points[-1].weighing if run.points else None
    after = last.id if last else 0
    name = f"{run.title[:1].upper()}{run.title[1:]}, batch {run.batch.id}"
    found = []
    again, finish = weigh_again(kitchen, run), finish_moment(kitchen, run)
    if again is not None:
        found.append(Due(run.batch.id, WEIGH, again, after, f"{name}: a weighing now would tell most."))
    if finish is not None:
        found.append(
            Due(run.batch.id, FINISH, finish, after, f"{name} may be dry by now. Weigh it and check by hand.")
        )
    return found
