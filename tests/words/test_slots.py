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
