"""Water and minutes of a meal: each ingredient its own, the slowest ruling, notes correcting both."""

from dataclasses import replace
from datetime import date

import pytest

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.handbook.pot import pot
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import ingredient
from dryhouse.kitchen.meals.water import meal_minutes, meal_water, uptake
from dryhouse.kitchen.records import CookingNote, CookingNotePart, Meal, MealPart
from dryhouse.kitchen.records.meals import COLD_SOAK, REST
from dryhouse.science.boiling import boiling_point, times_as_long
from dryhouse.science.quantities import Length, Mass, Volume
from tests.fakes import FakeJournal
from tests.workings import read

DRY = Meal("pot", servings=2.0, liquid="dry", cook_minutes=0.0, id=1)
DAY = date(2026, 8, 1)


def a_kitchen(*records):
    return Kitchen(FakeJournal(*records), handbook())


def part(name, food="", staple="", grams=50.0, **more):
    return MealPart(1, 0, name, food, staple, mass=Mass(grams), **more)


def known(kitchen, *parts):
    return [ingredient(kitchen, p) for p in parts]


CARROT, RICE = part("carrot", "carrot"), part("rice", staple="rice-white")


def note(id, came_back, water=None, servings=2.0, **more):
    return CookingNote(
        1, DAY, servings, water=None if water is None else Volume(water), came_back=came_back, id=id, **more
    )


def water_of(meal, *parts, notes=()):
    kitchen = a_kitchen(*([meal] if notes else []), *notes)
    return meal_water(kitchen, meal, known(kitchen, *parts))


def test_the_pot_is_the_sum_of_its_ingredients_when_nothing_boils_off():
    alone = [water_of(DRY, p).water.value for p in (CARROT, RICE)]
    assert water_of(DRY, CARROT, RICE).water.value == pytest.approx(sum(alone))


def test_a_label_rules_over_what_the_handbook_says():
    labelled = part("rice", staple="rice-white", label_water=Volume(200.0), portion=Mass(100.0))
    found = uptake(known(a_kitchen(), labelled)[0])
    assert found.value == pytest.approx(100.0)
    assert found.basis[0].kind == "entered"


def test_boil_off_is_the_pots_surface_times_the_minutes():
    boiled = replace(DRY, cook_minutes=10.0)
    rate = pot("boil_off_rate").value * 3.14159265 * 7.5**2
    more = water_of(boiled, RICE).water.value - water_of(DRY, RICE).water.value
    assert more == pytest.approx(10 * rate)
    own = replace(boiled, boil_off_ml_per_min=5.0)
    assert water_of(own, RICE).water.value - water_of(DRY, RICE).water.value == pytest.approx(50.0)


def test_soup_holds_more_than_stew_and_stew_more_than_dry():
    dry, stew, soup = (
        water_of(replace(DRY, liquid=style), CARROT).water.value for style in ("dry", "stew", "soup")
    )
    assert dry < stew < soup


class TestMinutes:
    def test_the_slowest_ingredient_rules(self):
        kitchen = a_kitchen()
        meal = replace(DRY, cook_minutes=None)
        slow = max(i.staple.cook_minutes.value for i in known(kitchen, RICE))
        both = meal_minutes(meal, known(kitchen, RICE, CARROT), (), None)
        assert both.cook.value == max(slow, pot("dried_simmer").value)
        assert both.flame.value == both.cook.value

    def test_high_up_it_takes_longer_by_the_boiling_point(self):
        meal, items = replace(DRY, cook_minutes=20.0), known(a_kitchen(), RICE)
        boils = boiling_point(2000.0, boiling_tables()).value
        longer = times_as_long(boils, pot("slower_per_10c").value)
        assert longer > 1.3
        assert meal_minutes(meal, items, (), 2000.0).cook.value == pytest.approx(20 * longer)

    def test_boil_and_rest_burns_two_minutes_and_stands_twice_as_long(self):
        meal = replace(DRY, cook_minutes=20.0, cooking=REST)
        found = meal_minutes(meal, known(a_kitchen(), RICE), (), None)
        assert (found.flame.value, found.cook.value) == (2.0, 40.0)

    def test_a_cold_soak_cooks_nothing_and_soaks_four_times_as_long(self):
        hot = meal_minutes(DRY, known(a_kitchen(), CARROT), (), None)
        cold = meal_minutes(replace(DRY, cooking=COLD_SOAK), known(a_kitchen(), CARROT), (), None)
        assert (cold.flame.value, cold.cook.value) == (0.0, 0.0)
        assert cold.soak.value == 4 * hot.soak.value

    def test_the_latest_note_with_minutes_decides(self):
        meal, items = replace(DRY, cook_minutes=20.0), known(a_kitchen(), RICE)
        right = [note(1, "right", cook_minutes=26.0)]
        assert meal_minutes(meal, items, right, None).cook.value == 26.0
        hard = [*right, replace(note(2, "hard", cook_minutes=30.0), on=date(2026, 8, 9))]
        assert meal_minutes(meal, items, hard, None).cook.value == pytest.approx(30 * 1.15)

    def test_a_note_from_high_up_is_brought_down_to_the_sea(self):
        meal, items = replace(DRY, cook_minutes=20.0), known(a_kitchen(), RICE)
        high = [note(1, "right", cook_minutes=40.0, altitude=Length(2000e3))]
        assert meal_minutes(meal, items, high, None).cook.value < 30
        assert meal_minutes(meal, items, high, 2000.0).cook.value == pytest.approx(40.0)


class TestNotes:
    def test_soupy_means_less_and_hard_means_more(self):
        plain = water_of(DRY, RICE).water.value
        used = [note(1, word, plain) for word in ("soupy", "right", "hard")]
        soupy, right, hard = (water_of(DRY, RICE, notes=[n]).water.value for n in used)
        assert soupy < plain < hard
        assert right == pytest.approx(plain)

    def test_a_note_counts_against_the_reckoned_figure_worth_one(self):
        plain = water_of(DRY, RICE).water.value
        found = water_of(DRY, RICE, notes=[note(1, "right", 1.21 * plain)])
        # the log of 1.21 over one note and the one the reckoned figure is worth: × 1.1
        assert found.water.value == pytest.approx(1.1 * plain)
        assert found.notes == 1
        assert "n=1" in read(found.water.workings)

    def test_a_note_of_a_bigger_pot_is_held_against_a_bigger_pot(self):
        plain = water_of(DRY, RICE).water.value
        twice = note(1, "right", 2 * plain, servings=4.0)
        assert water_of(DRY, RICE, notes=[twice]).water.value == pytest.approx(plain)

    def test_what_one_food_taught_in_another_pot_is_used_here(self):
        other = Meal("other", id=2)
        kitchen = a_kitchen(
            other,
            CookingNote(2, DAY, 2.0, id=1),
            CookingNotePart(1, "carrot", "hard", "carrot", id=1),
        )
        here = meal_water(kitchen, DRY, known(kitchen, CARROT)).water
        assert here.value > water_of(DRY, CARROT).water.value
        assert "notes on carrot, n=1" in read(here.workings)


def test_published_cups_stand_beside_with_their_source():
    (row, *_) = water_of(DRY, CARROT).published
    assert row.name == "carrot"
    assert "cups of" in row.sentence
    assert row.source
