"""Each act on a meal, whole: what it says it did, every record it leaves, and what it refuses in which words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.cooking import drawn_words, draws_for, note_cooking, notes_of, remove_note
from dryhouse.kitchen.meals.ingredients import DRIED, LABEL, STAPLE, Choice, find_ingredients, identify_ingredient
from dryhouse.kitchen.meals.meals import (
    cooked_by,
    cup_of,
    draft_part,
    free_name,
    meals,
    part_of,
    remove_meal,
    save_as_new,
    save_meal,
    scale_meal,
    the_part,
    varied,
    with_amount,
)
from dryhouse.kitchen.meals.sheet import meal_parts, scaled
from dryhouse.kitchen.meals.swaps import differences, preview_swap, swap_part
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import (
    AfterTrip,
    CookingNote,
    CookingNotePart,
    Lot,
    LotDraw,
    Meal,
    MealPart,
    Trip,
    TripMeal,
)
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from tests.kitchen.meals.meal_room import DAY, a_kitchen
from tests.rows import every_row

STEW = Meal("stew", 2.0, id=1)
PARTS = (
    MealPart(1, 0, "carrot", "carrot", mass=Mass(20.0, "20 g"), id=1),
    MealPart(1, 1, "baby carrot", "carrot", mass=Mass(30.0, "30 g"), id=2),
    MealPart(1, 2, "sauce", volume=Volume(60.0, "60 ml"), id=3),
)


def kitchen(*more: Record) -> Kitchen:
    made = a_kitchen(STEW, *PARTS, *more)
    set_preference(made, UNITS_KEY, "metric")
    return made


def said(act: Callable[[], object]) -> tuple[str, str]:
    with pytest.raises(InputProblem) as caught:
        act()
    return str(caught.value.said), caught.value.field


def test_a_new_meal_and_one_put_right_say_so_and_number_their_parts_in_order() -> None:
    here = kitchen()
    done = save_meal(here, Meal("  lake   soup "), [replace(PARTS[1], id=0), replace(PARTS[0], id=0)])
    assert (done.what, done.record) == ("Added the meal lake soup", Meal("lake soup", id=2))
    assert meal_parts(here, 2) == (
        replace(PARTS[1], meal=2, position=0, id=4),
        replace(PARTS[0], meal=2, position=1, id=5),
    )
    changed = save_meal(here, replace(STEW, liquid="soup"), [PARTS[2], replace(PARTS[0], mass=Mass(9.0))])
    assert changed.what == "Changed the meal stew"
    assert meal_parts(here, 1) == (replace(PARTS[2], position=0), replace(PARTS[0], position=1, mass=Mass(9.0)))
    save_meal(here, STEW)
    assert len(meal_parts(here, 1)) == 2


def test_a_meal_cooked_another_way_keeps_the_way_of_the_notes_that_named_none() -> None:
    notes = (CookingNote(1, DAY, id=1), CookingNote(1, DAY, cooking="no soak", id=2))
    here = kitchen(*notes)
    save_meal(here, replace(STEW, liquid="soup"))
    assert notes_of(here, 1) == notes[::-1]
    save_meal(here, replace(STEW, cooking="boil and rest"))
    assert [note.cooking for note in notes_of(here, 1)] == ["no soak", "short soak"]


@every_row(
    ("name", "free"),
    [
        ("soup", "soup"),
        (" STEW ", "STEW 4"),
        ("stew 2", "stew 4"),
        ("stew 9", "stew 9"),
        ("7", "7 2"),
        ("pot 1000", "pot 1000 2"),
        ("pot 999", "pot 1001"),
    ],
)
def test_a_name_that_is_taken_gets_the_next_number_behind_it(name: str, free: str) -> None:
    """`stew`, `stew 2` and `stew 3` are there; a number of four digits is a name."""
    there = ("stew 2", "stew 3", "7", "pot 999", "pot 1000")
    here = kitchen(*(Meal(other, id=n) for n, other in enumerate(there, 2)))
    assert free_name(here, name) == free


def test_a_copy_says_what_it_is_a_copy_of_and_what_is_new_does_not() -> None:
    here = kitchen()
    copied = save_as_new(here, STEW, PARTS[1:])
    assert (copied.what, copied.record) == (
        "Added the meal stew 2, a copy of stew",
        replace(STEW, name="stew 2", id=2),
    )
    assert meal_parts(here, 2) == (
        replace(PARTS[1], meal=2, position=0, id=4),
        replace(PARTS[2], meal=2, position=1, id=5),
    )
    assert save_as_new(here, Meal("broth"), ()).what == "Added the meal broth"


def test_amounts_of_a_variant_are_named_by_the_one_ingredient_they_change() -> None:
    here = kitchen()
    less = varied(here, PARTS, ["carrot=5", "baby carrot=7 g", "sauce=2 oz"])
    assert less == [
        replace(PARTS[0], mass=Mass(5.0, "5")),
        replace(PARTS[1], mass=Mass(7.0, "7 g")),
        replace(PARTS[2], mass=Mass(pytest.approx(56.7, abs=0.1), "2 oz"), volume=None),  # type: ignore[arg-type]
    ]
    assert varied(here, PARTS, ["baby=", " SAUCE = "]) == [PARTS[0]]
    inside = "In the meal: carrot, baby carrot, sauce."
    for wrong in ("carr=5 g", "onion=5 g", "carrot", "=5 g"):
        assert said(lambda wrong=wrong: varied(here, PARTS, [wrong])) == (
            f"“{wrong}” names no one ingredient; write such as “carrot=1 oz”. {inside}",
            "change",
        )
    assert said(lambda: varied(here, (), ["carrot=5 g"])) == (
        "“carrot=5 g” names no one ingredient; write such as “onion=1 oz”. In the meal: nothing.",
        "change",
    )


def test_a_cup_is_weighed_of_what_has_a_name_in_the_handbook() -> None:
    here = kitchen()
    assert cup_of(here, PARTS, "baby = 90") == ("carrot", Mass(90.0, "90"))
    rice = MealPart(1, 3, "rice", staple="rice-white", id=4)
    assert cup_of(here, [rice], "rice=185 g") == ("rice-white", Mass(185.0, "185 g"))
    assert said(lambda: cup_of(here, PARTS, "sauce=90 g")) == (
        "sauce is known by its label alone: give its weight in the meal instead.",
        "cup",
    )


def test_an_amount_is_read_in_the_unit_it_had_and_nothing_typed_is_no_amount() -> None:
    here = kitchen()
    assert with_amount(here, PARTS[0], " ") == replace(PARTS[0], mass=None)
    assert with_amount(here, PARTS[0], "12") == replace(PARTS[0], mass=Mass(12.0, "12"))
    assert with_amount(here, PARTS[2], "12") == replace(PARTS[2], volume=Volume(12.0, "12"))
    assert with_amount(here, PARTS[0], "12 ml") == replace(PARTS[0], mass=None, volume=Volume(12.0, "12 ml"))
    assert part_of(Choice(DRIED, "carrot", "carrot"), 7) == MealPart(0, 0, "carrot", "carrot", lot=7)
    assert part_of(Choice(STAPLE, "rice-white", "rice")) == MealPart(0, 0, "rice", staple="rice-white")
    assert part_of(Choice(LABEL, "", "sauce")) == MealPart(0, 0, "sauce")
    assert draft_part(here, "carrot", "5 g") == MealPart(0, 0, "carrot", "carrot", mass=Mass(5.0, "5 g"))


def test_a_meal_is_scaled_with_every_amount_and_what_was_typed_is_no_longer_said() -> None:
    here = kitchen()
    done = scale_meal(here, 1, 3.0)
    assert (done.what, done.record) == ("Scaled stew to 3 servings", replace(STEW, servings=3.0))
    assert [(p.mass, p.volume) for p in meal_parts(here, 1)] == [
        (Mass(30.0), None),
        (Mass(45.0), None),
        (None, Volume(90.0)),
    ]
    assert scaled(PARTS[0], 1.0) is PARTS[0]
    assert said(lambda: scale_meal(here, 1, 0.0))[1] == "servings"


def test_a_meal_that_goes_takes_all_that_speaks_of_it_and_leaves_what_was_eaten() -> None:
    more = (
        CookingNote(1, DAY, id=1),
        CookingNotePart(1, "carrot", "hard", "carrot", id=1),
        Trip("lakes", DAY, DAY, id=1),
        TripMeal(1, 1, DAY, id=1),
        AfterTrip(1, 1, change="salt", id=1),
        Lot("carrot", DAY, id=1),
        LotDraw(1, DAY, mass=Mass(5.0), meal=1, id=1),
    )
    here = kitchen(*more)
    done = remove_meal(here, 1)
    assert done.what == "Removed the meal stew"
    for kind in (Meal, MealPart, CookingNote, CookingNotePart, TripMeal, AfterTrip):
        assert here.journal.where(kind) == ()
    assert here.journal.where(LotDraw) == (LotDraw(1, DAY, mass=Mass(5.0), id=1),)
    here.write(done.undone().changes)
    assert here.journal.where(LotDraw)[0].meal == 1


def test_what_is_gone_or_named_twice_is_refused() -> None:
    here = kitchen()
    assert said(lambda: the_part(here, 9)) == ("That ingredient is no longer in the meal.", "")
    assert said(lambda: save_meal(here, Meal("Stew"))) == (
        "There is already a meal called Stew; choose another name.",
        "name",
    )
    ways = "no soak, short soak, boil and rest, cold soak, no pot"
    assert said(lambda: cooked_by(STEW, "Fried")) == (f"A meal is cooked by one of {ways}, not “Fried”.", "cooking")
    set_here = replace(STEW, cook_minutes=9.0)
    assert cooked_by(set_here, "Short-Soak") is set_here
    assert cooked_by(set_here, " no  soak") == replace(STEW, cooking="no soak")
    assert [m.name for m in meals(kitchen(Meal("Apple", id=2), Meal("apple b", id=3)))] == [
        "Apple",
        "apple b",
        "stew",
    ]


# --- cooked -----------------------------------------------------------------------------------------------------


def test_what_was_cooked_is_noted_with_its_remarks_and_its_draws() -> None:
    lots = (Lot("carrot", DAY, "door jar", mass=Mass(90.0), id=1), Lot("carrot", DAY, mass=Mass(90.0), id=2))
    here = kitchen(*lots)
    today = here.local(here.now()).date()
    remarks = [CookingNotePart(0, "carrot", "hard", "carrot"), CookingNotePart(0, "sauce", "right")]
    draws = [LotDraw(1, DAY, "given", Mass(20.0)), LotDraw(2, DAY)]
    earlier = here.journal.get(Lot, 1)
    assert earlier is not None
    for lot in lots:
        here.journal.kept[Lot][lot.id] = replace(lot, packed_on=today - timedelta(days=9))  # type: ignore[attr-defined]
    done = note_cooking(here, CookingNote(1, today, came_back="hard"), remarks, draws)
    assert done.what == (
        "Noted how stew came out, hard; taken off the shelf: 20 g of carrot (door jar), all of carrot (lot 2)"
    )
    assert done.record == CookingNote(1, today, came_back="hard", id=1)
    assert here.journal.where(CookingNotePart) == (
        replace(remarks[0], note=1, id=1),
        replace(remarks[1], note=1, id=2),
    )
    assert here.journal.where(LotDraw) == (
        LotDraw(1, today, mass=Mass(20.0), meal=1, at=here.now(), id=1),
        LotDraw(2, today, meal=1, at=here.now(), id=2),
    )
    before = note_cooking(here, CookingNote(1, today - timedelta(days=1)), draws=[LotDraw(1, DAY, mass=Mass(1.0))])
    assert before.what.startswith("Noted how stew came out; taken off the shelf: ")
    assert here.journal.where(LotDraw)[-1].at is None
    assert [note.id for note in notes_of(here, 1)] == [1, 2]
    gone = remove_note(here, 1)
    assert (gone.what, here.journal.where(CookingNotePart)) == ("Removed the cooking note", ())
    assert said(lambda: remove_note(here, 1))[0] == "That note is no longer here."


def test_what_would_be_drawn_is_said_as_still_to_come() -> None:
    here = kitchen(Lot("carrot", DAY, mass=Mass(90.0), id=1))
    assert drawn_words(here, [LotDraw(1, DAY, mass=Mass(20.0))], to_come=True) == (
        "this leaves the shelf: 20 g of carrot (lot 1)"
    )
    assert drawn_words(here, [LotDraw(9, DAY)]) == drawn_words(here, ()) == ""


def test_the_lot_an_ingredient_names_is_drawn_before_those_that_go_off_first() -> None:
    """Two servings as the meal is: 20 g of carrot from the lot that is named, 30 g from the one to use first."""
    day = DAY
    bought = {"origin": "bought", "mass": Mass(25.0), "packed_on": day - timedelta(days=9)}
    lots = [
        Lot("carrot", bought_keep_by=day + timedelta(days=days), id=id, **bought)  # type: ignore[arg-type]
        for id, days in ((1, 90), (2, 60))
    ]
    named = replace(PARTS[0], lot=1)
    here = a_kitchen(STEW, named, *PARTS[1:], *lots)
    draws = draws_for(here, STEW, 2.0, day)
    assert [(d.lot, d.mass, d.meal, d.on) for d in draws] == [
        (1, Mass(20.0), 1, day),
        (2, Mass(25.0), 1, day),
        (1, Mass(5.0), 1, day),
    ]


# --- names ------------------------------------------------------------------------------------------------------


def test_a_choice_says_what_it_is_and_exact_names_stand_first() -> None:
    here = kitchen()
    assert [Choice(kind, "x", "corn").label for kind in (DRIED, STAPLE, LABEL)] == [
        "corn, home-dried",
        "corn, bought",
        "corn, by its own label",
    ]
    assert find_ingredients(here, " Carrot ")[0] == Choice(DRIED, "carrot", "carrot")
    assert find_ingredients(here, "corn")[0] == Choice(DRIED, "corn", "sweet corn")
    found = find_ingredients(here, "potato", 4)
    assert len(found) == 4
    assert {choice.kind for choice in found} == {DRIED, STAPLE}
    assert len(find_ingredients(here, "potato", 1)) == 1
    assert find_ingredients(here, "xyzzy") == []
    assert said(lambda: identify_ingredient(here, " ")) == (
        "An ingredient needs a name, such as corn, or potato flakes.",
        "name",
    )
    assert said(lambda: identify_ingredient(here, " xyzzy ")) == (
        "Which food is “xyzzy”? Near: none; give its label figures to add it as it is.",
        "name",
    )


def test_a_swap_stands_in_the_place_of_what_goes_and_weighs_as_much_unless_told() -> None:
    here = kitchen()
    swap = preview_swap(here, 2, "couscous")
    assert swap.into == MealPart(1, 1, "couscous", staple="couscous", mass=Mass(30.0), id=2)
    assert preview_swap(here, 3, "couscous").into.mass is None
    measured = preview_swap(here, 2, "couscous", "1 cup").into
    assert (measured.mass, measured.volume.typed) == (None, "1 cup")
    assert [d.name for d in differences(swap.before, swap.after)] == [
        "dry weight", "water", "energy", "energy per gram", "protein", "fat", "carbohydrate", "fiber", "sodium",
        "soak", "cook",
    ]  # fmt: skip
    told = {d.name: d for d in differences(swap.before, swap.after)}
    assert (told["soak"].before, told["cook"].after) == (swap.before.minutes.soak, swap.after.minutes.cook)
    assert told["energy"].change == swap.after.serving.energy.value - swap.before.serving.energy.value  # type: ignore[union-attr]
    assert replace(told["energy"], after=None).change is None
    assert replace(told["energy"], before=None).change is None
    assert swap_part(here, 2, "couscous", "40 g").what == "Swapped baby carrot for couscous"
    assert [p.name for p in meal_parts(here, 1)] == ["carrot", "couscous", "sauce"]
