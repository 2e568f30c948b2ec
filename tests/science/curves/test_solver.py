"""The least-squares solver where the data say little."""

import numpy as np
import pytest

from dryhouse.science.curves.solver import Effort, least_squares

HOURS = np.array([1.0, 2.0, 3.0, 4.0])


def test_a_parameter_that_changes_nothing_stays_where_it_was_and_the_other_is_found():
    def both(p):
        return p[0] * HOURS, np.array([HOURS, np.zeros(4)])

    found = least_squares(both, 2.5 * HOURS, np.array([1.0, 7.0]))
    assert found.settled
    assert found.parameters == pytest.approx([2.5, 7.0])


def test_a_parameter_that_wants_past_its_bound_stays_there_and_the_other_is_the_best_beside_it():
    def both(p):
        return p[0] * HOURS + p[1], np.array([HOURS, np.ones(4)])

    y = 2.0 * HOURS - 1.0
    found = least_squares(both, y, np.array([1.0, 0.0]), low=np.array([-9.0, 0.0]))
    # beside an intercept of 0 the slope is the sum of t y over the sum of t t
    assert found.parameters == pytest.approx([float(HOURS @ y / (HOURS @ HOURS)), 0.0])
    assert found.settled


def test_two_parameters_that_no_weighing_tells_apart_still_fit_together():
    def both(p):
        return (p[0] + p[1]) * HOURS, np.array([HOURS, HOURS])

    found = least_squares(both, 2.5 * HOURS, np.array([1.0, 1.0]), effort=Effort(damping=1e-18, exact=False))
    assert found.settled
    assert found.parameters.sum() == pytest.approx(2.5)
