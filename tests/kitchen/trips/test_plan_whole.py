"""What a plan comes to beside its calendar: each food to dry, its batches, its power, and what is told of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change, Record
from dryhouse.kitchen.records import Batch, Dryer, Lot, Meal, MealPart, OwnFood, Trip, TripMeal
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.kitchen.trips.plan_rows import buy_rows, meal_rows, run_rows
from dryhouse.kitchen.trips.provisioning import plan, plan_batches
from dryhouse.science.display import METRIC, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Area, Mass, Temperature, Volume
from tests.fakes import FakeJournal
from tests.rows import every_row
from tests.workings import read

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY1 = date(2026, 8, 20)
DAY2, DAY3 = DAY1 + timedelta(days=1), DAY1 + timedelta(days=2)
DRYER = Dryer("shelf dryer", 6, Area(1000.0), 500.0, id=1)
TRIP = Trip("lakes", DAY1, DAY3, 2, 2500.0, Temperature(18.0), id=1)
METRES = Style(METRIC)


def bought(id: int, food: str, grams: float) -> Lot:
    return Lot(food, date(2026, 7, 1), mass=Mass(grams), bought_keep_by=date(2027, 6, 1), origin="bought", id=id)


def a_kitchen(*more: Record, trip: Trip = TRIP, dryer: Dryer | None = DRYER, zone: object = UTC) -> Kitchen:
    """Two people eat 30 g of dried carrot each on the first and the third day, 20 g of corn on the second."""
    journal = FakeJournal(
        *([dryer] if dryer else []),
        trip,
        Meal("stew", 1.0, liquid="dry", id=1),
        MealPart(1, 0, "carrot", "carrot", mass=Mass(30.0), id=1),
        Meal("chili", 1.0, liquid="dry", id=2),
        MealPart(2, 0, "corn", "corn", mass=Mass(20.0), id=2),
        TripMeal(1, 1, DAY1, id=1),
        TripMeal(1, 2, DAY2, id=2),
        TripMeal(1, 1, DAY3, id=3),
        *more,
    )
    made = Kitchen(journal, handbook(), lambda: NOW, zone)  # type: ignore[arg-type]
    set_preference(made, UNITS_KEY, "metric")
    return made


def test_a_food_to_dry_says_what_is_eaten_what_the_shelf_gives_and_the_margin_on_top() -> None:
    """120 g of carrot eaten; a fifth may spoil, so of 20 g there 16 count: 104 g short, 104 ÷ 0.8 = 130 g."""
    kitchen = a_kitchen(
        bought(1, "carrot", 20.0), bought(2, "corn", 100.0), trip=replace(TRIP, spoilage_margin_pct=20.0)
    )
    found = plan(kitchen, 1)
    (item,) = found.items
    assert (item.food, item.name, item.animal, item.conditioning_days) == ("carrot", "carrot", False, 0)
    assert (item.needed, item.shelved, item.dried.value, item.left_over) == pytest.approx((120.0, 16.0, 130.0, 0.0))
    assert read(item.dried.workings) == (
        "Eaten on the trip: 120 g dried\nThe shelf gives 16 g; 104 g short\nMargin 20 %: 104 g ÷ (1 − 20 %) = 130 g"
    )
    assert item.prepared is not None
    assert item.prepared.basis == item.dried.basis != ()
    *ratio, prepared = read(item.prepared.workings).splitlines()
    assert prepared.startswith("Prepared: 130 g × ")
    assert ratio, "how it yields is said before"
    assert (item.prepared.low or 0) < item.prepared.value < (item.prepared.high or 0)
    (run,) = found.calendar.runs
    (load,) = run.loads
    assert item.latest_start == run.latest == found.latest_start
    assert (load.dried, load.prepared) == pytest.approx((130.0, item.prepared.value))
    # half a kilowatt for its hours
    assert found.kwh == pytest.approx(0.5 * (run.end - run.start).total_seconds() / 3600)
    assert found.cautions_of("carrot") == item.cautions
    assert found.cautions_of("corn") == ()


def test_without_a_margin_none_is_worked_and_without_watts_no_power_is_told() -> None:
    kitchen = a_kitchen(bought(2, "corn", 100.0), dryer=replace(DRYER, watts=None))
    found = plan(kitchen, 1)
    (item,) = found.items
    assert read(item.dried.workings) == "Eaten on the trip: 120 g dried\nThe shelf gives 0 g; 120 g short"
    assert found.calendar.runs
    assert found.kwh is None
    assert plan(a_kitchen(bought(1, "carrot", 200.0), bought(2, "corn", 100.0)), 1).kwh is None


def test_what_the_dryer_does_not_hold_in_time_is_left_over() -> None:
    """Time for the first of two bags of 60 g; the other is not begun."""
    small = replace(DRYER, trays=1, tray_area=Area(100.0))  # one tray of 40 g
    found = plan(a_kitchen(bought(2, "corn", 100.0), dryer=small), 1)
    (item,) = found.items
    loaded = sum(load.dried for run in found.calendar.runs for load in run.loads)
    assert (item.dried.value, loaded, item.left_over) == pytest.approx((120.0, 60.0, 60.0))
    assert len(item.loads) == len(found.calendar.runs)
    assert item.loads[-1].startswith("shelf dryer: 1 tray, 40 g prepared (one layer, 4 kg per m²: ")


def test_batches_are_planned_for_every_load_with_their_share_of_what_is_bought() -> None:
    small = replace(DRYER, trays=2, tray_area=Area(500.0))  # two trays of 200 g
    kitchen = a_kitchen(bought(2, "corn", 100.0), dryer=small)
    found = plan(kitchen, 1)
    (item,) = found.items
    assert item.purchased is not None
    plan_batches(kitchen, 1)
    batches = kitchen.journal.where(Batch)
    loads = [(run, load) for run in found.calendar.runs for load in run.loads]
    assert len(batches) == len(loads) > 1
    for number, (batch, (run, load)) in enumerate(zip(batches, loads, strict=True), 1):
        share = load.dried / item.dried.value
        assert batch == Batch(
            "carrot",
            "planned",
            purchased_mass=Mass(pytest.approx(item.purchased.value * share)),  # type: ignore[arg-type]
            prepared_mass=Mass(load.prepared),
            dryer=1,
            trays=load.trays,
            set_temperature=batch.set_temperature,
            started=run.start,
            trip=1,
            id=number,
        )
        assert batch.set_temperature is not None
        assert batch.set_temperature.si == pytest.approx(60.0)


def test_a_plan_that_needs_no_drying_takes_back_the_batches_an_earlier_one_left_waiting() -> None:
    kitchen = a_kitchen()
    plan_batches(kitchen, 1)
    kitchen.journal.write([Change(None, bought(1, "carrot", 500.0)), Change(None, bought(2, "corn", 500.0))])
    assert plan_batches(kitchen, 1).what == "lakes needs no drying; its planned batches are gone"
    assert kitchen.journal.where(Batch) == ()
    with pytest.raises(InputProblem) as caught:
        plan_batches(kitchen, 1)
    assert caught.value.said == "There is no load to plan for lakes. The shelf covers it."
    with pytest.raises(InputProblem) as caught:
        plan_batches(a_kitchen(dryer=None), 1)
    assert caught.value.said == "There is no load to plan for lakes. No bag can be complete."


@every_row(
    ("starts", "ends", "named"),
    [
        (date(2026, 8, 19), date(2026, 8, 25), True),
        (date(2026, 8, 20), date(2026, 8, 25), False),
        (date(2026, 7, 20), date(2026, 8, 1), True),
        (date(2026, 7, 20), date(2026, 7, 31), False),
    ],
)
def test_a_trip_not_over_that_leaves_before_and_eats_of_the_same_shelf_is_named(
    starts: date, ends: date, named: bool
) -> None:
    other = replace(TRIP, id=2, name="hills", starts_on=starts, ends_on=ends)
    kitchen = a_kitchen(other, TripMeal(2, 1, starts, id=9))
    said = "hills leaves before this and eats of the same shelf (carrot); what it takes is not yet taken off here."
    assert [line for line in plan(kitchen, 1).remarks if "leaves before" in line] == [said] * named


def test_what_has_no_weight_is_told_once_and_what_weighs_nothing_is_not() -> None:
    mix = OwnFood("camp-mix", "camp mix", "mixed", contains="plant", id=1)
    parts = (
        MealPart(1, 1, "camp mix", "camp-mix", volume=Volume(60.0), id=11),
        MealPart(1, 2, "apple", "apple", mass=Mass(0.0), id=12),
        MealPart(1, 3, "sauce", id=13),
    )
    found = plan(a_kitchen(mix, *parts), 1)
    assert [line for line in found.remarks if "weight" in line] == ["camp mix in stew: its weight is not known."]
    assert {item.food for item in found.items} == {"carrot", "corn"}


# --- its rows ---------------------------------------------------------------------------------------------------


def test_a_run_stands_on_her_clock_and_in_utc() -> None:
    """In New York summer time is 4 hours behind UTC."""
    kitchen = a_kitchen(bought(2, "corn", 100.0), zone=ZoneInfo("America/New_York"))
    found = plan(kitchen, 1)
    (run,) = found.calendar.runs
    (row,) = run_rows(kitchen, found, METRES)
    assert (row.begins, row.ends) == (run.start, run.end)
    assert (row.start.utcoffset(), row.end.utcoffset(), row.latest.utcoffset()) == (timedelta(hours=-4),) * 3
    assert (row.start, row.end, row.latest) == (run.start, run.end, run.latest)
    assert (row.dryer, row.heat, row.where) == ("shelf dryer", "60 °C", "shelf dryer at 60 °C")
    assert replace(row, heat="").where == "shelf dryer"
    (load,) = row.loads
    assert (load.food, load.name, load.after, load.ready) == ("carrot", "carrot", "", None)
    assert load.line == f"carrot {load.amount}"
    assert row.line == f"{row.when}, shelf dryer at 60 °C: {load.line}"
    (item,) = found.items
    assert load.cautions == item.cautions
    assert item.hours is not None
    assert load.takes.startswith(f"{item.hours.value:.0f} h (")


def test_a_line_to_buy_says_its_amount_its_need_and_its_note() -> None:
    sauce, rice = (
        MealPart(1, 1, "sauce", id=11),
        MealPart(2, 1, "rice", staple="rice-white", mass=Mass(75.0), id=12),
    )
    kitchen = a_kitchen(sauce, rice, dryer=None)
    rows = {row.name: row for _, found in buy_rows(plan(kitchen, 1), METRES) for row in found}
    assert {name: (row.amount, row.needs, row.note) for name, row in rows.items() if name in ("sauce", "rice")} == {
        "sauce": ("amount not known", "", "by measure; its weight is not known"),
        "rice": ("250 g", "150 g", ""),
    }
    assert rows["rice"].line == "rice 250 g"
    carrot = rows["carrot"]
    assert carrot.note == f"{carrot.buy.pieces}, as purchased; not all of it can be dried in time"
    aisles = [aisle for aisle, _ in buy_rows(plan(kitchen, 1), METRES)]
    assert aisles == ["Produce", "Dry goods"]


def test_bags_alike_stand_in_one_row_where_the_first_of_them_is_eaten() -> None:
    bar, roll = Meal("bar", cooking="no pot", id=3), Meal("roll", cooking="no pot", id=4)
    parts = (MealPart(3, 0, "bar", mass=Mass(50.0), id=31), MealPart(4, 0, "roll", mass=Mass(50.0), id=41))
    trip = replace(TRIP, id=2, name="hills")
    eaten = (
        TripMeal(2, 4, DAY1, "lunch", id=21),
        TripMeal(2, 3, DAY1, "snack", id=22),
        TripMeal(2, 4, DAY2, "lunch", id=23),
        TripMeal(2, 3, DAY2, "snack", 4.0, id=24),
        TripMeal(2, 3, DAY3, "snack", id=25),
    )
    rows = list(meal_rows(plan(a_kitchen(bar, roll, *parts, trip, *eaten), 2), METRES))
    assert [(row.name, row.days) for row in rows] == [
        ("roll", "2 days, 20 Aug to 21 Aug"),
        ("bar", "20 Aug and 22 Aug"),
        ("bar", "Fri 21 Aug"),
    ]
    assert rows[0].line.startswith("2 days, 20 Aug to 21 Aug, lunch: roll for 2, ")
    assert rows[2].line.startswith("Fri 21 Aug, snack: bar for 4, ")
    assert rows[0].bag.name == "roll"
