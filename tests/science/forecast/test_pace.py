"""The run's own clock: heat that was changed, and a dryer that stood still."""

import numpy as np
import pytest

from dryhouse.science.dry_matter import exactly
from dryhouse.science.forecast import Beforehand, Heating, forecast
from dryhouse.science.forecast.finish import changed_pace
from dryhouse.science.forecast.pace import pace_of, stops
from dryhouse.science.values import Fact
from tests.benchmarks.doubt_in_kitchens import SHARES, kitchens
from tests.rows import every_row
from tests.workings import read

ENERGY = Fact(35.0, "kJ/mol", "a table", low=25.0, high=45.0)
DRY, LEVEL, FIRST = 75.0, 78.0, 500.0


def left(hours, pace=0.25):
    """A load drying by first order, read to the gram."""
    return np.round(LEVEL + (FIRST - LEVEL) * np.exp(-pace * np.asarray(hours, dtype=float)))


def finish(hours, grams, **more):
    return forecast(hours, grams, Beforehand(exactly(DRY / grams[0]), 15.0), **more)


def test_power_off_for_three_hours_is_seen_and_costs_three_hours():
    ran = np.array([0, 1, 2, 3, 3, 4.0])
    passed = ran + np.array([0, 0, 0, 0, 3, 3])
    answer = finish(passed, left(ran))
    usual = finish(ran[[0, 1, 2, 3, 5]], left(ran[[0, 1, 2, 3, 5]]))
    assert answer.stops == ((3.0, 6.0),)
    assert answer.finish.median == pytest.approx(usual.finish.median + 3.0, rel=0.05)
    assert "not counted as drying" in read(answer.workings)


def test_a_dryer_that_stands_still_now_is_asked_about_and_puts_the_finish_days_off_no_more():
    answer = finish([0, 2, 3, 4], [500, 400, 401, 402])
    assert answer.stops == ((2.0, 4.0),)
    assert answer.finish.median < 24.0


def test_a_load_that_levels_off_or_slows_down_for_good_has_not_stopped():
    assert stops(np.arange(0, 12.0), left(np.arange(0, 12.0), 0.6), DRY / 0.85, 1.0) == []
    slower = np.array([500, 400, 320, 300, 281, 263.0])
    assert stops(np.arange(6.0), slower, DRY / 0.85, 1.0) == []


@every_row("kind", list(SHARES))
def test_no_made_run_that_only_dries_is_said_to_have_stopped(kind):
    for run in kitchens(40, seed=3, kind=kind):
        aim = run.solids_pct / 100.0 * run.grams[0] / (1.0 - run.target_pct / 100.0)
        assert all(not stops(run.hours[:n], run.grams[:n], aim, 1.0) for n in range(3, len(run.hours)))


def test_of_ten_stops_of_half_to_one_and_a_half_half_times_more_than_eight_are_found():
    """Page runs weighed every half hour to every hour and a half, nearly; the stop lies where it lies."""
    rng, found, wrong = np.random.default_rng(4), 0, 0
    for _ in range(150):
        half, n, first = np.exp(rng.normal(np.log(2.2), 0.4)), rng.uniform(0.95, 1.3), rng.uniform(300, 1200)
        dry, off = first * rng.uniform(0.08, 0.28), half * rng.uniform(0.5, 2.0)
        on = off + half * rng.uniform(0.5, 1.5)
        every = rng.choice([0.5, 0.75, 1.0, 1.5])
        hours = np.arange(0.0, on + max(half, 2 * every), every)
        hours[1:] += rng.normal(0.0, 0.07 * every, len(hours) - 1)

        def weighed(ran, half=half, n=n, first=first, dry=dry):
            return np.round(1.03 * dry + (first - 1.03 * dry) * np.exp(-np.log(2) * (ran / half) ** n))

        clock = np.where(hours < off, hours, np.maximum(off, hours - (on - off)))
        told = stops(hours, weighed(clock), dry / 0.85, 1.0)
        found += any(hours[a] < on and hours[b] > off for a, b, _ in told)
        wrong += bool(stops(hours, weighed(hours), dry / 0.85, 1.0))
    assert found >= 0.8 * 150
    assert wrong <= 0.02 * 150


