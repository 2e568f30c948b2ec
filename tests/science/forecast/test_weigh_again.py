"""When the next weighing helps most."""

import numpy as np
import pytest

from dryhouse.science.forecast.engine import Posterior
from dryhouse.science.forecast.shapes import shapes
from dryhouse.science.forecast.weigh_again import SOONEST_H, WORTH_MORE, weigh_again
from tests.rows import every_row

CELLS = 200


def posterior(last: float, spread: float) -> Posterior:
    """Runs of one shape that settle at a tenth of the first mass, half done after about three hours."""
    ones = np.ones(CELLS)
    half = np.log(3.0) + spread * np.linspace(-1.5, 1.5, CELLS)
    return Posterior(np.zeros(CELLS, dtype=int), half, 0.1 * ones, 0.02 * ones, ones / CELLS, last,
                     0.08 * np.ones((CELLS, 5)), np.zeros(CELLS, dtype=int), ones)  # fmt: skip


def test_it_lies_after_the_last_weighing_and_before_the_load_may_be_done():
    hour, left = weigh_again(shapes(), posterior(2.0, 0.4), 0.6, 0.002, latest=6.0)
    assert 2.0 < hour <= 6.0
    assert 0.0 <= left <= WORTH_MORE


@every_row("latest", [2.0, 2.03, np.inf])
def test_where_nothing_is_left_to_gain_no_weighing_is_asked_for(latest):
    assert weigh_again(shapes(), posterior(2.0, 0.4), 0.6, 0.002, latest) is None


def test_a_scale_that_shows_nothing_leaves_the_doubt_as_it_is():
    _, fine = weigh_again(shapes(), posterior(2.0, 0.4), 0.6, 0.0005, latest=6.0)
    _, blind = weigh_again(shapes(), posterior(2.0, 0.4), 0.6, 10.0, latest=6.0)
    assert fine < blind
    assert blind == pytest.approx(1.0, abs=0.01)


def test_nobody_is_sent_to_the_dryer_within_half_an_hour_unless_the_run_is_a_short_one():
    hour, _ = weigh_again(shapes(), posterior(0.0, 1.5), 0.6, 0.002, latest=6.0)
    assert hour >= SOONEST_H
