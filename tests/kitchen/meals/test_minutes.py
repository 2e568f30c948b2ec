"""Minutes of a meal: each ingredient by its food, its pieces and the way; the slowest rules, notes correct it."""

from dataclasses import replace
from datetime import date

import pytest

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.handbook.pot import pot
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import ingredient
from dryhouse.kitchen.meals.minutes import meal_minutes
from dryhouse.kitchen.records import Batch, CookingNote, Meal, MealPart
from dryhouse.kitchen.records.meals import COLD_SOAK, NO_POT, NO_SOAK, REST, SHORT_SOAK
from dryhouse.science.boiling import boiling_point, times_as_long
from dryhouse.science.quantities import Length, Mass
from tests.fakes import FakeJournal
from tests.rows import every_row
from tests.workings import read, rests_on

DAY = date(2026, 8, 1)
MEAL = Meal("pot", servings=2.0, liquid="dry", id=1)


def known(*parts, records=()):
    kitchen = Kitchen(FakeJournal(*records), handbook())
    return [ingredient(kitchen, p) for p in parts]


def part(name, food="", staple="", **more):
    return MealPart(1, 0, name, food, staple, mass=Mass(50.0), **more)


CARROT, RICE, OATS = part("carrot", "carrot"), part("rice", staple="rice-white"), part("oats", staple="oats-rolled")


def minutes(way, *parts, notes=(), altitude=None, records=(), **meal):
    found = meal_minutes(replace(MEAL, cooking=way, **meal), known(*parts, records=records), notes, altitude)
    return found.soak.value, found.cook.value, found.flame.value


def note(came_back, id=1, **more):
    return CookingNote(1, DAY, 2.0, came_back=came_back, id=id, **more)


@every_row(
    ("way", "soak", "cook", "flame"),
    [(NO_SOAK, 0, 15, 15), (SHORT_SOAK, 20, 8, 8), (REST, 0, 20, 2), (COLD_SOAK, 120, 0, 0), (NO_POT, 0, 0, 0)],
)
def test_the_ways_trade_minutes_against_fuel(way, soak, cook, flame):
    assert minutes(way, CARROT) == (soak, cook, flame)


@every_row(
    ("food", "cut", "soak"),
    [
        ("onion", Batch("onion", form="minced"), 10),
        ("onion", Batch("onion", form="slices", thickness=Length(6.0)), 20),
        ("onion", Batch("onion", form="halves"), 45),
        ("carrot", Batch("carrot", form="dice", thickness=Length(10.0)), 60),
        ("spinach", Batch("spinach", form="leaves"), 0),
        ("ground-beef", Batch("ground-beef", form="crumbles"), 20),
    ],
)
def test_every_food_has_its_own_soak_by_the_size_of_its_pieces(food, cut, soak):
    batch = replace(cut, id=1)
    assert minutes(SHORT_SOAK, part(food, food), records=[batch])[0] == soak


@every_row(
    ("staple", "way", "expected"),
    [
        ("oats-rolled", SHORT_SOAK, (0, 5, 5)),
        ("oats-rolled", REST, (0, 5, 2)),
        ("couscous", COLD_SOAK, (30, 0, 0)),
        ("rice-white", NO_SOAK, (0, 18, 18)),
        ("rice-white", REST, (0, 36, 2)),
    ],
)
def test_staples_have_their_own_and_no_breakfast_soaks_an_hour(staple, way, expected):
    assert minutes(way, part(staple, staple=staple)) == expected


def test_the_slowest_ingredient_rules_and_is_named_with_its_pieces():
    found = meal_minutes(MEAL, known(RICE, CARROT, OATS), (), None)
    assert (found.soak.value, found.cook.value) == (20, 18)
    assert "carrot (small pieces): 20 min" in read(found.soak.workings)
    assert "rice: 18 min" in read(found.cook.workings)
    assert found.soak.basis[0].kind == "common practice"


def test_a_label_says_its_own_minutes():
    assert minutes(NO_SOAK, part("mix", label_minutes=7.0)) == (0, 7, 7)
    assert minutes(REST, part("mix", label_minutes=7.0)) == (0, 14, 2)


