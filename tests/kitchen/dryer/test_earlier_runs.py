"""What own earlier runs say about the next one."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.drying import CameOff, take_off
from dryhouse.kitchen.dryer.earlier_runs import EarlierRun, earlier_runs, prior_from, prior_from_durations
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.ports import YieldPair
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.weighings import LOAD, SAMPLE
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.values import Fact
from dryhouse.science.workings import StepKind as Kind
from tests.kitchen.drying_room import APPLE, NOON, Hands
from tests.rows import every_row
from tests.workings import read

HOURS = (1, 2, 3, 5, 7, 9)


def finished(hands: Hands, **more) -> int:
    k = more.pop("k", 0.25)
    batch = hands.start(1000.0, **more)
    hands.dry(batch, HOURS, k=k)
    take_off(hands.kitchen, batch, CameOff(Mass(170.0, "170 g")))
    hands.wait(10)
    return batch


def run(rate: float, n: float = 1.0, form: str = "", heat: float | None = 57.0) -> EarlierRun:
    return EarlierRun(1, form, rate, n, heat, 6)


def test_page_is_recovered_from_the_weighings_of_a_finished_run() -> None:
    hands = Hands()
    batch = finished(hands)
    (found,) = earlier_runs(hands.kitchen, APPLE)
    assert found.batch == batch
    assert found.n == pytest.approx(1.1, abs=0.02)
    assert found.rate == pytest.approx(0.25 ** (1 / 1.1), rel=0.02)


def test_a_sample_tray_first_weighed_later_dries_from_then_on() -> None:
    hands = Hands()
    batch = hands.start(4000.0)
    hands.wait(2)
    for hour in (0, *HOURS):
        hands.time = NOON + timedelta(hours=2 + hour)
        hands.weigh(batch, round(140 + 860 * math.exp(-0.25 * hour**1.1)), scope=SAMPLE)
    take_off(hands.kitchen, batch, CameOff(Mass(700.0, "700 g")))
    (found,) = earlier_runs(hands.kitchen, APPLE)
    assert found.n == pytest.approx(1.1, abs=0.02)


def test_runs_with_too_few_weighings_and_the_run_asked_about_do_not_count() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.dry(batch, (2, 4, 6))
    take_off(hands.kitchen, batch)
    hands.wait(10)
    other = finished(hands)
    assert [r.batch for r in earlier_runs(hands.kitchen, APPLE)] == [other]
    assert earlier_runs(hands.kitchen, APPLE, but=other) == ()


def test_no_runs_no_prior() -> None:
    assert prior_from((), form="slices", temperature_c=57.0, activation=None) is None


def test_one_run_is_held_loosely_and_many_alike_tightly() -> None:
    one = prior_from((run(0.3),), form="", temperature_c=57.0, activation=None)
    many = prior_from((run(0.3),) * 12, form="", temperature_c=57.0, activation=None)
    assert one is not None
    assert many is not None
    assert many.sd_ln_k < one.sd_ln_k
    # e^0.3 is 1.35
    assert "assuming ± 35 % before any run" in read(one.workings)
    assert one.basis.n == 1
    assert many.basis.n == 12


def test_runs_of_the_same_cut_are_preferred() -> None:
    prior = prior_from(
        (run(0.3, form="dice"), run(0.1, form="slices")), form="dice", temperature_c=57.0, activation=None
    )
    assert prior is not None
    assert prior.k == pytest.approx(0.3)


def test_a_hotter_dryer_is_expected_to_be_faster_by_arrhenius() -> None:
    energy = Fact(35.0, "kJ/mol", "a test's own figure")
    prior = prior_from((run(0.2, heat=55.0),), form="", temperature_c=65.0, activation=energy)
    assert prior is not None
    assert prior.k / 0.2 == pytest.approx(1.46, abs=0.01)
    assert "activation energy of 35 kJ/mol" in read(prior.workings)


def test_a_run_whose_temperature_is_unknown_is_not_moved() -> None:
    energy = Fact(35.0, "kJ/mol", "a test's own figure")
    prior = prior_from((run(0.2, heat=None),), form="", temperature_c=65.0, activation=energy)
    assert prior is not None
    assert prior.k == pytest.approx(0.2)


def test_own_runs_narrow_the_forecast_of_the_next() -> None:
    def spread(hands: Hands) -> float:
        batch = hands.start(1000.0)
        hands.dry(batch, (1, 2))
        ahead = run_of(hands.kitchen, batch).expected.forecast
        assert ahead is not None
        return ahead.finish.high50 - ahead.finish.low50

    practised = Hands()
    for k in (0.24, 0.25, 0.26):
        finished(practised, k=k)
    assert spread(practised) < spread(Hands())


def test_a_load_that_hardly_dried_teaches_nothing() -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    for grams in (990, 985, 980, 978, 975):
        hands.wait(1)
        hands.weigh(batch, grams)
    take_off(hands.kitchen, batch)
    assert earlier_runs(hands.kitchen, APPLE) == ()


def test_the_rate_is_what_its_unit_says() -> None:
    prior = prior_from((run(0.3, n=1.3),), form="", temperature_c=None, activation=None)
    assert prior is not None
    assert prior.k ** (1 / prior.n) == pytest.approx(0.3)
    assert math.exp(-prior.k * (1 / 0.3) ** prior.n) == pytest.approx(math.exp(-1))


def test_temperature_is_read_from_the_batch() -> None:
    hands = Hands()
    finished(hands)
    assert earlier_runs(hands.kitchen, APPLE)[0].temperature_c == Temperature(57.0).si


def pair(hours: float | None, heat: float | None = 57.0, batch: int = 1) -> YieldPair:
    return YieldPair(batch, "apple", "", "", 1000.0, 170.0, hours=hours, set_temperature_c=heat)


def test_batches_that_were_only_logged_tell_by_their_hours() -> None:
    prior = prior_from_durations((pair(8.0), pair(8.0)), ratio=0.04, temperature_c=57.0, activation=None)
    assert prior is not None
    assert prior.n == 1.0
    assert math.exp(-prior.k * 8.0) == pytest.approx(0.04)
    assert prior.basis.n == 2
    assert prior_from_durations((pair(None),), ratio=0.04, temperature_c=57.0, activation=None) is None


def test_logged_batches_are_held_more_loosely_than_weighed_ones() -> None:
    logged = prior_from_durations((pair(8.0),) * 20, ratio=0.04, temperature_c=57.0, activation=None)
    weighed = prior_from((run(0.4),) * 20, form="", temperature_c=57.0, activation=None)
    assert logged is not None
    assert weighed is not None
    assert logged.sd_ln_k > weighed.sd_ln_k


def test_a_run_from_which_a_tray_was_taken_early_teaches_what_the_whole_load_did() -> None:
    from dryhouse.kitchen.dryer.happenings import add_event
    from dryhouse.kitchen.records.weighings import TRAY_OFF

    learned = []
    for early in (False, True):
        hands = Hands()
        batch = hands.start()
        for hour, grams in ((1, 800), (2, 640), (3, 510), (4, 410), (5, 340), (6, 290)):
            hands.time = NOON + timedelta(hours=hour)
            if early and hour == 4:
                before = hands.time - timedelta(minutes=1)
                add_event(hands.kitchen, batch, Happening(TRAY_OFF, trays=1, mass=Mass(100.0), at=before))
            hands.weigh(batch, grams - (100 if early and hour >= 4 else 0))
        take_off(hands.kitchen, batch)
        (run,) = earlier_runs(hands.kitchen, APPLE)
        learned.append((run.rate, run.n))
    assert learned[1] == pytest.approx(learned[0])


@every_row(
    ("rates", "sd"),
    [
        # the supposed spread of 0.3 counts as two runs; the next run adds the error of the middle
        ((0.3,), math.sqrt(2 * 0.09 / 2 * (1 + 1))),
        ((0.3, 0.3), math.sqrt(2 * 0.09 / 3 * (1 + 1 / 2))),
        ((0.2, 0.2 * math.exp(0.8)), math.sqrt((2 * 0.09 + 2 * 0.4**2) / 3 * (1 + 1 / 2))),
    ],
)
def test_the_spread_of_the_next_run_is_that_of_those_before_it_and_of_their_middle(rates, sd) -> None:
    prior = prior_from([run(rate) for rate in rates], form="", temperature_c=57.0, activation=None)
    assert prior is not None
    assert prior.k == pytest.approx(math.exp(sum(map(math.log, rates)) / len(rates)))
    assert prior.sd_ln_k == pytest.approx(sd)
    spread = next(line for line in prior.workings if line.kind == Kind.RUNS_SPREAD)
    assert [term.value for term in spread.terms] == [pytest.approx(100 * (math.exp(v) - 1)) for v in (sd, 0.3)]


def test_at_the_same_heat_nothing_is_moved_and_the_workings_speak_of_no_move() -> None:
    energy = Fact(35.0, "kJ/mol", "a test's own figure")
    runs = (run(0.2, heat=57.0), run(0.2, heat=None))
    still = prior_from(runs, form="", temperature_c=57.0, activation=energy)
    moved = prior_from(runs, form="", temperature_c=65.0, activation=energy)
    assert still is not None
    assert moved is not None
    assert "activation energy" not in read(still.workings)
    assert "1 " in next(line for line in read(moved.workings).splitlines() if "activation energy" in line)
    assert still.k == pytest.approx(0.2)


def test_a_form_nobody_dried_yet_takes_all_runs_and_one_that_is_not_told_too() -> None:
    runs = (run(0.3, form="dice"), run(0.1, form=""))
    for form in ("slices", ""):
        prior = prior_from(runs, form=form, temperature_c=57.0, activation=None)
        assert prior is not None
        assert prior.basis.n == 2


@every_row(
    ("pairs", "ratio", "hours", "n"),
    [
        ((8.0, 4.0, 0.5), 0.04, math.sqrt(32.0), 2),  # half an hour is no batch
        ((8.0, None), 0.04, 8.0, 1),
        ((0.6,), 0.5, 0.6, 1),
    ],
)
def test_hours_of_logged_batches_are_told_by_their_middle(pairs, ratio, hours, n) -> None:
    prior = prior_from_durations([pair(h) for h in pairs], ratio=ratio, temperature_c=57.0, activation=None)
    assert prior is not None
    assert prior.basis.n == n
    assert prior.workings[0].result is not None
    assert prior.workings[0].result.value == pytest.approx(hours)
    assert math.exp(-prior.k * hours) == pytest.approx(ratio)


def test_a_target_that_nothing_has_to_be_lost_for_has_no_hours_and_the_twelve_newest_batches_tell() -> None:
    for ratio in (0.0, 1.0, 1.2):
        assert prior_from_durations((pair(8.0),), ratio=ratio, temperature_c=57.0, activation=None) is None
    pairs = [pair(40.0, batch=n) for n in range(1, 4)] + [pair(8.0, batch=n) for n in range(4, 16)]
    prior = prior_from_durations(pairs[::-1], ratio=0.04, temperature_c=57.0, activation=None)
    assert prior is not None
    assert math.exp(-prior.k * 8.0) == pytest.approx(0.04)


def test_few_logged_batches_are_held_as_loosely_as_a_third() -> None:
    alike = prior_from_durations((pair(8.0),) * 40, ratio=0.04, temperature_c=57.0, activation=None)
    apart = prior_from_durations((pair(2.0), pair(32.0)), ratio=0.04, temperature_c=57.0, activation=None)
    assert alike is not None
    assert apart is not None
    assert alike.sd_ln_k == pytest.approx(0.35)
    assert apart.sd_ln_k == pytest.approx(math.sqrt((2 * 0.09 + 2 * math.log(4.0) ** 2) / 3 * 1.5))


def test_five_weighings_of_one_scale_make_a_run_and_five_of_two_scales_none() -> None:
    for scopes, counted in (((LOAD,) * 5, [5]), ((LOAD, SAMPLE, LOAD, LOAD, LOAD), [])):
        hands = Hands()
        batch = hands.start(1000.0)
        for hour, scope in zip((1, 2, 3, 5, 7), scopes, strict=True):
            hands.time = NOON + timedelta(hours=hour)
            hands.weigh(batch, round(140 + 860 * math.exp(-0.25 * hour**1.1)), scope=scope)
        take_off(hands.kitchen, batch)
        assert [r.weighings for r in earlier_runs(hands.kitchen, APPLE)] == counted


def test_the_weight_it_came_off_with_is_the_last_point_of_a_run() -> None:
    """Hours after the last weighing; a load that lay on is a slower one than its weighings alone would tell."""
    rates = []
    for dried in (None, 480.0):
        hands = Hands()
        batch = hands.start(1000.0)
        hands.dry(batch, (0.5, 1, 1.5, 2, 2.5))
        hands.time = NOON + timedelta(hours=6)
        take_off(hands.kitchen, batch, CameOff(Mass(dried) if dried else None))
        rates += [r.rate for r in earlier_runs(hands.kitchen, APPLE)]
    assert len(rates) == 2
    assert rates[1] < 0.9 * rates[0]


def test_a_curve_that_bends_is_moved_by_the_share_of_its_power() -> None:
    energy = Fact(35.0, "kJ/mol", "a test's own figure")
    bent = prior_from((run(0.2, n=1.25, heat=55.0),), form="", temperature_c=65.0, activation=energy)
    # k is the rate to the power n, and ln k moves by 35 000/8.314 × (1/328.15 − 1/338.15) = 0.3794
    assert (bent.n, bent.k) == (1.25, pytest.approx(0.2**1.25 * math.exp(0.3794), rel=1e-3))
    logged = prior_from_durations(
        [replace(pair(8.0), set_temperature_c=55.0)], ratio=0.04, temperature_c=65.0, activation=energy
    )
    assert logged.k == pytest.approx(-math.log(0.04) / 8.0 * math.exp(0.3794), rel=1e-3)
    (line,) = logged.workings
    assert line.result.value == pytest.approx(8.0 / math.exp(0.3794), rel=1e-3)


def test_the_power_of_the_next_run_is_supposed_to_stray_by_a_fifth() -> None:
    one = prior_from((run(0.3, n=1.2),), form="", temperature_c=57.0, activation=None)
    # 0.2 counts as two runs; the middle of one run strays as much again
    assert (one.n, one.sd_n) == (1.2, pytest.approx(math.sqrt(2 * 0.2**2 / 2 * 2)))
    two = prior_from((run(0.3, n=1.0), run(0.3, n=1.4)), form="", temperature_c=57.0, activation=None)
    assert (two.n, two.sd_n) == (1.2, pytest.approx(math.sqrt((2 * 0.2**2 + 2 * 0.2**2) / 3 * 1.5)))
    logged = prior_from_durations((pair(8.0),), ratio=0.04, temperature_c=57.0, activation=None)
    assert logged.sd_n == 0.2


def test_of_many_batches_the_twelve_newest_runs_are_looked_at() -> None:
    ended = {n: NOON - timedelta(days=1 + n) for n in range(1, 15)}
    done = [
        Batch("apple", "finished", prepared_mass=Mass(1000.0), started=off - timedelta(hours=12), ended=off, id=n)
        for n, off in ended.items()
    ]
    read = [
        Weighing(b.id, b.started + timedelta(hours=h), Mass(float(g)), id=10 * b.id + h)
        for b in done
        for h, g in ((1, 900), (3, 570), (5, 398), (7, 312), (9, 226))
    ]
    assert [r.batch for r in earlier_runs(Hands(*done, *read).kitchen, APPLE)] == list(range(1, 13))
    assert [r.batch for r in earlier_runs(Hands(*done, *read).kitchen, APPLE, but=2)] == [1, *range(3, 13)]
