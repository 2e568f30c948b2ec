"""A forecast as a whole: which dry matter it goes by, how far it looks, and what a change of heat leaves open."""

from __future__ import annotations

import math

import numpy as np
import pytest

from dryhouse.science.dry_matter import exactly, prior_belief
from dryhouse.science.forecast import Beforehand, Heating, Prior, forecast
from dryhouse.science.forecast.forecasting import _stretched
from dryhouse.science.values import Basis, Fact

ROUGH = prior_belief(15.0, 0.12)


def load(hours, level=77.0):
    """500 g of which half of what goes has gone after two hours and a half, read to the gram."""
    return np.round(level + (500.0 - level) * 0.5 ** (np.asarray(hours, dtype=float) / 2.5))


def ahead(hours, grams=None, *, heating=None, **more):
    given = Beforehand(**{"solids": exactly(0.15), "target_moisture_pct": 15.0} | more)
    return forecast(hours, load(hours) if grams is None else grams, given, heating=heating)


def test_three_weighings_teach_the_dry_matter_and_two_or_what_was_told_or_tested_do_not():
    """15 % of 500 g weigh 88.24 g at 15 %."""
    two, three = (ahead(hours, solids=ROUGH) for hours in ([0, 6], [0, 6, 12]))
    assert (two.dry_matter_g, two.target_g) == (pytest.approx(75.0), pytest.approx(75.0 / 0.85))
    assert three.dry_matter_g == pytest.approx(three.belief.middle * 500.0)
    assert three.target_g == pytest.approx(three.belief.middle * 500.0 / 0.85)
    assert abs(three.dry_matter_g - 75.0) > 0.05
    told = ahead([0, 6, 12], solids=ROUGH, as_told=True)
    assert told.dry_matter_g == pytest.approx(75.0)
    close = {sd: ahead([0, 6, 12], solids=prior_belief(15.0, sd)) for sd in (0.0019, 0.0025)}
    assert close[0.0019].dry_matter_g == pytest.approx(75.0, rel=1e-12)
    assert close[0.0025].dry_matter_g == close[0.0025].belief.middle * 500.0


def test_an_answer_says_what_it_was_given():
    basis, mine = Basis("entered", "the starting moisture given"), Basis("own", "earlier runs", 3)
    found = ahead([2, 3, 4, 5], load([0, 1, 2, 3]), basis=(basis,), prior=Prior(0.24, 1.0, 0.25, 0.12, mine))
    assert (found.weighings, found.expected, found.stops, found.reached_at) == (4, True, (), None)
    assert [each.kind for each in found.basis] == ["entered", "assumption", "own"]
    assert not ahead([0, 1, 2]).expected
    assert found.mass.hours[0] == 3.0
    assert len(found.mass.hours) == 60
    assert list(found.moisture.hours) == list(found.mass.hours)


def test_moisture_ahead_is_that_of_each_course_s_own_dry_matter():
    """With the dry matter known to the thousandth, moisture and mass say the same at every end of the band."""
    found = ahead([0, 1, 2, 3, 4, 5], solids=exactly(0.15))
    for moisture, mass in (("low80", "low80"), ("median", "median"), ("high80", "high80")):
        grams = getattr(found.mass, mass)
        assert getattr(found.moisture, moisture) == pytest.approx(100 * (1 - 75.0 / grams), abs=0.3)
    rows = [getattr(found.moisture, row) for row in ("low80", "low50", "median", "high50", "high80")]
    assert np.all(np.diff(rows, axis=0) >= 0.0)


