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
from tests.workings import read

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
