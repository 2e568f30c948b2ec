"""A slot says a value as its place in the line asks for it."""

import re

from dryhouse.science.display import Style
from dryhouse.science.quantities import Area, Duration, Length, Mass, Temperature, Volume, parse
from dryhouse.science.workings import Term
from dryhouse.words.slots import Slot
from tests.rows import every_row


@every_row("kind", [Mass, Volume, Duration, Length, Area, Temperature])
def test_every_example_of_how_to_type_a_quantity_can_be_typed(kind):
    examples = re.split(r", | or ", f"{Slot(Term('wanted', kind.dimension), Style()):example}")
    assert len(examples) > 1
    assert all(parse(example, kind).typed == example for example in examples)


@every_row(
    ("dimension", "noun"),
    [("mass", "a weight"), ("time", "a length of time"), ("area", "an area"), ("volume", "a volume")],
)
def test_a_kind_of_quantity_has_its_article(dimension, noun):
    assert f"{Slot(Term('was', dimension), Style()):noun}" == noun


@every_row(("n", "said"), [(0, "0 loads"), (1, "1 load"), (2, "2 loads"), (1.5, "1.5 loads")])
def test_one_of_something_is_one_and_any_other_number_several(n, said):
    assert f"{Slot(Term('n', n), Style()):load|loads}" == said


def test_a_number_may_stand_bare_in_its_own_unit_or_in_both_scales():
    heat = Slot(Term("heat", 71.0, "degC"), Style())
    assert f"{Slot(Term('each', 250.0, 'g'), Style()):bare}" == "250"
    assert f"{Slot(Term('held', 250.0, 'mg'), Style()):own}" == "250 mg"
    assert f"{heat:both}" == "160 °F (71 °C)"
    assert f"{heat:exactly}" == "159.8 °F (71 °C)"
    assert f"{Slot(Term('up', 1524.0, 'm'), Style()):both}" == "5000 ft (1524 m)"
    assert f"{Slot(Term('air', 17.46, '%'), Style()):2}" == "17 %"
    assert f"{Slot(Term('air', 17.462, '%'), Style())}" == "17.46 %"


def test_a_kind_of_food_whose_name_says_too_little_is_said_in_full():
    held = Slot(Term("which", "animal, poultry, low acid"), Style())
    assert f"{held:kinds}" == "animal food, poultry, low-acid food"
    assert f"{held}" == "animal, poultry, low acid"
