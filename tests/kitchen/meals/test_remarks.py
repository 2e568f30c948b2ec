"""Plain notes on a meal, each where it belongs and nowhere else."""

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.lines import line_of
from dryhouse.kitchen.meals.remarks import not_softened, salty, unknown
from dryhouse.kitchen.records import Meal, MealPart
from dryhouse.kitchen.records.meals import COLD_SOAK
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
