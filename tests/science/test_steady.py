"""When a scale stands still, and what is no drying."""

from __future__ import annotations

import random

from dryhouse.science.steady import NoticeKind, SteadyScale, Thinned


def steadies(scale: SteadyScale, grams, start: float = 0.0):
    found = [scale.take(start + n, g) for n, g in enumerate(grams)]
    return [s.steady for s in found if s.steady is not None], [s.notice for s in found if s.notice is not None]


def test_the_median_of_a_noisy_scale_lies_nearer_than_its_noise() -> None:
    dice = random.Random(3)
    found, said = steadies(SteadyScale(1000.0), [800 + dice.gauss(0, 1.0) for _ in range(300)])
    assert len(found) > 250
    assert max(abs(g - 800) for g in found) < 1.6
    assert said == []


def test_readings_that_sway_are_not_steady() -> None:
    found, _ = steadies(SteadyScale(1000.0), [800 + 40 * (-1) ** n for n in range(60)])
    assert found == []


def test_a_lifted_tray_and_its_return_are_told_and_nothing_between_counts() -> None:
    found, said = steadies(SteadyScale(1000.0), [800.0] * 30 + [550.0] * 60 + [799.0] * 30)
    assert set(found) == {800.0, 799.0}
    assert said == [NoticeKind.LIFTED, NoticeKind.BACK]


def test_drying_however_fast_is_no_lifted_tray() -> None:
    found, said = steadies(SteadyScale(1000.0), [1000.0 - n * 0.08 for n in range(3000)])
    assert len(found) > 2900
    assert said == []


def test_what_dried_away_while_nothing_came_is_no_lifted_tray() -> None:
    """A wet load loses 8 % in half an hour; in a second it can't."""
    scale = SteadyScale(1000.0)
    steadies(scale, [1000.0] * 20)
    found, said = steadies(scale, [920.0] * 20, start=1800.0)
    assert (found[-1], said) == (920.0, [])
    scale = SteadyScale(1000.0)
    found, said = steadies(scale, [1000.0] * 20 + [920.0] * 20)
    assert (found[-1], said) == (1000.0, [NoticeKind.LIFTED])


def test_a_slow_rise_is_drift_and_is_withheld() -> None:
    found, said = steadies(SteadyScale(1000.0), [800.0 + n * 0.05 for n in range(400)])
    assert max(found) < 807
    assert said == [NoticeKind.DRIFT]


def test_of_steady_weights_those_are_kept_that_the_curve_needs() -> None:
    thinned = Thinned(1000.0)
    kept = [s for s in range(0, 7200, 10) if thinned.wants(float(s), 500.0)]
    assert kept == [0, 1800, 3600, 5400]
    falling = Thinned(1000.0)
    kept = [s for s in range(0, 3600, 10) if falling.wants(float(s), 1000.0 - s / 20)]
    assert kept == list(range(0, 3600, 300))
