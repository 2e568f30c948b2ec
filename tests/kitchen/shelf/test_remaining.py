"""What is left of a lot, and how it is said."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from dryhouse.kitchen.records import Lot, LotCheck, LotDraw
from dryhouse.kitchen.records.lots import THROWN_OUT
from dryhouse.kitchen.shelf.remaining import amount_words, left_of, thrown_out
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Mass, Volume
from tests.rows import every_row

DAY = date(2026, 11, 1)
LOT = Lot("corn", DAY, mass=Mass(100.0), volume=Volume(300.0), id=1)


def test_volume_goes_with_mass():
    left = left_of(LOT, [LotDraw(1, DAY, mass=Mass(25.0), id=1)], [], DAY)
    assert (left.mass_g, left.volume_ml) == (75.0, 225.0)
    assert left_of(Lot("corn", DAY, mass=Mass(100.0)), [], [], DAY, 2.5).volume_ml == 250.0
    assert left_of(Lot("corn", DAY, volume=Volume(200.0)), [], [], DAY).volume_ml == 200.0
    assert left_of(Lot("corn", DAY), [], [], DAY).mass_g is None


def test_only_what_was_drawn_by_then_counts():
    draw = LotDraw(1, date(2026, 11, 9), mass=Mass(25.0), id=1)
    assert left_of(LOT, [draw], [], date(2026, 11, 8)).mass_g == 100.0
    assert left_of(LOT, [draw], [], date(2026, 11, 9)).mass_g == 75.0


def test_a_weighing_counts_from_its_day_and_draws_of_that_day_are_in_it():
    draws = [LotDraw(1, date(2026, 11, d), mass=Mass(10.0), id=d) for d in (2, 5, 9)]
    check = LotCheck(1, date(2026, 11, 5), mass=Mass(60.0), id=1)
    assert left_of(LOT, draws, [check], date(2026, 11, 30)).mass_g == 50.0


def test_what_is_taken_after_a_weighing_of_the_same_day_goes_off_it():
    day = date(2026, 11, 5)
    before, weighed, after = (datetime(2026, 11, 5, hour, tzinfo=UTC) for hour in (8, 9, 10))
    check = LotCheck(1, day, mass=Mass(60.0), at=weighed, id=1)
    taken = LotDraw(1, day, mass=Mass(10.0), at=after, id=2)
    earlier = LotDraw(1, day, mass=Mass(25.0), at=before, id=1)
    assert left_of(LOT, [earlier, taken], [check], day).mass_g == 50.0
    again = LotCheck(1, day, mass=Mass(48.0), at=datetime(2026, 11, 5, 11, tzinfo=UTC), id=2)
    assert left_of(LOT, [earlier, taken], [again, check], day).mass_g == 48.0
    unknown = LotDraw(1, day, mass=Mass(10.0), id=3)
    assert left_of(LOT, [unknown], [check], day).mass_g == 60.0


def test_the_last_of_it_says_how_it_went():
    gone = left_of(LOT, [LotDraw(1, DAY, THROWN_OUT, id=1)], [], DAY)
    assert (gone.mass_g, thrown_out(gone)) == (0.0, True)
    eaten = left_of(LOT, [LotDraw(1, DAY, mass=Mass(100.0), id=1)], [], DAY)
    assert (eaten.gone, thrown_out(eaten)) == ("cooked", False)


@every_row(
    ("mass", "volume", "said"),
    [
        (240.0, 6.07 * 236.588, "8.5 oz · 6 cups"),
        (80.0, 0.9 * 236.588, "2.8 oz · ⅞ cup"),
        (None, 473.176, "2 cups"),
        (28.35, None, "1 oz"),
        (None, 20.0, "1¼ tbsp"),
        (None, None, ""),
    ],
)
def test_amounts_are_said_as_one_would_measure_them(mass, volume, said):
    assert amount_words(mass, volume, Style()) == said


def test_metric_amounts_keep_their_millilitres():
    assert amount_words(240.0, 512.0, Style(METRIC)) == "240 g · 512 ml"


@every_row(("drawn", "left"), [(99.0, 1.0), (99.9, 0.1), (99.96, 0.0), (100.0, 0.0)])
def test_what_no_scale_shows_is_gone_and_a_tenth_of_a_gram_is_not(drawn, left):
    found = left_of(LOT, [LotDraw(1, DAY, mass=Mass(drawn), id=1)], [], DAY)
    assert found.mass_g == pytest.approx(left, abs=1e-9)
    assert found.gone == ("" if left else "cooked")


def test_a_lot_thrown_out_by_weight_is_thrown_out_whole():
    gone = left_of(LOT, [LotDraw(1, DAY, THROWN_OUT, mass=Mass(99.97), id=1)], [], DAY)
    assert (gone.mass_g, gone.volume_ml, thrown_out(gone)) == (0.0, 0.0, True)


@every_row(
    ("volume", "said"),
    [
        (2.1 * 236.588, "2 cups"),
        (2.2 * 236.588, "2¼ cups"),
        (1.9 * 236.588, "1⅞ cups"),
        (0.2 * 236.588, "¼ cup"),
        (0.125 * 236.588, "2 tbsp"),
    ],
)
def test_cups_are_told_to_the_eighth_and_above_two_to_the_quarter(volume, said):
    assert amount_words(None, volume, Style()) == said


@every_row(
    ("drawn", "weighed", "goes_off"),
    [(4, None, True), (4, 5, False), (5, 5, False), (6, 5, True)],
)
def test_only_what_was_taken_after_the_last_weighing_goes_off_it(drawn, weighed, goes_off):
    checks = [LotCheck(1, date(2026, 11, weighed), mass=Mass(80.0), id=1)] if weighed else []
    left = left_of(LOT, [LotDraw(1, date(2026, 11, drawn), mass=Mass(10.0), id=1)], checks, date(2026, 11, 30))
    assert left.mass_g == (80.0 if weighed else 100.0) - (10.0 if goes_off else 0.0)


def test_a_look_without_a_weight_and_a_weighing_still_to_come_change_nothing():
    checks = [LotCheck(1, DAY, moist=False, id=1), LotCheck(1, date(2026, 11, 9), mass=Mass(50.0), id=2)]
    assert left_of(LOT, [], checks, date(2026, 11, 8)).mass_g == 100.0
    assert left_of(LOT, [], checks, date(2026, 11, 9)).mass_g == 50.0
    only_measured = Lot("corn", DAY, volume=Volume(200.0))
    assert left_of(only_measured, [LotDraw(1, DAY, mass=Mass(10.0), id=1)], [], DAY).mass_g is None
