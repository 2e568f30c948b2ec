"""What the pot taught: water, minutes, and what was drawn from the shelf."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dryhouse.kitchen.meals.cooking import note_cooking, notes_of
from dryhouse.kitchen.meals.meals import (
    draft_part,
    find_meal,
    save_meal,
)
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.records import (
    CookingNote,
    CookingNotePart,
    Lot,
    LotDraw,
    Meal,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from tests.kitchen.meals.meal_room import DAY, a_kitchen, build
from tests.workings import read, rests_on


def test_a_soupy_pot_takes_less_next_time_and_says_from_how_many_notes() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("carrot", "20 g"), ("couscous", "120 g"))
    before = meal_sheet(kitchen, id)
    used = Volume(before.bag.water.value)
    note_cooking(kitchen, CookingNote(id, DAY, servings=2.0, water=used, came_back="soupy"))
    after = meal_sheet(kitchen, id)
    assert after.bag.water.value < 0.95 * before.bag.water.value
    assert after.notes_used == 1
    assert "Corrected by 1 cooking note on" in read(after.bag.water.workings)
    note_cooking(kitchen, CookingNote(id, DAY, servings=2.0, water=used, came_back="soupy"))
    assert meal_sheet(kitchen, id).bag.water.value < after.bag.water.value


def test_a_hard_pot_takes_more_water_and_more_minutes() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("lentils", "80 g"))
    before = meal_sheet(kitchen, id)
    note_cooking(kitchen, CookingNote(id, DAY, servings=2.0, cook_minutes=30.0, came_back="hard"))
    after = meal_sheet(kitchen, id)
    assert after.bag.water.value > before.bag.water.value
    assert after.minutes.cook.value > 30


def test_a_note_on_one_food_follows_it_into_other_meals() -> None:
    kitchen = a_kitchen()
    first = build(kitchen, ("carrot", "20 g"))
    save_meal(kitchen, Meal("other", boil_off_ml_per_min=0.0), [draft_part(kitchen, "carrot", "20 g")])
    other = find_meal(kitchen, "other").id
    before = meal_sheet(kitchen, other).bag.water
    note_cooking(kitchen, CookingNote(first, DAY), [CookingNotePart(0, "carrot", "hard", "carrot")])
    after = meal_sheet(kitchen, other).bag.water
    assert after.value > before.value
    assert any("your record (cooking notes on carrot" in line for line in rests_on(after.basis))


def test_a_note_needs_known_words() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("carrot", "20 g"))
    for bad in (CookingNote(id, DAY, came_back="burnt"), CookingNote(id, DAY, servings=0.0)):
        with pytest.raises(InputProblem):
            note_cooking(kitchen, bad)
    assert not notes_of(kitchen, id)


def test_cooking_draws_from_the_shelf() -> None:
    kitchen = a_kitchen(Lot("carrot", DAY, mass=Mass(50.0), id=1))
    id = build(kitchen, ("carrot", "20 g"))
    note_cooking(kitchen, CookingNote(id, DAY), draws=[LotDraw(1, DAY, mass=Mass(20.0))])
    drawn = kitchen.journal.where(LotDraw, lot=1)
    assert [(d.purpose, d.meal, d.mass) for d in drawn] == [("cooked", id, Mass(20.0))]


def test_notes_stay_with_the_way_they_speak_of_when_the_meal_is_cooked_another_way() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("lentils", "80 g"), cooking="no soak")
    note_cooking(kitchen, CookingNote(id, DAY, 2.0, cook_minutes=45.0, came_back="right"))
    assert meal_sheet(kitchen, id).minutes.flame.value == 45
    meal = kitchen.journal.get(Meal, id)
    done = save_meal(kitchen, replace(meal, cooking="boil and rest"))
    assert meal_sheet(kitchen, id).minutes.flame.value == 2
    assert [n.cooking for n in notes_of(kitchen, id)] == ["no soak"]
    kitchen.journal.write(done.undone().changes)
    assert [n.cooking for n in notes_of(kitchen, id)] == [""]
