"""The handbook's belief: what it must do, and how often its intervals hold in kitchens made of known stuff."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.values import Fact
from dryhouse.science.yields.prior import (
    Comparison,
    TableSpread,
    handbook_belief,
    mass_balance,
    one_for_each_source,
    raw_water_variance,
    table_spread,
)
from dryhouse.science.yields.student import quantile
from tests.rows import every_row

SPREAD = TableSpread(food=0.03, kitchen=0.01, rows=24)


def test_mass_balance_is_solids_over_solids():
    # Utah State University Extension, Testing Foods for Dryness: 14 % solids to 80 % solids is a factor of 0.175
    assert math.exp(mass_balance(86, 20)) == pytest.approx(0.175)


def test_raw_water_spread_goes_half_way_to_that_of_its_kind():
    # USDA Standard Reference 28, 11282, raw onions: 89.11 % water, n = 34, standard error 0.248
    water = Fact(89.11, "%", "USDA", n=34, standard_error=0.248)
    own = 0.248 * math.sqrt(34) / 10.89
    assert raw_water_variance(water, 0.2) == pytest.approx(own * 0.2)
    assert raw_water_variance(Fact(89.11, "%", "USDA"), 0.2) == pytest.approx(0.04)
    two = Fact(89.11, "%", "USDA", n=2, standard_error=0.248)
    assert raw_water_variance(two, 0.2) == pytest.approx(0.248 * math.sqrt(2) / 10.89 * 0.2)
    assert raw_water_variance(Fact(89.11, "%", "USDA", n=9), 0.2) == pytest.approx(0.04)
    assert raw_water_variance(Fact(89.11, "%", "USDA", standard_error=0.2), 0.2) == pytest.approx(0.04)
    assert raw_water_variance(Fact(89.11, "%", "USDA", n=1, standard_error=0.2), 0.2) == pytest.approx(0.04)


def test_without_published_rows_of_the_food_the_middle_is_the_mass_balance():
    belief = handbook_belief(-1.3, 0.04, SPREAD, [])
    assert belief.mean == -1.3
    assert belief.weight == pytest.approx(0.04 / 0.04)


def test_the_interval_is_that_of_all_the_spreads_together():
    predictive = handbook_belief(-1.3, 0.05, SPREAD, []).predictive()
    half = quantile(0.9, 24) * math.sqrt(0.05 + 0.03 + 0.01)
    assert math.log(predictive.high) == pytest.approx(-1.3 + half)
    assert math.log(predictive.low) == pytest.approx(-1.3 - half)


@given(st.floats(-0.6, 0.6), st.integers(1, 5))
def test_published_rows_draw_the_middle_towards_them_and_narrow_the_interval(strays, n):
    rows = [Comparison("corn", f"source {i}", strays, 0.05) for i in range(n)]
    with_rows = handbook_belief(0.0, 0.05, SPREAD, rows)
    without = handbook_belief(0.0, 0.05, SPREAD, [])
    assert abs(with_rows.mean) <= abs(strays) + 1e-12
    assert with_rows.mean * strays >= 0
    assert with_rows.predictive().spread < without.predictive().spread
    assert with_rows.weight > without.weight


def test_a_trusted_row_and_its_doubt_by_hand():
    """Two tables 0.2 off, each with a variance of 0.01 + 0.05: the common part, 0.03, keeps half of its own."""
    rows = [Comparison("corn", source, 0.2, 0.05) for source in ("card", "bulletin")]
    rows.append(Comparison("corn", "from memory", 0.9, 0.05, trusted=False))
    belief = handbook_belief(-1.3, 0.05, SPREAD, rows)
    uncertain = 1 / (1 / 0.03 + 2 / 0.06)
    assert belief.mean == pytest.approx(-1.3 + uncertain * 2 * 0.2 / 0.06)
    assert belief.weight == pytest.approx(0.05 / (uncertain + 0.01))
    assert handbook_belief(-1.3, 0.05, SPREAD, rows[2:]) == handbook_belief(-1.3, 0.05, SPREAD, [])
    assert handbook_belief(-1.3, 0.05, TableSpread(0.0, 0.01, 24), rows).mean == -1.3


def test_one_doubtful_row_makes_its_publication_doubtful():
    rows = [Comparison("onion", "card", 0.1, 0.03), Comparison("onion", "card", 0.3, 0.03, trusted=False)]
    assert [voice.trusted for voice in one_for_each_source(rows)] == [False]


def test_the_two_variances_by_hand():
    """Two foods in two tables, every variance 0.01: in all (9 + 1 + 1 + 4 − 4) ÷ 400, within foods 4.5 ÷ 200."""
    strays = {"a": (0.3, 0.1), "b": (-0.1, 0.2)}
    found = table_spread([Comparison(f, str(n), s, 0.01) for f, both in strays.items() for n, s in enumerate(both)])
    assert found.kitchen == pytest.approx(4.5 / 200)
    assert found.food == pytest.approx(11 / 400 - 4.5 / 200)
    assert found.rows == 4


def test_rows_of_one_publication_are_one_voice():
    rows = [Comparison("onion", "card", s, 0.03) for s in (0.1, 0.2, 0.3)] + [
        Comparison("onion", "other", 0.0, 0.03)
    ]
    assert one_for_each_source(rows) == [
        Comparison("onion", "card", pytest.approx(0.2), 0.03),
        Comparison("onion", "other", 0.0, 0.03),
    ]


def test_the_spreads_are_found_again_in_made_up_tables():
    rng = np.random.default_rng(11)
    food_sd, kitchen_sd, variance = 0.3, 0.2, 0.04
    rows = []
    for food in range(4000):
        common = rng.normal(0, food_sd)
        for source in range(2):
            strays = common + rng.normal(0, kitchen_sd) + rng.normal(0, math.sqrt(variance))
            rows.append(Comparison(str(food), str(source), strays, variance))
    found = table_spread(rows)
    assert found.food == pytest.approx(food_sd**2, rel=0.1)
    assert found.kitchen == pytest.approx(kitchen_sd**2, rel=0.1)
    assert found.rows == 8000


def test_spreads_are_never_below_zero_and_single_tables_are_laid_to_the_kitchens():
    quiet = table_spread([Comparison("a", "x", 0.01, 0.2), Comparison("a", "y", 0.0, 0.2)])
    assert (quiet.food, quiet.kitchen) == (0.0, 0.0)
    single = table_spread([Comparison(f, "x", s, 0.01) for f, s in (("a", 0.3), ("b", -0.3))])
    assert single.food == 0.0
    assert single.kitchen == pytest.approx(0.08)


def covered(belief, n_own: int, kitchens: int, draw) -> float:
    """The share of kitchens whose next batch falls in the 80 % interval after n own batches."""
    inside = 0
    for _ in range(kitchens):
        *own, following = draw(n_own + 1)
        predictive = belief.after(own).predictive()
        inside += math.log(predictive.low) <= following <= math.log(predictive.high)
    return inside / kitchens


@every_row("n_own", [0, 1, 3, 8, 20])
def test_eighty_per_cent_intervals_hold_eighty_per_cent_of_simulated_kitchens(n_own):
    """Kitchens drawn from the belief itself: each with its own mean and its own batch-to-batch spread."""
    rng = np.random.default_rng(100 + n_own)
    belief = handbook_belief(-1.4, 0.05, SPREAD, [])

    def kitchen(batches):
        variance = belief.scale / rng.gamma(belief.shape)
        mean = rng.normal(belief.mean, math.sqrt(variance / belief.weight))
        return rng.normal(mean, math.sqrt(variance), batches)

    assert 0.78 <= covered(belief, n_own, 6000, kitchen) <= 0.82


@every_row("n_own", [0, 8, 20])
def test_the_intervals_hold_in_kitchens_made_of_water_and_solids(n_own):
    """Kitchens that were not drawn from the model: raw solids, finish, trimming and habit, each by itself.

    Here the spread between batches is the same everywhere, which the belief does not know; it must hold at
    least the 80 % it promises.
    """
    rng = np.random.default_rng(200 + n_own)
    raw_sd, finish_sd = 0.2, 0.1
    belief = handbook_belief(mass_balance(80, 10), raw_sd**2 + finish_sd**2, SPREAD, [])

    def kitchen(batches):
        habit = rng.normal(0, math.sqrt(SPREAD.food + SPREAD.kitchen))
        solids = 0.20 * np.exp(rng.normal(0, raw_sd, batches))
        finish = 0.90 * np.exp(rng.normal(0, finish_sd, batches))
        return np.log(solids / finish) + habit

    assert covered(belief, n_own, 4000, kitchen) >= 0.78
