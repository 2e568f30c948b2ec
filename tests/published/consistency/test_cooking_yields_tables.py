"""What is bought raw for so much cooked, against the published tables of cooking yields, within 5 %.

USDA Table of Cooking Yields for Meat and Poultry, release 2 (quoted in a public project); USDA Food and Nutrient
Database for Dietary Studies 2.0, food weights; USDA SR release 25, protein of the raw and the cooked entry.
"""

from __future__ import annotations

import pytest

from dryhouse.kitchen.trips.raw_amounts import before_cooking
from dryhouse.science.values import Figure

COOKED = Figure(1000.0, "g")


@pytest.mark.parametrize(
    ("food", "cooked_per_raw"),
    [
        ("ground-beef", 0.69),  # 85/15, crumbles, drained: measured
        ("ground-beef", 0.71),  # 90/10, crumbles, drained: measured
        ("ground-beef-80", 0.67),  # 80/20, crumbles, drained: measured
        ("ground-beef-extra-lean", 0.72),  # 93/7, crumbles, drained: measured
        ("chicken", 0.72),  # breast, roasted: measured
        ("chicken", 0.77),  # breast, simmered: measured
        ("chicken", 0.74),  # thigh, simmered: measured
        ("turkey", 0.78),  # light meat, roasted: survey
        ("ground-turkey", 0.69),  # 93 % lean, crumbles: protein kept
        ("ground-turkey", 0.74),  # fat free, crumbles: protein kept
        ("kidney-bean", 2.40),  # 1 oz dry gives 68 g
        ("pinto-bean", 2.40),
        ("white-bean", 2.40),
        ("black-bean", 2.29),
        ("navy-bean", 2.4692),  # pounds cooked per pound dry
        ("lentil", 2.72),  # 1 oz dry gives 77 g
        ("rice-white", 3.07),  # regular: 1 oz dry gives 87 g
        ("rice-brown", 3.35),
        ("pasta", 2.75),  # macaroni
        ("pasta", 2.82),  # spaghetti
        ("barley", 3.77),
    ],
)
def test_raw_to_cooked_is_what_the_tables_say(food: str, cooked_per_raw: float) -> None:
    raw = before_cooking(food, COOKED)
    assert raw is not None
    assert raw.value == pytest.approx(1000.0 / cooked_per_raw, rel=0.05)