def test_minutes_set_for_the_meal_are_minutes_over_the_flame():
    assert minutes(NO_SOAK, CARROT, cook_minutes=20.0) == (0, 20, 20)
    assert minutes(REST, CARROT, cook_minutes=10.0) == (0, 20, 10)


def test_high_up_it_takes_longer_by_the_boiling_point():
    longer = times_as_long(boiling_point(2000.0, boiling_tables()).value, pot("slower_per_10c").value)
    assert longer > 1.3
    assert minutes(NO_SOAK, RICE, altitude=2000.0)[1] == pytest.approx(18 * longer)
    rest = minutes(REST, RICE, altitude=2000.0)
    assert rest[1:] == pytest.approx((36 * longer, 2 * longer))
    assert minutes(COLD_SOAK, CARROT, altitude=2000.0) == minutes(COLD_SOAK, CARROT)


class TestNotes:
    def test_the_latest_note_with_minutes_decides(self):
        right = note("right", cook_minutes=26.0, soak_minutes=12.0)
        assert minutes(SHORT_SOAK, RICE, CARROT, notes=[right]) == (12, 26, 26)
        hard = replace(note("hard", 2, cook_minutes=30.0, soak_minutes=30.0), on=date(2026, 8, 9))
        assert minutes(SHORT_SOAK, RICE, CARROT, notes=[right, hard]) == pytest.approx((34.5, 34.5, 34.5))

    def test_a_soak_that_was_noted_is_no_soak_of_the_way_without_one(self):
        assert minutes(NO_SOAK, CARROT, notes=[note("right", soak_minutes=25.0)])[0] == 0
        assert minutes(REST, CARROT, notes=[note("right", soak_minutes=25.0)])[0] == 25

    def test_a_note_from_high_up_is_brought_down_to_the_sea(self):
        high = [note("right", cook_minutes=40.0, altitude=Length(2000e3))]
        assert minutes(NO_SOAK, RICE, notes=high)[1] < 30
        assert minutes(NO_SOAK, RICE, notes=high, altitude=2000.0)[1] == pytest.approx(40.0)

    def test_a_hard_pot_takes_fifteen_percent_more_and_never_less_than_reckoned(self):
        assert minutes(NO_SOAK, RICE, notes=[note("hard", cook_minutes=20.0)])[1] == pytest.approx(20 * 1.15)
        assert minutes(NO_SOAK, RICE, notes=[note("hard", cook_minutes=10.0)])[1] == 18
        assert minutes(COLD_SOAK, CARROT, notes=[note("hard", soak_minutes=200.0)])[0] == pytest.approx(230.0)
        assert minutes(COLD_SOAK, CARROT, notes=[note("right", soak_minutes=90.0)])[0] == 90

    def test_what_came_back_soupy_or_says_no_minutes_teaches_none(self):
        for taught in (note("soupy", cook_minutes=40.0, soak_minutes=40.0), note("right"), note("hard")):
            assert minutes(SHORT_SOAK, RICE, CARROT, notes=[taught]) == (20, 18, 18)

    def test_of_two_notes_of_one_day_the_later_number_decides_and_a_later_day_before_that(self):
        first, second = note("right", 1, cook_minutes=10.0), note("right", 2, cook_minutes=20.0)
        assert minutes(NO_SOAK, RICE, notes=[second, first])[1] == 20
        older = replace(second, on=date(2026, 7, 1))
        assert minutes(NO_SOAK, RICE, notes=[older, first])[1] == 10
        soaks = [note("right", n, soak_minutes=m) for n, m in ((2, 20.0), (1, 10.0))]
        assert minutes(COLD_SOAK, CARROT, notes=soaks)[0] == 20

    def test_none_at_all_may_have_been_right(self):
        none = note("right", soak_minutes=0.0, cook_minutes=0.0)
        assert minutes(SHORT_SOAK, RICE, CARROT, notes=[none]) == (0, 0, 0)

    def test_a_soak_however_short_is_taught(self):
        short = part("mix", label_minutes=0.2)
        assert minutes(COLD_SOAK, short, notes=[note("right", soak_minutes=5.0)])[0] == 5

    def test_nothing_that_takes_no_soak_is_taught_one_unless_the_pot_rests(self):
        right = [note("right", soak_minutes=25.0)]
        assert minutes(NO_POT, CARROT, notes=right) == (0, 0, 0)
        assert minutes(SHORT_SOAK, RICE, notes=right)[0] == 0
        assert minutes(REST, RICE, notes=right)[0] == 25

    def test_the_workings_say_what_a_note_taught_and_what_it_rests_on(self):
        right = meal_minutes(replace(MEAL, cooking=NO_SOAK), known(RICE), [note("right", cook_minutes=10.0)], None)
        assert read(right.cook.workings) == (
            "rice: 18 min   [kitchen practice, no source]\n"
            "Came back right after 10 min (sea level) on 1 Aug 2026\n10 min"
        )
        assert rests_on(right.cook.basis) == ["your record (cooking notes on this meal)"]
        hard = meal_minutes(replace(MEAL, cooking=NO_SOAK), known(RICE), [note("hard", cook_minutes=20.0)], None)
        assert read(hard.cook.workings).splitlines()[1:] == [
            "Came back hard after 20 min (sea level) on 1 Aug 2026: 23 min",
            "23 min",
        ]
        assert rests_on(hard.cook.basis) == [
            "common practice: kitchen practice, no source",
            "your record (cooking notes on this meal)",
        ]


