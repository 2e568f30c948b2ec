"""Plain notes on a meal, each where it belongs and nowhere else."""

from dataclasses import replace

from dryhouse.handbook.pot import pot
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.lines import line_of
from dryhouse.kitchen.meals.remarks import not_softened, salty, unknown
from dryhouse.kitchen.records import Meal, MealPart
from dryhouse.kitchen.records.meals import COLD_SOAK, NO_POT
from dryhouse.science.quantities import Mass, Volume
from tests.fakes import FakeJournal
from tests.rows import every_row

PANTRY = Pantry(Kitchen(FakeJournal(), handbook()))


def item(name, food="", staple="", **more):
    return PANTRY.ingredient(MealPart(1, 0, name, food, staple, **more))


@every_row(
    ("ingredient", "said"),
    [
        (item("corn", "corn"), "no amount yet"),
        (item("paste", volume=Volume(100.0)), "what a cup of it weighs is not known"),
        (item("paste", mass=Mass(20.0)), "nothing is known of what it holds"),
        (item("nori", mass=Mass(5.0), label_sodium_mg=500.0), "its energy is not known; the sum leaves it out"),
    ],
)
def test_what_keeps_a_sum_from_being_whole_is_named(ingredient, said):
    (remark,) = unknown([line_of(ingredient)])
    assert remark.startswith(f"{ingredient.part.name}: ")
    assert said in remark


def test_a_whole_line_needs_no_remark():
    assert unknown([line_of(item("corn", "corn", mass=Mass(20.0)))]) == []


def test_a_cold_soak_names_what_it_leaves_hard_and_no_other_way_of_cooking_does():
    pasta, couscous = item("pasta", staple="pasta-elbows"), item("couscous", staple="couscous")
    assert not pasta.staple.cold_soak
    assert couscous.staple.cold_soak
    (remark,) = not_softened(Meal("m", cooking=COLD_SOAK), [pasta, couscous])
    assert "pasta" in remark
    assert "couscous" not in remark
    assert not_softened(Meal("m"), [pasta]) == []


def test_salt_past_a_days_limit_is_said_with_the_ingredient_that_brings_most_of_it():
    salty_part = item("bouillon", mass=Mass(30.0), label_sodium_mg=20000.0)
    corn = item("corn", "corn", mass=Mass(30.0))
    (remark,) = salty([line_of(salty_part), line_of(corn)], 2.0)
    # 30 g at 20 g of sodium per 100 g are 6000 mg, 3000 mg for each of two
    assert "past a day's common limit of 2300 mg" in remark
    assert "comes with the bouillon" in remark
    assert salty([line_of(salty_part), line_of(corn)], 3.0) == []


@every_row(("servings", "said"), [(1.0, True), (0.99, True), (1.01, False)])
def test_what_reaches_the_days_limit_is_not_past_it(servings, said):
    limit = pot("sodium_day").value
    line = line_of(item("bouillon", mass=Mass(100.0), label_sodium_mg=limit))
    assert bool(salty([line], servings)) is (said and servings < 1.0)


def test_without_a_pot_what_has_to_be_cooked_is_named_too_and_what_takes_no_water_lacks_none():
    pasta = item("pasta", staple="pasta-elbows")
    (remark,) = not_softened(Meal("m", cooking=NO_POT), [pasta])
    assert remark.startswith("Without a pot nothing cooks pasta: ")
    known = line_of(item("corn", "corn", mass=Mass(20.0)))
    lost = replace(known, water=None)
    assert [len(unknown([line], dry=dry)) for line in (known, lost) for dry in (False, True)] == [0, 0, 1, 0]
