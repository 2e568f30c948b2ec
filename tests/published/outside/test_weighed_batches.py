"""Home batches that were weighed before and after, against the yield the program expects of them."""

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.yields.yields import DRIED, FRESH, yields
from dryhouse.science.quantities import parse_amount
from dryhouse.science.units import SIZES
from tests.builders import NOW
from tests.fakes import FakeJournal

WEIGHED = [
    # Armed Forces Recipe Service card A-11: prepared to dried (read)
    ("onion", "1 lb", "2 oz"), ("onion", "1.625 lb", "3.333 oz"), ("onion", "20 lb", "2.5 lb"),
    # US Army Quartermaster subcourse QM6321: 8 to 1 (read)
    ("onion", "8 lb", "1 lb"),
    # FAO small-scale processing text: 9 to 1 at about 5 % moisture (read in a copy)
    ("onion", "9 lb", "1 lb"),
    # University of Georgia Extension, dried vegetable equivalents: 20 lb of tomatoes to 18 oz of slices (read)
    ("tomato", "20 lb", "18 oz"),
    # Utah State University Extension: pie cherries, 40 oz to 7 oz (read)
    ("sour-cherry", "40 oz", "7 oz"),
    # Colorado State University Extension, drying carrots: 15 lb as bought to 1.25 lb (read); 11 % is trimmed off
    ("carrot", "13.35 lb", "1.25 lb"),
    # USDA Food Safety and Inspection Service: 4 lb of raw meat to 1 lb of jerky (from memory of the page)
    ("beef-jerky", "4 lb", "1 lb"),
]  # fmt: skip


def a_kitchen():
    return Kitchen(FakeJournal(), handbook(), lambda: NOW)


def span(food, known, direction):
    """The program's range for the other weight, in grams."""
    joined = yields(a_kitchen(), food, parse_amount(known), direction).joined
    return joined.low * SIZES[joined.unit], joined.high * SIZES[joined.unit]


@pytest.mark.parametrize(("food", "fresh", "dried"), WEIGHED)
def test_what_it_weighed_dried_is_nowhere_far_from_the_range(food, fresh, dried):
    low, high = span(food, fresh, FRESH)
    assert low * 0.9 <= parse_amount(dried).si <= high * 1.1


@pytest.mark.parametrize(("food", "fresh", "dried"), WEIGHED)
def test_what_it_took_fresh_is_nowhere_far_from_the_range(food, fresh, dried):
    low, high = span(food, dried, DRIED)
    assert low * 0.9 <= parse_amount(fresh).si <= high * 1.1


def test_four_in_five_lie_in_the_range_itself():
    inside = 0
    for food, fresh, dried in WEIGHED:
        low, high = span(food, fresh, FRESH)
        inside += low <= parse_amount(dried).si <= high
    assert inside >= 0.8 * len(WEIGHED)
