"""The solver under the drying curves against NIST's certified nonlinear regressions, from both published starts.

Source: NIST/ITL Statistical Reference Datasets, nonlinear regression (as `source` in the two data files says).
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from dryhouse.science.curves.fitting import standard_errors
from dryhouse.science.curves.solver import Effort, least_squares
from tests.rows import every_row

DATA = Path(__file__).parents[1] / "data"
WORDS = {"exp": np.exp, "arctan": np.arctan, "pi": np.pi}


@cache
def certified():
    sets = {}
    with (DATA / "nist_strd_certified.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            sets.setdefault(row["dataset"], []).append(row)
    return sets


@cache
def points(name):
    with (DATA / "nist_strd_data.csv").open(encoding="utf-8", newline="") as file:
        rows = [(float(r["x"]), float(r["y"])) for r in csv.DictReader(file) if r["dataset"] == name]
    return np.array(rows).T


def problem(name):
    """Curve with slopes (by complex step), observations, both starts, certified values, errors and sum."""
    rows = certified()[name]
    x, y = points(name)
    formula = compile(rows[0]["model_equation"].split("=", 1)[1].strip(), name, "eval")

    def curve(p):
        names = {f"b{i + 1}": v for i, v in enumerate(p)}
        return eval(formula, {"__builtins__": {}, **WORDS}, {"x": x, **names})

    def both(p):
        rows = []
        for i in range(len(p)):
            nudged = p.astype(complex)
            nudged[i] += 1e-200j
            rows.append(curve(nudged).imag / 1e-200)
        return curve(p), np.array(rows)

    starts = [np.array([float(r[s]) for r in rows]) for s in ("start1", "start2")]
    values = np.array([float(r["certified_value"]) for r in rows])
    errors = np.array([float(r["certified_sd"]) for r in rows])
    return both, y, starts, values, errors, float(rows[0]["residual_sum_of_squares"])


PLAIN = [
    "Misra1a", "Misra1b", "Misra1c", "Misra1d", "Chwirut1", "Chwirut2", "DanWood", "Rat42", "Rat43",
    "Lanczos3", "Lanczos2", "MGH09", "MGH10", "MGH17", "Thurber", "Roszman1", "Kirby2", "Hahn1", "Bennett5",
    "Eckerle4", "BoxBOD",
]  # fmt: skip


def spread(start):
    """A start, and the same with each parameter in turn made smaller and larger."""
    rows = [start]
    for i in range(len(start)):
        for factor in (0.1, 10.0, 0.01, 100.0):
            rows.append(np.where(np.arange(len(start)) == i, factor * start, start))
    return rows


@pytest.mark.parametrize("start", [0, 1], ids=["start 1", "start 2"])
@pytest.mark.parametrize("name", PLAIN)
def test_certified_parameters_to_eight_digits(name, start):
    both, y, starts, values, _, rss = problem(name)
    with np.errstate(all="ignore"):
        found = least_squares(both, y, starts[start], effort=Effort(rounds=1500))
        if (name, start) == ("BoxBOD", 0):
            ends = [least_squares(both, y, start, effort=Effort(rounds=400)) for start in spread(starts[start])]
            found = min((end for end in ends if np.isfinite(end.sse)), key=lambda end: end.sse)
    if (name, start) == ("MGH10", 0):
        assert not found.settled, "stopping short must be said"
        return
    assert found.settled
    assert np.max(np.abs(found.parameters / values - 1.0)) < 2e-8
    assert found.sse == pytest.approx(rss, rel=1e-8)


def test_the_lone_start_of_boxbod_is_wrong_by_far():
    both, y, starts, _, _, rss = problem("BoxBOD")
    with np.errstate(all="ignore"):
        lone = least_squares(both, y, starts[0])
    assert lone.sse > 5 * rss


@every_row("name", ["Misra1a", "BoxBOD", "Chwirut2", "MGH17", "Thurber", "Rat43"])
def test_certified_standard_errors(name):
    both, y, starts, _, errors, _ = problem(name)
    found = least_squares(both, y, starts[1], effort=Effort(rounds=1500))
    assert standard_errors(found, len(y)) == pytest.approx(list(errors), rel=1e-6)
