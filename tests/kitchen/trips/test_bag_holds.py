"""What a bag says of its inside: on the packing list, on its label, and to who asks by a script."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

from dryhouse.cli.verbs.plan import plan_json
from dryhouse.desk.places.meals.wording import packing_page
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart, Lot, Meal, MealPart, OwnFood, Trip, TripMeal, TripPerson
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.display import Style
from dryhouse.science.quantities import Mass, Temperature
from tests.fakes import FakeJournal
from tests.rows import every_row

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 8, 20)


def a_kitchen(parts, *more):
    """A meal of these parts, `(name, food, staple, grams)` each, eaten once."""
    journal = FakeJournal(
        Meal("stew", 1.0, id=1),
        *(
            MealPart(1, n, name, food, staple, mass=None if grams is None else Mass(grams), id=n + 1)
            for n, (name, food, staple, grams) in enumerate(parts)
        ),
        Trip("lakes", DAY, DAY + timedelta(days=1), 1, temperature=Temperature(18.0), id=1),
        TripMeal(1, 1, DAY, id=1),
        *more,
    )
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def inside(parts, *more):
    (bag,) = plan(a_kitchen(parts, *more), 1).bags
    return bag.inside


@every_row(
    ("parts", "said"),
    [
        ([("carrot", "carrot", "", 30)], "Allergens: none known by name."),
        ([("pasta", "", "pasta-elbows", 80)], "Contains wheat."),
        (
            [("milk", "", "milk-whole-dry", 9), ("pasta", "", "egg-noodles", 80)],
            "Contains milk, egg, wheat.",
        ),
        ([("pearl barley", "barley", "", 50)], "Contains gluten."),
        ([("stock", "", "bouillon-beef", 4)], "Allergens: none known by name. Read the label of stock."),
        ([("peanut sauce", "", "", 20)], "Contains peanut. Read the label of peanut sauce."),
        ([("cheese powder", "", "", 20)], "Contains milk. Read the label of cheese powder."),
        ([("chili", "chili-meat", "", 60)], "Allergens: none known by name. What is in chili is not recorded."),
    ],
)
def test_allergens_and_what_is_not_known_are_said(parts, said):
    assert inside(parts)[1] == said


def test_the_heaviest_ingredient_comes_first_and_what_has_no_weight_last():
    parts = [("salt", "", "salt", None), ("onion", "onion", "", 5), ("lentil", "lentil", "", 60)]
    assert inside(parts)[0] == "Ingredients: lentil, onion, salt"


def test_a_pot_that_was_dried_whole_says_what_was_recorded_in_it():
    pot = Batch("vegetable-stew", prepared_mass=Mass(900.0), dried_mass=Mass(150.0), started=NOW, id=1)
    recorded = [BatchPart(1, 1, "tofu", Mass(300.0), id=1), BatchPart(1, 2, "carrot", Mass(600.0), id=2)]
    jar = Lot("vegetable-stew", DAY - timedelta(days=20), batch=1, mass=Mass(150.0), sealed=True, id=1)
    kitchen = a_kitchen([("camp stew", "vegetable-stew", "", 60)], pot, *recorded, jar)
    kitchen.journal.kept[MealPart][1] = replace(kitchen.journal.get(MealPart, 1), lot=1)
    (bag,) = plan(kitchen, 1).bags
    assert bag.inside == ("Ingredients: camp stew (firm tofu, carrot)", "Contains soy.")


def test_it_stands_on_the_label_on_the_packing_list_and_in_json():
    worked = plan(kitchen := a_kitchen([("couscous", "", "couscous", 90), ("onion", "onion", "", 5)]), 1)
    (label,) = bag_labels(worked, Style())
    assert label.lines[-2:] == ("Ingredients: couscous, onion", "Contains wheat.")
    page = packing_page(worked, Style())
    assert "Contains wheat." in page
    (bag,) = plan_json(kitchen, worked)["packing"]
    assert (bag["ingredients"], bag["allergens"]) == (["couscous", "onion"], ["wheat"])
    assert (bag["allergens_on_labels"], bag["contents_unknown"]) == ([], [])


@every_row(
    ("avoids", "part", "said"),
    [
        ("wheat", ("noodles", "", "pasta-elbows"), "does not eat noodles"),
        ("gluten", ("grain", "barley", ""), "does not eat grain"),
        ("soy", ("crumble", "", "soy-crumble"), "does not eat crumble"),
        ("vegetarian", ("stock", "", "bouillon-chicken"), "does not eat stock"),
        ("milk", ("stock", "", "bouillon-low-sodium"), "Read the label"),
        ("onion", ("stock", "", "bouillon-low-sodium"), ""),
        ("milk", ("grain", "rice-white", ""), ""),
    ],
)
def test_who_avoids_it_is_told(avoids, part, said):
    worked = plan(a_kitchen([(*part, 20)], TripPerson(1, "bow", avoids=avoids, id=1)), 1)
    told = [remark for remark in worked.remarks if remark.startswith("Bow")]
    assert any(said in remark for remark in told) if said else not told


def test_a_food_of_her_own_that_nobody_knows_is_said_to_be_unknown():
    own = OwnFood("patties", "patties", "unknown", id=1)
    assert inside([("patties", "patties", "", 30)], own)[1].endswith("What is in patties is not recorded.")
