"""Amplitudes solved for and rates searched: never worse than a general-purpose fit from many starts."""

import numpy as np
import pytest
from scipy.optimize import least_squares, lsq_linear

from dryhouse.science.curves import fit_all
from dryhouse.science.curves.fitting import fit
from dryhouse.science.curves.models import model
from dryhouse.science.curves.separable import amplitudes
from tests.rows import every_row

HOURS = np.linspace(0.0, 10.0, 40)
LAWS = {
    "two parts": 0.55 * np.exp(-0.6 * HOURS) + 0.45 * np.exp(-0.2 * HOURS**1.1),
    "slow at first": np.exp(-0.12 * HOURS**1.5),
    "slow tail": np.exp(-0.5 * HOURS**0.8),
    "one exponential": np.exp(-0.9 * HOURS),
    "nearly straight": np.clip(1 - HOURS / 9, 0.01, 1),
    "a spike at first": 0.3 * np.exp(-8.0 * HOURS) + 0.7 * np.exp(-0.3 * HOURS),
    "a level that stays": 0.8 * np.exp(-0.7 * HOURS) + 0.2,
}
SEPARATED = ("Henderson–Pabis", "logarithmic", "two-term")


def wobbly(law: str) -> np.ndarray:
    rng = np.random.default_rng(len(law))
    return np.asarray(LAWS[law] + rng.normal(0, 0.004, HOURS.size))


def best_of_many(name: str, mr: np.ndarray) -> float:
    """The least sum of squares that SciPy finds from thirty starts between the model's bounds."""
    one, rng = model(name), np.random.default_rng(1)
    best = np.inf
    for _ in range(30):
        rate = np.exp(rng.uniform(np.log(0.02), np.log(8.0), len(one.parameters)))
        share = rng.uniform(np.maximum(one.low, -2.0), np.minimum(one.high, 2.0))
        start = np.where([p.unit == "1/h" for p in one.parameters], rate, share)
        found = least_squares(
            lambda p: one.curve(HOURS, p) - mr, start, lambda p: one.both(HOURS, p)[1].T, bounds=(one.low, one.high)
        )
        best = min(best, 2.0 * found.cost)
    return float(best)


@every_row("name, law", [(name, law) for name in SEPARATED for law in LAWS])
def test_no_start_of_a_general_purpose_fit_ends_better(name, law):
    mr = wobbly(law)
    ours = {f.name: f for f in fit_all(HOURS, mr).fits}[name]
    rest = mr - model(name).curve(HOURS, np.array([value for value, _ in ours.parameters.values()]))
    assert ours.sse == pytest.approx(float(rest @ rest), rel=1e-9)
    assert ours.sse <= best_of_many(name, mr) * (1 + 1e-5)
    assert fit(model(name), HOURS, mr).sse == pytest.approx(ours.sse, rel=1e-5), "and without the simpler fit"


def test_where_one_exponential_says_it_all_two_say_the_same():
    mr = wobbly("slow at first")
    by_name = {f.name: f for f in fit_all(HOURS, mr).fits}
    one, two = by_name["Henderson–Pabis"], by_name["two-term"]
    values = {name: value for name, (value, _) in two.parameters.items()}
    assert two.sse == pytest.approx(one.sse)
    assert values["a"] + values["b"] == pytest.approx(one.parameters["a"][0])
    assert values["k0"] == values["k1"] == one.parameters["k"][0]
    assert all(error is None for _, error in two.parameters.values())


BOXES = ((0.0, 3.0, 0.0, 3.0), (0.05, 20.0, -19.0, 0.95), (0.2, 3.0, 0.0, 0.0))


@every_row("seed, box", [(seed, box) for seed in range(40) for box in BOXES])
def test_amplitudes_are_the_best_between_their_bounds(seed, box):
    rng = np.random.default_rng(seed)
    shapes, y = rng.normal(0, 1, (2, 12)), rng.normal(0, 3, 12)
    gram, seen = shapes @ shapes.T, shapes @ y
    found, free = amplitudes(gram[0, 0], gram[0, 1], gram[1, 1], *seen, box)
    closed = (box[0], box[2]), (box[1] + 1e-12, box[3] + 1e-12)
    by_scipy = lsq_linear(shapes.T, y, closed, tol=1e-12)
    rest = y - np.dot(found, shapes)
    assert rest @ rest <= 2.0 * by_scipy.cost * (1 + 1e-9)
    inside = [low < a < high for a, low, high in zip(found, box[::2], box[1::2], strict=True)]
    assert list(free) == inside
