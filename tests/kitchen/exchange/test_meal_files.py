"""A meal in a file: what travels with it, and what is refused."""

from __future__ import annotations

import json

import pytest

from dryhouse.kitchen.exchange.meal_files import bring_meal, meal_text, read_meal, write_meal
from dryhouse.kitchen.meals.cooking import note_cooking, notes_of
from dryhouse.kitchen.meals.ingredients import keep_cup
from dryhouse.kitchen.meals.meals import (
    meals,
)
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.records import (
    CookingNote,
    CookingNotePart,
    Meal,
    MealPart,
    OwnFood,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from tests.kitchen.meals.meal_room import DAY, a_kitchen, build
from tests.rows import every_row


def test_a_meal_travels_to_another_kitchen_and_answers_the_same(tmp_path) -> None:
    here = a_kitchen(OwnFood("camp-mix", "camp mix", "vegetable", like="carrot", id=1))
    id = build(here, ("camp mix", "20 g"), ("lentils", "80 g"), method="Soak, then simmer.")
    file = write_meal(here, id, tmp_path / "stew.meal.json")
    there = a_kitchen()
    done = read_meal(there, file)
    assert there.journal.where(OwnFood)[0].slug == "camp-mix"
    sent, got = meal_sheet(here, id), meal_sheet(there, done.record.id)
    assert got.bag.water.value == pytest.approx(sent.bag.water.value)
    assert got.meal.method == "Soak, then simmer."
    again = read_meal(there, file)
    assert [m.name for m in meals(there)] == ["stew", "stew 2"]
    there.journal.write(again.undone().changes)


def test_what_the_pot_taught_travels_with_the_meal() -> None:
    here = a_kitchen()
    id = build(here, ("carrot", "20 g"), ("lentils", "80 g"), cooking="no soak")
    note = CookingNote(
        id, DAY, 2.0, water=Volume(700.0), cook_minutes=35.0, came_back="right", change="more carrot"
    )
    note_cooking(here, note, [CookingNotePart(0, "carrot", "hard", "carrot")])
    there = a_kitchen()
    done = bring_meal(there, meal_text(here, id))
    sent, got = meal_sheet(here, id), meal_sheet(there, done.record.id)
    assert (got.notes_used, got.minutes.cook.value) == (1, 35.0)
    assert got.bag.water.value == pytest.approx(sent.bag.water.value)
    (noted,) = notes_of(there, done.record.id)
    assert (noted.change, noted.cooking) == ("more carrot", "no soak")
    there.journal.write(done.undone().changes)
    assert not there.journal.where(CookingNote)
    assert not there.journal.where(CookingNotePart)


def test_a_weighed_cup_travels_with_the_meal_and_never_over_one_that_was_weighed_here() -> None:
    here = a_kitchen()
    id = build(here, ("ground beef", "1/2 cup"), ("bouillon powder, beef", "1 tbsp"))
    keep_cup(here, "ground-beef", Mass(90.0))
    keep_cup(here, "bouillon-beef", Mass(160.0))
    there = a_kitchen()
    keep_cup(there, "bouillon-beef", Mass(150.0))
    got = meal_sheet(there, bring_meal(there, meal_text(here, id)).record.id)
    assert [line.grams for line in got.parts] == pytest.approx([45.0, 150.0 / 16.0], rel=1e-3)


@every_row("wrong", [{"came_back": "burnt"}, {"servings": 0}, {"on": "some day"}, {"pot": 3}, {"parts": "carrot"}])
def test_a_note_that_cannot_be_is_refused_and_nothing_comes(wrong: dict[str, object]) -> None:
    here = a_kitchen()
    id = build(here, ("carrot", "20 g"))
    note_cooking(here, CookingNote(id, DAY, 2.0))
    whole = json.loads(meal_text(here, id))
    whole["notes"][0] |= wrong
    there = a_kitchen()
    with pytest.raises(InputProblem):
        bring_meal(there, json.dumps(whole))
    assert not there.journal.where(Meal)


@every_row("text", ["", "[]", "{}", '{"file": "dryhouse meal"}', '{"file": "something else", "meal": {}}'])
def test_another_file_is_refused_in_a_sentence(text: str) -> None:
    kitchen = a_kitchen()
    with pytest.raises(InputProblem, match="meal file"):
        bring_meal(kitchen, text)


def test_a_file_of_a_later_program_is_refused() -> None:
    kitchen = a_kitchen()
    text = meal_text(kitchen, build(kitchen, ("carrot", "20 g"))).replace('"version": 1', '"version": 9')
    with pytest.raises(InputProblem, match="newer"):
        bring_meal(kitchen, text)
    assert len(kitchen.journal.where(MealPart)) == 1
