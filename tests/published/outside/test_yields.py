"""Published yields against the handbook's own intervals, row by row; and the figures the intervals rest on.

`published_yields.csv` holds every row of the published tables we know, comparable or not, with the reason.
"""

import math

import pytest

from dryhouse.handbook.foods import load_foods
from dryhouse.science.units import SIZES
from dryhouse.science.yields.prior import (
    handbook_belief,
    one_for_each_source,
    table_spread,
)
from tests.published.readings import comparison, predictive_of, table

CUP = SIZES["cup"]


ROWS = table("published_yields")
COMPARABLE = [r for r in ROWS if not r["not_comparable_because"]]


def test_eighty_per_cent_intervals_hold_at_least_eighty_per_cent_of_the_comparable_rows():
    """Each row is foretold from all the others: neither it nor another row of the same food and publication
    goes into the spreads or into the middle it is held against."""
    rows = [comparison(r) for r in COMPARABLE]
    held = []
    for row in rows:
        others = one_for_each_source([o for o in rows if (o.food, o.source) != (row.food, row.source)])
        of_food = [o for o in others if o.food == row.food]
        predictive = handbook_belief(0.0, row.variance, table_spread(others), of_food).predictive()
        held.append(math.log(predictive.low) <= row.strays <= math.log(predictive.high))
    assert sum(held) / len(held) >= 0.80


@pytest.mark.parametrize(
    ("prepared", "dried", "source"),
    [
        (8.0, 1.0, "US Army Quartermaster subcourse QM6321: eight pounds peeled and chopped to one"),
        (9.0, 1.0, "FAO small-scale processing text: nine to one, to about 5 % moisture"),
        (16.0, 2.0, "Armed Forces card A-11: 1 lb prepared, 2 oz dried"),
        (26.0, 10 / 3, "Armed Forces card A-11: 1 lb 10 oz prepared, 3-1/3 oz dried"),
        (320.0, 40.0, "Armed Forces card A-11: 20 lb prepared, 2 lb 8 oz dried"),
    ],
)
def test_onions_by_weight(prepared, dried, source):
    predictive = predictive_of("onion")
    assert predictive.low <= dried / prepared <= predictive.high, source
    assert predictive.value == pytest.approx(dried / prepared, rel=0.15), source


@pytest.mark.parametrize(
    ("slug", "bought_oz", "prepared_oz"),
    [("onion", 17.75, 16.0), ("onion", 29.0, 26.0), ("onion", 355.0, 320.0), ("green-pepper", 8.0, 6.5)],
)
def test_as_purchased_to_prepared(slug, bought_oz, prepared_oz):
    """Armed Forces card A-11, as purchased and prepared, against the refuse figures of USDA SR28."""
    refuse = load_foods()[slug].facts["refuse"].value
    assert bought_oz * (1 - refuse / 100) == pytest.approx(prepared_oz, rel=0.02)


@pytest.mark.parametrize(
    ("slug", "grams", "cups"),
    [
        ("onion", 16 * SIZES["oz"], 3.0),
        ("onion", 26 * SIZES["oz"], 4.75),
        ("onion", 320 * SIZES["oz"], 60.0),
        ("green-pepper", 6.5 * SIZES["oz"], 1.25),
    ],
)
def test_fresh_chopped_by_the_cup(slug, grams, cups):
    """Armed Forces card A-11, prepared weight and cups, within the interval of a cup of that cut."""
    from dryhouse.kitchen.yields.knowledge import density_of

    known = density_of(load_foods()[slug], "fresh", "chopped", [])
    assert known.predictive.low <= grams / (cups * CUP) <= known.predictive.high


@pytest.mark.parametrize(
    ("slug", "dried_oz", "cups"),
    [
        ("onion", 2.0, (9 + 2 / 3) / 16),
        ("onion", 10 / 3, 1.0),
        ("onion", 40.0, 12.0),
        ("green-pepper", 1.0, 2 / 3),
        ("green-pepper", 16.0, 10.0),
    ],
)
def test_dried_by_the_cup(slug, dried_oz, cups):
    """Armed Forces card A-11, dried weight and cups (9-2/3 tbsp, 1 cup, 3 qt; 2/3 cup, 2.5 qt)."""
    from dryhouse.kitchen.yields.knowledge import density_of

    known = density_of(load_foods()[slug], "dried", "", [])
    assert known.predictive.low <= dried_oz * SIZES["oz"] / (cups * CUP) <= known.predictive.high


@pytest.mark.parametrize(("prepared_oz", "dried_oz"), [(6.5, 1.0), (104.0, 16.0)])
def test_the_cards_peppers_are_an_equivalence_for_the_pot_and_no_yield(prepared_oz, dried_oz):
    """Armed Forces card A-11 sets 6.5 oz of fresh peppers beside 1 oz of dried. USDA SR28 11333 has 6.11 % solids
    in them: as a yield by drying the ounce would still be more than half water, and ours must not hold it."""
    solids = prepared_oz * (100 - load_foods()["green-pepper"].facts["water"].value) / 100
    assert 1 - solids / dried_oz > 0.5
    assert dried_oz / prepared_oz > predictive_of("green-pepper").high


# --- what the spreads rest on ----------------------------------------------------------------------------
