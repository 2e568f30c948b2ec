"""Each model's formula against the same worked out with a pencil: values to four places."""

import math

import numpy as np
import pytest

from dryhouse.science.curves.fitting import fit
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


@every_row(
    ("model", "parameters"),
    [
        (LEWIS, [0.25]),
        (LEWIS, [0.01]),
        (PAGE, [0.25, 1.5]),
        (PAGE, [0.6, 0.6]),
        (HENDERSON_PABIS, [0.9, 0.05]),
        (HENDERSON_PABIS, [1.3, 0.4]),
        (LOGARITHMIC, [0.8, 0.3, 0.2]),
        (LOGARITHMIC, [3.0, 0.05, -2.0]),
        (MIDILLI_KUCUK, [0.8, 0.25, 1.5, -0.01]),
        (MIDILLI_KUCUK, [1.0, 0.25, 0.8, 0.002]),
        (TWO_TERM, [0.4, 1.5, 0.6, 0.1]),
        (TWO_TERM, [0.7, 0.6, 0.3, 0.02]),
    ],
    ids=lambda value: getattr(value, "name", ""),
)
def test_a_slow_curve_and_a_quick_one_are_found_again(model, parameters):
    hours = np.linspace(0.0, 12.0, 40)
    truth = model.curve(hours, np.array(parameters))
    found = fit(model, hours, truth)
    assert found.at(hours) == pytest.approx(truth, abs=2e-4)
    assert found.rmse < 1e-4
    assert sorted(found.values) == pytest.approx(sorted(parameters), rel=0.05, abs=0.005)


def test_a_curve_beside_which_no_drying_goes_keeps_to_the_bounds():
    hours = np.linspace(0.0, 12.0, 40)
    assert fit(LOGARITHMIC, hours, np.full(40, 1.2) - 0.001 * hours).values[2] <= 0.95
