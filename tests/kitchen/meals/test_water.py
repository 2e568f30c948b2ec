"""The water of a meal: each ingredient its own, and what notes taught."""

from dataclasses import replace
from datetime import date

import pytest

from dryhouse.handbook.pot import pot
from dryhouse.handbook.reader import handbook
from dryhouse.handbook.rehydration_table import published_water
from dryhouse.handbook.staples import staples
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import ingredient
from dryhouse.kitchen.meals.water import drink_water, meal_water, uptake
from dryhouse.kitchen.records import CookingNote, CookingNotePart, Meal, MealPart
from dryhouse.kitchen.records.meals import NO_POT
from dryhouse.science.quantities import Length, Mass, Volume
from dryhouse.science.workings import StepKind
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
        assert "Corrected by 1 cooking note on" in read(found.water.workings)

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
        assert "1 cooking note on carrot: " in read(here.workings)


def test_published_cups_stand_beside_with_their_source():
    (row, *_) = water_of(DRY, CARROT).published
    assert row.name == "carrot"
    assert row.sentence == "1⅓ cups of boiling water for ⅝ cup dried, soak at least 1 h"
    assert row.source


def test_without_a_pot_only_what_a_label_asks_for_is_stirred_in():
    drink = part("lemon powder", grams=30.0, label_water=Volume(250.0), portion=Mass(20.0))
    items = known(a_kitchen(), drink, CARROT)
    assert drink_water(items).value == pytest.approx(375.0)
    snack = meal_water(a_kitchen(), replace(DRY, cooking=NO_POT), known(a_kitchen(), CARROT, RICE))
    assert (snack.water.value, snack.published, snack.steam_ml) == (0.0, (), 0.0)


def test_a_note_of_another_way_is_held_against_that_way():
    meal = replace(DRY, cooking="boil and rest", cook_minutes=None)
    flame_2, flame_18 = (
        water_of(replace(meal, cooking=way), RICE).water.value for way in ("boil and rest", "no soak")
    )
    assert flame_18 > flame_2
    # what was right when it simmered unsoaked teaches nothing new of the pot that rests
    as_simmered = note(1, "right", flame_18, cooking="no soak")
    assert water_of(meal, RICE, notes=[as_simmered]).water.value == pytest.approx(flame_2)


def test_the_water_that_is_drunk_is_added_up_where_more_than_one_label_asks_for_it():
    powder, milk = (part(name, grams=30.0, label_water=Volume(250.0)) for name in ("lemon powder", "milk powder"))
    one, both = (drink_water(known(a_kitchen(), *parts)) for parts in ((powder, CARROT), (powder, milk)))
    assert (one.value, both.value) == (75.0, 150.0), "a label without a portion is for 100 g"
    together = [sum(line.kind == StepKind.WATER_TOGETHER for line in figure.workings) for figure in (one, both)]
    assert together == [0, 1]


def test_an_ingredient_of_no_known_weight_takes_up_nothing_that_is_known():
    honey = MealPart(1, 0, "honey", staple="honey", volume=Volume(15.0))
    assert uptake(known(a_kitchen(), honey)[0]) is None
    label = part("my mix", grams=50.0)
    assert uptake(known(a_kitchen(), label)[0]) is None


def test_a_staple_takes_up_its_own_figure_for_each_gram():
    each = staples()["rice-white"].uptake.value
    found = uptake(known(a_kitchen(), RICE)[0])
    assert found.value == pytest.approx(50.0 * each)
    assert found.workings[-1].kind == StepKind.STAPLE_WATER


def test_a_note_from_high_up_is_held_against_the_longer_boiling_there():
    meal = replace(DRY, cook_minutes=None)
    at_home, high = (
        water_of(meal, RICE, notes=[note(1, "right", 400.0, altitude=Length(height))]).water.value
        for height in (0.0, 3_000_000.0)
    )
    assert at_home > high, "more was reckoned to boil off up there, so the same water was the less too much"


def test_a_wider_pot_boils_off_more_and_one_that_is_not_told_is_supposed():
    boiled = replace(DRY, cook_minutes=10.0)
    usual, told = water_of(boiled, RICE), water_of(replace(boiled, pot_diameter=Length(150.0)), RICE)
    wide = water_of(replace(boiled, pot_diameter=Length(300.0)), RICE)
    assert told.steam_ml == pytest.approx(usual.steam_ml)
    assert wide.steam_ml == pytest.approx(4 * usual.steam_ml)
    assert read(told.water.workings) != read(usual.water.workings)


def test_cups_are_published_for_the_amount_in_the_bag_and_soaking_where_it_is_asked_for():
    found = water_of(DRY, part("carrot", "carrot", grams=100.0), RICE).published
    assert {row.name for row in found} == {"carrot"}
    one, two = (water_of(DRY, part("carrot", "carrot", grams=g)).published[0].sentence for g in (50.0, 100.0))
    assert one != two
    for slug in ("carrot", "apple", "corn", "onion"):
        rows = zip(water_of(DRY, part(slug, slug)).published, published_water(slug), strict=True)
        assert all(("soak at least" in row.sentence) == bool(line.soak_hours_low) for row, line in rows)
