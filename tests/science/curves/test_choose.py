"""Which curve is shown, and when none is."""

from __future__ import annotations

import numpy as np
import pytest

from dryhouse.science.curves import fit_all, model
from dryhouse.science.curves.fitting import aicc, beyond_the_data, fit
from dryhouse.words.messages import message_words


def page(hours, k=0.3, n=1.2):
    return np.exp(-k * np.asarray(hours, float) ** n)


def wobbly(hours, seed=1, size=0.004, **kw):
    return page(hours, **kw) + np.random.default_rng(seed).normal(0, size, len(hours))


class TestHonestyAboutParameters:
    @pytest.mark.parametrize(
        ("weighings", "names"),
        [
            (3, {"Lewis"}),
            (4, {"Lewis", "Page"}),
            (5, {"Lewis", "Page", "Henderson–Pabis"}),
            (7, {"Lewis", "Page", "Henderson–Pabis"}),
            (8, {"Lewis", "Page", "Henderson–Pabis", "logarithmic"}),
            (10, {"Lewis", "Page", "Henderson–Pabis", "logarithmic", "Midilli–Kucuk", "two-term"}),
        ],
    )
    def test_no_more_parameters_than_the_weighings_carry(self, weighings, names):
        hours = np.linspace(0, 6, weighings)
        assert {f.name for f in fit_all(hours, wobbly(hours)).fits} == names

    def test_with_three_or_four_weighings_lewis_is_shown(self):
        for n in (3, 4):
            hours = np.linspace(0, 6, n)
            curves = fit_all(hours, page(hours))
            assert curves.chosen.name == "Lewis"
            assert "five would allow Page" in message_words(curves.why)

    def test_five_weighings_are_enough_to_choose(self):
        hours = np.array([0.0, 1.0, 2.0, 3.0, 4.0])
        assert fit_all(hours, page(hours, n=1.5)).chosen.name == "Page"

    def test_the_smallest_aicc_is_chosen(self):
        hours = np.linspace(0, 9, 30)
        curves = fit_all(hours, wobbly(hours, n=1.35))
        assert curves.chosen.aicc == min(f.aicc for f in curves.fits)
        assert curves.chosen.name in ("Page", "Midilli–Kucuk")

    def test_more_parameters_never_fit_worse(self):
        for seed in range(8):
            hours = np.linspace(0, 9, 24)
            sse = {f.name: f.sse for f in fit_all(hours, wobbly(hours, seed, 0.02, n=0.8 + 0.1 * seed)).fits}
            slack = 1 + 1e-5
            assert sse["Page"] <= sse["Lewis"] * slack
            assert sse["Midilli–Kucuk"] <= sse["Page"] * slack
            assert sse["logarithmic"] <= sse["Henderson–Pabis"] * slack
            assert sse["two-term"] <= sse["Henderson–Pabis"] * slack


class TestNoSillyFit:
    @pytest.mark.parametrize("count", [0, 1, 2])
    def test_too_few_weighings(self, count):
        curves = fit_all(np.arange(count, dtype=float), np.ones(count))
        assert curves.fits == ()
        assert curves.chosen is None
        assert "at least 3" in message_words(curves.why)

    def test_a_flat_run(self):
        curves = fit_all([0, 1, 2, 3, 4, 5], [1, 0.999, 0.998, 0.999, 0.997, 0.998])
        assert curves.chosen is None
        assert "hardly moved" in message_words(curves.why)

    def test_three_parts_in_a_hundred_make_a_curve(self):
        hours = [0, 1, 2, 3, 4]
        assert fit_all(hours, [1, 0.99, 0.985, 0.98, 0.9699]).chosen is not None
        assert fit_all(hours, [1, 0.99, 0.985, 0.98, 0.9701]).chosen is None
        assert fit_all(hours, [1, 0.9699, 0.98, 0.99, 1.0049]).chosen is not None
        assert "weighs more at the end" in message_words(fit_all(hours, [1, 0.96, 0.98, 0.99, 1.0051]).why)

    def test_water_a_little_below_nothing_is_rounding(self):
        hours = np.linspace(0, 12, 12)
        for least, said in ((-0.0049, 0), (-0.0051, 1)):
            mr = page(hours)
            mr[-1] = least
            assert len(fit_all(hours, mr).warnings) == said

    def test_the_largest_of_several_rises_is_named_with_its_hours(self):
        hours = np.linspace(0, 11, 12)
        mr = page(hours, 0.1, 1.0)
        mr[3], mr[7] = mr[2] + 0.01, mr[6] + 0.03
        assert message_words(fit_all(hours, mr).warnings[0]) == (
            "The weight rises 2 times, most between 6 h and 7 h (MR by 0.03): a scale reading, a swapped tray or "
            "food added?"
        )

    def test_a_rising_run(self):
        curves = fit_all([0, 1, 2, 3, 4], [1, 1.01, 1.02, 1.03, 1.05])
        assert curves.chosen is None
        assert "weighs more at the end" in message_words(curves.why)

    def test_one_rise_is_said_and_the_rest_fitted(self):
        hours = np.linspace(0, 6, 12)
        mr = page(hours)
        mr[5] = mr[4] + 0.02
        curves = fit_all(hours, mr)
        assert curves.chosen is not None
        assert "rises 1 time" in message_words(curves.warnings[0])

    def test_below_the_dry_matter_is_said(self):
        hours = np.linspace(0, 12, 12)
        assert any(
            "below the dry matter" in message_words(w)
            for w in fit_all(hours, page(hours) - 0.05 * hours / 12).warnings
        )

    @pytest.mark.parametrize(
        ("hours", "mr"), [([0, 1, 1], [1, 0.9, 0.8]), ([0, 1], [1, 0.9, 0.8]), ([0, 1, 2], [1, float("nan"), 0.8])]
    )
    def test_what_is_no_run_is_refused(self, hours, mr):
        with pytest.raises(ValueError, match=r"lists of one length|times ascend"):
            fit_all(hours, mr)


