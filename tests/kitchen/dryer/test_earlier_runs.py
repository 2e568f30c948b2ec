"""What own earlier runs say about the next one."""

from __future__ import annotations

import math
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.drying import take_off
from dryhouse.kitchen.dryer.earlier_runs import EarlierRun, earlier_runs, prior_from, prior_from_durations
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.ports import YieldPair
from dryhouse.kitchen.records.weighings import SAMPLE
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.values import Fact
from tests.kitchen.drying_room import APPLE, NOON, Hands
from tests.workings import read

HOURS = (1, 2, 3, 5, 7, 9)


def finished(hands: Hands, **more) -> int:
    k = more.pop("k", 0.25)
    batch = hands.start(1000.0, **more)
    hands.dry(batch, HOURS, k=k)
    take_off(hands.kitchen, batch, Mass(170.0, "170 g"))
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
    take_off(hands.kitchen, batch, Mass(700.0, "700 g"))
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
                add_event(hands.kitchen, batch, TRAY_OFF, trays=1, mass=Mass(100.0), at=before)
            hands.weigh(batch, grams - (100 if early and hour >= 4 else 0))
        take_off(hands.kitchen, batch)
        (run,) = earlier_runs(hands.kitchen, APPLE)
        learned.append((run.rate, run.n))
    assert learned[1] == pytest.approx(learned[0])
