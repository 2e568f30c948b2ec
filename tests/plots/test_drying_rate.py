"""The drying rate against moisture."""

from __future__ import annotations

import numpy as np
import pytest
from matplotlib.figure import Figure

from dryhouse.plots.curve_picture import CurvePicture, RunPicture
from dryhouse.plots.drying_rate import curve_rates, draw_rate, rates
from dryhouse.plots.tokens import LIGHT


def run(**more) -> RunPicture:
    return RunPicture("apple", (0.0, 1.0, 3.0), (700.0, 500.0, 300.0), solids_g=100.0, start_g=700.0, **more)


def test_rates_between_weighings_are_water_per_dry_matter_and_hour() -> None:
    moisture, rate = rates(run())
    assert moisture.tolist() == pytest.approx([5.0, 3.0])
    assert rate.tolist() == pytest.approx([2.0, 1.0])


def test_the_rate_along_a_first_order_curve_is_proportional_to_moisture() -> None:
    hours = np.linspace(0, 6, 200)
    along = run(curve_hours=tuple(hours), curve_grams=tuple(100 + 600 * np.exp(-0.4 * hours)))
    moisture, rate = curve_rates(along)
    assert (rate / moisture)[5:-5] == pytest.approx(0.4, rel=1e-3)


def test_the_chart_names_its_axes_and_its_runs() -> None:
    figure = Figure()
    other = RunPicture("pear", (0.0, 2.0), (700.0, 400.0), solids_g=100.0, start_g=700.0)
    draw_rate(figure, CurvePicture((run(), other)), LIGHT)
    (axes,) = figure.axes
    assert axes.get_xlabel() == "Moisture, dry basis (g/g)"
    assert axes.get_ylabel() == "Drying rate (g/g per hour)"
    assert {t.get_text() for t in axes.texts} == {"apple", "pear"}


def test_without_two_weighings_it_says_what_it_wants() -> None:
    figure = Figure()
    draw_rate(figure, CurvePicture((RunPicture("apple", (0.0,), (700.0,), solids_g=100.0),)), LIGHT)
    assert "two weighings" in figure.axes[0].texts[0].get_text()
