"""What leaves the shelf when a meal is cooked, and what a bag's label says of its lots."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from dryhouse.desk.places.meals.wording import meal_page
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.cooking import draws_for, note_cooking
from dryhouse.kitchen.meals.meals import draft_part, find_meal, save_meal
from dryhouse.kitchen.meals.sheet import cooking_line, sheet_of
from dryhouse.kitchen.records import (
    Batch,
    CookingNote,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    Meal,
    Place,
    PlaceTemperature,
    Trip,
)
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.trips.trips import put_meal, save_trip
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Length, Mass, Temperature
from tests.fakes import FakeJournal
from tests.rows import every_row

DAY = date(2026, 8, 1)
LATER = date(2027, 6, 1)


def a_kitchen(*records) -> Kitchen:
    made = Kitchen(FakeJournal(*records), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
    save_meal(made, Meal("stew", 1.0), [draft_part(made, "carrot", "30 g"), draft_part(made, "couscous", "60 g")])
    return made


def lot(id: int, grams: float, keep_by: date = LATER) -> Lot:
    return Lot("carrot", date(2026, 7, 1), mass=Mass(grams), bought_keep_by=keep_by, origin="bought", id=id)


def drawn(kitchen: Kitchen, servings: float = 1.0) -> list[tuple[int, float]]:
    meal = find_meal(kitchen, "stew")
    return [(d.lot, d.mass.si) for d in draws_for(kitchen, meal, servings, DAY) if d.mass is not None]


def test_the_lot_that_goes_off_first_is_drawn_first_and_bought_staples_are_not_on_the_shelf() -> None:
    kitchen = a_kitchen(lot(1, 100.0), lot(2, 20.0, date(2026, 12, 1)))
    assert drawn(kitchen) == [(2, 20.0), (1, 10.0)]


def test_a_bought_staple_on_the_shelf_is_drawn_too_and_not_taken_for_the_same_food_dried_at_home() -> None:
    bag = Lot("couscous", DAY, mass=Mass(500.0), bought_keep_by=LATER, origin="bought", id=3)
    assert sorted(drawn(a_kitchen(lot(1, 100.0), bag))) == [(1, 30.0), (3, 60.0)]
    cooked_and_dried = replace(bag, origin="home", bought_keep_by=None)
    assert drawn(a_kitchen(lot(1, 100.0), cooked_and_dried)) == [(1, 30.0)]


def test_servings_scale_what_is_drawn_and_no_more_is_drawn_than_there_is() -> None:
    kitchen = a_kitchen(lot(1, 100.0))
    assert drawn(kitchen, 2.0) == [(1, 60.0)]
    assert drawn(kitchen, 9.0) == [(1, 100.0)]


def test_a_lot_past_its_date_or_to_be_looked_at_is_left_alone() -> None:
    moist = LotCheck(2, date(2026, 7, 20), moist=True, id=1)
    assert drawn(a_kitchen(lot(1, 100.0, date(2026, 7, 31)), lot(2, 100.0), moist)) == []


def test_water_of_meat_that_is_still_to_be_dried_is_never_said_as_if_it_were_known() -> None:
    jar = Lot("ground-beef", DAY, mass=Mass(90.0), bought_keep_by=LATER, origin="bought", id=1)
    parts = ("ground beef", "40 g"), ("carrot", "30 g")
    for records, waits in (((), ("ground beef, cooked",)), ((jar,), ())):
        kitchen = a_kitchen(*records)
        sheet = sheet_of(kitchen, Meal("m"), [draft_part(kitchen, *typed) for typed in parts])
        assert sheet.to_dry == waits
        said = [remark for remark in sheet.remarks if "general figure" in remark]
        assert [remark.partition(":")[0] for remark in said] == list(waits)
        assert meal_page(sheet, Style()).count("Water about ") == len(waits)


def test_what_leaves_the_shelf_is_said_and_comes_back_with_one_undo() -> None:
    kitchen = a_kitchen(lot(1, 100.0))
    meal = find_meal(kitchen, "stew")
    done = note_cooking(kitchen, CookingNote(meal.id, DAY, 2.0), draws=draws_for(kitchen, meal, 2.0, DAY))
    assert done.what == "Noted how stew came out; taken off the shelf: 2.1 oz of carrot (lot 1)"
    assert len(kitchen.journal.where(LotDraw)) == 1
    kitchen.journal.write(done.undone().changes)
    assert not kitchen.journal.where(LotDraw)
    assert not kitchen.journal.where(CookingNote)


@every_row(
    ("cooking", "said"),
    [
        ("no soak", "Simmer 15 min"),
        ("short soak", "Soak 20 min, simmer 8 min"),
        ("boil and rest", "Boil 2 min, rest 20 min well wrapped"),
        ("cold soak", "Soak 2 h in cold water kept at 40 °F (4 °C) or colder, no cooking"),
        ("no pot", "Eaten as it is, no cooking"),
    ],
)
def test_the_cooking_line_follows_how_the_meal_is_cooked(cooking: str, said: str) -> None:
    kitchen = a_kitchen()
    sheet = sheet_of(kitchen, Meal("m", cooking=cooking), [draft_part(kitchen, "carrot", "30 g")])
    assert cooking_line(sheet) == said


def test_a_note_from_beyond_the_boiling_table_is_refused() -> None:
    kitchen = a_kitchen()
    with pytest.raises(InputProblem, match="15,000 ft"):
        note_cooking(kitchen, CookingNote(1, DAY, altitude=Length(6000e3)))
    assert not kitchen.journal.where(CookingNote)


def turkey(*, heated: bool) -> tuple:
    """A batch of turkey, with or without its heating recorded, packed and kept cold."""
    how = {
        "precook_method": "simmered or steamed",
        "precook_temperature": Temperature(80.0),
        "precook_measured": "thermometer",
    }
    batch = Batch(
        "ground-turkey", prepared_mass=Mass(500.0), dried_mass=Mass(210.0), id=1, **(how if heated else {})
    )
    fridge = PlaceTemperature(1, datetime(2026, 6, 1, tzinfo=UTC), Temperature(-18.0), id=1)
    put = LotMove(1, 1, datetime(2026, 7, 30, 12, tzinfo=UTC), id=1)
    return (
        batch,
        Lot("ground-turkey", date(2026, 7, 30), batch=1, mass=Mass(210.0), id=1),
        Place("freezer", 1),
        fridge,
        put,
    )


def label_stops(*records) -> tuple[str, ...]:
    kitchen = a_kitchen(*records)
    save_meal(kitchen, Meal("turkey soup", 1.0), [draft_part(kitchen, "ground turkey", "30 g")])
    save_trip(kitchen, Trip("t", date(2026, 8, 2), date(2026, 8, 3), 2, None, Temperature(3.0)))
    put_meal(kitchen, 1, find_meal(kitchen, "turkey soup").id, date(2026, 8, 2))
    (label,) = bag_labels(plan(kitchen, 1), Style())
    return label.stops


def test_a_bag_of_meat_whose_heating_is_recorded_does_not_say_that_it_is_not() -> None:
    said = label_stops(*turkey(heated=True))
    assert not any("record of heating" in stop.casefold() for stop in said)


def test_a_bag_of_meat_still_to_be_dried_or_not_recorded_always_says_stop() -> None:
    for said in (label_stops(), label_stops(*turkey(heated=False))):
        assert any("record of heating" in stop.casefold() for stop in said)
