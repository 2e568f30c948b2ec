"""Ingredients of meals and days of trips, judged among what they belong to."""

from dataclasses import replace
from datetime import date, timedelta

from dryhouse.kitchen.records import CookingNote, CookingNotePart, Lot, Meal, MealPart, Trip, TripMeal
from dryhouse.science.quantities import Length, Mass, Volume
from tests.kitchen.records.judging import fields, said
from tests.rows import every_row

DAY = date(2026, 8, 20)
MEAL = Meal("supper", id=1)
LOT = Lot("corn", DAY, id=1)
TRIP = Trip("circuit", DAY, DAY + timedelta(days=8), people=4, id=1)


@every_row(
    ("part", "wrong"),
    [
        (MealPart(1, 0, "sweet corn", food="corn"), []),
        (MealPart(1, 0, "turkey", food="turkey"), []),
        (MealPart(1, 0, "oyster mushroom", food="oyster-mushroom"), []),
        (MealPart(1, 0, "mushrooms, oyster", food="oyster-mushroom"), []),
        (MealPart(1, 0, "oyster mushroom slices", food="oyster-mushroom"), []),
        (MealPart(1, 0, "jamón", food="corn"), ["name"]),
        (MealPart(1, 0, "corn with duck fat", food="corn"), ["name"]),
        (MealPart(1, 0, "something dried"), []),
        (MealPart(1, 0, "Beef jerky", food="corn"), ["name"]),
        (MealPart(1, 0, "Beef jerky", staple="potato-flakes"), ["name"]),
        (MealPart(1, 0, "corn", food="corn", staple="potato-flakes"), ["name"]),
        (MealPart(1, 0, "rock", food="moon rock"), ["food"]),
        (MealPart(1, 0, "rock", staple="moon rock"), ["name"]),
        (MealPart(1, 0, "corn", food="corn", mass=Mass(5.0), volume=Volume(5.0)), ["amount"]),
        (MealPart(1, 0, "turkey", food="turkey", lot=1), ["lot"]),
        (MealPart(1, 0, "corn", food="corn", lot=8), ["lot"]),
        (MealPart(9, 0, "corn", food="corn"), ["meal"]),
    ],
)
def test_an_ingredient_is_one_thing_by_its_own_name(part, wrong):
    assert fields(part, MEAL, LOT) == wrong


def test_a_trip_ends_after_it_starts_and_some_day():
    assert fields(TRIP) == []
    assert fields(Trip("circuit", DAY, DAY - timedelta(days=1))) == ["ends_on"]
    assert fields(Trip("circuit", DAY, DAY + timedelta(days=4000))) == ["ends_on"]


def test_a_trip_goes_from_the_sea_up_to_where_boiling_points_are_published():
    assert fields(replace(TRIP, altitude=Length(0.0))) == []
    assert fields(replace(TRIP, altitude=Length(4572e3))) == []
    assert (
        fields(replace(TRIP, altitude=Length(4573e3)))
        == fields(replace(TRIP, altitude=Length(-1e3)))
        == ["altitude"]
    )


def test_a_meal_is_eaten_on_a_day_of_its_trip():
    assert fields(TripMeal(1, 1, DAY), TRIP, MEAL) == []
    assert fields(TripMeal(1, 1, DAY + timedelta(days=30)), TRIP, MEAL) == ["on"]
    assert fields(TripMeal(1, 1, DAY, servings=0.0), TRIP, MEAL) == ["servings"]
    assert fields(TripMeal(4, 1, DAY), TRIP, MEAL) == ["trip"]


def test_what_came_back_is_a_food_that_is_known():
    note = CookingNote(1, DAY, id=1)
    assert fields(CookingNotePart(1, "corn", "hard", "corn"), note) == []
    assert fields(CookingNotePart(1, "label", "hard"), note) == []
    assert fields(CookingNotePart(1, "rock", "hard", "moon rock"), note) == ["food"]


DISGUISED = "; its cautions would be lost."
UNKNOWN = "No food called “rock” is known: check the spelling, or add it as a food of your own."


@every_row(
    ("record", "told"),
    [
        (
            MealPart(1, 0, "corn", food="corn", staple="potato-flakes"),
            [("name", "An ingredient is either dried food or a bought staple, not both.")],
        ),
        (MealPart(1, 0, "Beef jerky", food="rock"), [("food", UNKNOWN)]),
        (MealPart(1, 0, "Beef jerky", staple="rock"), [("name", "No staple called “rock” is known.")]),
        (
            MealPart(1, 0, "Beef jerky", food="corn"),
            [
                (
                    "name",
                    "“Beef jerky” names food from an animal (beef strips for jerky), but stands for corn"
                    f"{DISGUISED}",
                )
            ],
        ),
        (
            MealPart(1, 0, "smoked duck", staple="potato-flakes"),
            [("name", f"“smoked duck” names food from an animal (duck), but stands for potato-flakes{DISGUISED}")],
        ),
        (MealPart(1, 0, "smoked duck"), []),
        (MealPart(1, 0, "smoked duck", staple="milk-nonfat-dry"), []),
        (
            MealPart(1, 0, "corn", food="corn", mass=Mass(5.0), volume=Volume(5.0)),
            [("amount", "Give the weight or the measure; the other follows from the bulk density.")],
        ),
        (MealPart(1, 0, "corn", food="corn", mass=Mass(5.0), lot=1), []),
        (MealPart(1, 0, "corn", food="corn", volume=Volume(5.0)), []),
        (
            MealPart(1, 0, "dark meat", food="turkey", lot=1),
            [("lot", "Lot 1 holds another food than dark meat.")],
        ),
        (replace(TRIP, ends_on=DAY), []),
        (
            replace(TRIP, ends_on=DAY - timedelta(days=1)),
            [("ends_on", "The trip ends before it starts; put the later day last.")],
        ),
        (replace(TRIP, ends_on=DAY + timedelta(days=399)), []),
        (
            replace(TRIP, ends_on=DAY + timedelta(days=400)),
            [("ends_on", "A trip lasts at most 400 days here.")],
        ),
        *((replace(TRIP, layovers=days), []) for days in ("", "1", "9", "3 6", "009")),
        *(
            (
                replace(TRIP, layovers=days),
                [("layovers", "Write layover days by their number, from 1 to 9, such as 3 6.")],
            )
            for days in ("0", "10", "3 10", "x", "-1", "0009", "3,6")
        ),
        (TripMeal(1, 1, DAY), []),
        (
            TripMeal(1, 1, DAY - timedelta(days=1)),
            [("on", "19 Aug 2026 is not a day of circuit (20 Aug 2026 to 28 Aug 2026).")],
        ),
        (TripMeal(1, 1, DAY + timedelta(days=8)), []),
        (
            TripMeal(1, 1, DAY + timedelta(days=9)),
            [("on", "29 Aug 2026 is not a day of circuit (20 Aug 2026 to 28 Aug 2026).")],
        ),
        (CookingNotePart(1, "rock", "hard", "rock"), [("food", UNKNOWN)]),
        (CookingNotePart(1, "rock", "hard"), []),
    ],
)
def test_what_cannot_be_of_a_meal_or_a_trip_is_refused_in_one_sentence(record, told):
    assert said(record, MEAL, LOT, TRIP, CookingNote(1, DAY, id=1)) == told


def test_spare_days_are_days_a_meal_may_be_eaten_on():
    spare = replace(TRIP, spare_days=2)
    assert fields(TripMeal(1, 1, DAY + timedelta(days=10)), MEAL, spare) == []
    assert fields(TripMeal(1, 1, DAY + timedelta(days=11)), MEAL, spare) == ["on"]
