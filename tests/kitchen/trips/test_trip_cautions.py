"""A trip says its cautions: of each bag as it travels, of what is bought to be dried, of the whole plan."""

from __future__ import annotations

from datetime import timedelta

from dryhouse.cli.verbs.plan import _to_pack
from dryhouse.desk.places.meals.wording import packing_page
from dryhouse.kitchen.cautions.cautions import lot_cautions
from dryhouse.kitchen.meals.drawn import from_the_shelf
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.sheet import cooking_line, meal_sheet
from dryhouse.kitchen.meals.swaps import preview_swap
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import BatchPart, Lot, Meal, MealPart, OwnFood, Trip, TripMeal, TripPerson
from dryhouse.kitchen.shelf.shelf import keep_by_figure
from dryhouse.kitchen.trips.bag_cautions import bag_cautions
from dryhouse.kitchen.trips.bag_holds import bag_holds
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.display import Style
from dryhouse.science.provisioning import Cover, Draw, Need
from dryhouse.science.quantities import Mass, Temperature
from tests.kitchen.shelf_room import FREEZER, HEATED, TODAY, a_batch, a_shelf, packed
from tests.rows import every_row


def stops(cautions):
    return {c.rule for c in cautions if c.severity == "stop"}


def a_trip(food, *, celsius=None, cooking="short soak", jar=True, grams=50.0, **batch):
    """A pot of one food on the third day from now, of a jar in the freezer where there is one."""
    starts = TODAY + timedelta(days=2)
    warmth = None if celsius is None else Temperature(celsius)
    kitchen = a_shelf(
        *([a_batch(food, **batch)] if jar else []),
        Meal("pot", cooking=cooking, id=1),
        MealPart(1, 0, food, food, mass=Mass(grams), id=1),
        Trip("lakes", starts, starts + timedelta(days=3), 1, temperature=warmth, id=1),
        TripMeal(1, 1, starts, id=1),
    )
    if jar:
        packed(kitchen, place=FREEZER)
    return kitchen


@every_row("celsius", [30.0, 36.0, None])
def test_a_bag_is_judged_where_it_travels_and_not_where_its_jar_stands(celsius):
    kitchen = a_trip("turkey", celsius=celsius, **HEATED)
    worked = plan(kitchen, 1)
    assert stops(meal_sheet(kitchen, 1).cautions) == set()
    (bag,) = worked.bags
    assert "meat-room-limit" in stops(bag.cautions)
    assert bag.cautions == bag_cautions(kitchen, worked.trip, worked.cover, worked.sheet.days[0].meals[0])
    assert "meat-room-limit" in stops(worked.cautions)
    (label,) = bag_labels(worked, Style())
    assert any("14 days" in stop for stop in label.stops)


def test_in_the_heat_a_soak_has_one_hour():
    hot, mild = (plan(a_trip("carrot", celsius=c, cooking="cold soak"), 1) for c in (36.0, 25.0))
    assert stops(hot.bags[0].cautions) >= {"soak-one-hour-hot", "soak-two-hours"}
    assert stops(mild.bags[0].cautions) == {"soak-two-hours"}
    for worked in (hot, mild):
        assert worked.bags[0].cooking == "Soak 2 h in cold water kept at 40 °F (4 °C) or colder, no cooking"


@every_row("food", ["turkey", "kidney-bean", "shiitake", "salmon", "egg"])
def test_no_list_tells_to_soak_cold_what_must_not_be(food):
    kitchen = a_trip(food, celsius=20.0, cooking="cold soak", jar=False)
    worked = plan(kitchen, 1)
    (label,) = bag_labels(worked, Style())
    (bag,) = worked.bags
    for line in (cooking_line(meal_sheet(kitchen, 1)), *([bag.cooking] if bag.cooking else [])):
        assert line.startswith("Not as a cold soak. ")
        assert "no cooking" not in line
    assert not any("no cooking" in line for line in label.lines)


@every_row(("food", "jar"), [("turkey", False), ("egg", False), ("turkey", True)])
def test_a_bag_that_must_not_be_eaten_has_no_water_and_no_minutes_on_any_list(food, jar):
    worked = plan(a_trip(food, celsius=20.0, jar=jar), 1)
    (bag,) = worked.bags
    assert any(c.forbids_eating for c in bag.cautions)
    assert (bag.water, bag.soak_minutes, bag.cook_minutes, bag.cooking) == (None, None, None, "")
    assert [part.water for part in bag.parts] == [None]
    for told in (packing_page(worked, Style()), " ".join(_to_pack(worked, Style()))):
        assert "do not eat" in told
        assert "ater" not in told.split("STOP")[0].split("Stop:")[0]
    (label,) = bag_labels(worked, Style())
    assert not any(line.startswith("Water") for line in label.lines)


def test_a_bag_that_may_be_eaten_has_its_water_on_every_list():
    worked = plan(a_trip("turkey", celsius=20.0, **HEATED), 1)
    (bag,) = worked.bags
    assert bag.water is not None
    said = Style().volume(bag.water.value)
    for told in (packing_page(worked, Style()), " ".join(_to_pack(worked, Style()))):
        assert said in told
        assert bag.cooking.lower() in told.lower()


