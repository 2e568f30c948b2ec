"""When will it be done? `forecast` puts the weighings, the dry matter and what is known beforehand together."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from dryhouse.science.curves.model import Array
from dryhouse.science.dry_matter import EXACT
from dryhouse.science.errors import InputProblem
from dryhouse.science.forecast.answer import Bands, Beforehand, Finish, Forecast
from dryhouse.science.forecast.engine import errors_of, posterior
from dryhouse.science.forecast.expectation import expectation, learned, levels_that_matter
from dryhouse.science.forecast.finish import QUANTILES, finish, finish_times, paths
from dryhouse.science.forecast.pace import Heating, pace_of
from dryhouse.science.forecast.shapes import shapes
from dryhouse.science.forecast.weigh_again import weigh_again
from dryhouse.science.forecast.wording import bases, workings
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step as step_of

TOO_CLOSE_H = 0.03
"""Weighings that all lie within a minute of each other show no pace: a clock is read to the minute."""
HARDLY_MOVED = 0.01
"""Share of the water that must go; a run of three weighings that has lost less is no drying."""
TEACHES = 3
"""With fewer weighings a run says nothing of its dry matter that its weight alone does not."""
_STEPS = (10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001)


def forecast(
    hours: ArrayLike,
    grams: ArrayLike,
    before: Beforehand,
    *,
    heating: Heating | None = None,
    ran: Sequence[float] = (),
) -> Forecast:
    """The finish of a run and its mass on the way.

    `hours` ascend and count from the first weighing; `grams` are net masses; the scale's step is guessed from them.
    Where the dry matter is in doubt, the target and whether it was reached go by what three weighings or more leave
    of that doubt, or, where it was told, by the middle told. `heating` are the heats of the dryer where it was
    changed: all that is expected beforehand is at the last. `ran` are hours up to which a stretch without loss is
    known to be no stop. Raises InputProblem where the weighings or moistures cannot be used.
    """
    solids, target_moisture_pct = before.solids, before.target_moisture_pct
    dry = solids.middle
    passed, m = _checked(hours, grams, dry, target_moisture_pct)
    table = shapes()
    w = m / m[0]
    wet = target_moisture_pct / 100.0
    step = guessed_resolution(m)
    pace, stood = pace_of(passed, m, dry / (1.0 - wet) * m[0], step, heating, ran)
    t = pace.drying_at(passed)
    last = float(t[-1])
    expected = expectation(w, before, step / m[0])
    errors = errors_of(t, w, expected)
    found = posterior(t, w, expected, errors)
    if len(t) > 2 and (closer := levels_that_matter(found, expected)) is not None:
        expected = expectation(w, before, step / m[0], closer)
        found = posterior(t, w, expected, errors)
    after = learned(found, expected, solids)
    own = dry if before.as_told or len(t) < TEACHES or solids.log_sd <= 2.0 * EXACT else after.middle
    aim = float(own / (1.0 - wet) * m[0])
    reached = _crossing(passed, m, aim)
    again = None
    if reached is not None:
        done = _round_about(passed, reached)
        end = 1.5 * last
    else:
        times, weight = finish_times(table, found, wet)
        if heating is not None and (doubt := heating.doubt(float(passed[-2:][0]))) > 0:
            times, weight = _stretched(times, weight, max(last, float(pace.drying[-1])), doubt)
        done = finish(times, weight)
        end = next((q for q in (done.high80, 2 * done.high50, 4 * done.median) if np.isfinite(q)), 3 * last + 10.0)
        again = weigh_again(table, found, wet, expected.noise, done.low80)
        done = Finish(
            *(float(q) for q in pace.hours_at([done.low80, done.low50, done.median, done.high50, done.high80]))
        )
    later = np.linspace(last, max(1.15 * end, 1.05 * last + 0.1), 60)
    along, share = paths(table, found, later)
    wetness = 100.0 * np.clip(1.0 - share[:, None] / along, 0.0, 1.0)
    ahead = pace.hours_at(later)
    return Forecast(
        finish=done,
        belief=after,
        target_g=aim,
        dry_matter_g=float(own * m[0]),
        reached_at=reached,
        weigh_again_at=float(pace.hours_at(again[0])) if again else None,
        mass=Bands(ahead, *(m[0] * np.quantile(along, QUANTILES, axis=0))),
        moisture=Bands(ahead, *np.quantile(wetness, QUANTILES, axis=0)),
        stops=stood,
        weighings=len(t),
        expected=before.prior is not None,
        basis=bases(before),
        workings=workings(before, float(m[0]), after if own != dry else None, aim, found, len(t))
        + (heating.workings() if heating is not None else ())
        + tuple(step_of(Kind.STOOD_STILL, begin=(a, "h"), end=(b, "h")) for a, b in stood),
    )  # fmt: skip


def _stretched(times: Array, weight: Array, since: float, doubt: float) -> tuple[Array, Array]:
    """Finish times with the time past `since` stretched by a factor whose logarithm has this spread."""
    nodes, share = np.polynomial.hermite_e.hermegauss(3)
    ahead = np.maximum(times - since, 0.0)[:, None] * np.exp(doubt * nodes)
    return (np.minimum(times, since)[:, None] + ahead).ravel(), (weight[:, None] * share).ravel()


def guessed_resolution(grams: Array) -> float:
    """The scale's step as the weighings show it: the largest of 10, 5, 2, 1, 0.5 … g that divides every one."""
    for step in _STEPS:
        if len(grams) > 1 and np.all(np.abs(grams / step - np.round(grams / step)) < 1e-6):
            return min(step, max(float(grams[0]) * 0.02, 1e-3))
    return max(float(grams[0]) * 1e-4, 1e-4)


