"""What was bought is the staple of the pantry, though a food that is dried cooked may have its slug."""

from datetime import date

from dryhouse.handbook.reader import handbook
from dryhouse.handbook.staples import staples
from dryhouse.kitchen.cautions.cautions import lot_cautions, meal_cautions
from dryhouse.kitchen.foods.shelved import name_of_lot, pantry_food
from dryhouse.kitchen.records import Lot, Meal, MealPart, OwnFood
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.shelf.labels import lot_labels
from dryhouse.kitchen.shelf.lots import lot_title
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.science.quantities import Mass
from tests.kitchen.shelf_room import PANTRY, TODAY, a_shelf, shelf_line
from tests.rows import every_row

NEXT_YEAR = date(2027, 9, 1)
BOTH = sorted(set(staples()) & set(handbook().foods))
"""Slugs of a staple and of a food that is cooked and dried at home."""


def bag_of(slug: str) -> Lot:
    return Lot(slug, TODAY, origin="bought", bought_keep_by=NEXT_YEAR, id=1)


@every_row("slug", BOTH)
def test_a_bought_bag_has_the_name_of_the_staple_on_the_shelf_on_its_label_and_in_what_is_told(slug: str) -> None:
    kitchen = a_shelf()
    done = shelve(kitchen, slug, Package("bag", Mass(500.0), place=PANTRY), NEXT_YEAR)
    own, title = staples()[slug].name, staples()[slug].name.capitalize()
    assert done.what == f"Added {own} to the shelf"
    assert shelf_line(kitchen, done.record.id).food_name == own
    assert lot_title(kitchen, done.record) == f"{title}, lot 1"
    assert lot_labels(kitchen, [1], style(kitchen))[0].title == title


def test_what_was_dried_at_home_keeps_its_name_and_a_food_of_her_own_is_no_staple() -> None:
    assert name_of_lot(a_shelf(), Lot("rice-white", TODAY, id=1)) == "white rice, cooked"
    assert name_of_lot(a_shelf(), bag_of("corn")) == "sweet corn"
    assert name_of_lot(a_shelf(), bag_of("lentils")) == "lentils"
    hers = a_shelf(OwnFood("couscous", "couscous with herbs", category="grain", id=1))
    assert pantry_food(hers, bag_of("couscous")) is None


def test_a_bought_bag_of_egg_noodles_is_cautioned_as_egg_and_as_cooked_starch() -> None:
    kitchen = a_shelf(bag_of("egg-noodles"))
    on_the_shelf = {c.rule for c in lot_cautions(kitchen, bag_of("egg-noodles"))}
    assert {"bought-animal", "heat-to-165", "risk-people"} <= on_the_shelf
    part = MealPart(1, 1, "egg noodles", food="egg-noodles", lot=1, mass=Mass(100.0), id=1)
    in_a_meal = {c.rule for c in meal_cautions(kitchen, Meal("Noodles", id=1), [part])}
    assert {"bought-animal", "heat-to-165", "starch-warm", "leftovers-cold"} <= in_a_meal


@every_row("slug", BOTH)
def test_no_caution_of_the_food_dried_at_home_is_lost_in_a_meal_of_the_bought_bag(slug: str) -> None:
    part = MealPart(1, 1, slug, food=slug, lot=1, mass=Mass(100.0), id=1)

    def rules(lot: Lot) -> set[str]:
        kitchen = a_shelf(lot)
        return {c.rule for c in meal_cautions(kitchen, Meal("Pot", id=1), [part]) if c.rule.startswith("starch")}

    assert rules(bag_of(slug)) == {"starch-warm"} == rules(Lot(slug, TODAY, id=1))


def test_a_cup_of_bought_rice_and_its_water_are_those_of_the_staple() -> None:
    # 500 g of raw long-grain rice at 185 g a cup of 236.59 ml: 639 ml; from 11.62 % to 68.44 % water it takes up
    # (100 − 11.62) ÷ (100 − 68.44) − 1 = 1.80 ml a gram: 900 ml, 3.8 cups
    kitchen = a_shelf()
    lot = shelve(kitchen, "rice-white", Package("bag", Mass(500.0), place=PANTRY), NEXT_YEAR).record
    assert round(shelf_line(kitchen, lot.id).volume_left_ml or 0) == 639
    (label,) = lot_labels(kitchen, [lot.id], style(kitchen))
    assert [line for line in label.lines if line.startswith("Water")] == ["Water 3¾ cups"]