def test_it_looks_ahead_to_past_the_latest_end_there_is():
    """1.15 times the late end; where that is open twice the late quarter, where that is four times the middle,
    and without any end three times what has passed and ten hours. The target weighs 88 g."""
    for level, last, which in ((77.0, 10.0, 0), (92.0, 10.0, 1), (92.0, 12.0, 2), (105.0, 18.0, 3)):
        hours = np.arange(0.0, last + 0.1, 1.0)
        found = ahead(hours, load(hours, level))
        ends = (found.finish.high80, 2 * found.finish.high50, 4 * found.finish.median, 3 * last + 10.0)
        assert next(n for n, end in enumerate(ends) if np.isfinite(end)) == which, (level, last)
        assert found.mass.hours[-1] == pytest.approx(1.15 * ends[which]), (level, last)


def test_a_run_of_minutes_is_shown_for_six_minutes_more():
    """Reached after 0.075 h: half as long again would be 0.17 h."""
    found = ahead([0.0, 0.05, 0.1], [500.0, 200.0, 80.0])
    assert found.reached_at is not None
    assert found.mass.hours[-1] == pytest.approx(1.05 * 0.1 + 0.1)


def test_time_ahead_is_stretched_by_the_doubt_and_time_before_is_not():
    """Three nodes of the normal distribution: 0 and ±√3, weighing four to one to one."""
    times, weight = _stretched(np.array([2.0, 5.0]), np.array([0.3, 0.6]), 3.0, 0.1)
    wide = 0.1 * math.sqrt(3.0)
    assert sorted(times) == pytest.approx([2.0, 2.0, 2.0, 3 + 2 * math.exp(-wide), 5.0, 3 + 2 * math.exp(wide)])
    of = {round(float(t), 6): float(w) for t, w in zip(times, weight, strict=True)}
    late = [of[round(3 + 2 * math.exp(z), 6)] for z in (-wide, 0.0, wide)]
    assert np.array(late) / sum(late) == pytest.approx([1 / 6, 4 / 6, 1 / 6])
    assert sum(late) / weight.sum() == pytest.approx(2 / 3)


def spread(change: float, doubt: float) -> float:
    """How wide the middle 80 % is where the dryer was turned up at this hour, and the energy is so doubtful."""
    hours = np.arange(0.0, 6.1, 1.0)
    energy = Fact(35.0, "kJ/mol", "a table", low=35.0 - doubt, high=35.0 + doubt)
    found = ahead(hours, heating=Heating((0.0, change), (45.0, 70.0), energy)).finish
    return found.high80 - found.low80


def test_a_change_of_heat_is_in_doubt_until_two_weighings_have_followed_it():
    assert spread(5.0, 25.0) == pytest.approx(spread(5.0, 0.0))
    assert spread(5.1, 25.0) > 1.1 * spread(5.1, 0.0)


def test_hours_are_told_on_the_clock_on_the_wall():
    """Off from the third hour to the sixth: what lies ahead lies three hours later than without."""
    drying = np.array([0.0, 1.0, 2.0, 3.0, 3.0, 4.0, 5.0])
    passed = drying + np.array([0.0, 0.0, 0.0, 0.0, 3.0, 3.0, 3.0])
    found, usual = ahead(passed, load(drying)), ahead(np.delete(drying, 4))
    assert found.stops == ((3.0, 6.0),)
    assert found.mass.hours[0] == pytest.approx(8.0)
    for name in ("low80", "median", "high80"):
        assert getattr(found.finish, name) == pytest.approx(getattr(usual.finish, name) + 3.0, rel=0.04)
    assert usual.weigh_again_at + 2.0 < found.weigh_again_at < found.finish.low80
    assert found.mass.hours[-1] - found.finish.high80 == pytest.approx(0.15 * (found.finish.high80 - 3.0), rel=0.05)


def test_a_stop_is_asked_about_by_the_target_that_is_asked_for():
    """88 g at 15 %: of 412 g of water three tenths are 124 g. With 127 g left a standstill is no levelling off,
    with 120 g it may be."""
    assert ahead([0, 3, 5], [500.0, 216.0, 215.0]).stops == ((3.0, 5.0),)
    assert ahead([0, 3, 5], [500.0, 209.0, 208.0]).stops == ()
