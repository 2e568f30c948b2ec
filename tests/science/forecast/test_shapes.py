"""The shapes the forecast knows: drying curves all, with half of the water gone near time 1."""

from __future__ import annotations

from functools import partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

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
    two_parts,
    two_periods,
)
from tests.rows import every_row


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


FINE = 1.0 - np.concatenate((np.geomspace(1e-6, 0.5, 400), 1.0 - np.geomspace(0.499, 1e-9, 1200)))
HALF = np.array([0.5])


def nearest(law, d: float = 0.0) -> float:
    """How far the nearest shape is from a law (the time at a moisture ratio), begun with a head start or a lag."""
    at = FIRST + STEP * np.arange(shapes().mr.shape[1])
    over = 0.1 if d >= 0 else -d
    time = np.exp(at)
    began = np.log(np.maximum(time + d * (1.0 - np.exp(-time / over)), 1e-9))
    curve = np.interp(began, np.log(law(FINE) / law(HALF)), FINE, left=1.0, right=0.0)
    return float(np.max(np.abs(shapes().mr - curve), axis=1).min())


ORDER = (0.25, 0.5, 0.75, 1.0)
ON_THE_GRID = [
    *((f"surface {b}, order {p}", partial(resistances, b=b, p=p), 0.0) for b in (0.1, 0.3, 1.0, 3.0, 10.0, 30.0)
      for p in ORDER),
    *((f"Page {n}", lambda mr, n=n: (-np.log(mr)) ** (1.0 / n), 0.0) for n in (0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.45)),
    *((f"two periods {c}", partial(two_periods, c=c), 0.0) for c in (0.04, 0.1, 0.2)),
    *((f"two parts {a}", partial(two_parts, quick=a, slower=q), 0.0) for a, q in ((0.9, 2.5), (0.75, 3.0))),
    *((f"Lewis begun {d}", partial(resistances, b=0.1, p=1.0), d) for d in (-0.4, -0.15, 0.1)),
]  # fmt: skip
BETWEEN = [
    *((f"surface {b}, order {p}", partial(resistances, b=b, p=p), 0.0) for b in (0.17, 0.55, 1.7, 5.5, 17.0)
      for p in (0.3, 0.6, 0.9)),
    *((f"Page {n}", lambda mr, n=n: (-np.log(mr)) ** (1.0 / n), 0.0) for n in (0.85, 1.05, 1.25, 1.37)),
    *((f"two periods {c}", partial(two_periods, c=c), 0.0) for c in (0.06, 0.15)),
]  # fmt: skip


@every_row(("name", "law", "begun"), ON_THE_GRID, ids=lambda value: value if isinstance(value, str) else "")
def test_the_laws_of_the_grid_are_among_the_shapes(name, law, begun):
    assert nearest(law, begun) < 1e-3


@every_row(("name", "law", "begun"), BETWEEN, ids=lambda value: value if isinstance(value, str) else "")
def test_no_law_between_them_is_far_from_a_shape(name, law, begun):
    assert nearest(law, begun) < 0.02


def test_of_page_s_exponents_those_of_whole_runs_are_likeliest():
    """1.12 in the middle of published whole runs, and most within 0.12 of it."""
    weight = np.exp(shapes().log_prior).reshape(-1, len(STARTS)).sum(axis=1)
    first = len(SURFACE_B) * len(ORDERS)
    page = weight[first : first + len(PAGE_NODES)]
    page, n = page / page.sum(), np.array(PAGE_NODES)
    mean = page @ n
    assert mean == pytest.approx(1.12, abs=0.02)
    assert np.sqrt(page @ (n - mean) ** 2) == pytest.approx(0.13, abs=0.03)


def test_the_exponent_nearest_to_a_page_curve_is_its_own():
    found = shapes().page_n.reshape(-1, len(STARTS))[:, list(STARTS).index(0.0)]
    first = len(SURFACE_B) * len(ORDERS)
    assert found[first : first + len(PAGE_NODES)] == pytest.approx(list(PAGE_NODES), rel=0.01)


