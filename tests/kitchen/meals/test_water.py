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
from tests.rows import every_row
from tests.workings import read, rests_on

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


def lines_of(figure):
    """The workings without what each rests on."""
    return [line.partition("   [")[0] for line in read(figure.workings).splitlines()]


@every_row(
    ("change", "lines", "steam", "assumed"),
    [
        (
            # π × 7.5² cm² × 0.02 ml a minute
            {},
            ["Pot 15 cm across (assumed: a pot for one or two): 176.7 cm² × 0.02 ml/min/cm² = 3.534 ml/min",
             "Boil-off: 10 min × 3.534 ml/min = 35.34 ml", "Water for the pot: 125.4 ml"],
            35.34, "assumption: boil-off of a pot with its lid ajar",
        ),
        (
            {"pot_diameter": Length(200.0)},
            ["Pot 20 cm across: 314.2 cm² × 0.02 ml/min/cm² = 6.283 ml/min",
             "Boil-off: 10 min × 6.283 ml/min = 62.83 ml", "Water for the pot: 152.9 ml"],
            62.83, "assumption: boil-off of a pot with its lid ajar",
        ),
        (
            {"boil_off_ml_per_min": 5.0},
            ["Boil-off: 10 min × 5 ml/min = 50 ml", "Water for the pot: 140 ml"],
            50.0, "entered: your own boil-off",
        ),
        (
            # 50 g come back as 140 g; a stew has 0.15 ml a gram beside them, a soup 0.8
            {"liquid": "stew", "cook_minutes": 0.0},
            ["Loose liquid of a stew: 140 g as it comes back × 0.15 ml/g = 21 ml", "Water for the pot: 111 ml"],
            0.0, "assumption: stew: this program's own assumption, to be corrected by cooking notes",
        ),
        (
            {"liquid": "soup", "cook_minutes": 0.0},
            ["Loose liquid of a soup: 140 g as it comes back × 0.8 ml/g = 112 ml", "Water for the pot: 202 ml"],
            0.0, "assumption: soup: this program's own assumption, to be corrected by cooking notes",
        ),
        ({"cook_minutes": 0.0}, ["Water for the pot: 90.02 ml"], 0.0, ""),
    ],
)  # fmt: skip
def test_the_workings_of_a_pot_name_what_is_taken_up_what_stands_loose_and_what_boils_off(
    change, lines, steam, assumed
):
    found = water_of(replace(DRY, **{"cook_minutes": 10.0, **change}), RICE)
    assert lines_of(found.water) == ["rice: 50 g × 1.8 ml/g = 90.02 ml", "Taken up together: 90.02 ml", *lines]
    assert found.steam_ml == pytest.approx(steam, abs=0.01)
    assert rests_on(found.water.basis)[1:] == ([assumed] if assumed else [])


def test_the_water_of_a_label_and_of_a_staple_is_worked_for_their_grams():
    labelled = part("rice", staple="rice-white", label_water=Volume(200.0), portion=Mass(80.0))
    told = uptake(known(a_kitchen(), labelled)[0])
    assert (told.value, read(told.workings)) == (125.0, "50 g × 2.5 ml/g = 125 ml   [label of rice]")
    assert rests_on(told.basis) == ["entered: label of rice"]
    usual = uptake(known(a_kitchen(), RICE)[0])
    assert lines_of(usual) == ["50 g × 1.8 ml/g = 90.02 ml"]
    assert rests_on(usual.basis)[0].startswith("handbook: USDA")


def test_what_is_drunk_is_worked_label_by_label_and_told_in_cups():
    lemon = part("lemon powder", grams=30.0, label_water=Volume(250.0), portion=Mass(20.0))
    milk = part("milk powder", grams=10.0, label_water=Volume(100.0))
    found = drink_water(known(a_kitchen(), lemon, milk, CARROT))
    assert lines_of(found) == [
        "lemon powder: 30 g × 12.5 ml/g = 375 ml",
        "milk powder: 10 g × 1 ml/g = 10 ml",
        "Taken up together: 385 ml",
    ]
    assert rests_on(found.basis) == ["entered: label of lemon powder", "entered: label of milk powder"]
    assert found.measure.value == pytest.approx(385 / 236.588, rel=1e-4)
    nothing = drink_water(known(a_kitchen(), CARROT))
    assert (nothing.value, nothing.workings, nothing.basis) == (0.0, (), ())


def test_two_notes_and_the_reckoned_figure_count_a_third_each():
    """One says that 1.21 times the water was right, one that as much as was reckoned left it hard: 15 % more.
    The third root of 1.21 × 1.15 is 1.116; of one note without its water only that it was hard is taken."""
    plain = water_of(DRY, RICE).water.value
    found = water_of(DRY, RICE, notes=[note(1, "right", 1.21 * plain), note(2, "hard", plain)])
    assert found.notes == 2
    assert found.water.value == pytest.approx(plain * (1.21 * 1.15) ** (1 / 3))
    assert lines_of(found.water)[2:] == [
        "Calculated: 90.02 ml",
        "Corrected by 2 cooking notes on this meal: × 1.116 (the calculated figure counts as 1 more) = 100.5 ml",
        "Water for the pot: 100.5 ml",
    ]
    bare = water_of(DRY, RICE, notes=[note(1, "hard")])
    assert bare.water.value == pytest.approx(plain * 1.15**0.5)
    silent = water_of(DRY, RICE, notes=[note(1, "", 900.0)])
    assert (silent.water.value, silent.notes) == (plain, 0)


def test_a_note_counts_for_the_minutes_it_says_and_for_as_many_as_it_served():
    """90 ml taken up, and 5 ml of steam a minute. What was right for a note's own minutes and servings
    changes no water but by the minutes it teaches."""
    meal = replace(DRY, cook_minutes=10.0, boil_off_ml_per_min=5.0)
    taken_up = water_of(DRY, RICE).water.value
    for minutes in (20.0, 0.0):
        right = note(1, "right", 2 * taken_up + 5.0 * minutes, servings=4.0, cook_minutes=minutes)
        assert water_of(meal, RICE, notes=[right]).water.value == pytest.approx(taken_up + 5.0 * minutes)


def test_a_note_of_a_meal_without_a_pot_teaches_a_pot_nothing():
    plain = water_of(DRY, RICE).water.value
    assert water_of(DRY, RICE, notes=[note(1, "hard", plain, cooking=NO_POT)]).notes == 0


def test_what_is_published_is_told_for_its_amount_with_the_hours_it_soaks():
    """Carrot: 2⅓ cups of water for one; 100 g dried are 1.2 cups. Potato: nothing is published."""
    found = water_of(DRY, part("carrot", "carrot", grams=100.0), RICE, part("potato", "potato")).published
    assert [(row.name, row.sentence) for row in found] == [
        ("carrot", "2⅔ cups of boiling water for 1¼ cups dried, soak at least 1 h")
    ] * 2
    assert found[0].source.startswith("University of Georgia")
    unweighed = MealPart(1, 0, "carrot", "carrot")
    assert water_of(DRY, unweighed, RICE).published == ()