class TestBeyondTheData:
    def test_a_level_below_zero_water_is_said(self):
        hours = np.linspace(0, 9, 20)
        curves = fit_all(hours, 1.0 - 0.1 * hours + np.random.default_rng(3).normal(0, 0.003, 20))
        log = curves.fit("logarithmic")
        assert "below zero water" in " ".join(message_words(w) for w in log.warnings)

    def test_what_drying_cannot_do_past_the_last_weighing_is_said_and_nothing_else(self):
        midilli, log = model("Midilli–Kucuk"), model("logarithmic")
        said = {
            (one.name, last): [w.kind.name for w in beyond_the_data(one, np.array([*first, last]), 6.0)]
            for one, first, ends in (
                (midilli, [1.0, 0.5, 1.2], (0.0, 0.01, -0.01)),
                (log, [1.0, 0.5], (0.1, -0.0049, -0.0051)),
            )
            for last in ends
        }
        assert list(said.values()) == [
            [], ["RISES_AGAIN"], ["FALLS_BELOW_ZERO"], [], [], ["LEVELS_BELOW_ZERO"],
        ]  # fmt: skip

    def test_midilli_that_would_rise_or_go_below_nothing_says_so(self):
        hours = np.linspace(0, 6, 15)
        falls = fit_all(hours, page(hours, 0.2, 0.7) - 0.02 * hours).fit("Midilli–Kucuk")
        rises = fit_all(hours, page(hours, 0.5, 1.2) + 0.01 * hours).fit("Midilli–Kucuk")
        assert any("below zero water" in message_words(w) for w in falls.warnings)
        assert any("rises again" in message_words(w) for w in rises.warnings)


class TestStatistics:
    def test_definitions(self):
        hours = np.linspace(0, 8, 12)
        mr = wobbly(hours)
        one = fit_all(hours, mr).fit("Page")
        rest = mr - one.at(hours)
        assert one.sse == pytest.approx(float(rest @ rest), rel=1e-5)
        assert one.rmse == pytest.approx(np.sqrt(one.sse / 12))
        assert one.reduced_chi2 == pytest.approx(one.sse / 10)
        assert one.r2 == pytest.approx(1 - one.sse / np.sum((mr - mr.mean()) ** 2))
        assert one.aicc == pytest.approx(12 * np.log(one.sse / 12) + 6 + 2 * 3 * 4 / 8)

    def test_aicc_is_infinite_where_it_does_not_exist(self):
        assert aicc(0.1, 4, 2) == np.inf
        assert aicc(0.1, 5, 2) == pytest.approx(5 * np.log(0.02) + 6 + 24)
        assert aicc(0.0, 5, 2) < -3000

    def test_standard_errors_are_those_of_the_textbooks(self):
        """sqrt(diag((J'J)^-1) SSE/(n-p)), for one, two and three parameters."""
        hours = np.linspace(0, 8, 14)
        for name in ("Lewis", "Page", "Henderson–Pabis", "logarithmic"):
            one = fit_all(hours, wobbly(hours, 3)).fit(name)
            slopes = model(name).both(hours, one.values)[1]
            variance = np.linalg.inv(slopes @ slopes.T).diagonal() * one.sse / (14 - len(one.values))
            assert [error for _, error in one.parameters.values()] == pytest.approx(
                list(np.sqrt(variance)), rel=0.01
            )

    def test_as_many_weighings_as_parameters_leave_no_error_and_no_chi_squared(self):
        hours = np.array([0.0, 2.0, 4.0])
        three = fit(model("logarithmic"), hours, page(hours, n=1.0))
        assert three.reduced_chi2 is None
        assert all(error is None for _, error in three.parameters.values())

    def test_standard_errors_are_missing_where_the_weighings_leave_a_parameter_open(self):
        hours = np.linspace(0, 8, 12)
        two = fit_all(hours, wobbly(hours, n=1.0)).fit("two-term")
        assert any("do not pin down" in message_words(w) for w in two.warnings)