def _checked(hours: ArrayLike, grams: ArrayLike, dry: float, target_pct: float) -> tuple[Array, Array]:
    t, m = np.asarray(hours, dtype=float), np.asarray(grams, dtype=float)
    if t.shape != m.shape or t.ndim != 1 or len(t) == 0:
        raise InputProblem(message(Told.NO_WEIGHINGS))
    if not (np.all(np.isfinite(t)) and np.all(np.isfinite(m))) or np.any(m <= 0):
        raise InputProblem(message(Told.WEIGHING_RANGE))
    if np.any(np.diff(t) <= 0):
        raise InputProblem(message(Told.WEIGHINGS_OUT_OF_ORDER))
    if not 0 < target_pct < 100:
        raise InputProblem(message(Told.FORECAST_TARGET_RANGE), "until_moisture")
    if not 0 < dry < 1:
        raise InputProblem(message(Told.DRY_MATTER_RANGE), "start_moisture")
    target_g = dry * float(m[0]) / (1 - target_pct / 100.0)
    if target_g >= m[0]:
        raise InputProblem(message(Told.DRY_FROM_THE_START), "until_moisture")
    if m[-1] > m[0] * 1.02:
        raise InputProblem(message(Told.HEAVIER_AT_THE_END), "grams")
    if len(t) >= 2 and t[-1] - t[0] < TOO_CLOSE_H:
        raise InputProblem(message(Told.TOO_CLOSE, n=len(t)))
    if len(m) >= 3 and m[0] - m[-1] < HARDLY_MOVED * (m[0] - target_g):
        raise InputProblem(message(Told.HARDLY_MOVED, n=len(m)))
    return t - t[0], m


def _crossing(t: Array, m: Array, target: float) -> float | None:
    """When straight lines between the weighings first pass the target and stay below, or None."""
    if m[-1] > target:
        return None
    i = int(np.flatnonzero(m > target)[-1]) + 1
    return float(t[i - 1] + (t[i] - t[i - 1]) * (m[i - 1] - target) / (m[i - 1] - m[i]))


def _round_about(t: Array, reached: float) -> Finish:
    """The weighings bracket the finish: it lies between the two round the crossing."""
    i = min(int(np.searchsorted(t, reached)), len(t) - 1)
    before, after = float(t[i - 1]), float(t[i])
    return Finish(before, 0.5 * (before + reached), reached, 0.5 * (after + reached), after)
