"""Quick answers at the bench."""

import math

import pytest

from dryhouse.handbook.finder import WhichFood
from dryhouse.kitchen.cautions.cautions import food_cautions
from dryhouse.kitchen.foods.catalog import food, set_figure
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.yields.knowledge import learn
from dryhouse.kitchen.yields.quick_answers import target, water
from dryhouse.kitchen.yields.yields import FRESH, dried_density, grams_of
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Volume
from dryhouse.science.units import SIZES
from dryhouse.science.workings import StepKind
from tests.builders import CORN, a_kitchen
from tests.rows import every_row
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


def test_a_cup_that_was_measured_is_its_weight_with_the_doubt_of_the_cup():
    kitchen = a_kitchen()
    measured, weighed = target(kitchen, "corn", "2 cups"), target(kitchen, "corn", "290 g")
    cup = grams_of(learn(kitchen, CORN), Volume(2 * SIZES["cup"], "2 cups"), FRESH)[0]
    assert cup.value == pytest.approx(290.0, rel=1e-5)  # 145 g each, by the builders' table
    assert (measured.value, measured.unit) == (pytest.approx(weighed.value, rel=1e-5), "g")
    for end, of_load in (("low", cup.low), ("high", cup.high)):
        apart = math.hypot(math.log(getattr(weighed, end) / weighed.value), math.log(of_load / cup.value))
        way = -1 if end == "low" else 1
        assert getattr(measured, end) == pytest.approx(measured.value * math.exp(way * apart), rel=1e-4)
    assert len(measured.basis) > len(weighed.basis)


@every_row(
    ("amount", "grams", "cups", "lines"),
    [("50 g", 50.0, 0.5, 0), ("2 cups", 200.0, 2.0, 1), ("1/2 cup", 50.0, 0.5, 1)],
)
def test_water_by_the_weight_stands_beside_the_published_cups_for_as_much(amount, grams, cups, lines):
    figure, published = water(a_kitchen(), "corn", amount)
    # dried corn takes up 2.21 g a gram; a cup of it weighs 100 g, by the builders' table; 2¼ cups of water a cup
    assert (figure.value, figure.unit) == (pytest.approx(2.21 * grams, rel=1e-5), "ml")
    kinds = [line.kind for line in figure.workings]
    assert kinds.count(StepKind.DRIED_BY_MEASURE) == lines
    for each in published:
        assert each.measure.value == pytest.approx(2.25 * cups, rel=1e-5)
        assert each.value == pytest.approx(2.25 * cups * SIZES["cup"], rel=1e-5)
        (line,) = each.workings
        assert line.kind == StepKind.PUBLISHED_WATER_SOAK
        told = {term.name: term.value for term in line.terms}
        assert told == {"each": 2.25, "warmth": "boiling", "dried": pytest.approx(cups, rel=1e-5), "soak": 0.5}
    assert len(published) == 2


@every_row(
    ("solids", "moisture", "said"),
    [
        ("0%", None, "Food with no solids leaves nothing"),
        ("0.9%", None, "Solids of 0.9 % are less than any food holds"),
        ("1%", None, ""),
        (None, "100%", "A target moisture is below 100 %"),
        ("50%", "49.9%", ""),
    ],
)
def test_percents_that_no_food_has_are_refused(solids, moisture, said):
    if not said:
        figure = target(a_kitchen(), "corn", "1 kg", solids=solids, moisture=moisture)
        share, dry_to = float(solids[:-1]) / 100, float(moisture[:-1]) if moisture else 10.0
        assert figure.value == pytest.approx(share / (1 - dry_to / 100))
        return
    with pytest.raises(InputProblem, match=said):
        target(a_kitchen(), "corn", "1 kg", solids=solids, moisture=moisture)
