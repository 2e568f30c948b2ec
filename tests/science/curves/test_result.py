"""A fit's own figures, worked out again from its residuals."""

import math

import numpy as np
import pytest

from dryhouse.science.curves import fit_all
from dryhouse.science.curves.result import CurveSet, Fit
from dryhouse.words.messages import message_words

HOURS = np.arange(0.0, 10.5, 0.5)
BUMPS = 0.01 * np.sin(7.0 * HOURS)
MR = np.exp(-0.3 * HOURS**1.1) + BUMPS


@pytest.fixture(scope="module")
def fitted() -> CurveSet:
    return fit_all(HOURS, MR)


def test_every_model_the_weighings_carry_is_there_by_name(fitted):
    assert {f.name for f in fitted.fits} == {
        "Lewis", "Page", "Henderson–Pabis", "logarithmic", "Midilli–Kucuk", "two-term",
    }  # fmt: skip
    assert fitted.fit("Page").name == "Page"
    assert fitted.fit("no such model") is None


def test_the_figures_of_merit_are_those_of_the_residuals(fitted):
    for one in fitted.fits:
        assert isinstance(one, Fit)
        left = MR - one.at(HOURS)
        sse, n, p = float(left @ left), len(HOURS), len(one.parameters)
        assert one.sse == pytest.approx(sse)
        assert one.rmse == pytest.approx(math.sqrt(sse / n))
        assert one.reduced_chi2 == pytest.approx(sse / (n - p))
        assert one.r2 == pytest.approx(1 - sse / float(((MR - MR.mean()) ** 2).sum()))
        k = p + 1
        assert one.aicc == pytest.approx(n * math.log(sse / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1))


def test_more_parameters_never_fit_worse_where_one_model_holds_the_other(fitted):
    assert fitted.fit("Page").sse <= fitted.fit("Lewis").sse * (1 + 1e-9)
    assert fitted.fit("Midilli–Kucuk").sse <= fitted.fit("Page").sse * (1 + 1e-6)
    assert fitted.fit("logarithmic").sse <= fitted.fit("Henderson–Pabis").sse * (1 + 1e-6)


def test_a_flat_run_explains_nothing_and_a_parameter_in_doubt_is_said():
    flat = fit_all(HOURS, np.ones_like(HOURS))
    assert all(one.r2 == 0.0 for one in flat.fits)
    clean = fit_all(HOURS, np.exp(-0.3 * HOURS))
    assert not any("do not pin down" in message_words(said) for said in clean.fit("Lewis").warnings)
    assert any("do not pin down" in message_words(said) for one in clean.fits for said in one.warnings)
