"""When the next weighing helps most.

A weighing late in the run says most about the finish, but too late it says nothing new. So: the earliest moment
at which one more weighing is expected to take a quarter off the spread of the finish; where none does, the
moment that takes most. Never within a twentieth of the run after the last weighing, nor within half an hour (a
tenth of a short run), and never later than the early end of the 80 % band, by when the load may be done.

The spread left after a weighing is that of ln(finish) given the mass, var (1 - rho^2), with rho the correlation
of the two over sampled runs and the scale's own error counted in.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dryhouse.science.curves.model import Array
from dryhouse.science.forecast.engine import Posterior, clock_error
from dryhouse.science.forecast.finish import log_time_at, mr_along, sample_cells
from dryhouse.science.forecast.shapes import Shapes

CANDIDATES = 14
WORTH_MORE = 0.75
SOONEST_H = 0.5
"""Nobody goes back to the dryer sooner than this."""


def weigh_again(
    table: Shapes, found: Posterior, wet: float, noise: float, latest: float, count: int = 300
) -> tuple[float, float] | None:
    """The hour, and the share of the present spread of ln(finish) expected to be left after weighing then.

    `wet` is the target moisture (wet basis, a fraction), `noise` a share of the first mass; `latest` is the early
    end of the band (h). None where nothing is left to gain: the band ends within minutes of the last weighing.
    """
    last = found.last_hour
    if not np.isfinite(latest) or latest <= last * 1.02 + 1e-9:
        return None
    cells, early = sample_cells(found, count)
    early = np.clip(early, -2.0, 2.0)
    late = early[np.argsort(np.sin(np.arange(count) * 7.0))]
    part = Posterior(
        found.shape[cells], found.log_half[cells], found.level[cells], found.tau[cells], found.weight[cells], last,
        found.solids[cells], found.number[cells], found.stretch[cells],
    )  # fmt: skip
    node = (np.arange(count) * 3) % part.solids.shape[1]
    target = part.solids[np.arange(count), node] / (1.0 - wet)
    mr = (target - part.level) / (1.0 - part.level)
    centre = log_time_at(table, part.shape, mr) * part.stretch + part.log_half
    good = np.isfinite(centre)
    if np.count_nonzero(good) < count // 2:
        return None
    usual = float(np.exp(np.median(centre[good])))
    soon = min(last + max(0.05 * usual, min(SOONEST_H, 0.1 * usual)), latest)
    hours = np.linspace(soon, latest, CANDIDATES)
    drawn = _Drawn(table, part, centre, good, early, late)
    left = np.array([drawn.left(hour, noise) for hour in hours])
    enough = np.flatnonzero(left <= WORTH_MORE)
    best = int(enough[0]) if len(enough) else int(np.argmin(left))
    return float(hours[best]), float(left[best])


@dataclass(frozen=True, slots=True)
class _Drawn:
    """Runs drawn from what is thought: their cells, ln(finish) by the law alone and where that is ever, and how far
    each strays from the law before the next weighing and after it, in units of its tau."""

    table: Shapes
    part: Posterior
    centre: Array
    good: Array
    early: Array
    late: Array

    def left(self, hour: float, noise: float) -> float:
        """Standard deviation of ln(finish) after weighing at `hour`, as a share of that before."""
        part, centre, good = self.part, self.centre, self.good
        begun = np.log(part.last_hour) if part.last_hour > 0 else np.log(hour) - 1.0
        until = clock_error(np.log(hour) - begun)
        whole = clock_error(np.where(good, centre, 0.0) - begun)
        wander = part.tau * until * self.early
        finish = (centre + wander + part.tau * np.sqrt(np.maximum(whole**2 - until**2, 0.0)) * self.late)[good]
        at = (np.log(hour) - wander - part.log_half) / part.stretch
        mass = (part.level + (1.0 - part.level) * mr_along(self.table, part.shape, at[:, None])[:, 0])[good]
        finish, mass = finish - finish.mean(), mass - mass.mean()
        spread = float(mass @ mass) / len(mass) + noise**2
        together = float(finish @ mass) / len(mass)
        before = float(finish @ finish) / len(finish)
        return float(np.sqrt(max(1.0 - together**2 / (spread * before), 0.0))) if before > 0 else 1.0