def test_a_stop_that_lies_across_two_weighings_is_seen():
    ran = np.array([0, 1, 2, 2.3, 2.6, 3.6])
    assert [stop[:2] for stop in stops(np.arange(6.0), left(ran), DRY / 0.85, 1.0)] == [(2, 4)]


def test_a_reading_that_jumps_up_is_no_stop():
    grams = left(np.arange(6.0))
    grams[3] = grams[2] + 50.0
    assert stops(np.arange(6.0), grams, DRY / 0.85, 1.0) == []


def test_weighings_a_few_minutes_apart_are_joined_until_the_scale_would_see_something_go():
    ran = np.concatenate((np.arange(0, 2, 0.1), np.full(10, 2.0), np.arange(2, 4, 0.1)))
    passed = np.arange(len(ran)) * 0.1
    ((begin, end, _),) = stops(passed, left(ran, 0.15), DRY / 0.85, 1.0)
    assert passed[begin] == pytest.approx(2.0, abs=0.3)
    assert passed[end] == pytest.approx(3.0, abs=0.3)


def test_turned_up_it_is_done_sooner_and_turned_down_later():
    hours = np.array([0, 1, 2, 3.0])
    told = {
        heat: finish(hours, left(hours), heating=Heating((0.0, 3.0), (55.0, heat), ENERGY)).finish.median
        for heat in (45.0, 55.0, 65.0)
    }
    assert told[65.0] < told[55.0] < told[45.0]
    # Arrhenius by hand: exp(35,000 ÷ 8.314 × (1 ÷ 328.15 − 1 ÷ 338.15) ÷ 1.15) = 1.39 times as fast
    assert (told[65.0] - 3.0) == pytest.approx((told[55.0] - 3.0) / 1.39, rel=0.05)


def test_a_run_weighed_on_both_sides_of_the_change_is_one_run():
    heating = Heating((0.0, 3.0), (50.0, 65.0), ENERGY)
    faster = heating.rates(35.0)[0]
    passed = np.array([0, 1, 2, 3, 4, 5.0])
    dried = np.where(passed > 3, 3 + (passed - 3) / faster, passed)
    answer = finish(passed, left(dried, 0.15), heating=heating)
    truth = 3 + (np.log((FIRST - LEVEL) / (DRY / 0.85 - LEVEL)) / 0.15 - 3) * faster
    blind = finish(passed, left(dried, 0.15))
    assert answer.finish.low80 < truth < answer.finish.high80
    assert abs(answer.finish.median - truth) < abs(blind.finish.median - truth)
    assert "65 °C" in read(answer.workings)


def test_a_change_not_yet_weighed_after_widens_the_band_by_the_doubt_of_the_energy():
    hours = np.array([0, 1, 2, 3, 4, 5, 6.0])
    sure, doubtful = (
        finish(hours, left(hours), heating=Heating((0.0, 6.0), (45.0, 70.0), energy)).finish
        for energy in (Fact(35.0, "kJ/mol", "", low=35.0, high=35.0), Fact(35.0, "kJ/mol", "", low=10.0, high=60.0))
    )
    assert doubtful.high80 - doubtful.low80 > 1.15 * (sure.high80 - sure.low80)
    # its standard deviation by hand: 50 kJ/mol are the middle 80 %; the middle half lies well within it
    sd = 50_000 / 2.563 / 8.314 * (1 / 318.15 - 1 / 343.15) / 1.15
    ahead = doubtful.median - 6.0
    assert doubtful.median == pytest.approx(sure.median, rel=0.01)
    assert 6.0 + ahead * np.exp(-sd) < doubtful.low50 < doubtful.high50 < 6.0 + ahead * np.exp(sd)


def test_hours_and_hours_of_drying_lead_back_to_each_other():
    hours = np.array([0, 1, 2, 3, 6, 7.0])
    grams = left([0, 1, 2, 3, 3, 4])
    pace, _ = pace_of(hours, grams, DRY / 0.85, 1.0, Heating((0.0, 2.0), (50.0, 60.0), ENERGY))
    later = np.array([0.5, 2.5, 6.5, 9.0, 30.0])
    assert pace.hours_at(pace.drying_at(later)) == pytest.approx(later)
    assert pace.hours_at(np.inf) == np.inf


