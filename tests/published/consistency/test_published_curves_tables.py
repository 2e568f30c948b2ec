"""Drying curves against published runs, constants and statistics. Each figure's source stands in its data file.

Points: `drying_runs.csv`. Constants: the handbook's thin-layer table. Rows marked computed there were fitted with a
general-purpose least-squares library when the table was made, and are reproduced here by the solver of our own.
"""

from __future__ import annotations

import numpy as np
import pytest

from dryhouse.handbook.thin_layer import thin_layers
from dryhouse.science.curves import model
from dryhouse.science.curves.fitting import fit
from tests.published.readings import run
from tests.rows import every_row

FITTED = [r for r in thin_layers() if r.series and "fitted" in r.basis.source]
VECTORS = [
    r for r in thin_layers() if r.model in ("Lewis", "Page", "Henderson–Pabis", "logarithmic", "Midilli–Kucuk")
]


def vector(row):
    values = {"k": row.k, "n": row.n, "a": row.a, "b": row.b, "c": row.c}
    return np.array([values[p.name] for p in model(row.model).parameters])


def label(row):
    return f"{row.model} {row.name} {row.temperature_c or ''} {row.series}"


@every_row("row", FITTED, ids=label)
def test_constants_of_published_runs(row):
    hours, mr = run(row.series)
    found = fit(model(row.model), hours, mr)
    assert found.values == pytest.approx(vector(row), rel=2e-3, abs=2e-5)


@every_row("row", VECTORS, ids=label)
def test_curves_of_published_constants_are_recovered(row):
    p = vector(row)
    one = model(row.model)
    scale = (1.0 / row.k) ** (1.0 / (row.n or 1.0))
    hours = np.linspace(0.0, 2.5 * scale, 40)
    found = fit(one, hours, one.curve(hours, p))
    assert found.values == pytest.approx(p, rel=1e-3, abs=1e-5)


def test_there_are_enough_published_rows():
    assert len(VECTORS) >= 20
    assert len(FITTED) == 35
