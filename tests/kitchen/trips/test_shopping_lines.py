"""Each line of the shopping list whole: its name, form, amount, what it is rounded to, pieces, aisle and note."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import Lot, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.trips.shopping import Buy, bought_as, buy_as, forms_of, tick, ticked
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from tests.fakes import FakeJournal
from tests.rows import every_row
from tests.workings import read

DAY = date(2026, 9, 20)


def a_kitchen(
    *parts: tuple[str, str, float | None], more: tuple[Record, ...] = (), units: str = "metric"
) -> Kitchen:
    """A meal of these parts, `(name, staple or food, grams)`, eaten on two days by one."""
    every = handbook()
    made = [
        MealPart(
            1,
            n,
            name,
            "" if what not in every.foods or what == "rice-white" else what,
            what if what not in every.foods or what == "rice-white" else "",
            mass=None if grams is None else Mass(grams),
            id=n + 1,
        )
        for n, (name, what, grams) in enumerate(parts)
    ]
    eaten = [TripMeal(1, 1, DAY + timedelta(days=n), id=n + 1) for n in range(2)]
    journal = FakeJournal(
        Meal("stew", 1.0, id=1), *made, Trip("lakes", DAY, DAY + timedelta(1), 1, id=1), *eaten, *more
    )
    kitchen = Kitchen(journal, every, lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
    set_preference(kitchen, UNITS_KEY, units)
    return kitchen


def lines(kitchen: Kitchen) -> dict[str, Buy]:
    return {line.key: line for line in plan(kitchen, 1).shopping}


@every_row(
    ("food", "forms"),
    [
        ("carrot", ("fresh", "ready", "frozen", "canned", "dried")),
        ("apple", ("fresh", "ready", "frozen", "canned", "dried")),
        ("shiitake", ("fresh", "ready", "frozen", "canned", "dried")),
        ("basil", ("fresh", "ready", "dried")),
        ("egg", ("fresh", "ready", "dried")),
        ("lentil", ("raw", "canned", "dried")),
        ("turkey", ("raw", "cooked", "dried")),
        ("barley", ("raw", "cooked", "dried")),
        ("date", ("dried", "fresh", "ready")),
    ],
)
def test_a_food_is_bought_in_the_forms_it_comes_in_the_usual_one_first(food: str, forms: tuple[str, ...]) -> None:
    known, kitchen = handbook().food(food), a_kitchen()
    assert known is not None
    assert forms_of(known) == forms
    assert bought_as(kitchen, known) == forms[0]
    buy_as(kitchen, food, forms[-1])
    assert bought_as(kitchen, known) == forms[-1]
    with pytest.raises(InputProblem) as caught:
        buy_as(kitchen, food, "stolen")
    said = f"“stolen” is no form that {known.name} is bought in; choose {', '.join(forms)}."
    assert (caught.value.said, caught.value.field) == (said, "buy")


def test_a_bought_thing_is_one_line_of_all_bags_rounded_up_to_what_the_aisle_sells() -> None:
    """70 g and 30 g a serving, two servings: 200 g. Dry goods are sold by the quarter pound or by 125 g, oil and
    seasoning by the ounce or by 25 g."""
    kitchen = a_kitchen(("rice", "rice-white", 70.0), ("rice", "rice-white", 30.0), ("salt", "salt", 10.0))
    rice, salt = lines(kitchen)["rice-white"], lines(kitchen)["salt"]
    assert (rice.name, rice.aisle, rice.note, rice.for_drying, rice.ticked, rice.animal) == (
        "rice",
        "Dry goods",
        "",
        False,
        False,
        False,
    )
    assert rice.amount is not None
    assert rice.to_buy is not None
    assert (rice.amount.value, rice.to_buy.value, rice.pieces, rice.form, rice.forms) == (200.0, 250.0, "", "", ())
    assert read(rice.amount.workings) == "4 bags, together 200 g"
    assert salt.to_buy is not None
    assert (salt.amount and salt.amount.value, salt.to_buy.value, salt.aisle) == (20.0, 25.0, "Oil and seasoning")
    us = lines(a_kitchen(("rice", "rice-white", 70.0), units="us"))["rice-white"]
    assert us.to_buy is not None
    assert us.to_buy.value == pytest.approx(2 * 113.398, abs=0.01)


@every_row(("grams", "bought"), [(62.5, 125.0), (62.6, 250.0), (125.0, 250.0)])
def test_an_amount_that_is_what_shops_sell_is_not_rounded_further(grams: float, bought: float) -> None:
    line = lines(a_kitchen(("rice", "rice-white", grams)))["rice-white"]
    assert line.to_buy is not None
    assert line.to_buy.value == bought


def test_what_the_meals_call_by_two_names_is_called_as_the_handbook_does() -> None:
    kitchen = a_kitchen(("rice", "rice-white", 70.0), ("grains", "rice-white", 30.0), ("sauce", "", 5.0))
    assert lines(kitchen)["rice-white"].name == "rice, white, long-grain"
    assert (lines(kitchen)["sauce"].name, lines(kitchen)["sauce"].aisle) == ("sauce", "Dry goods")


def jar(grams: float) -> Lot:
    return Lot(
        "rice-white", date(2026, 7, 1), mass=Mass(grams), bought_keep_by=date(2027, 6, 1), origin="bought", id=7
    )


@every_row(
    ("shelved", "left", "told"),
    [(50.0, 90.0, "50 g"), (139.4, 0.6, "140 g"), (139.5, None, ""), (140.0, None, ""), (500.0, None, "")],
)
def test_what_the_shelf_gives_is_not_bought_and_half_a_gram_is_nothing(
    shelved: float, left: float | None, told: str
) -> None:
    kitchen = a_kitchen(("rice", "rice-white", 70.0), more=(jar(shelved),))
    found = lines(kitchen).get("rice-white")
    if left is None:
        assert found is None
        return
    assert found is not None
    assert found.amount is not None
    assert found.amount.value == pytest.approx(left)
    assert found.note == f"{told} more is on the shelf"
    assert f"The shelf gives {shelved:g} g; {left:g} g short" in read(found.amount.workings)


def test_what_has_a_weight_only_here_and_there_says_so() -> None:
    kitchen = a_kitchen(
        ("sauce", "", 30.0),
        ("sauce", "", None),
        ("rice", "rice-white", 70.0),
        ("rice", "rice-white", None),
        more=(jar(40.0),),
    )
    found = lines(kitchen)
    assert (found["sauce"].note, found["sauce"].amount and found["sauce"].amount.value) == (
        "some of it without a weight",
        60.0,
    )
    assert found["rice-white"].note == "some of it without a weight; 40 g more is on the shelf"
    nothing = lines(a_kitchen(("sauce", "", None)))["sauce"]
    assert (nothing.amount, nothing.to_buy, nothing.note) == (None, None, "by measure; its weight is not known")


def test_what_is_known_by_measure_is_bought_by_measure() -> None:
    kitchen = a_kitchen(("rice", "rice-white", 70.0))
    kitchen.journal.write([])
    sauce = MealPart(1, 9, "sauce", volume=Volume(30.0), id=90)
    found = lines(a_kitchen(("rice", "rice-white", 70.0), more=(sauce,)))["sauce"]
    assert found.amount is not None
    assert found.to_buy == found.amount
    assert (found.amount.value, found.amount.unit) == (60.0, "ml")


def test_what_is_dried_is_bought_whole_in_pieces_and_what_is_cut_without() -> None:
    """Carrots dry 8 to 1 or so; a medium one weighs 61 g prepared."""
    kitchen = a_kitchen(("carrot", "carrot", 50.0))
    (item,) = plan(kitchen, 1).items
    assert item.prepared is not None
    assert item.purchased is not None
    line = lines(kitchen)["dry carrot"]
    pieces = -(-item.prepared.value // 61.0)
    assert (line.name, line.form, line.aisle, line.for_drying) == ("carrot", "fresh", "Produce", True)
    assert (line.pieces, line.amount) == (f"about {pieces:.0f} medium", item.purchased)
    assert line.note == "as purchased; not all of it can be dried in time"  # there is no dryer
    assert line.cautions == item.cautions
    buy_as(kitchen, "carrot", "canned")
    canned = lines(kitchen)["dry carrot"]
    assert (canned.pieces, canned.aisle, canned.amount) == ("", "Canned", item.prepared)
    assert canned.note == "canned, weighed drained; not all of it can be dried in time"


def test_what_is_bought_dried_is_bought_by_its_dried_weight() -> None:
    kitchen = a_kitchen(("carrot", "carrot", 50.0))
    buy_as(kitchen, "carrot", "dried")
    line = lines(kitchen)["dry carrot"]
    assert (line.name, line.for_drying, line.aisle, line.note) == (
        "carrot",
        False,
        "Dried fruit and nuts",
        "bought dried",
    )
    assert line.amount is not None
    assert read(line.amount.workings) == "Eaten on the trip: 100 g dried"


def test_ticks_are_of_one_trip_and_each_line_by_itself() -> None:
    kitchen = a_kitchen(("rice", "rice-white", 70.0), ("salt", "salt", 10.0))
    assert ticked(kitchen, 1) == frozenset()
    tick(kitchen, 1, "salt", True)
    tick(kitchen, 2, "rice-white", True)
    assert {key: line.ticked for key, line in lines(kitchen).items()} == {"rice-white": False, "salt": True}
    tick(kitchen, 1, "rice-white", False)
    tick(kitchen, 1, "salt", False)
    assert (ticked(kitchen, 1), ticked(kitchen, 2)) == (frozenset(), {"rice-white"})