def test_readings_a_minute_apart_make_no_forecast():
    from dryhouse.science.errors import InputProblem
    from dryhouse.words.messages import problem_sentence

    with pytest.raises(InputProblem) as problem:
        finish([0.0, 1 / 60], [200.0, 120.0])
    assert "weigh again in half an hour" in problem_sentence(problem.value)


def test_a_stretch_in_which_the_dryer_was_known_to_run_is_slow_drying_and_no_stop():
    ran, passed = np.array([0, 1, 2, 3, 3.4, 4.4]), np.array([0, 1, 2, 3, 6, 7.0])
    asked, known = finish(passed, left(ran)), finish(passed, left(ran), ran=[6.0])
    assert asked.stops == ((3.0, 6.0),)
    assert known.stops == ()
    assert known.finish.median > asked.finish.median
    assert finish(passed, left(ran), ran=[2.0]).stops == asked.stops, "of another stretch"


def test_heats_a_degree_apart_are_one():
    assert [Heating((0.0, 1.0), (55.0, 55.0 + more), ENERGY).changed for more in (0.0, 1.0, 1.1)] == [
        False, False, True,
    ]  # fmt: skip


def test_the_workings_name_only_the_changes_of_heat():
    kept = Heating((0.0, 1.0, 3.0), (55.0, 55.0, 65.0), ENERGY)
    (line,) = kept.workings()
    assert "65 °C" in read([line])


def test_a_stop_is_told_where_the_scale_would_have_seen_six_steps_go():
    # 405 of 412 g of water are left after an hour, so 6.5 g should have gone in the next
    grams = np.array([500.0, 493.4, 493.4, 487.0])
    assert len(stops(np.arange(4.0), grams, 88.0, 1.0)) == 1
    assert stops(np.arange(4.0), grams, 88.0, 1.2) == []


def test_most_runs_keep_their_pace_and_now_and_then_one_changes_it():
    """Student's t with two degrees of freedom (its 95 % point is 2.920), scaled to the normal's middle 90 %."""
    assert changed_pace(np.array([0.05, 0.5, 0.95])) == pytest.approx([-1.645, 0.0, 1.645], abs=0.01)
    assert changed_pace(np.array([0.75])) == pytest.approx(0.8165 * 1.645 / 2.920, rel=0.001)


def halving(clock):
    """100 g at the target and 512 g of free water, half of which goes with each hour of drying."""
    return 100.0 + 512.0 * 0.5 ** np.asarray(clock, dtype=float)


@every_row(
    ("passed", "ran", "found"),
    [
        ([0, 1, 2, 3, 4, 5, 6], [0, 1, 2, 3, 3.2, 4.2, 5.2], [(3, 4, 0.2)]),
        ([0, 1, 2, 3, 4, 5, 6], [0, 1, 2, 3, 3.44, 4.44, 5.44], [(3, 4, 0.44)]),
        ([0, 1, 2, 3, 4, 5, 6], [0, 1, 2, 3, 3.46, 4.46, 5.46], []),  # slower, and no stop
        ([0, 1, 2, 3, 4, 5], [0, 1, 2, 2.1, 2.3, 3.3], [(2, 4, 0.15)]),  # two stretches are one
        ([0, 1, 2, 3, 4, 5], [0, 1, 1, 1, 2, 3], [(1, 3, 0.01)]),  # nothing at all, and yet never quite nothing
        ([0, 1, 2], [0, 1, 1.19], [(1, 2, 0.19)]),  # the last stretch of all: below a fifth
        ([0, 1, 2], [0, 1, 1.21], []),
        ([0, 1, 1.6, 2.6], [0, 1, 1.6, 1.7], [(2, 3, 0.1)]),  # three tenths of the water are there yet
        ([0, 1, 1.72, 2.72], [0, 1, 1.72, 1.82], []),
        ([0, 1, 2, 2.76, 3.76, 4.76], [0, 1, 2, 2, 3, 4], [(2, 3, 0.01)]),
        ([0, 1, 2, 2.75, 3.75, 4.75], [0, 1, 2, 2, 3, 4], [(2, 3, 0.01)]),
        ([0, 1, 2, 2.74, 3.74, 4.74], [0, 1, 2, 2, 3, 4], []),  # less than three quarters of an hour
        ([0, 1, 2, 3], [0, 1, 1.3, 1.4], [(2, 3, 0.1)]),  # it moved a little first
        ([0, 1], [0, 0.1], []),  # two weighings tell nothing
    ],
)
def test_a_stop_is_a_stretch_between_two_that_dry(passed, ran, found):
    told = stops(np.array(passed, dtype=float), halving(ran), 100.0, 0.1)
    assert [stop[:2] for stop in told] == [stop[:2] for stop in found]
    assert [stop[2] for stop in told] == pytest.approx([stop[2] for stop in found])


