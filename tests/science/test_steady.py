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


def said_of(first: float, then: float, at: int = 30, more: float = 0.0) -> list[NoticeKind]:
    return steadies(SteadyScale(1000.0), [first] * at + [then] * at + [more] * (at if more else 0))[1]


def test_a_change_that_drying_cannot_make_is_told_from_one_that_it_can() -> None:
    """Of 1000 g three in a hundred are more than drying takes in the seconds between, and six in a thousand are
    more than a scale may rise."""
    assert said_of(1000.0, 971.0) == []
    assert said_of(1000.0, 967.0) == [NoticeKind.LIFTED]
    assert said_of(1000.0, 1005.5) == []
    assert said_of(1000.0, 1006.5) == [NoticeKind.DRIFT]
    assert said_of(1000.0, 1030.0) == [NoticeKind.DRIFT]
    assert said_of(1000.0, 1031.0) == [NoticeKind.LIFTED]


def test_a_scale_that_drifts_is_believed_again_well_below_the_border() -> None:
    scale = SteadyScale(1000.0)
    assert steadies(scale, [1000.0] * 20 + [1007.0] * 20)[1] == [NoticeKind.DRIFT]
    assert steadies(scale, [1003.5] * 30, start=40.0) == ([], [])
    assert steadies(scale, [1002.5] * 30, start=70.0)[0][-1] == 1002.5


def test_readings_are_steady_within_four_in_a_thousand_or_two_grams() -> None:
    for first, apart, steady in (
        (1000.0, 3.9, True),
        (1000.0, 4.2, False),
        (100.0, 1.9, True),
        (100.0, 2.2, False),
    ):
        found, _ = steadies(SteadyScale(first), [first - apart * (n % 2) for n in range(40)])
        assert bool(found) is steady, (first, apart)


def test_three_readings_make_a_weight_and_the_first_is_what_changes_are_judged_by() -> None:
    scale = SteadyScale()
    assert [scale.take(n, 800.0).steady for n in range(3)] == [None, None, 800.0]
    assert scale.first == 800.0


def test_a_tenth_of_the_readings_may_stray_on_either_side() -> None:
    stray = [800.0] * 9 + [900.0]
    found, _ = steadies(SteadyScale(1000.0), stray * 3)
    assert found[-1] == 800.0
    assert steadies(SteadyScale(1000.0), stray)[0] == [800.0] * 8  # from the third reading on, the tenth too
    for strays in ([900.0, 900.0], [700.0, 700.0]):
        assert len(steadies(SteadyScale(1000.0), [800.0] * 11 + strays)[0]) == 9 + 1, "of thirteen one may"


def test_readings_twelve_seconds_apart_stand_together_and_farther_ones_follow_each_other() -> None:
    """Four grams less each time sway too much for one weight, and are what drying leaves of one another."""
    for apart, wanted in ((12.0, [None] * 3), (12.1, [None, None, 992.0])):
        scale = SteadyScale(1000.0)
        assert [scale.take(apart * n, 1000.0 - 4.0 * n).steady for n in range(3)] == wanted


def test_a_logger_that_reports_once_a_minute_is_believed_where_its_readings_follow_each_other() -> None:
    def minutely(*grams: float) -> tuple[list[float], list[NoticeKind]]:
        scale = SteadyScale(1000.0)
        found = [scale.take(60.0 * n, g) for n, g in enumerate(grams)]
        return [s.steady for s in found if s.steady is not None], [s.notice for s in found if s.notice]

    assert minutely(1000.0, 995.0, 990.0, 985.0) == ([990.0, 985.0], [])
    assert minutely(1000.0, 991.0, 982.0) == ([982.0], [])  # six in a thousand a minute, and the scale's own sway
    assert minutely(1000.0, 990.0, 980.0) == ([980.0], [])
    assert minutely(1000.0, 989.0, 978.0) == ([], [])
    assert minutely(1000.0, 1000.0, 1000.0, 1000.0, 985.0) == ([1000.0, 1000.0], [])  # however late it is
    assert minutely(1000.0, 1003.5, 1003.5) == ([1003.5], [])
    assert minutely(1000.0, 1004.5, 1004.5) == ([], [])
    unknown = SteadyScale()
    assert [unknown.take(60.0 * n, g).steady for n, g in enumerate((1000.0, 995.0, 990.0))] == [None, None, 990.0]


def test_what_stands_on_the_scale_from_now_on_may_be_taken_as_it_is() -> None:
    scale = SteadyScale(1000.0)
    assert steadies(scale, [800.0] * 20 + [550.0] * 20)[1] == [NoticeKind.LIFTED]
    scale.begin_again()
    found, said = steadies(scale, [550.0] * 20, start=60.0)
    assert (set(found), len(found), said) == ({550.0}, 18, [])


def test_a_weight_is_kept_from_half_a_per_cent_of_change_on_and_never_two_within_five_minutes() -> None:
    at_five_minutes = ((300.0, 995.0, True), (300.0, 995.1, False), (299.0, 900.0, False), (300.0, 1005.0, True))
    for seconds, grams, kept in (*at_five_minutes, (1799.0, 1000.0, False), (1800.0, 1000.0, True)):
        thinned = Thinned(1000.0)
        assert thinned.wants(0.0, 1000.0)
        assert thinned.wants(seconds, grams) is kept, (seconds, grams)


def test_the_readings_of_twelve_seconds_are_looked_at_together() -> None:
    """Thirteen readings, one a second: the seventh of a new weight makes it the middle one."""
    found, _ = steadies(SteadyScale(1000.0), [800.0] * 30 + [798.0] * 20)
    assert found.index(798.0) - (30 - 2) == 6
    found, _ = steadies(SteadyScale(1000.0), [800.0] * 30 + [801.0] * 20)
    assert found.index(801.0) - (30 - 2) == 6
