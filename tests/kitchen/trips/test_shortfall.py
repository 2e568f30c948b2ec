"""What is said where a plan cannot be met: bag by bag, then what would help."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Dryer, Lot, Meal, MealPart, OwnFigure, OwnFood, Place, Trip, TripMeal
from dryhouse.kitchen.trips.household import DryingHours
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.quantities import Area, Mass
from tests.builders import NOW
from tests.fakes import FakeJournal
from tests.rows import every_row

TODAY = NOW.date()
DRYER = Dryer("shelf dryer", 6, Area(1000.0), id=1)
MOISTURES = (
    OwnFigure("relish", "water", 80.0, "%", id=1),
    OwnFigure("relish", "target_moisture", 10.0, "%", id=2),
)
KEPT = (Place("pantry", 1), Lot("apple", TODAY, mass=Mass(100.0), id=1))


def planned(parts=(("carrot", 60.0),), hours=None, **more):
    return plan(kitchen_of(parts, **more), 1, hours)


def kitchen_of(parts=(("carrot", 60.0),), days=20, bags=1, dryers=(DRYER,), more=KEPT):
    start = TODAY + timedelta(days=days)
    journal = FakeJournal(
        *dryers,
        *more,
        OwnFood("relish", "relish", "vegetable", id=1),
        Meal("stew", 1.0, id=1),
        *(MealPart(1, n, food, food, mass=Mass(grams), id=n + 1) for n, (food, grams) in enumerate(parts)),
        Trip("lakes", start, start + timedelta(days=9), 1, id=1),
        *(TripMeal(1, 1, start + timedelta(days=n), id=n + 1) for n in range(bags)),
    )
    return Kitchen(journal, handbook(), lambda: NOW)


def test_a_plan_that_can_be_met_says_nothing():
    found = planned()
    assert (found.shortfall, found.alternatives, found.next_steps) == (None, (), ())


@every_row(
    ("more", "why"),
    [
        ({"days": 1}, "the day before departure is past"),
        ({"days": 2, "parts": (("carrot", 600.0),)}, "no dryer is free for 12 h before departure"),
        (
            {"parts": (("apple", 60.0),), "days": 9, "more": (Place("pantry", 1),)},
            "no dryer is free for 12 h and 10 days of conditioning before departure",
        ),
        ({"dryers": ()}, "No dryer is recorded: add one"),
        ({"dryers": (replace(DRYER, tray_area=None),)}, "no dryer has its tray area recorded"),
        ({"parts": (("relish", 60.0),)}, "its yield is not known yet"),
        ({"parts": (("relish", 60.0),), "more": (*KEPT, *MOISTURES)}, "its drying hours are not known yet"),
    ],
)
def test_the_reason_is_the_one_that_holds(more, why):
    found = planned(**more)
    assert why in " ".join(found.shortfall.reasons)


def test_bags_are_made_whole_in_the_order_they_are_eaten():
    """Beef and corn for six bags, and time for some: each bag has both, or is named with what it lacks."""
    found = planned((("carrot", 150.0), ("onion", 60.0)), days=5, bags=6)
    short = found.shortfall
    assert 0 < short.whole < short.bags == 6
    assert short.lines[0] == f"{short.whole} of the 6 bags can be complete."
    (line,) = short.lacking
    assert "each lacks 5.3 oz of carrot, 2.1 oz of onion" in line
    dried = dict.fromkeys(("carrot", "onion"), 0.0)
    for run in found.calendar.runs:
        for load in run.loads:
            dried[load.food] += load.dried
    assert round(dried["carrot"], 3) == 150.0 * short.whole
    assert round(dried["onion"], 3) == 60.0 * short.whole


def test_alternatives_stand_as_alternatives_each_with_what_it_would_give():
    short = planned((("carrot", 150.0), ("onion", 60.0)), days=5, bags=6).shortfall
    assert "Any one of these would help:" in short.lines
    said = " ".join(short.alternatives)
    assert "Buy 13 oz of dried onion: then every bag is complete." in said
    assert "A second dryer like shelf dryer: then" in said
    assert "One more weekend, leaving a week later: then every bag is complete." in said
    assert f"Leave out the {6 - short.whole} bags that lack something." in said


def test_hours_that_no_run_fits_are_the_reason():
    """Tomatoes take up to 24 h; where nothing runs at night, no day holds that."""
    found = planned((("tomato", 60.0),), hours=DryingHours(nights=False))
    assert "no run of 24 h fits the hours you keep" in " ".join(found.shortfall.reasons)
    assert planned((("tomato", 60.0),)).shortfall is None


def test_the_shopping_list_says_what_cannot_be_dried_in_time():
    (line,) = [buy for buy in planned(days=1).shopping if buy.for_drying]
    assert line.note == "as purchased; not all of it can be dried in time"
    assert all("in time" not in buy.note for buy in planned().shopping)


def test_what_would_not_help_is_not_offered():
    short = planned(days=1).shortfall
    assert not any("second dryer" in line for line in short.alternatives)
    assert any("leaving a week later" in line for line in short.alternatives)


def test_an_empty_kitchen_is_told_its_next_steps():
    found = planned(dryers=(), more=())
    assert [step.what for step in found.next_steps] == ["dryer", "place", "lot"]
    bare = planned(dryers=(replace(DRYER, tray_area=None),))
    assert [step.what for step in bare.next_steps] == ["tray area"]


def test_a_bag_that_cannot_be_complete_is_told_whole():
    """Leaving tomorrow: nothing can be dried. 60 g is 2.1 oz; what is bought is told to the half ounce above."""
    (one, two), three = ((planned(days=1, bags=n).shortfall for n in (1, 2)), planned(days=1, dryers=()).shortfall)
    week = "One more weekend, leaving a week later: then"
    assert one.lines == (
        "The one bag cannot be complete.",
        "Any one of these would help:",
        "Buy 2½ oz of dried carrot: then the bag is complete.",
        f"{week} the bag is complete.",
        "carrot: none of the 2 oz dried can be ready: the day before departure is past.",
        "Thu 26 Nov dinner, stew: lacks 2.1 oz of carrot.",
    )
    assert two.lines == (
        "No bag can be complete.",
        "Any one of these would help:",
        "Buy 4½ oz of dried carrot: then every bag is complete.",
        f"{week} every bag is complete.",
        "carrot: none of the 4 oz dried can be ready: the day before departure is past.",
        "2 days, 26 Nov to 27 Nov dinner, stew: each lacks 2.1 oz of carrot.",
    )
    assert three.reasons == ("No dryer is recorded: add one, and the loads get their hours.",)
    assert (three.lacking, three.whole, three.bags) == ((), 0, 1)


def test_of_two_foods_only_both_together_help_and_one_thing_that_helps_is_no_list():
    parts = (("carrot", 60.0), ("onion", 90.0))
    short = planned(parts, days=1).shortfall
    assert short.alternatives[0] == "Buy all of these dried (onion, carrot): then the bag is complete."
    assert not any(line.startswith("Buy 2") for line in short.alternatives)
    assert short.lacking == ("Thu 26 Nov dinner, stew: lacks 2.1 oz of carrot, 3.2 oz of onion.",)
    alone = replace(short, alternatives=short.alternatives[:1])
    assert alone.first == ("The one bag cannot be complete.", short.alternatives[0])
    assert replace(short, alternatives=()).first == ("The one bag cannot be complete.",)


def test_at_the_moment_all_has_to_be_ready_it_is_too_late():
    """Ready by midnight before the day of packing: for a trip that starts tomorrow that is this midnight."""
    for minutes, past in ((0, True), (-1, False)):
        now = datetime(2026, 11, 25, tzinfo=UTC) + timedelta(minutes=minutes)
        kitchen = kitchen_of(days=1)
        reasons = plan(replace(kitchen, now=lambda now=now: now, zone=UTC), 1).shortfall.reasons
        assert ("the day before departure is past" in reasons[0]) is past


def test_what_is_bought_dried_and_still_leaves_every_bag_short_is_not_offered():
    """Five foods are tried; a bag that lacks a sixth is no nearer to complete."""
    foods = ("carrot", "onion", "celery", "corn", "tomato", "mango")
    short = planned(tuple((food, 60.0) for food in foods), days=1).shortfall
    assert not any(line.startswith("Buy") for line in short.alternatives)
    assert (
        planned(tuple((food, 60.0) for food in foods[:5]), days=1).shortfall.alternatives[0].startswith("Buy all")
    )