def test_nothing_is_asked_of_a_load_that_is_at_its_target():
    """It stood still between 200 and 199 g, and is asked about as long as it is not done."""
    for last, told in ((110.0, [(1, 2)]), (100.0, []), (90.0, [])):
        grams = np.array([612.0, 200.0, 199.0, last])
        assert [stop[:2] for stop in stops(np.arange(4.0), grams, 100.0, 0.1)] == told, last


def test_the_clock_of_a_run_leaves_out_its_stops_and_follows_its_heat():
    """At 50 °C an hour counts for exp(−35,000 ÷ 8.314 × (1 ÷ 323.15 − 1 ÷ 333.15) ÷ 1.15) = 0.712 at 60 °C."""
    passed, grams = np.arange(7.0), halving([0, 1, 2, 3, 3.2, 4.2, 5.2])
    pace, stood = pace_of(passed, grams, 100.0, 0.1, None)
    assert pace.drying == pytest.approx([0, 1, 2, 3, 3.2, 4.2, 5.2])
    assert stood == ((3.0, 4.0),)
    warmer, _ = pace_of(passed, grams, 100.0, 0.1, Heating((0.0, 2.0), (50.0, 60.0), ENERGY))
    slow = np.exp(-35_000 / 8.314 * (1 / 323.15 - 1 / 333.15) / 1.15)
    assert warmer.drying_at([1.0, 2.0]) == pytest.approx([slow, 2 * slow])
    assert warmer.drying_at(8.0) - warmer.drying_at(6.0) == pytest.approx(2.0)


def test_what_was_answered_shortens_a_stop_to_what_is_left_of_it():
    passed, grams = np.arange(8.0), halving([0, 1, 2, 3, 3.1, 3.2, 4.2, 5.2])
    told = {
        at: pace_of(passed, grams, 100.0, 0.1, None, [at])[1] for at in (2.9, 2.99, 3.5, 4.0, 4.4, 5.0, 5.01, 5.1)
    }
    whole, half, none = ((3.0, 5.0),), ((4.0, 5.0),), ()
    assert told == {2.9: whole, 2.99: whole, 3.5: whole, 4.0: half, 4.4: half, 5.0: none, 5.01: none, 5.1: whole}


def test_the_doubt_of_a_change_by_hand_and_none_where_it_was_weighed_after():
    """25 to 45 kJ/mol are the middle 80 %, 2.563 standard deviations."""
    turned = Heating((0.0, 2.0), (50.0, 60.0), ENERGY)
    by_hand = 20_000 / 2.563 / 8.314 * (1 / 323.15 - 1 / 333.15) / 1.15
    assert turned.doubt(1.0) == pytest.approx(by_hand)
    assert turned.doubt(2.0) == 0.0
    assert Heating((0.0,), (50.0,), ENERGY).doubt(0.0) == 0.0
    assert Heating((0.0, 2.0), (50.0, 60.0), Fact(35.0, "kJ/mol", "a table")).doubt(1.0) == 0.0
    assert read(turned.workings()).startswith("After 2 h the heat went from 50 °C to 60 °C: 1.4")
    twice = Heating((0.0, 2.0, 4.0), (50.0, 60.0, 70.0), ENERGY).workings()
    by_hand = [np.exp(35_000 / 8.314 * (1 / a - 1 / b) / 1.15) for a, b in ((323.15, 333.15), (333.15, 343.15))]
    assert [step.result.value for step in twice] == pytest.approx(by_hand)
    many = Heating(tuple(range(8)), (50.0, 60.0) * 4, ENERGY)
    assert len(many.workings()) == 4
    assert "After 7 h" in read(many.workings())