def test_two_parts_dry_as_two_exponentials():
    time = two_parts(np.array([0.9 * np.exp(-1.0) + 0.1 * np.exp(-0.4), 1.0]), 0.9, 2.5)
    assert time == pytest.approx([1.0, 0.0], abs=1e-4)


def laws() -> list:
    """The time at which each law of the module's text has so much left, whatever its unit."""
    return [
        *((lambda m, b=b, p=p: (-np.log(m) if p == 1.0 else (m ** (1 - p) - 1) / (p - 1)) + b * (1 - m))
          for b in (0.1, 0.3, 1.0, 3.0, 10.0, 30.0) for p in (0.25, 0.5, 0.75, 1.0)),
        *((lambda m, n=n: (-np.log(m)) ** (1 / n)) for n in (0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.45)),
        *((lambda m, c=c: np.where(m > c, 1 - m, 1 - c + c * np.log(c / np.minimum(m, c))))
          for c in (0.04, 0.1, 0.2)),
        *((lambda m, a=a, q=q: [brentq(lambda t, left=left: a * np.exp(-t) + (1 - a) * np.exp(-t / q) - left, 0, 60)
                                for left in m]) for a, q in ((0.9, 2.5), (0.75, 3.0))),
    ]  # fmt: skip


def test_the_table_is_made_of_the_laws_and_of_how_runs_begin():
    """Each law begun in step, behind by 0.4 and by 0.15 half-times, and ahead by 0.1; made anew."""
    table = shapes.__wrapped__()
    assert table.mr.shape == (36 * 4, 501)
    time = np.exp(np.linspace(-6.0, 4.0, 501))
    seen = np.searchsorted(time, [0.3, 0.6, 0.9, 1.2, 1.7, 2.2])
    for column, (d, over) in enumerate(((-0.4, 0.4), (-0.15, 0.15), (0.0, 0.1), (0.1, 0.1))):
        began = time + d * (1.0 - np.exp(-time / over))
        for number, law in enumerate(laws()):
            row = table.mr[4 * number + column]
            at = seen[(row[seen] > 0.02) & (row[seen] < 0.98)]
            assert len(at) >= 3
            assert np.array(law(row[at])) / law(np.array([0.5])) == pytest.approx(began[at], rel=0.01), (number, d)
    assert table.step[:, :-1] == pytest.approx(np.diff(table.mr, axis=1))
    assert np.all(table.step[:, -1] == 0.0)
    assert np.all(table.mr[:, -1] < 0.06)


def test_each_shape_of_the_table_has_its_weight_and_its_exponent():
    """40 % for Page's law, by a bell round 1.12 and the room each exponent has; 8 % for the two periods, 1 % for
    the two parts, the rest for the resistances; and the exponent of Page's curve through 0.8 and 0.2."""
    table = shapes.__wrapped__()
    weight = np.exp(table.log_prior).reshape(36, 4)
    bell = np.exp(-0.5 * ((np.array([0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.45]) - 1.12) / 0.12) ** 2)
    page = bell * [0.1, 0.1, 0.1, 0.1, 0.1, 0.125, 0.15]
    wanted = np.concatenate(
        (np.full(24, 0.51 / 24), 0.4 * page / page.sum(), np.full(3, 0.08 / 3), np.full(2, 0.005))
    )
    assert weight.sum(axis=1) == pytest.approx(wanted)
    assert weight / wanted[:, None] == pytest.approx(np.tile([0.2, 0.25, 0.4, 0.15], (36, 1)))
    early, late = np.array([law(np.array([0.8, 0.2])) for law in laws()]).T
    exponent = np.log(np.log(0.2) / np.log(0.8)) / np.log(late / early)
    assert table.page_n.reshape(36, 4)[:, 2] == pytest.approx(exponent, rel=0.01)
    lagging = table.page_n.reshape(36, 4)[:, 0]
    assert np.all(lagging > table.page_n.reshape(36, 4)[:, 2])
