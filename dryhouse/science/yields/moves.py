"""What moves a yield: own batches set side by side by cut, by temperature, by dryer.

Nothing is said of a group of fewer than three batches, nor where there is no second group to hold it against:
the spread of two weighings says too little. A difference is called one only where Welch's 95 % interval for
the ratio of the two means leaves out 1; otherwise the table says that these batches do not show one.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.yields.student import quantile

FEWEST = 3
"""The smallest group anything is said of."""
_SURE = 0.975


@dataclass(frozen=True, slots=True)
class Group:
    """One group's mean ratio and how it stands against all the others of the same table."""

    name: str
    n: int
    ratio: float
    against_rest: float
    """This group's mean ÷ the mean of the rest."""
    low: float
    high: float
    """Welch's 95 % interval of `against_rest`."""

    @property
    def shows(self) -> bool:
        """Whether these batches show a difference at all."""
        return self.low > 1 or self.high < 1

    @property
    def finding(self) -> Message:
        """What these batches show."""
        if not self.shows:
            return message(Told.NO_DIFFERENCE)
        percent = 100 * (self.against_rest - 1)
        return message(Told.MORE_THAN_REST if percent > 0 else Told.LESS_THAN_REST, by=(abs(percent), "%"))


def side_by_side(groups: Mapping[str, Sequence[float]]) -> tuple[Group, ...]:
    """Log ratios by group → what can be said, largest group first; empty where too little is known."""
    enough = {name: logs for name, logs in groups.items() if len(logs) >= FEWEST}
    if len(enough) < 2:
        return ()
    found = []
    for name, logs in enough.items():
        rest = [y for other, ys in enough.items() if other != name for y in ys]
        low, high = welch(logs, rest)
        mean = _mean(logs)
        found.append(Group(name, len(logs), math.exp(mean), math.exp(mean - _mean(rest)), low, high))
    return tuple(sorted(found, key=lambda g: (-g.n, g.name)))


def welch(first: Sequence[float], second: Sequence[float]) -> tuple[float, float]:
    """95 % interval of exp(mean of first − mean of second), variances not taken as equal (Welch 1947; recalled)."""
    parts = [(_variance(s) / len(s), len(s) - 1) for s in (first, second)]
    variance = sum(v for v, _ in parts)
    difference = _mean(first) - _mean(second)
    if variance == 0:
        return math.exp(difference), math.exp(difference)
    df = variance**2 / sum(v**2 / d for v, d in parts)
    half = quantile(_SURE, df) * math.sqrt(variance)
    return math.exp(difference - half), math.exp(difference + half)


def _mean(logs: Sequence[float]) -> float:
    return math.fsum(logs) / len(logs)


def _variance(logs: Sequence[float]) -> float:
    mean = _mean(logs)
    return math.fsum((y - mean) ** 2 for y in logs) / (len(logs) - 1)
