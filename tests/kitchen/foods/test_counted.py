"""Amounts by the piece go by published weights, or are refused in a sentence."""

import pytest

from dryhouse.handbook.pieces import pieces
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.batches.typed import draft_from, typed_batch
from dryhouse.kitchen.foods.counted import amount_typed, counted_mass, mass_typed
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
        ("apple", "half a dozen medium apples", 1092),
        ("apple", "1½ medium apples", 273),
        ("corn", "two cobs", 204),
        ("celery", "3 ribs", 120),
        ("zucchini", "2 zucchinis", 392),
    ],
)
def test_pieces_weigh_what_usda_says(food, typed, grams):
    mass, each = counted_mass(FOODS[food], typed)
    assert mass.si == pytest.approx(grams)
    assert "USDA" in each.source


@pytest.mark.parametrize(
    "typed", ["3", "2 lb", "1 cup", "500 g", "3 furlongs", "a few", "3 pears", "2#", "90000000 apples"]
)
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


@pytest.mark.parametrize(
    ("typed", "grams"),
    [
        ("2 lb of apples", 907.18474),
        ("1.5 kg apples", 1500),
        ("a 16 oz bag", 453.59237),
        ("10-oz bag of fresh apples", 283.49523),
        ("half a pound", 226.796185),
        ("1-1/2 lb", 680.388555),
        ("2#", 907.18474),  # a grocer's sign for pounds: never two apples
    ],
)
def test_a_weight_may_be_said_with_the_food_and_its_bag(typed, grams):
    assert mass_typed(FOODS["apple"], typed).si == pytest.approx(grams, rel=1e-6)


@pytest.mark.parametrize("typed", ["2 lb pears", "2 lb steak", "16 oz can"])
def test_a_weight_of_something_else_is_refused(typed):
    with pytest.raises(InputProblem):
        mass_typed(FOODS["apple"], typed)


def test_a_measure_of_a_load_has_the_doubt_of_the_cup_in_its_target():
    kitchen = full_kitchen()
    measured = target(kitchen, "apple", "4 cups of apples")
    cup = FOODS["apple"].measures_for("fresh")[0]
    weighed = target(kitchen, "apple", f"{4 * cup.density * 236.588:.3f} g")
    assert measured.unit == "g"
    assert measured.low < weighed.low < measured.value < weighed.high < measured.high
    assert any(
        "cup" in basis.source or "measure" in basis.source or "USDA" in basis.source for basis in measured.basis
    )


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


@pytest.mark.parametrize("line", ["3 medium apples", "apple 3 medium", "3 apples fresh", "three apples"])
def test_the_yields_line_takes_pieces_too(line):
    read = read_line(full_kitchen(), line)
    assert read.food.slug == "apple"
    assert read.amount.si == pytest.approx(546)
    assert read.hint == ""


def test_a_number_of_nothing_is_still_asked_about_in_the_yields_line():
    assert "Add a unit" in read_line(full_kitchen(), "corn 3").hint


def test_more_than_a_ton_by_the_piece_is_no_count_and_none_at_all_neither():
    apple = counted_mass(FOODS["apple"], "1 medium apple")[0].si
    assert counted_mass(FOODS["apple"], f"{int(1e6 // apple)} medium apples") is not None
    assert counted_mass(FOODS["apple"], f"{int(1e6 // apple) + 1} medium apples") is None
    assert counted_mass(FOODS["apple"], "0 medium apples") is None
    assert mass_typed(FOODS["apple"], "3 medium apples").typed == f"{3 * apple:g} g"


def test_a_comma_parts_thousands_unless_she_writes_decimals_with_it():
    for comma, grams in ((False, 1250.0), (True, 1.25)):
        assert mass_typed(FOODS["apple"], "1,250 g", decimal_comma=comma).si == grams
        assert amount_typed(FOODS["apple"], "1,250 g", decimal_comma=comma).si == grams
    assert mass_typed(None, "1,250 g").si == amount_typed(FOODS["apple"], "1,250 g").si == 1250.0
