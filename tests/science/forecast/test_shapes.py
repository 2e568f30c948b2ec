"""The shapes the forecast knows: drying curves all, with half of the water gone near time 1."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.forecast.engine import thinned
from dryhouse.science.forecast.finish import weighted_quantiles
from dryhouse.science.forecast.shapes import (
    CRITICAL,
    FIRST,
    ORDERS,
    PAGE_NODES,
    PAGE_SHARE,
    PARTS,
    PARTS_SHARE,
    SHARP_SHARE,
    STARTS,
    STEP,
    SURFACE_B,
    resistances,
    shapes,
    two_periods,
)


def test_every_shape_falls_from_one_to_nothing():
    table = shapes()
    assert np.all(np.diff(table.mr, axis=1) <= 1e-9)
    assert table.mr[:, 0] == pytest.approx(1.0, abs=0.03)
    assert np.all(table.mr[:, -1] < 0.06)
    assert np.exp(table.log_prior).sum() == pytest.approx(1.0)


def test_each_family_of_laws_has_the_weight_that_is_said_of_it():
    weight = np.exp(shapes().log_prior).reshape(-1, len(STARTS))
    counts = len(SURFACE_B) * len(ORDERS), len(PAGE_NODES), len(CRITICAL), len(PARTS)
    families = np.split(weight.sum(axis=1), np.cumsum(counts)[:-1])
    rest = 1.0 - PAGE_SHARE - SHARP_SHARE - PARTS_SHARE
    assert [f.sum() for f in families] == pytest.approx([rest, PAGE_SHARE, SHARP_SHARE, PARTS_SHARE])
    assert rest > PAGE_SHARE > SHARP_SHARE > PARTS_SHARE > 0.0
    assert weight.sum(axis=0) == pytest.approx(list(STARTS.values()))


def test_half_is_gone_at_time_one_of_a_run_in_step_and_later_by_its_lag():
    table = shapes()
    at_one = table.mr[:, round(-FIRST / STEP)].reshape(-1, len(STARTS))
    late = [d for d in STARTS if d < 0]
    assert at_one[:, list(STARTS).index(0.0)] == pytest.approx(0.5, abs=0.005)
    assert np.all(at_one[:, [list(STARTS).index(d) for d in late]] > 0.5)
    assert np.all(np.abs(at_one - 0.5) < 0.2)


def test_a_straight_line_to_the_end_is_nearly_among_them():
    time = np.exp(FIRST + STEP * np.arange(shapes().mr.shape[1]))
    off = np.max(np.abs(shapes().mr - np.clip(1.0 - time / 2.0, 0.0, 1.0)), axis=1)
    assert off.min() < 0.02


def test_the_two_periods_of_the_textbooks_join_at_the_critical_moisture():
    """Constant rate to c, then t = (1 - c) + c ln(c / MR): at c = 0.2 and MR 0.1 by hand 0.8 + 0.2 ln 2."""
    assert two_periods(np.array([0.9, 0.2, 0.1]), 0.2) == pytest.approx([0.1, 0.8, 0.9386], abs=1e-4)
    time = np.exp(FIRST + STEP * np.arange(shapes().mr.shape[1])) / 2.0
    sharp = np.where(time < 0.9, 1.0 - time, 0.1 * np.exp(-np.minimum((time - 0.9) / 0.1, 300.0)))
    assert np.max(np.abs(shapes().mr - sharp), axis=1).min() < 0.005


def test_lewis_is_among_them():
    time = np.exp(FIRST + STEP * np.arange(shapes().mr.shape[1]))
    off = np.max(np.abs(shapes().mr - np.exp(-np.log(2) * time)), axis=1)
    assert off.min() < 1e-3


@given(b=st.floats(0, 10), p=st.floats(0.3, 2.0))
def test_time_grows_as_moisture_falls(b, p):
    assert np.all(np.diff(resistances(np.linspace(0.99, 0.01, 50), b, p)) > 0)


def test_a_large_surface_resistance_is_a_constant_rate():
    mr = np.linspace(0.99, 0.3, 30)
    assert np.diff(resistances(mr, 1000.0, 1.0)) == pytest.approx(1000.0 * -np.diff(mr), rel=0.01)


def test_thinning_keeps_the_last_weighing_and_the_mean_of_a_line():
    t = np.arange(1.0, 126.0)
    few_t, few_y = thinned(t, 500 - 2 * t)
    assert len(few_t) == 24
    assert (few_t[-1], few_y[-1]) == (125.0, 250.0)
    assert few_y == pytest.approx(500 - 2 * few_t)
    assert thinned(t[:10], t[:10])[0] is not None


def test_weighted_quantiles():
    values = np.array([5.0, 1.0, 3.0, np.inf])
    weight = np.array([1.0, 1.0, 1.0, 0.3])
    found = weighted_quantiles(values, weight, np.array([0.1, 0.5, 0.99]))
    assert found[0] <= 3.0
    assert 1.0 < found[1] < 5.0
    assert found[2] == np.inf
