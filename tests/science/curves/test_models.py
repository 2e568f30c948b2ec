"""Every drying curve model keeps the same promises."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.curves import MODELS, model
from dryhouse.science.curves.fitting import fit
from dryhouse.science.curves.model import page_line
from dryhouse.science.curves.page import per_hour

HOURS = np.linspace(0.0, 9.0, 31)
TYPICAL = {
    "Lewis": [0.4],
    "Page": [0.3, 1.2],
    "Henderson–Pabis": [1.05, 0.35],
    "logarithmic": [1.1, 0.25, -0.1],
    "Midilli–Kucuk": [0.99, 0.3, 1.1, -0.002],
    "two-term": [0.4, 1.2, 0.6, 0.2],
}


@pytest.mark.parametrize("one", MODELS, ids=lambda m: m.name)
class TestEveryModel:
    def test_slopes_agree_with_small_steps(self, one):
        p = np.array(TYPICAL[one.name])
        _, slopes = one.both(HOURS, p)
        for i in range(len(p)):
            step = np.zeros(len(p))
            step[i] = 1e-6
            about = (one.curve(HOURS, p + step) - one.curve(HOURS, p - step)) / 2e-6
            assert slopes[i] == pytest.approx(about, abs=1e-7)

    def test_curve_is_the_same_alone_and_among_many(self, one):
        p = np.array(TYPICAL[one.name])
        many = one.curve(HOURS, np.array([p, 1.1 * p, p]))
        assert many.shape == (3, len(HOURS))
        assert many[0] == pytest.approx(one.curve(HOURS, p))
        assert one.both(HOURS, p)[0] == pytest.approx(one.curve(HOURS, p))

    def test_its_own_curve_is_found_again(self, one):
        truth = one.curve(HOURS, np.array(TYPICAL[one.name]))
        found = fit(one, HOURS, truth)
        assert found.rmse < 1e-5
        assert found.at(HOURS) == pytest.approx(truth, abs=1e-4)

    def test_starts_lie_within_the_bounds_or_near_them(self, one):
        k, n = page_line(HOURS, np.exp(-0.3 * HOURS))
        assert (one.starts is None) != (one.search is None)
        for start in one.starts(k, n, 9.0) if one.starts else ():
            assert np.all(np.isfinite(one.curve(HOURS, np.clip(start, one.low, one.high))))

    def test_says_where_it_comes_from_and_the_units(self, one):
        assert one.source
        assert one.formula.startswith("MR = ")
        assert len(one.parameters) == len(one.low) == len(one.high)


def test_names_are_unique_and_simple_models_come_first():
    assert len({m.name for m in MODELS}) == 6
    assert [m.needs for m in MODELS] == sorted(m.needs for m in MODELS)
    with pytest.raises(KeyError):
        model("Newton")


@given(k=st.floats(0.02, 3.0), n=st.floats(0.6, 1.8))
def test_page_modified_page_and_weibull_are_one_curve(k, n):
    page = model("Page").curve(HOURS, np.array([k, n]))
    modified = np.exp(-((k ** (1 / n) * HOURS) ** n))
    weibull = np.exp(-((HOURS / k ** (-1 / n)) ** n))
    assert page == pytest.approx(modified, abs=1e-9)
    assert page == pytest.approx(weibull, abs=1e-9)


@given(k=st.floats(0.001, 0.1), n=st.floats(0.5, 1.8))
def test_hours_and_minutes_give_the_same_curve(k, n):
    minutes = model("Page").curve(60.0 * HOURS, np.array([k, n]))
    assert minutes == pytest.approx(model("Page").curve(HOURS, np.array([per_hour(k, n), n])), abs=1e-9)
    assert per_hour(k, n) == pytest.approx(k * 60**n, rel=1e-9)


@given(
    k=st.floats(0.05, 2.0),
    n=st.floats(0.7, 1.6),
    noise=st.integers(0, 10_000),
)
def test_page_is_recovered_from_noisy_weighings_within_its_standard_errors(k, n, noise):
    hours = np.linspace(0.0, 2.5 / k ** (1 / n), 25)
    rng = np.random.default_rng(noise)
    mr = model("Page").curve(hours, np.array([k, n])) + rng.normal(0.0, 0.004, hours.size)
    found = fit(model("Page"), hours, mr)
    for name, truth in (("k", k), ("n", n)):
        value, error = found.parameters[name]
        assert abs(value - truth) < 6 * error


def test_the_straight_line_through_a_page_run_is_its_page():
    mr = np.exp(-0.3 * HOURS**1.2)
    assert page_line(HOURS, mr) == (pytest.approx(0.3), pytest.approx(1.2))
    # what lies within a hundredth of the ends is not looked at, nor the start
    hours, seen = np.arange(5.0), np.array([0.5, 0.995, np.exp(-0.6), np.exp(-0.9), 0.005])
    assert page_line(hours, seen) == (pytest.approx(0.3), pytest.approx(1.0))


def test_where_too_little_is_seen_the_line_is_first_order_by_the_last_hour():
    assert page_line(np.array([0.0, 2.0, 4.0]), np.array([1.0, 0.995, 0.992])) == (0.25, 1.0)
    assert page_line(np.array([0.0, 2.0, 4.0]), np.array([1.0, 0.995, 0.9])) == (0.25, 1.0)


def test_a_line_is_never_steeper_or_flatter_than_any_drying():
    hours = np.array([1.0, 2.0])
    steep, flat = page_line(hours, np.array([0.98, 0.02])), page_line(hours, np.array([0.5, 0.49]))
    assert (steep[1], flat[1]) == (4.0, 0.2)