def test_the_workings_of_a_pot_that_rests_high_up_name_every_step():
    """At 2000 m water boils at 93.4 °C: 6.63 °C cooler, and 2 to the power of 0.663 is 1.58. 2 min are 3.17, 20 are
    31.7."""
    found = meal_minutes(replace(MEAL, cooking=REST), known(CARROT), (), 2000.0)
    cook, flame = (read(figure.workings).splitlines() for figure in (found.cook, found.flame))
    assert cook[0].startswith("carrot (small pieces): 20 min   [")
    assert [line.partition("   ")[0] for line in cook[1:]] == [
        "At 2000 m water boils at 93.4 °C",
        "Another table says 93.6 °C; the cooler figure is used",
        "Simmering takes × 1.58 as long there",
        "Boil 3.167 min, then stand in the wrapped pot",
        "31.67 min",
    ]
    assert flame == cook[1:4]
    assert len(found.flame.basis) == 3


@every_row(
    ("way", "expected"),
    [
        (NO_SOAK, (0, 7, 7)),
        (SHORT_SOAK, (0, 7, 7)),
        (REST, (0, 14, 2)),
        (COLD_SOAK, (28, 0, 0)),
        (NO_POT, (0, 0, 0)),
    ],
)
def test_a_label_that_tells_its_minutes_over_the_flame_goes_by_the_way(way, expected):
    """Twice as long where the pot rests, four times where the water is cold."""
    assert minutes(way, part("mix", label_minutes=7.0)) == expected


@every_row(("staple", "soak"), [("rice-white", 72), ("oats-rolled", 30), ("couscous", 30)])
def test_what_is_published_for_a_cold_soak_rules_over_four_times_the_boiling(staple, soak):
    assert minutes(COLD_SOAK, part(staple, staple=staple))[0] == soak


def test_what_is_known_by_its_name_alone_needs_no_minutes_and_a_pot_of_it_boils_no_longer():
    assert minutes(SHORT_SOAK, part("sauce")) == (0, 0, 0)
    assert minutes(REST, part("sauce")) == (0, 0, 0)
    assert minutes(REST, part("sauce"), CARROT)[2] == 2


def test_at_the_sea_and_where_no_height_is_told_nothing_takes_longer():
    assert minutes(NO_SOAK, RICE, altitude=0.0) == minutes(NO_SOAK, RICE, altitude=-5.0) == (0, 18, 18)
    assert minutes(NO_SOAK, RICE, altitude=1.0)[1] > 18
    set_here = minutes(NO_SOAK, RICE, altitude=2000.0, cook_minutes=10.0)
    assert set_here[1] == set_here[2] > 15
