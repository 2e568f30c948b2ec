"""What a wandering clock makes of the finish, of the mass on the way and of the next weighing: closed forms for
Lewis's curve, half of whose free water goes with each half-time."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from dryhouse.science.forecast.engine import Posterior
from dryhouse.science.forecast.finish import (
    QUANTILES,
    changed_pace,
    finish,
    finish_times,
    paths,
    weighted_quantiles,
)
from dryhouse.science.forecast.shapes import shapes
from dryhouse.science.forecast.weigh_again import weigh_again
from tests.rows import every_row
from tests.science.forecast.test_posterior import number

LEVEL, WET = 0.1, 0.4
SHARES = (0.066, 0.078, 0.09, 0.108, 0.12)
"""Dry matter: at 40 % of water they weigh 0.11, 0.13, 0.15, 0.18 and 0.2."""


def pace(share):
    """Student's t of two degrees, 0.563 of it: its own formula."""
    return 0.563 * (2.0 * share - 1.0) / np.sqrt(2.0 * share * (1.0 - share))


def lewis(count: int, *, half=2.0, tau=0.0, last=0.0, stretch=1.0, shares=(0.09,) * 5) -> Posterior:
    """So many cells, all of Lewis's curve."""
    ones = np.ones(count)
    return Posterior(np.full(count, number(1.0)), np.log(half) * ones, LEVEL * ones, tau * ones, ones / count, last,
                     np.tile(shares, (count, 1)), np.zeros(count, dtype=int), stretch * ones)  # fmt: skip


def halves(target: float) -> float:
    """Half-times until so much is left of a load that settles at a tenth."""
    return -math.log2((target - LEVEL) / (1.0 - LEVEL))


def test_each_dry_matter_has_its_own_finish() -> None:
    times, weight = finish_times(shapes(), lewis(1, half=3.0, shares=SHARES), WET)
    aims = [share / 0.6 for share in SHARES]
    assert np.unique(times.round(6)) == pytest.approx(sorted(3.0 * halves(aim) for aim in aims), rel=5e-3)
    assert weight == pytest.approx([1 / 15] * 15)
    bent, _ = finish_times(shapes(), lewis(1, half=3.0, stretch=1.1, shares=SHARES), WET)
    assert np.unique(bent.round(6)) == pytest.approx(sorted(3.0 * halves(aim) ** 1.1 for aim in aims), rel=5e-3)


@every_row(("last", "ahead"), [(0.0, 1.0), (4.0, math.log(2.0 * halves(0.15) / 4.0))])
def test_the_finish_wanders_with_the_clock(last, ahead):
    """ln t is off by tau times the root of the logarithm of the time ahead; by tau where nothing was weighed."""
    times, weight = finish_times(shapes(), lewis(60, tau=0.02, last=last), WET)
    found = finish(times, weight)
    wanted = [2.0 * halves(0.15) * math.exp(0.02 * math.sqrt(ahead) * pace(q)) for q in (0.1, 0.25, 0.5, 0.75, 0.9)]
    assert [found.low80, found.low50, found.median, found.high50, found.high80] == pytest.approx(wanted, rel=2e-3)


def test_what_would_have_been_over_before_the_last_weighing_is_left_out() -> None:
    """Half the cells are done after 8.3 h and half after 4.2, before the last weighing at 5."""
    fast, slow = lewis(4, half=1.0, last=5.0), lewis(4, last=5.0)
    both = replace(slow, log_half=np.concatenate((fast.log_half, slow.log_half)), **{
        name: np.concatenate((getattr(fast, name), getattr(slow, name)))
        for name in ("shape", "level", "tau", "solids", "number", "stretch")
    }, weight=np.full(8, 1 / 8))  # fmt: skip
    times, weight = finish_times(shapes(), both, WET)
    assert times == pytest.approx([2.0 * halves(0.15)] * 60, rel=5e-3)
    assert weight.sum() == pytest.approx(0.5)
    due, _ = finish_times(shapes(), fast, WET)
    assert due == pytest.approx([5.0] * len(due), rel=2e-3)
    assert np.all(due > 5.0)


def test_some_may_never_be_done_and_then_a_bound_is_open() -> None:
    """Dry matter of 0.06 at 40 % weighs a tenth, which is the level itself."""
    times, weight = finish_times(shapes(), lewis(2, shares=(0.06, 0.09, 0.09, 0.09, 0.09)), WET)
    assert np.count_nonzero(np.isinf(times)) == len(times) // 5
    found = finish(times, weight)
    assert (found.median, found.high80) == (pytest.approx(2.0 * halves(0.15), rel=5e-3), np.inf)
    assert list(QUANTILES) == [0.1, 0.25, 0.5, 0.75, 0.9]