def test_what_is_bought_to_be_dried_carries_its_stops():
    worked = plan(a_trip("egg", jar=False), 1)
    (buy,) = worked.shopping
    assert "egg-not-at-home" in stops(buy.cautions)
    assert "egg-not-at-home" in stops(worked.items[0].cautions)
    assert "egg-not-at-home" in stops(worked.cautions)


def test_a_meal_is_judged_by_the_lots_that_would_be_drawn_and_by_none_where_they_do_not_reach():
    kitchen = a_trip("turkey", **HEATED)
    assert "heat-poultry-missing" not in stops(meal_sheet(kitchen, 1).cautions)
    lines = meal_sheet(kitchen, 1).parts
    assert [part.lot for part in from_the_shelf(Pantry(kitchen), lines)] == [1]
    kitchen = a_trip("turkey", grams=400.0, **HEATED)
    assert "heat-poultry-missing" in stops(meal_sheet(kitchen, 1).cautions)
    lines = meal_sheet(kitchen, 1).parts
    assert [part.lot for part in from_the_shelf(Pantry(kitchen), lines)] == [1, None]
    assert "heat-poultry-missing" in stops(meal_sheet(a_trip("turkey"), 1).cautions)


def test_a_swap_brings_the_cautions_of_what_comes_and_takes_those_of_what_goes():
    there = preview_swap(a_trip("carrot", jar=False), 1, "turkey")
    before, after = ({c.rule for c in sheet.cautions} for sheet in (there.before, there.after))
    assert {"heat-poultry-missing", "heat-to-165"} <= after - before
    back = preview_swap(a_trip("turkey", jar=False), 1, "carrot")
    before, after = ({c.rule for c in sheet.cautions} for sheet in (back.before, back.after))
    assert {"heat-poultry-missing", "heat-to-165"} <= before - after


def test_the_days_left_of_a_jar_carry_its_cautions():
    kitchen = a_trip("turkey", **HEATED)
    (lot,) = kitchen.journal.where(Lot)
    figure = keep_by_figure(kitchen, lot)
    assert figure is not None
    assert figure.cautions == lot_cautions(kitchen, lot) != ()


def test_somebody_at_risk_may_eat_meat_that_was_heated_and_nobody_else_is_told():
    bow = TripPerson(1, "bow", at_risk=True, id=1)
    for more, jar, told in (((bow,), HEATED, False), ((bow,), {}, True), ((), {}, False)):
        kitchen = a_trip("turkey", celsius=3.0, **jar)
        kitchen.journal.write([Change(None, person) for person in more])
        worked = plan(kitchen, 1)
        assert "heat-to-165" in {caution.rule for caution in worked.bags[0].cautions}
        assert any("at risk" in remark for remark in worked.remarks) is told


def drawn(eaten, food, *lots):
    """A bag drawn from these lots, 50 g each."""
    need = Need(eaten.placed.on, food, 50.0, bag=eaten.placed.id)
    return [Draw(lot, need, 50.0) for lot in lots]


def test_each_bag_is_judged_and_named_by_its_own_lots():
    """The first bag draws on what was heated and holds tofu, the second on what was not and holds carrot."""
    stew = OwnFood("stew", "stew", "mixed", contains="plant", id=1)
    inside = [BatchPart(3, 0, "tofu", Mass(9.0), id=1), BatchPart(4, 0, "carrot", Mass(9.0), id=2)]
    starts = TODAY + timedelta(days=2)
    kitchen = a_shelf(
        stew,
        a_batch("turkey", 1, **HEATED),
        a_batch("turkey", 2),
        a_batch("stew", 3),
        a_batch("stew", 4),
        *inside,
        Meal("pot", id=1),
        MealPart(1, 0, "turkey", "turkey", mass=Mass(50.0), id=1),
        MealPart(1, 1, "stew", "stew", mass=Mass(50.0), id=2),
        Trip("lakes", starts, starts + timedelta(days=1), 1, temperature=Temperature(3.0), id=1),
        *(TripMeal(1, 1, starts + timedelta(days=n), id=n + 1) for n in range(2)),
    )
    lots = [packed(kitchen, batch, FREEZER).id for batch in (1, 2, 3, 4)]
    assert lots == [1, 2, 3, 4]
    sheet = plan(kitchen, 1).sheet
    first, second = (eaten for day in sheet.days for eaten in day.meals)
    given = ((first, "turkey", 1), (first, "stew", 3), (second, "turkey", 2), (second, "stew", 4))
    draws = tuple(draw for eaten, food, lot in given for draw in drawn(eaten, food, lot))
    cover = Cover(draws, ())
    missing = "heat-poultry-missing"
    assert missing not in stops(bag_cautions(kitchen, sheet.trip, cover, first))
    assert missing in stops(bag_cautions(kitchen, sheet.trip, cover, second))
    assert bag_holds(kitchen, cover, first).ingredients[1] == "stew (firm tofu)"
    assert bag_holds(kitchen, cover, second).ingredients[1] == "stew (carrot)"
    assert bag_holds(kitchen, Cover((), ()), first).unknown == ("stew",)
    waiting = Cover(tuple(drawn(first, "turkey", -1)), ())
    assert missing in stops(bag_cautions(kitchen, sheet.trip, waiting, first)), (
        "what is on the dryer is not recorded"
    )
