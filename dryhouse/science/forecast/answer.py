"""What a forecast answers with, and what it may be told beforehand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dryhouse.science.curves.model import Array
from dryhouse.science.dry_matter import SETTLES, Belief
from dryhouse.science.values import Basis, Caution, Figure
from dryhouse.science.workings import Workings


@dataclass(frozen=True, slots=True)
class Prior:
    """What is expected of a run before it is weighed: Page's k (per h^n) and n, and how loosely they are held.

    `sd_ln_k` is the spread of ln k^(1/n), the rate whose unit is 1/h, so that it does not hang on n.
    """

    k: float
    n: float
    sd_ln_k: float
    sd_n: float
    basis: Basis
    workings: Workings = ()


@dataclass(frozen=True, slots=True)
class Equilibrium:
    """The moisture (dry basis, g/g) the food would settle at in this chamber, with its middle 80 %."""

    value: float
    low: float
    high: float
    basis: Basis


@dataclass(frozen=True, slots=True)
class Beforehand:
    """What is known of a load before its weighings are looked at, and what it is to come to.

    `solids` is what is thought of the dry matter as a share of the first weighing (`exactly` where it is known),
    `target_moisture_pct` is wet basis. `as_told` says that somebody gave this load's own starting moisture.
    `basis` says where dry matter and target come from.
    """

    solids: Belief
    target_moisture_pct: float
    equilibrium: Equilibrium | None = None
    prior: Prior | None = None
    as_told: bool = False
    basis: tuple[Basis, ...] = ()

    @property
    def settles(self) -> tuple[float, float, float]:
        """The moisture (dry basis, g/g) it settles at, and its middle 80 %: of any food where nothing is known."""
        known = self.equilibrium
        return SETTLES if known is None else (known.value, known.low, known.high)


@dataclass(frozen=True, slots=True)
class Finish:
    """When the target is reached, in hours from the first weighing: the middle 50 % and 80 %, and the median.

    A bound is `inf` where it may well never be reached.
    """

    low80: float
    low50: float
    median: float
    high50: float
    high80: float

    def as_json(self) -> Mapping[str, float | None]:
        """The five hours by name; None where a bound is not finite."""
        names = ("low80", "low50", "median", "high50", "high80")
        return {n: (v if np.isfinite(v := getattr(self, n)) else None) for n in names}


@dataclass(frozen=True, slots=True)
class Bands:
    """Net mass (g) at a row of times (h from the first weighing): the median, middle 50 % and 80 %."""

    hours: Array
    low80: Array
    low50: Array
    median: Array
    high50: Array
    high80: Array

    def at(self, hours: ArrayLike) -> Bands:
        """The same bands at other times, between the first and the last of these."""
        wanted = np.atleast_1d(np.asarray(hours, dtype=float))
        rows = (self.low80, self.low50, self.median, self.high50, self.high80)
        return Bands(wanted, *(np.interp(wanted, self.hours, row) for row in rows))


@dataclass(frozen=True, slots=True)
class Forecast:
    """When a run will be done and what it will weigh on the way.

    `reached_at` is the hour at which the weighings themselves already crossed the target, else None; then
    `finish` lies round it. `mass` runs from the last weighing to past the latest likely finish.
    `weigh_again_at` is None where nothing more need be weighed.
    """

    finish: Finish
    target_g: float
    dry_matter_g: float
    reached_at: float | None
    weigh_again_at: float | None
    mass: Bands
    belief: Belief
    """The dry matter of the load, as a share of its first net mass, after all the weighings."""
    moisture: Bands
    """Moisture (% wet basis) at the hours of `mass`, each course of the run by its own dry matter."""
    stops: tuple[tuple[float, float], ...]
    """Stretches (from, to, h from the first weighing) in which the dryer seems to have stood still: not counted."""
    weighings: int
    expected: bool
    """Whether something was known of its speed beforehand."""
    basis: tuple[Basis, ...]
    workings: Workings
    cautions: tuple[Caution, ...] = ()

    def figure(self) -> Figure | None:
        """The finish in hours from the first weighing, as every figure travels; None with no end in sight."""
        if not np.isfinite(self.finish.median):
            return None
        high = self.finish.high80 if np.isfinite(self.finish.high80) else None
        return Figure(
            self.finish.median,
            "h",
            low=self.finish.low80,
            high=high,
            basis=self.basis,
            workings=self.workings,
            cautions=self.cautions,
        )