def test_a_quantile_beside_what_never_ends_never_ends() -> None:
    values, weight = np.array([1.0, 2.0, np.inf]), np.array([1.0, 1.0, 2.0])
    assert list(weighted_quantiles(values, weight, np.array([0.125, 0.25, 0.375, 0.5, 0.9]))) == [
        1.0, 1.5, 2.0, np.inf, np.inf,
    ]  # fmt: skip
    assert weighted_quantiles(np.array([3.0]), np.array([2.0]), np.array([0.1, 0.9])) == pytest.approx([3.0, 3.0])


@every_row(("last", "stretch"), [(0.0, 1.0), (0.5, 1.0), (2.0, 1.0), (2.0, 1.2)])
def test_the_mass_on_the_way_wanders_with_the_clock(last, stretch):
    hours = np.array([2.5, 4.0, 8.0])
    along, solids = paths(shapes(), lewis(7, tau=0.05, last=last, stretch=stretch, shares=SHARES), hours)
    assert along.shape == (400, 3)
    ahead = np.ones(3) if last == 0.0 else np.log(hours / last)
    for part in (0.1, 0.25, 0.5, 0.75, 0.9):  # a clock that is ahead has lost more
        off = np.log(hours / 2.0) - 0.05 * pace(part) * np.sqrt(ahead)
        wanted = LEVEL + (1.0 - LEVEL) * 0.5 ** np.exp(off / stretch)
        assert np.quantile(along, part, axis=0) == pytest.approx(wanted, abs=0.004)
    assert [np.count_nonzero(solids == share) for share in SHARES] == [80] * 5
    assert np.all(np.diff(along, axis=1) <= 0.0)
    assert len(paths(shapes(), lewis(7), hours, count=50)[0]) == 50


def test_no_run_gets_heavier_on_the_way() -> None:
    """A clock a hundred per cent off would turn back; the mass stays where it was."""
    along, _ = paths(shapes(), lewis(5, tau=2.0, last=2.0), np.linspace(2.0, 2.5, 20))
    assert np.all(np.diff(along, axis=1) <= 0.0)


def left_after(hour: float, last: float, noise: float, *, half=2.0, tau=0.01, stretch=1.0) -> float:
    """The share of the doubt that one more weighing leaves, for a clock that is but little off: the variance of
    ln(finish) it takes is that of the walk so far, as far as the scale shows it."""
    done = half * halves(0.15) ** stretch
    before = (math.log(hour) - 1.0) if last == 0.0 else math.log(last)
    until, whole = math.log(hour) - before, math.log(done) - before
    shares = (np.arange(20_000) + 0.5) / 20_000
    spread = tau * np.clip(pace(shares), -2.0, 2.0).std()
    gone = math.log(2.0) * (hour / half) ** (1.0 / stretch)
    shown = (1.0 - LEVEL) * gone * math.exp(-gone) / stretch * spread * math.sqrt(until)
    return math.sqrt(1.0 - until / whole * shown**2 / (shown**2 + noise**2))


@every_row(
    ("last", "noise", "stretch"),
    [(2.0, 1e-6, 1.0), (2.0, 1e-3, 1.0), (3.0, 1e-3, 1.0), (2.0, 5e-3, 1.0), (0.0, 1e-6, 1.0), (0.0, 3e-3, 1.0),
     (2.0, 3e-3, 1.15)],
)  # fmt: skip
def test_the_next_weighing_is_worth_what_it_takes_off_the_doubt(last, noise, stretch):
    """Fourteen moments from half an hour after the last weighing to the early end: the first that leaves no more
    than three quarters of the doubt, or the best of them."""
    moments = np.linspace(last + 0.5, 6.0, 14)
    left = np.array([left_after(hour, last, noise, stretch=stretch) for hour in moments])
    wanted = int(np.flatnonzero(left <= 0.75)[0]) if left.min() <= 0.75 else int(np.argmin(left))
    hour, rest = weigh_again(shapes(), lewis(150, tau=0.01, last=last, stretch=stretch), WET, noise, 6.0)
    assert abs(int(np.argmin(np.abs(moments - hour))) - wanted) <= 1
    assert np.min(np.abs(moments - hour)) < 1e-3
    assert rest == pytest.approx(left_after(hour, last, noise, stretch=stretch), rel=0.06)


def test_where_more_than_half_the_courses_never_get_there_nothing_is_weighed_for_the_finish() -> None:
    """Dry matter of 0.06 never does, of 0.09 it does: two or three of five."""
    for never, asked in (((0.06, 0.06, 0.09, 0.09, 0.09), True), ((0.06, 0.06, 0.06, 0.09, 0.09), False)):
        found = weigh_again(shapes(), lewis(50, tau=0.01, last=2.0, shares=never), WET, 1e-3, 6.0)
        assert (found is not None) is asked


def test_runs_without_any_doubt_are_not_narrowed_by_a_weighing() -> None:
    assert weigh_again(shapes(), lewis(50, last=2.0), WET, 1e-3, 6.0)[1] == 1.0


def test_the_clock_s_own_error_is_student_s_t() -> None:
    at = np.array([0.02, 0.3, 0.5, 0.8])
    assert changed_pace(at) == pytest.approx(pace(at))
