"""Amounts by the piece go by published weights, or are refused in a sentence."""

import pytest

from dryhouse.handbook.pieces import pieces
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.batches.typed import draft_from, typed_batch
from dryhouse.kitchen.foods.counted import counted_mass, mass_typed
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.yields.quick_answers import target
from dryhouse.kitchen.yields.typed_line import read_line
from dryhouse.science.errors import InputProblem
from tests.fakes import FakeJournal

FOODS = handbook().foods


def full_kitchen():
    """A kitchen with the whole handbook."""
    return Kitchen(FakeJournal(), handbook())


@pytest.mark.parametrize(
    ("food", "typed", "grams"),
    [
        ("egg", "6 eggs", 300),  # USDA release 28: large, 50 g; no medium is asked for
        ("apple", "3 medium apples", 546),
        ("apple", "2 large", 446),
        ("corn", "6 ears", 612),
        ("garlic", "4 cloves of garlic", 12),
        ("celery", "2 large stalks", 128),
        ("spinach", "1 bunch", 340),  # these three from memory
        ("tuna-canned", "2 cans", 330),
        ("chickpea", "1 can of chickpeas", 253),
    ],
)
def test_pieces_weigh_what_usda_says(food, typed, grams):
    mass, each = counted_mass(FOODS[food], typed)
    assert mass.si == pytest.approx(grams)
    assert "USDA" in each.source


@pytest.mark.parametrize("typed", ["3", "2 lb", "1 cup", "500 g", "3 furlongs", "a few", "3 pears"])
def test_what_is_no_count_of_this_food_is_left_alone(typed):
    assert counted_mass(FOODS["apple"], typed) is None


@pytest.mark.parametrize(("food", "typed"), [("parsley", "1 bunch"), ("black-bean", "1 can")])
def test_a_piece_nobody_weighed_is_refused_and_named(food, typed):
    with pytest.raises(InputProblem, match=typed.split()[1]):
        counted_mass(FOODS[food], typed)


def test_every_piece_weighs_something():
    assert all(fact.value > 0 for kinds in pieces().values() for fact in kinds.values())


def test_a_weight_for_a_food_may_be_counted_or_weighed():
    assert mass_typed(FOODS["apple"], "3 medium apples").si == pytest.approx(546)
    assert mass_typed(FOODS["apple"], "2", default_unit="lb").si == pytest.approx(907, abs=1)
    with pytest.raises(InputProblem):
        mass_typed(FOODS["apple"], "3 pears")


def test_the_target_of_so_many_pieces_is_that_of_their_weight():
    kitchen = full_kitchen()
    counted, weighed = (target(kitchen, "apple", typed) for typed in ("3 medium apples", "546 g"))
    assert counted.value == pytest.approx(weighed.value)


def test_a_batch_is_logged_by_the_piece_and_so_are_the_ingredients_of_a_mix():
    kitchen = full_kitchen()
    draft = draft_from(
        kitchen, typed_batch((("egg", "6 eggs"),), food="apple", fresh="3 medium apples", dried="90 g")
    )
    assert draft.batch.prepared_mass.si == pytest.approx(546)
    assert [part.mass.si for part in draft.parts] == [pytest.approx(300)]
    with pytest.raises(InputProblem) as refused:
        draft_from(kitchen, typed_batch(food="parsley", fresh="1 bunch", dried="9 g"))
    assert refused.value.field == "fresh"


@pytest.mark.parametrize("line", ["3 medium apples", "apple 3 medium", "3 apples fresh"])
def test_the_yields_line_takes_pieces_too(line):
    read = read_line(full_kitchen(), line)
    assert read.food.slug == "apple"
    assert read.amount.si == pytest.approx(546)
    assert read.hint == ""


def test_a_number_of_nothing_is_still_asked_about_in_the_yields_line():
    assert "Add a unit" in read_line(full_kitchen(), "corn 3").hint
