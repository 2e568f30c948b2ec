"""Drying curves against published runs, constants and statistics. Each figure's source stands in its data file.

Points: `drying_runs.csv`. Constants: the handbook's thin-layer table. Rows marked computed there were fitted with a
general-purpose least-squares library when the table was made, and are reproduced here by the solver of our own.
"""

from __future__ import annotations

import numpy as np
import pytest

from dryhouse.handbook.thin_layer import thin_layers
from dryhouse.science.curves import fit_all, model
from dryhouse.science.curves.fitting import fit
from dryhouse.science.forecast.priors import GAS_CONSTANT, KELVIN, arrhenius_step
from dryhouse.words.messages import message_words
from tests.published.readings import run


def vector(row):
    values = {"k": row.k, "n": row.n, "a": row.a, "b": row.b, "c": row.c}
    return np.array([values[p.name] for p in model(row.model).parameters])


PUBLISHED = {  # name: (share of the published k it must lie within, published R2)
    "Lewis": (0.01, 0.9754),
    "Page": (0.05, 0.9966),
    "Henderson–Pabis": (0.004, 0.9817),
    "logarithmic": (0.06, 0.9896),
    "Midilli–Kucuk": (0.03, 0.9996),
}


class TestSourCherry:
    """Ultrasonics Sonochemistry 100:106633 (2023), Table 1: points, constants, r and RMSE of six models."""

    @pytest.mark.parametrize("name", PUBLISHED)
    def test_constants_and_r2(self, name):
        hours, mr = run("sour_cherry_guar")
        found = fit(model(name), hours, mr)
        near, r2 = PUBLISHED[name]
        published = next(r for r in thin_layers() if r.series == "sour_cherry_guar" and r.model == name)
        k = found.parameters["k"][0]
        n = found.parameters.get("n", (1.0, None))[0]
        per_minute, printed = k / 60**n, published.k / 60 ** (published.n or 1.0)
        assert abs(per_minute / printed - 1) < near + 0.002
        assert found.r2 == pytest.approx(r2, abs=0.0025)

    def test_order_of_the_residual_sums(self):
        hours, mr = run("sour_cherry_guar")
        sse = {name: fit(model(name), hours, mr).sse for name in PUBLISHED}
        assert sorted(sse, key=sse.__getitem__) == [
            "Midilli–Kucuk",
            "Page",
            "logarithmic",
            "Henderson–Pabis",
            "Lewis",
        ]

    def test_never_worse_than_the_published_constants(self):
        hours, mr = run("sour_cherry_guar")
        for row in thin_layers():
            if row.series == "sour_cherry_guar":
                printed = mr - model(row.model).curve(hours, vector(row))
                assert fit(model(row.model), hours, mr).sse <= float(printed @ printed) * (1 + 1e-6)

    def test_published_rmse_is_by_degrees_of_freedom(self):
        hours, mr = run("sour_cherry_guar")
        found = fit(model("Page"), hours, mr)
        assert np.sqrt(found.reduced_chi2) == pytest.approx(0.0177, abs=0.0012)

    def test_seven_weighings_do_not_carry_midilli(self):
        assert fit_all(*run("sour_cherry_guar")).chosen.name == "Page"


class TestFoodstuffOfGeankoplis:
    """Geankoplis, Transport Processes and Separation Process Principles, ch. 9, problem on a foodstuff."""

    def test_free_moisture_is_the_problems_own(self):
        _, mr = run("geankoplis_foodstuff")
        _, free = run("geankoplis_foodstuff_free")
        assert mr == pytest.approx(free, abs=4e-5)

    def test_page_in_three_clothes(self):
        hours, mr = run("geankoplis_foodstuff")
        found = fit(model("Page"), hours, mr)
        k, n = found.values
        assert k == pytest.approx(0.176862, rel=1e-4)
        assert n == pytest.approx(1.370671, rel=1e-4)
        assert found.sse == pytest.approx(7.95031e-4, rel=1e-4)
        assert k ** (1 / n) == pytest.approx(0.282551, rel=1e-4)
        assert k ** (-1 / n) == pytest.approx(3.539183, rel=1e-4)


class TestBadData:
    def test_a_rise_is_said(self):
        assert any("rises 1 time" in message_words(w) for w in fit_all(*run("thesis_isd_1cm")).warnings)

    def test_a_level_below_zero_water_is_said(self):
        found = fit(model("logarithmic"), *run("thesis_isd_1cm"))
        assert found.parameters["c"][0] == pytest.approx(-0.279, abs=1e-3)
        assert any("below zero water" in message_words(w) for w in found.warnings)

    def test_midilli_past_the_last_weighing_is_said(self):
        assert any(
            "never read it there" in message_words(w)
            for w in fit(model("Midilli–Kucuk"), *run("sour_cherry_guar")).warnings
        )


def test_arrhenius_step_of_four_temperatures():
    """Computed from the four Lewis constants of the published oven runs at 50 to 80 °C: Ea 53.403 kJ/mol."""
    warmth = np.array([50, 60, 70, 80])
    slope, log_k0 = np.polyfit(1 / (warmth + KELVIN), np.log([0.1555, 0.2972, 0.3508, 0.9683]), 1)
    assert -slope * GAS_CONSTANT / 1000 == pytest.approx(53.403, rel=1e-3)
    assert log_k0 == pytest.approx(17.9775, rel=1e-3)
    over_the_range = np.polyval([slope, log_k0], 1 / (80 + KELVIN)) - np.polyval([slope, log_k0], 1 / (50 + KELVIN))
    assert arrhenius_step(53.403, 50, 80) == pytest.approx(over_the_range, rel=1e-3)


def test_ten_degrees_warmer():
    """From the published activation energies: 35 kJ/mol makes 55 to 65 °C 1.46 times faster; 20: 1.24; 50: 1.72."""
    for energy, faster in ((35, 1.46), (20, 1.24), (50, 1.72)):
        assert np.exp(arrhenius_step(energy, 55, 65)) == pytest.approx(faster, abs=0.01)
