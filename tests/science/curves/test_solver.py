"""The least-squares solver where the data say little."""

import numpy as np
import pytest

from dryhouse.science.curves.solver import least_squares

HOURS = np.array([1.0, 2.0, 3.0, 4.0])


def test_a_parameter_that_changes_nothing_stays_where_it_was_and_the_other_is_found():
    def both(p):
        return p[0] * HOURS, np.array([HOURS, np.zeros(4)])

    found = least_squares(both, 2.5 * HOURS, np.array([1.0, 7.0]))
    assert found.settled
    assert found.parameters == pytest.approx([2.5, 7.0])
