"""Each model's formula against the same worked out with a pencil: values to four places."""

import math

import numpy as np
import pytest

from dryhouse.science.curves.henderson_pabis import MODEL as HENDERSON_PABIS
from dryhouse.science.curves.lewis import MODEL as LEWIS
from dryhouse.science.curves.logarithmic import MODEL as LOGARITHMIC
from dryhouse.science.curves.midilli_kucuk import MODEL as MIDILLI_KUCUK
from dryhouse.science.curves.page import MODEL as PAGE
from dryhouse.science.curves.two_term import MODEL as TWO_TERM
from tests.rows import every_row

AT = np.array([0.0, 1.0, 4.0])


@every_row(
    ("model", "parameters", "by_hand"),
    [
        (LEWIS, [0.25], [1.0, math.exp(-0.25), math.exp(-1.0)]),
        (PAGE, [0.25, 1.5], [1.0, math.exp(-0.25), math.exp(-0.25 * 8)]),
        (HENDERSON_PABIS, [1.1, 0.25], [1.1, 1.1 * math.exp(-0.25), 1.1 * math.exp(-1.0)]),
        (LOGARITHMIC, [1.1, 0.25, -0.1], [1.0, 1.1 * math.exp(-0.25) - 0.1, 1.1 * math.exp(-1.0) - 0.1]),
        (
            MIDILLI_KUCUK,
            [1.0, 0.25, 1.5, -0.01],
            [1.0, math.exp(-0.25) - 0.01, math.exp(-0.25 * 8) - 0.04],
        ),
        (
            TWO_TERM,
            [0.4, 1.0, 0.6, 0.1],
            [1.0, 0.4 * math.exp(-1) + 0.6 * math.exp(-0.1), 0.4 * math.exp(-4) + 0.6 * math.exp(-0.4)],
        ),
    ],
    ids=lambda value: getattr(value, "name", ""),
)
def test_the_formula(model, parameters, by_hand):
    assert model.curve(AT, np.array(parameters)) == pytest.approx(by_hand, rel=1e-12)


def test_page_with_n_of_one_is_lewis_and_midilli_without_its_line_is_page():
    assert PAGE.curve(AT, np.array([0.3, 1.0])) == pytest.approx(LEWIS.curve(AT, np.array([0.3])))
    bent = MIDILLI_KUCUK.curve(AT, np.array([1.0, 0.3, 1.2, 0.0]))
    assert bent == pytest.approx(PAGE.curve(AT, np.array([0.3, 1.2])))


def test_a_logarithmic_curve_that_ends_at_nothing_is_henderson_and_pabis():
    ends_at_nothing = LOGARITHMIC.curve(AT, np.array([1.05, 0.3, 0.0]))
    assert ends_at_nothing == pytest.approx(HENDERSON_PABIS.curve(AT, np.array([1.05, 0.3])))
