"""What is known of a food while it is typed, and the everyday amount."""

from dryhouse.desk.places.yields.learned import Learned, everyday_amount
from dryhouse.kitchen.batches.log import BatchDraft, log_batch
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.yields.yields import DRIED, FRESH
from dryhouse.science.display import METRIC, US
from dryhouse.science.quantities import Mass
from tests.builders import a_kitchen


def test_a_food_is_gathered_once_and_anew_after_it_was_forgotten() -> None:
    kitchen = a_kitchen()
    learned, corn = Learned(kitchen), food(kitchen, "corn")
    before = learned.of(corn, "", "")
    assert learned.of(corn, "", "") is before
    log_batch(
        kitchen, BatchDraft(Batch("corn", prepared_mass=Mass(1000.0, "1 kg"), dried_mass=Mass(250.0, "250 g")))
    )
    assert learned.of(corn, "", "") is before
    learned.forget()
    assert before[0].own is None
    assert learned.of(corn, "", "")[0].own is not None


def test_an_animal_food_comes_with_its_cautions() -> None:
    kitchen = a_kitchen()
    assert "stop" in {c.severity for c in Learned(kitchen).of(food(kitchen, "turkey"), "", "")[1]}


def test_the_everyday_amount_is_a_cup_where_its_weight_is_known_else_a_pound_or_a_kilogram() -> None:
    kitchen = a_kitchen()
    corn, _ = Learned(kitchen).of(food(kitchen, "corn"), "", "")
    assert everyday_amount(corn, FRESH, US).typed == "1 cup"
    assert everyday_amount(corn, FRESH, METRIC).typed == "1 kg"
    apple, _ = Learned(kitchen).of(food(kitchen, "apple"), "", "")
    assert (apple.fresh, apple.dried) == (None, None)
    assert {everyday_amount(apple, way, US).typed for way in (FRESH, DRIED)} == {"1 lb"}
