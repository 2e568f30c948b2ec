"""Target mass of a kilogram of prepared food from its published solids, and the handbook's figures beside them.

Sources: solids from USDA SR28 (entry numbers in the table); finish targets (vegetables 90 % solids, fruits
80 %) and the formula, finished weight = raw weight × raw solids ÷ finished solids, from Utah State University
Extension, Testing Foods for Dryness (read).
"""

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.science.moisture import dry_matter, mass_at
from dryhouse.science.units import SIZES

LB = SIZES["lb"]


def bought(slug: str, grams: float) -> float:
    """Target mass of food as purchased: refuse off, then the mass balance of the handbook's own figures."""
    food = handbook().food(slug)
    prepared = grams * (1 - food.fact("refuse").value / 100)
    return mass_at(dry_matter(prepared, food.fact("water").value), food.fact("target_moisture").value)


def test_twenty_pounds_of_tomatoes_are_18_ounces_dried():
    """University of Georgia Extension, So Easy to Preserve (recalled): 20 lb to 18 oz."""
    assert bought("tomato", 20 * LB) / SIZES["oz"] == pytest.approx(18, rel=0.03)


@pytest.mark.parametrize(
    ("slug", "pounds", "dried_pounds"),
    [("carrot", 15, 1.74), ("corn", 18, 1.72), ("green-pea", 8, 0.714), ("tomato", 20, 1.108)],
)
def test_as_purchased_through_the_refuse(slug, pounds, dried_pounds):
    """Worked from USDA SR28 solids and refuse; checked by hand."""
    assert bought(slug, pounds * LB) / LB == pytest.approx(dried_pounds, abs=0.006)


def test_a_thousand_grams_of_tomatoes_are_a_sixteenth():
    """USDA SR28, NDB 11529: 94.52 % water; to 10 %: 60.9 g, 16.4 to 1."""
    assert 1000 / mass_at(dry_matter(1000, 94.52), 10) == pytest.approx(16.4, abs=0.05)


def test_onion_flakes_eight_or_nine_to_one():
    """US Army QM6321: 8 lb to 1; FAO: 9 lb to 1 at about 5 %; USDA flakes hold 3.93 % water: 8.8 to 1 (read)."""
    onion = handbook().food("onion")
    flakes = mass_at(dry_matter(1.0, onion.fact("water").value), onion.fact("dried_water").value)
    assert 8 < 1 / flakes < 9
    home = mass_at(dry_matter(1.0, onion.fact("water").value), onion.fact("target_moisture").value)
    assert 1 / home == pytest.approx(8.26, abs=0.01)
