"""A pot that was dried whole, serving by serving."""

from dataclasses import replace

import pytest

from dryhouse.kitchen.records import Batch, BatchPart, Lot
from dryhouse.kitchen.shelf.labels import lot_labels
from dryhouse.kitchen.shelf.packing import Package, pack, servings_left, split_servings
from dryhouse.kitchen.shelf.portions import each_sentence, portion_of, serving_of
from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from tests.kitchen.shelf_room import PANTRY, a_batch, a_shelf

POT = a_batch("chili-bean", prepared_mass=Mass(2124.0), dried_mass=Mass(348.0), dried_volume=None, servings=6.0)
PARTS = (
    BatchPart(1, 0, "kidney-bean", Mass(900.0), id=1),
    BatchPart(1, 1, "tomato", Mass(800.0), id=2),
    BatchPart(1, 2, "olive-oil", Mass(24.0), id=3),
)
GRAMS = Style(METRIC)


def a_pot(pot=POT, parts=PARTS):
    return a_shelf(pot, *parts)


def the_batch(kitchen):
    return kitchen.journal.get(Batch, 1)


def packed_by_servings(kitchen, each=1.0):
    pack(kitchen, 1, split_servings(kitchen, the_batch(kitchen), each, Package("bag", place=PANTRY)))
    return kitchen.journal.where(Lot)


def test_a_pot_of_six_goes_into_six_bags_each_with_its_number_weight_and_water():
    """2124 g of chili came to 348 g: 58 g a serving, which lost (2124 − 348) ÷ 6 = 296 g of water, 1¼ cups."""
    kitchen = a_pot()
    bags = packed_by_servings(kitchen)
    assert [bag.name for bag in bags] == [f"{n} of 6" for n in range(1, 7)]
    assert [bag.mass.si for bag in bags] == pytest.approx([58.0] * 6)
    portion = portion_of(kitchen, bags[0])
    assert (portion.number, portion.servings, portion.of) == (1, pytest.approx(1.0), 6.0)
    assert portion.water.value == pytest.approx(296.0)
    assert portion.sentence(GRAMS).startswith("1 of 6: 58 g dried, about 296 ml of water, ")
    assert portion.sentence(Style(US)).startswith("1 of 6: 2 oz dried, about 1¼ cups of water, ")


def test_the_energy_of_a_serving_is_that_of_its_ingredients():
    """Per 100 g: cooked kidney beans 127 kcal, tomatoes 18 kcal, olive oil 884 kcal."""
    one = serving_of(a_pot(), POT)
    assert one.energy.value == pytest.approx((9.0 * 127 + 8.0 * 18 + 0.24 * 884) / 6, rel=0.01)
    assert serving_of(a_pot(parts=()), POT).energy is None


def test_bags_of_two_servings_and_what_is_left_of_a_bag_say_how_many_they_hold():
    kitchen = a_pot()
    first, *_ = bags = packed_by_servings(kitchen, each=2.0)
    assert len(bags) == 3
    portion = portion_of(kitchen, first)
    assert portion.number is None
    assert portion.sentence(GRAMS).startswith("2 of 6 servings: 116 g dried, about 592 ml of water")
    assert portion_of(kitchen, first, 87.0).which(GRAMS) == "1.5 of 6 servings"


def test_what_is_packed_already_is_not_packed_again_and_numbers_go_on():
    kitchen = a_pot()
    pack(kitchen, 1, split_servings(kitchen, the_batch(kitchen))[:2])
    assert servings_left(kitchen, the_batch(kitchen)) == pytest.approx(4.0)
    assert [p.name for p in split_servings(kitchen, the_batch(kitchen))] == ["3 of 6", "4 of 6", "5 of 6", "6 of 6"]
    packed_by_servings(kitchen)
    with pytest.raises(InputProblem, match="all of it is packed already"):
        split_servings(kitchen, the_batch(kitchen))


def test_a_batch_that_says_no_servings_is_not_packed_by_them():
    kitchen = a_pot(replace(POT, servings=None))
    assert serving_of(kitchen, the_batch(kitchen)) is None
    assert each_sentence(kitchen, the_batch(kitchen), GRAMS) == ""
    with pytest.raises(InputProblem, match="how many servings"):
        split_servings(kitchen, the_batch(kitchen))


def test_the_label_of_a_bag_says_its_serving_and_no_second_water():
    kitchen = a_pot()
    (label, *_) = lot_labels(kitchen, [bag.id for bag in packed_by_servings(kitchen)], GRAMS)
    assert any(line.startswith("1 of 6: 58 g dried, about 296 ml of water") for line in label.lines)
    assert not any(line.startswith("Water") for line in label.lines)


def test_a_pot_that_must_not_be_eaten_gets_neither_water_nor_energy():
    meat = a_batch("chili-meat", prepared_mass=Mass(2124.0), dried_mass=Mass(348.0), servings=6.0)
    kitchen = a_pot(meat, (BatchPart(1, 0, "turkey", Mass(900.0), id=1),))
    (label, *_) = lot_labels(kitchen, [bag.id for bag in packed_by_servings(kitchen)], GRAMS)
    assert "1 of 6: 58 g dried" in label.lines
    assert not any("water" in line.casefold() or "kcal" in line for line in label.lines)
    assert each_sentence(kitchen, meat, GRAMS, forbidden=True) == "6 servings, each: 58 g dried"
