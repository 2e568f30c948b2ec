"""Quick answers at the bench."""

import pytest

from dryhouse.handbook.finder import WhichFood
from dryhouse.kitchen.cautions.cautions import food_cautions
from dryhouse.kitchen.foods.catalog import food, set_figure
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.yields.quick_answers import target, water
from dryhouse.kitchen.yields.yields import dried_density
from dryhouse.science.errors import InputProblem
from tests.builders import a_kitchen
from tests.workings import read


def test_a_target_answers_in_the_unit_that_was_typed():
    figure = target(a_kitchen(), "corn", "40 oz")
    assert figure.unit == "oz"
    assert figure.value == pytest.approx(40 * 0.2395 / 0.9)
    assert {b.kind for b in figure.basis} == {"handbook"}


def test_nothing_is_dried_to_the_moisture_it_has():
    for moisture in ("80%", "85%"):
        with pytest.raises(InputProblem, match="is not below the starting moisture"):
            target(a_kitchen(), "corn", "1 kg", solids="20%", moisture=moisture)
    assert target(a_kitchen(), "corn", "1 kg", solids="20%", moisture="79%").value == pytest.approx(0.2 / 0.21)


def test_an_own_figure_changes_the_target_and_is_named():
    kitchen = a_kitchen()
    set_figure(kitchen, "corn", "target_moisture", 6.0)
    figure = target(kitchen, "corn", "1 kg")
    assert figure.value == pytest.approx(0.2395 / 0.94)
    assert "entered" in {b.kind for b in figure.basis}


def test_water_for_a_measure_needs_a_density_and_says_so():
    kitchen = a_kitchen()
    add_food(kitchen, "Samphire", "vegetable")
    set_figure(kitchen, "samphire", "water", 89.0)
    set_figure(kitchen, "samphire", "target_moisture", 10.0)
    with pytest.raises(InputProblem, match="give the weight"):
        water(kitchen, "samphire", "1 cup")
    figure, _ = water(kitchen, "samphire", "50 g")
    assert figure.measure.unit == "cup"


def test_without_a_density_the_published_cups_answer_and_say_so():
    figure, published = water(a_kitchen(), "apple", "2 cups")
    assert figure.measure.value == pytest.approx(2 * 1.5)
    assert figure.basis == published[0].basis
    assert "no mass balance" in read(figure.workings)


def test_an_animal_food_carries_its_stop_into_every_answer():
    for figure in (target(a_kitchen(), "turkey", "1 kg"), water(a_kitchen(), "turkey", "50 g")[0]):
        assert figure.cautions[0].severity == "stop"


def test_water_carries_the_cautions_of_its_food_whether_weighed_or_measured():
    kitchen = a_kitchen()
    assert dried_density(kitchen, food(kitchen, "apple")) is None
    assert dried_density(kitchen, food(kitchen, "corn")) is not None
    for slug, amount in (("apple", "50 g"), ("apple", "2 cups"), ("corn", "50 g"), ("corn", "1 cup")):
        figure, _ = water(kitchen, slug, amount)
        assert figure.cautions == food_cautions(kitchen, food(kitchen, slug)) != (), (slug, amount)


def test_a_name_nobody_knows_needs_both_figures():
    kitchen = a_kitchen()
    for told in ({"solids": "14%"}, {"moisture": "10%"}, {}):
        with pytest.raises(WhichFood):
            target(kitchen, "moonweed", "1 kg", **told)
    figure = target(kitchen, "moonweed", "1 kg", solids="14%", moisture="10%")
    assert (figure.value, figure.unit) == (pytest.approx(0.14 / 0.9), "kg")
    assert "food-not-named" in {caution.rule for caution in figure.cautions}
