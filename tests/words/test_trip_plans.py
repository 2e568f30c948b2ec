"""A trip's plan as it is read."""

from datetime import UTC, date, datetime

from dryhouse.words.trip_plans import (
    conditioned,
    days_of_bags,
    from_to,
    fuel_not_weighed,
    fuel_weighed,
    in_calendar,
    jars_are_conditioned,
    on_trays,
    takes,
)

FRIDAY = datetime(2027, 8, 6, 18, tzinfo=UTC)


def test_a_run_names_its_second_day_only_where_there_is_one():
    assert from_to(FRIDAY, datetime(2027, 8, 6, 21, 30, tzinfo=UTC)) == "Fri 6 Aug 18:00 to 21:30"
    assert from_to(FRIDAY, datetime(2027, 8, 7, 7, tzinfo=UTC)) == "Fri 6 Aug 18:00 to Sat 07:00"


def test_hours_and_trays_are_said_with_their_range_and_number():
    assert takes(9.2, 6.0, 12.0) == "9 h (6 to 12)"
    assert takes(9.2, None, None) == takes(9.0, 9.0, 9.0) == "9 h"
    assert (takes(9.2, 6.0, None), takes(9.2, None, 12.0)) == ("9 h", "9 h")
    assert on_trays("3 lb", 1) == "3 lb on 1 tray"
    assert conditioned(10, date(2027, 8, 17)) == "condition 10 days, ready Tue 17 Aug"


def test_what_is_conditioned_is_said_with_a_capital() -> None:
    assert jars_are_conditioned("sour cherry") == "Sour cherry is conditioned: look at the jars and seal them"


def test_bags_on_days_in_a_row_are_said_together():
    days = [date(2027, 8, n) for n in (21, 22, 23, 27)]
    assert days_of_bags(days[:1]) == "Sat 21 Aug"
    assert days_of_bags(days[:3]) == "3 days, 21 Aug to 23 Aug"
    assert days_of_bags(days[:2]) == "2 days, 21 Aug to 22 Aug"
    assert days_of_bags([days[0], days[2]]) == "21 Aug and 23 Aug"
    assert days_of_bags(days) == "21 Aug, 22 Aug, 23 Aug and 27 Aug"


def test_heat_is_said_in_megajoules():
    assert fuel_not_weighed(9500.0, 19000.0, 50.0) == (
        "boiling takes 9.5 MJ of heat: 19.0 MJ of fuel if 50 % of it ends in the water (assumed)"
    )
    assert fuel_weighed("9 oz") == "9 oz of fuel, by what you weighed for a liter"


def test_a_run_in_a_calendar_has_its_loads_what_comes_after_and_each_stop_once():
    heading, below = in_calendar(
        "lakes",
        "box dryer",
        ["corn", "leek"],
        ["corn: 2 trays", "leek: 1 tray"],
        ["condition"],
        ["Heat it.", "Heat it."],
    )
    assert heading == "Dry corn, leek"
    assert below == "box dryer, for lakes.\ncorn: 2 trays.\nleek: 1 tray.\ncondition.\nSTOP: Heat it."
