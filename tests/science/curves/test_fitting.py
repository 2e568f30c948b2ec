"""A fit's warnings, the bounds it keeps to, and how soon its search ends at the least sum of squares there is."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import optimize

from dryhouse.science.curves import fitting
from dryhouse.science.curves.fitting import beyond_the_data, fit
from dryhouse.science.curves.models import model
from dryhouse.science.curves.separable import decays, one_decay, separated
from dryhouse.science.curves.solver import Damping, Effort, Solution, least_squares, solve_small
from dryhouse.science.curves.two_term import _best_pairs
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message

HOURS = np.linspace(0.0, 9.0, 31)
WOBBLE = 0.004 * np.sin(7.0 * HOURS)


@pytest.mark.parametrize(
    ("settled", "error", "kinds"),
    [
        (True, 0.099, []),
        (True, 0.101, [Told.NOT_PINNED_DOWN]),
        (False, 0.099, [Told.NOT_SETTLED]),
        (False, 0.101, [Told.NOT_SETTLED, Told.NOT_PINNED_DOWN]),
    ],
)
def test_a_fit_says_that_it_did_not_settle_or_is_not_pinned_down(monkeypatch, settled, error, kinds) -> None:
    """A rate of 0.1 is not pinned down where its standard error, √(SSE ÷ 30) over its slope, is larger."""
    slopes = np.full((1, 31), 1.0 / math.sqrt(31.0))
    found = Solution(np.array([0.1]), 30.0 * error**2, slopes, settled, 3)
    monkeypatch.setattr(fitting, "solve", lambda *_: found)
    told = fit(model("Lewis"), HOURS, np.exp(-0.1 * HOURS))
    assert [warning.kind for warning in told.warnings] == kinds
    assert all(warning == message(warning.kind, model="Lewis") for warning in told.warnings)
    assert told.parameters == {"k": (0.1, pytest.approx(error))}
    assert (told.name, told.formula, told.units) == ("Lewis", "MR = exp(-k t)", {"k": "1/h"})
    assert (told.n, told.last_hour) == (31, 9.0)
    assert (told.rmse, told.reduced_chi2) == (pytest.approx(error * math.sqrt(30 / 31)), pytest.approx(error**2))


def test_a_curve_is_looked_at_up_to_three_times_the_last_hour() -> None:
    """a exp(−k tⁿ) is nothing after 18 h, and b t is there −0.0054 or −0.00468: half a hundredth is rounding."""
    one = model("Midilli–Kucuk")
    told = {b: beyond_the_data(one, np.array([1.0, 0.5, 1.2, b]), 6.0) for b in (-0.0003, -0.00026)}
    assert list(told.values()) == [(message(Told.FALLS_BELOW_ZERO, model=one.name),), ()]
    # and nothing dries on where b is above nothing
    assert beyond_the_data(one, np.array([1.0, 0.5, 1.2, 0.0003]), 6.0) == (
        message(Told.RISES_AGAIN, model=one.name),
    )
    level = beyond_the_data(model("logarithmic"), np.array([1.0, 0.5, -0.006]), 6.0)
    assert level == (message(Told.LEVELS_BELOW_ZERO, model="logarithmic", level=-0.006),)


def test_amplitudes_keep_to_their_bounds() -> None:
    """No run starts at a fifth of its water or at three times of it; a level is no more than 95 %."""
    for name, share, wanted in (
        ("Henderson–Pabis", 4.0, 3.0),
        ("Henderson–Pabis", 0.1, 0.2),
        ("two-term", 7.0, 3.0),
    ):
        found = fit(model(name), HOURS, share * np.exp(-0.3 * HOURS) + WOBBLE).parameters
        assert found["a"][0] == pytest.approx(wanted), name
    high = fit(model("logarithmic"), HOURS, 0.5 * np.exp(-0.4 * HOURS) + 1.2).parameters
    assert high["c"][0] == pytest.approx(0.95)


def rest_of(shapes, y) -> float:
    """The sum of squares that the best amplitudes leave, by linear least squares."""
    return float(np.linalg.lstsq(shapes, y, rcond=None)[1][0])


def test_a_single_decay_is_found_in_a_few_steps() -> None:
    """Near the end each step about squares what is missing: a tenth, a hundredth, a ten-thousandth, a millionth of
    it. The first three bring it near."""
    for rate in (0.05, 0.3, 1.2):
        y = 0.9 * np.exp(-rate * HOURS) + WOBBLE
        found = one_decay(HOURS, y, math.log(1.3 * rate), (0.2, 3.0), (math.log(1e-6), math.log(1e3)))

        def left(k, y=y):
            return rest_of(np.exp(-k * HOURS)[:, None], y)

        best = optimize.minimize_scalar(
            left, bounds=(rate / 2, rate * 2), method="bounded", options={"xatol": 1e-9}
        )
        assert found.settled
        assert found.rounds <= 7
        assert math.exp(found.searched[0]) == pytest.approx(best.x, rel=1e-3)
        assert found.sse == pytest.approx(best.fun, rel=1e-6)
        assert found.amplitudes[1] == 0.0


@pytest.mark.parametrize("start", [(1.3, 0.8), (0.8, 1.25), (1.4, 1.4)])
def test_two_decays_are_found_in_a_few_steps(start) -> None:
    y = 0.4 * np.exp(-1.2 * HOURS) + 0.6 * np.exp(-0.2 * HOURS) + WOBBLE

    def shapes(q, rows):
        decays(q, HOURS, rows[:2], rows[2:4], rows[4:6])

    first = [math.log(1.2 * start[0]), math.log(0.2 * start[1])]
    found = separated(shapes, y, first, (0.0, 3.0, 0.0, 3.0), math.log(1e-6), math.log(1e4))
    best = optimize.minimize(
        lambda q: rest_of(np.exp(-np.multiply.outer(HOURS, np.exp(q))), y), first, method="BFGS"
    )
    assert found.settled
    assert found.rounds <= 15
    assert found.sse == pytest.approx(best.fun, rel=1e-5)
    assert np.exp(found.searched) == pytest.approx(np.exp(best.x), rel=0.01)


@pytest.mark.parametrize("exact", [True, False])
@pytest.mark.parametrize("name", ["Page", "Midilli–Kucuk"])
def test_a_general_search_ends_where_scipy_s_does_in_a_few_steps(name, exact) -> None:
    one, truth = model(name), np.array({"Page": [0.3, 1.2], "Midilli–Kucuk": [0.99, 0.3, 1.1, -0.002]}[name])
    y = one.curve(HOURS, truth) + WOBBLE
    found = least_squares(
        lambda p: one.both(HOURS, p), y, 1.2 * truth, one.low, one.high,
        Effort(tolerance=1e-6, gain_tolerance=1e-6, damping=1e-5, exact=exact),
    )  # fmt: skip
    best = optimize.least_squares(lambda p: one.curve(HOURS, p) - y, truth, lambda p: one.both(HOURS, p)[1].T,
                                  xtol=1e-14, ftol=1e-14, gtol=1e-14)  # fmt: skip
    assert found.settled
    assert found.rounds <= 8
    assert found.parameters == pytest.approx(best.x, rel=1e-9 if exact else 1e-2)
    assert found.sse == pytest.approx(2.0 * best.cost, rel=1e-12 if exact else 1e-6)


def test_a_search_that_may_take_no_step_stands_at_its_start_and_has_not_settled() -> None:
    one = model("Page")
    y = one.curve(HOURS, np.array([0.3, 1.2]))
    found = least_squares(
        lambda p: one.both(HOURS, p), y, np.array([0.5, 1.0]), effort=Effort(rounds=0, exact=False)
    )
    assert (list(found.parameters), found.settled, found.rounds) == ([0.5, 1.0], False, 0)
    rest = y - one.curve(HOURS, np.array([0.5, 1.0]))
    assert found.sse == pytest.approx(float(rest @ rest))


def test_a_few_equations_are_solved_and_what_has_no_answer_has_none() -> None:
    """4x + y + z = 6, x + 3y = 4, x + 2z = 3 at 1, 1, 1."""
    assert solve_small([[4.0, 1.0, 1.0], [1.0, 3.0, 0.0], [1.0, 0.0, 2.0]], [6.0, 4.0, 3.0]) == pytest.approx(
        [1.0] * 3
    )
    assert solve_small([[2.0]], [5.0]) == [2.5]
    for matrix in ([[0.0]], [[-1.0]], [[math.inf]], [[1.0, 2.0], [2.0, 1.0]]):
        assert solve_small(matrix, [1.0] * len(matrix)) is None


def test_the_damping_goes_by_nielsen_s_rule() -> None:
    """Nielsen 1999: times 2, then 4, then 8 after steps that fail; after one that gains the share r of what it
    promised times max(1/3, 1 − (2r − 1)³), and it doubles again from the beginning."""
    damping = Damping(0.5)
    assert damping.added([[4.0, 1.0], [1.0, 0.0]]) == [[6.0, 1.0], [1.0, 0.5]]
    assert damping.added([[1.0, 1.0], [1.0, 2.0]]) == [[3.0, 1.0], [1.0, 3.0]], "the largest slopes seen count"
    damping.up()
    damping.up()
    assert damping.now == 0.5 * 2 * 4
    # it promised Σ m (λ s m + g) = 0.1 × (4 × 4 × 0.1 + 2) = 0.36, and gained a quarter of that, half of it, all
    for share, factor in ((0.25, 1.125), (0.5, 1.0), (1.0, 1 / 3), (2.0, 1 / 3)):
        damping = Damping(4.0)
        damping.added([[4.0]])
        damping.up()
        damping.now = 4.0
        damping.down(0.36 * share, [0.1], [2.0])
        assert damping.now == pytest.approx(4.0 * factor), share
        before = damping.now
        damping.up()
        assert damping.now == pytest.approx(2.0 * before)


def test_two_decays_are_begun_from_the_best_pairs_of_the_grid() -> None:
    """Each pair of 24 rates by linear least squares, amplitudes from 0 to 3: the best inside the grid, and the best
    with the slowest or the quickest of all."""
    rates = np.concatenate(([1e-6], 0.4 * 1.4 ** np.arange(-9.0, 13.0), [1e4]))
    past = np.exp(-np.multiply.outer(rates, HOURS))
    for y in (
        0.4 * np.exp(-1.2 * HOURS) + 0.6 * np.exp(-0.2 * HOURS) + WOBBLE,
        0.7 * np.exp(-0.5 * HOURS) + 0.3 + WOBBLE,
    ):
        best = {True: (0, 0, math.inf), False: (0, 0, math.inf)}
        for quick in range(24):
            for slow in range(quick):
                shapes = past[[quick, slow]].T
                share, left = np.linalg.lstsq(shapes, y, rcond=None)[:2]
                inside = slow > 0 and quick <= 22
                if share.min() >= 0.0 and share.max() <= 3.0 and left[0] < best[inside][2]:
                    best[inside] = quick, slow, float(left[0])
        for found, wanted in zip(_best_pairs(past, y), (best[True], best[False]), strict=True):
            assert found == (*wanted[:2], pytest.approx(wanted[2], rel=1e-6))
