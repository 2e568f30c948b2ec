"""Food that is as dry as its target before it is dried: one sentence says so, and no figure is heavier than it."""

from __future__ import annotations

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.handbook.yield_spread import water_with_range
from dryhouse.kitchen.batches.loads import dry_already
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.dryer.drying import start_batch
from dryhouse.kitchen.dryer.run_words import run_lines
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, OwnFigure, OwnFood
from dryhouse.kitchen.trips.shopping import bought_as, forms_of
from dryhouse.kitchen.yields.quick_answers import dry_already_words, target
from dryhouse.kitchen.yields.yields import DRIED, FRESH, yields
from dryhouse.science.display import METRIC, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from dryhouse.words.messages import problem_sentence
from tests.builders import NOW, a_kitchen
from tests.fakes import FakeJournal
from tests.rows import every_row

FOODS = handbook().foods
G = Style(METRIC)
HALF_KILO = Mass(500.0, "500 g")


@pytest.fixture
def kitchen() -> Kitchen:
    return Kitchen(FakeJournal(), handbook(), lambda: NOW)


def with_both() -> list[str]:
    """Every food whose water and target are known."""
    return [slug for slug, food in FOODS.items() if food.fact("water") and food.fact("target_moisture")]


@every_row("slug", with_both())
def test_no_target_weight_is_above_its_load_and_what_may_be_dry_already_is_said_to_be(slug, kitchen) -> None:
    figure, food = target(kitchen, slug, "500 g"), FOODS[slug]
    assert figure.low <= figure.value <= figure.high <= 500.0
    driest, wanted = water_with_range(food, food.fact("water")).low, food.fact("target_moisture").value
    assert (dry_already_words(kitchen, slug) != "") == (driest <= wanted), "the drier of what is bought"
    for direction, more in ((FRESH, 1.0), (DRIED, -1.0)):
        answer = yields(kitchen, slug, HALF_KILO, direction).joined
        assert more * answer.value <= more * 500.0
        assert more * (answer.high if direction == FRESH else answer.low) <= more * 500.0 + 1e-6


def test_a_date_may_be_as_dry_as_its_target_and_is_bought_so(kitchen) -> None:
    said = dry_already(FOODS["date"], G)
    assert said == "It may be as dry as its target already (20.5 % moisture, target 20 %): feel a piece first."
    assert bought_as(kitchen, FOODS["date"]) == "dried"
    assert forms_of(FOODS["apple"])[0] == "fresh"


def raisins() -> Kitchen:
    """A food of her own that is sold dry: 15 % moisture."""
    like = OwnFood("raisins", "raisins", "fruit", like="apple", contains="plant", id=1)
    return a_kitchen(like, OwnFigure("raisins", "water", 15.0, "% wet basis", id=1))


def test_what_is_drier_than_its_target_is_not_told_a_weight_to_dry_to() -> None:
    kitchen = raisins()
    words = "It is as dry as its target already (15 % moisture, target 20 %): there is nothing to dry off."
    for ask in (lambda: target(kitchen, "raisins", "500 g"), lambda: yields(kitchen, "raisins", HALF_KILO)):
        with pytest.raises(InputProblem) as caught:
            ask()
        assert problem_sentence(caught.value) == words


def test_a_load_that_is_dry_already_is_told_so_on_the_dryer_and_on_its_card() -> None:
    kitchen = a_kitchen()
    start_batch(kitchen, Batch("apple", prepared_mass=HALF_KILO, start_moisture_pct=15.0))
    run = run_of(kitchen, 1)
    said = "It is as dry as its target already (15 % moisture, target 20 %): there is nothing to dry off."
    assert said in run.asks
    assert "Loaded 500 g, dry at 500 g" in list(run_lines(kitchen, run, G))
    card = batch_card(kitchen, 1)
    assert said in card.sentences
    assert all(f.figure.value <= 500.0 for f in card.figures if f.figure.unit == "g")


def test_a_load_that_is_plainly_moist_is_not_spoken_of() -> None:
    kitchen = a_kitchen()
    start_batch(kitchen, Batch("apple", prepared_mass=HALF_KILO, start_moisture_pct=60.0))
    assert run_of(kitchen, 1).asks == ()
    assert batch_card(kitchen, 1).sentences == ()
