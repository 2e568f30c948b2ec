"""Which foods may share a dryer."""

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.sharing import company_of, sharing
from dryhouse.handbook.tables import CATEGORIES


def test_every_category_is_spoken_of_and_every_row_is_marked_as_practice():
    assert set(CATEGORIES) <= set(sharing())
    assert {rule.how for rule in sharing().values()} == {"common practice"}


def test_no_food_from_an_animal_keeps_company_with_a_plant():
    foods = load_foods().values()
    animal = {company_of(food) for food in foods if food.animal} - {""}
    plants = {company_of(food) for food in foods if not food.animal} - {""}
    assert animal
    assert not animal & plants


def test_onions_scent_what_lies_beside_them_and_so_keep_to_their_kin():
    foods = load_foods()
    kin = {company_of(foods[slug]) for slug in ("onion", "garlic", "leek", "shallot")}
    assert len(kin) == 1
    assert not any(
        company_of(f) in kin for f in foods.values() if f.slug in ("carrot", "celery", "mushroom", "apple")
    )


def test_company_is_kept_at_one_heat_only():
    for food in load_foods().values():
        heat = food.fact("drying_temperature")
        assert company_of(food) == "" or (heat is not None and f"{heat.value:.0f} °C" in company_of(food))
