"""When the next weighing helps most."""

import numpy as np
import pytest

from dryhouse.science.forecast.engine import Posterior
from dryhouse.science.forecast.shapes import shapes
from dryhouse.science.forecast.weigh_again import SOONEST_H, WORTH_MORE, weigh_again
from tests.rows import every_row

CELLS = 200


def posterior(last: float, spread: float, middle: float = 3.0) -> Posterior:
    """Runs of one shape that settle at a tenth of the first mass, half done after about three hours or `middle`."""
    ones = np.ones(CELLS)
    half = np.log(middle) + spread * np.linspace(-1.5, 1.5, CELLS)
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


@every_row(
    ("last", "middle", "noise", "hour"),
    [
        (2.0, 3.0, 1e-6, 2.5),  # done after about 7 h: half an hour is the least
        (0.0, 3.0, 1e-6, 0.5),
        (1.0, 0.5, 1e-6, 1.0 + 0.1 * 1.1865),  # done after 1.2 h: a tenth of that
        (2.0, 9.0, 1e-6, 2.0 + 0.05 * 21.357),  # done after 21 h: a twentieth of that
        (2.0, 3.0, 0.2, 2.5 + 5 * 3.5 / 13),  # a coarse scale: the first of fourteen moments that is worth it
    ],
)
def test_the_next_weighing_is_the_first_that_takes_a_quarter_off_the_doubt(last, middle, noise, hour):
    latest = 6.0 * middle / 3.0 if middle != 0.5 else 1.9
    found, left = weigh_again(shapes(), posterior(last, 0.4, middle), 0.6, noise, latest)
    assert found == pytest.approx(hour, rel=2e-3)
    assert left <= WORTH_MORE


def test_a_band_that_ends_two_in_a_hundred_after_the_last_weighing_leaves_nothing_to_gain():
    assert weigh_again(shapes(), posterior(2.0, 0.4), 0.6, 0.002, latest=2.039) is None
    hour, _ = weigh_again(shapes(), posterior(2.0, 0.4), 0.6, 0.002, latest=2.041)
    assert hour == pytest.approx(2.041)


def test_a_load_most_of_whose_courses_never_get_there_is_not_weighed_for_its_finish():
    wet = posterior(2.0, 0.4)
    assert weigh_again(shapes(), wet, 0.1, 0.002, latest=6.0) is None
