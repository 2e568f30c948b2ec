"""What the sums of a meal leave out is known sum by sum, and every surface says it beside the figure."""

from datetime import UTC, date, datetime

from dryhouse.cli.verbs.meal import _each
from dryhouse.cli.verbs.plan import plan_json
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.records import Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.quantities import Mass, Volume
from tests.fakes import FakeJournal

DAY = date(2026, 8, 20)
BAR = MealPart(1, 0, "bar", mass=Mass(50.0), label_energy_kcal=400.0, label_sodium_mg=200.0, id=1)
NORI = MealPart(1, 1, "nori", mass=Mass(5.0), label_sodium_mg=500.0, id=2)
SALT = MealPart(1, 2, "salt", staple="salt", id=3)
SAUCE = MealPart(1, 3, "sauce", volume=Volume(15.0), label_energy_kcal=100.0, id=4)


def made(*parts: MealPart) -> Kitchen:
    placed = TripMeal(1, 1, DAY, id=1)
    journal = FakeJournal(Meal("lunch", 1.0, "no pot", id=1), Trip("lakes", DAY, DAY, 1, id=1), placed, *parts)
    return Kitchen(journal, handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)


def test_each_sum_leaves_out_what_it_is_not_known_for_and_what_holds_none_is_not_missed() -> None:
    sums = meal_sheet(made(BAR, NORI, SALT), 1).serving
    assert sums.without("energy") == ("nori",)  # salt without an amount holds no energy in any
    assert sums.without("energy_per_gram") == ()  # the salt may weigh anything
    assert sums.without("sodium") == ("salt",)
    assert meal_sheet(made(BAR, NORI), 1).bag.without("energy_per_gram") == ("nori",)
    assert meal_sheet(made(BAR), 1).bag.without("energy") == ()
    assert meal_sheet(made(BAR, SAUCE), 1).bag.without("energy") == ("sauce",)


def test_the_command_line_says_it_beside_the_energy_of_a_meal_and_of_a_day() -> None:
    kitchen = made(BAR, NORI)
    # 50 g of a bar of 400 kcal a 100 g: 200 kcal; 100 + 25 mg of sodium are known of both
    said = _each(meal_sheet(kitchen, 1), style(kitchen))
    assert "energy at least 200 kcal (not known for nori), energy per gram at least" in said
    assert "sodium 125 mg" in said
    (day,) = plan_json(kitchen, plan(kitchen, 1))["days"]
    assert (day["energy_per_person"], day["energy_not_known_for"]) == (200.0, ["nori"])
    whole = made(BAR)
    assert "energy 200 kcal," in _each(meal_sheet(whole, 1), style(whole))
    assert plan_json(whole, plan(whole, 1))["days"][0]["energy_not_known_for"] == []


def test_the_label_of_a_bag_gives_at_least_what_is_known() -> None:
    kitchen = made(BAR, NORI)
    (label,) = bag_labels(plan(kitchen, 1), style(kitchen))
    assert label.lines[1].endswith(" · at least 200 kcal each")
    whole = made(BAR)
    assert bag_labels(plan(whole, 1), style(whole))[0].lines[1].endswith(" dry · 200 kcal each")
