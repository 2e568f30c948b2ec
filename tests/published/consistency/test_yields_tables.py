"""Published yields against the handbook's own intervals, row by row; and the figures the intervals rest on.

`published_yields.csv` holds every row of the published tables we know, comparable or not, with the reason.
"""

import math
import statistics
from collections import defaultdict

import pytest

from dryhouse.handbook import yield_comparisons, yield_spread
from dryhouse.handbook.foods import load_foods
from dryhouse.science.yields.prior import (
    one_for_each_source,
    table_spread,
)
from tests.published.readings import comparison, predictive_of, table
from tests.rows import every_row

ROWS = table("published_yields")
COMPARABLE = [r for r in ROWS if not r["not_comparable_because"]]
REASONS = {
    "the same row as the one read in the public copy of the bulletin",
    "as bought, before fat is trimmed and marinade added; four to one leaves less than the solids of lean beef",
    "a pressed commercial product, not a drying yield",
    "an equivalence for the pot: the dried weight would still hold more than half water",
    "a range over many foods, of no one food",
    "no weights on both sides",
    "dried from plums far sweeter than those sold fresh",
}


def test_every_row_is_compared_or_says_why_not():
    assert len(ROWS) == 48
    assert {r["not_comparable_because"] for r in ROWS} - {""} == REASONS
    assert len(COMPARABLE) == 28


def test_the_handbooks_spread_rests_on_exactly_these_rows():
    ours = table_spread(one_for_each_source([comparison(r) for r in COMPARABLE]))
    shipped = yield_comparisons.yield_spread()
    assert shipped.rows == ours.rows == 26
    assert shipped.food == pytest.approx(ours.food, abs=0.001)
    assert shipped.kitchen == pytest.approx(ours.kitchen, abs=0.001)


# --- what the spreads rest on ----------------------------------------------------------------------------


@every_row("category", ["vegetable", "fruit", "meat"])
def test_spread_of_raw_water(category):
    """USDA Standard Reference 28: standard error × √n over solids, raw foods with n of five or more; the median."""
    spreads = [
        float(r["standard_error"]) * math.sqrt(float(r["n"])) / (100 - float(r["water_pct"]))
        for r in table("raw_water")
        if r["category"] == category
    ]
    shipped = yield_spread.spreads()["raw_water", category]
    assert shipped.n == len(spreads)
    assert shipped.value == pytest.approx(statistics.median(spreads), abs=5e-4)


def test_spread_of_finished_moisture():
    """USDA Standard Reference 28: ln(solids) of the vegetables and the fruits sold dried."""
    logs = defaultdict(list)
    for r in table("finish_water"):
        logs[r["category"]].append(math.log(1 - float(r["water_pct"]) / 100))
    for category, values in logs.items():
        assert yield_spread.spreads()["finish", category].value == pytest.approx(statistics.stdev(values), abs=5e-4)
    assert yield_spread.spreads()["finish", "other"].value == pytest.approx(pooled(logs.values()), abs=5e-4)


def pooled(groups) -> float:
    """Standard deviation within groups."""
    groups = [g for g in groups if len(g) > 1]
    squares = sum(statistics.variance(g) * (len(g) - 1) for g in groups)
    return math.sqrt(squares / sum(len(g) - 1 for g in groups))


def test_spread_of_cups():
    """USDA SR28 cups by cut; Armed Forces card A-11 against SR28; dried cups between three publications."""
    by_cut, dried = defaultdict(list), defaultdict(list)
    for r in table("fresh_cups_by_cut"):
        by_cut[r["ndb_no"]].append(math.log(float(r["grams"])))
    for r in table("dried_cups"):
        dried[r["food"]].append(math.log(float(r["grams_per_cup"])))
    same = [
        math.log(float(r["card_grams_per_cup"]) / float(r["usda_grams_per_cup"]))
        for r in table("fresh_cups_same_cut")
    ]
    shipped = yield_spread.spreads()
    assert shipped["fresh_cup", "any cut"].value == pytest.approx(pooled(by_cut.values()), abs=5e-4)
    assert shipped["dried_cup", "any cut"].value == pytest.approx(pooled(dried.values()), abs=5e-4)
    rms = math.sqrt(statistics.mean(x * x for x in same))
    assert shipped["fresh_cup", "same cut"].value == pytest.approx(rms, abs=5e-4)


@every_row("slug", ["pear", "tomato", "carrot", "corn", "apple-peeled", "grape", "celery"])
def test_a_yield_that_the_solids_rule_out_moves_the_doubt_and_not_the_middle(slug):
    """The middle of the handbook's yield leaves between 2 and 25 % water: food neither loses dry matter nor keeps
    more water than dried food holds (mass balance, with the solids of USDA SR28)."""
    solids = 100 - load_foods()[slug].facts["water"].value
    left = 100 - solids / predictive_of(slug).value
    assert 2 <= left <= 25
