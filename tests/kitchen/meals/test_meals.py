"""Meals put together, changed and kept, with what is said of them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dryhouse.kitchen.meals.cooking import note_cooking, notes_of
from dryhouse.kitchen.meals.ingredients import LABEL, Choice, find_ingredients, identify_ingredient, keep_cup
from dryhouse.kitchen.meals.meals import (
    cup_of,
    draft_part,
    find_meal,
    meals,
    part_of,
    remove_meal,
    save_as_new,
    save_meal,
    scale_meal,
    varied,
    with_amount,
)
from dryhouse.kitchen.meals.sheet import meal_parts, meal_sheet, sheet_of
from dryhouse.kitchen.records import (
    Batch,
    BatchPart,
    CookingNote,
    CookingNotePart,
    Lot,
    LotDraw,
    Meal,
    OwnFood,
    Trip,
    TripMeal,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Length, Mass, Volume
from tests.kitchen.meals.meal_room import DAY, a_kitchen, build
from tests.rows import every_row
from tests.workings import read

# --- finding ingredients ---------------------------------------------------------------------------------


def test_words_find_dried_foods_and_staples_and_say_which_is_which() -> None:
    told = [c.label for c in find_ingredients(a_kitchen(), "rice")]
    assert any("home-dried" in t for t in told)
    assert any("bought" in t for t in told)


@every_row(
    ("typed", "kind", "slug"),
    [
        ("potato flakes", "staple", "potato-flakes"),
        ("couscous", "staple", "couscous"),
        ("carrot", "dried", "carrot"),
        ("bouillon powder, chicken", "staple", "bouillon-chicken"),
    ],
)
def test_a_name_finds_the_one_thing_it_means(typed: str, kind: str, slug: str) -> None:
    found = identify_ingredient(a_kitchen(), typed)
    assert (found.kind, found.slug) == (kind, slug)


def test_a_name_that_means_nothing_says_what_to_do() -> None:
    with pytest.raises(InputProblem, match="label figures"):
        identify_ingredient(a_kitchen(), "xyzzy")


# --- building --------------------------------------------------------------------------------------------


def test_mass_and_measure_agree_through_bulk_density() -> None:
    kitchen = a_kitchen()
    by_cup = sheet_of(kitchen, Meal("m"), [draft_part(kitchen, "couscous", "1 cup")]).parts[0]
    by_mass = sheet_of(kitchen, Meal("m"), [draft_part(kitchen, "couscous", "173 g")]).parts[0]
    assert by_cup.grams == pytest.approx(173.0)
    assert by_mass.ml == pytest.approx(by_cup.ml)


def test_a_measure_without_a_bulk_density_counts_for_nothing_and_says_so() -> None:
    kitchen = a_kitchen()
    sheet = sheet_of(kitchen, Meal("m"), [draft_part(kitchen, "honey", "1 tbsp")])
    assert sheet.parts[0].grams is None
    assert "honey: what a cup of it weighs is not known: weigh one cup of it." in sheet.remarks


def test_a_saved_meal_answers_for_the_bag_and_for_each_serving() -> None:
    kitchen = a_kitchen()
    sheet = meal_sheet(kitchen, build(kitchen, ("carrot", "20 g"), ("couscous", "120 g")))
    assert sheet.bag.dry_mass.value == pytest.approx(140.0)
    assert sheet.serving.dry_mass.value == pytest.approx(70.0)
    assert sheet.bag.energy is not None
    assert sheet.serving.energy is not None
    assert sheet.serving.energy.value == pytest.approx(sheet.bag.energy.value / 2)
    for figure in (sheet.bag.water, sheet.bag.energy, sheet.bag.energy_per_gram):
        assert figure is not None
        assert figure.basis
        assert figure.workings


def test_servings_scale_everything_but_the_steam() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("carrot", "20 g"), ("couscous", "120 g"), boil_off_ml_per_min=0.0)
    two, six = meal_sheet(kitchen, id), meal_sheet(kitchen, id, servings=6)
    assert six.bag.water.value == pytest.approx(3 * two.bag.water.value)
    assert six.serving.dry_mass.value == pytest.approx(two.serving.dry_mass.value)
    scale_meal(kitchen, id, 6)
    again = meal_sheet(kitchen, id)
    assert again.bag.water.value == pytest.approx(six.bag.water.value)
    assert again.serving.energy is not None
    assert two.serving.energy is not None
    assert again.serving.energy.value == pytest.approx(two.serving.energy.value)
    assert meal_parts(kitchen, id)[0].mass == Mass(60.0)


def test_label_figures_of_her_own_count() -> None:
    kitchen = a_kitchen()
    bar = replace(
        part_of(Choice(LABEL, "", "crackers")),
        mass=Mass(60.0),
        portion=Mass(30.0),
        label_energy_kcal=130.0,
        label_sodium_mg=200.0,
        label_water=Volume(10.0),
        label_minutes=3.0,
    )
    sheet = sheet_of(kitchen, Meal("m", liquid="dry", boil_off_ml_per_min=0.0), [bar])
    assert sheet.bag.energy is not None
    assert sheet.bag.sodium is not None
    assert sheet.bag.energy.value == pytest.approx(260.0)
    assert sheet.bag.sodium.value == pytest.approx(400.0)
    assert sheet.bag.water.value == pytest.approx(20.0)
    assert sheet.minutes.cook.value == 3.0
    assert sheet.bag.protein is None


def test_a_lot_brings_its_own_batch_into_the_figures() -> None:
    """Her carrots went from 1000 g to 350 g: 2.86 fresh grams in each dried gram, so that no more than 1.86 ml of
    water goes back, where a gram of dried carrot would take up 3.1."""
    batch = Batch("carrot", prepared_mass=Mass(1000.0), dried_mass=Mass(350.0), id=1)
    lot = Lot("carrot", DAY, batch=1, mass=Mass(350.0), id=1)
    kitchen = a_kitchen(batch, lot)
    part = draft_part(kitchen, "carrot", "30 g", lot=1)
    sheet = sheet_of(kitchen, Meal("m", liquid="dry", boil_off_ml_per_min=0.0), [part])
    assert sheet.bag.water.value == pytest.approx(30 * (1000 / 350 - 1))
    assert sheet.bag.energy is not None
    assert sheet.bag.energy.value == pytest.approx(0.30 * 41 * 1000 / 350)
    assert any(b.kind == "own" and b.n == 1 for b in sheet.bag.water.basis)


def test_weights_that_do_not_add_up_are_not_believed_by_the_nutrition() -> None:
    """1000 g of carrots hold 117 g of dry matter: 60 g dried cannot be, so the moistures decide."""
    batch = Batch("carrot", prepared_mass=Mass(1000.0), dried_mass=Mass(60.0), id=1)
    kitchen = a_kitchen(batch, Lot("carrot", DAY, batch=1, mass=Mass(60.0), id=1))
    energy = sheet_of(kitchen, Meal("m"), [draft_part(kitchen, "carrot", "30 g", lot=1)]).bag.energy
    assert energy is not None
    assert energy.value == pytest.approx(0.30 * 41 * 90 / 11.71)


def test_weights_that_do_not_add_up_are_not_believed_by_the_pot() -> None:
    batch = Batch("carrot", prepared_mass=Mass(1000.0), dried_mass=Mass(60.0), id=1)
    kitchen = a_kitchen(batch, Lot("carrot", DAY, batch=1, mass=Mass(60.0), id=1))
    dry = Meal("m", liquid="dry", boil_off_ml_per_min=0.0)
    with_lot, without = (
        sheet_of(kitchen, dry, [draft_part(kitchen, "carrot", "30 g", lot=lot)]).bag.water.value
        for lot in (1, None)
    )
    assert with_lot == pytest.approx(without)


def test_a_mix_holds_what_went_into_it() -> None:
    chili = OwnFood("chili", "chili", "mixed", id=1)
    batch = Batch("chili", prepared_mass=Mass(900.0), dried_mass=Mass(200.0), id=1)
    parts = [BatchPart(1, 0, "carrot", Mass(500.0), id=1), BatchPart(1, 1, "onion", Mass(400.0), id=2)]
    kitchen = a_kitchen(chili, batch, *parts, Lot("chili", DAY, batch=1, mass=Mass(200.0), id=1))
    energy = sheet_of(kitchen, Meal("m"), [draft_part(kitchen, "chili", "100 g", lot=1)]).bag.energy
    assert energy is not None
    assert energy.value == pytest.approx((5 * 41 + 4 * 40) / 2)


def test_parts_are_added_changed_and_removed_as_the_card_is_saved_and_each_save_can_be_taken_back() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("carrot", "20 g"))
    meal, (carrot,) = kitchen.journal.get(Meal, id), meal_parts(kitchen, id)
    assert meal is not None
    done = save_meal(kitchen, meal, [carrot, draft_part(kitchen, "onion", "5 g")])
    onion = meal_parts(kitchen, id)[1]
    save_meal(kitchen, meal, [carrot, with_amount(kitchen, onion, "8 g")])
    assert meal_parts(kitchen, id)[1] == replace(onion, mass=Mass(8.0, "8 g"))
    save_meal(kitchen, meal, [carrot])
    assert [p.name for p in meal_parts(kitchen, id)] == ["carrot"]
    kitchen.journal.write(done.changes)
    assert [p.name for p in meal_parts(kitchen, id)] == ["carrot", "onion"]


@every_row(
    ("meal", "field"),
    [
        (Meal("  "), "name"),
        (Meal("x", servings=0), "servings"),
        (Meal("x", cooking="fry"), "cooking"),
        (Meal("x", liquid="thick"), "liquid"),
        (Meal("x", cook_minutes=-1), "cook_minutes"),
        (Meal("x", pot_diameter=Length(3.0)), "pot_diameter"),
        (Meal("STEW"), "name"),
    ],
)
def test_a_meal_that_cannot_be_is_refused_and_nothing_changes(meal: Meal, field: str) -> None:
    kitchen = a_kitchen()
    build(kitchen, ("carrot", "20 g"))
    with pytest.raises(InputProblem) as problem:
        save_meal(kitchen, meal)
    assert problem.value.field == field
    assert len(meals(kitchen)) == 1


def test_a_lot_of_another_food_is_refused() -> None:
    kitchen = a_kitchen(Lot("corn", DAY, mass=Mass(50.0), id=1))
    with pytest.raises(InputProblem, match="another food"):
        save_meal(kitchen, Meal("m"), [draft_part(kitchen, "carrot", "5 g", lot=1)])


def test_a_meal_is_found_by_some_of_its_words() -> None:
    kitchen = a_kitchen()
    save_meal(kitchen, Meal("Squash and lentil stew"))
    save_meal(kitchen, Meal("Mushroom barley pot"))
    assert find_meal(kitchen, "lentil squash").name == "Squash and lentil stew"
    with pytest.raises(InputProblem, match="Mushroom barley pot"):
        find_meal(kitchen, "gruel")


def test_removing_a_meal_takes_its_days_and_notes_and_comes_back_whole() -> None:
    kitchen = a_kitchen(Lot("carrot", DAY, mass=Mass(50.0), id=1), Trip("t", DAY, DAY, id=1))
    id = build(kitchen, ("carrot", "20 g"))
    kitchen.journal.write(note_cooking(kitchen, CookingNote(id, DAY), draws=[LotDraw(1, DAY)]).undone().changes)
    note_cooking(kitchen, CookingNote(id, DAY, came_back="right"), [CookingNotePart(0, "carrot", "hard", "carrot")])
    done = remove_meal(kitchen, id)
    assert not kitchen.journal.where(Meal)
    assert not kitchen.journal.where(CookingNote)
    assert not kitchen.journal.where(TripMeal)
    kitchen.journal.write(done.undone().changes)
    assert [p.name for p in meal_parts(kitchen, id)] == ["carrot"]
    assert len(notes_of(kitchen, id)) == 1


# --- cautions and remarks --------------------------------------------------------------------------------


def test_meat_is_never_a_cold_soak() -> None:
    kitchen = a_kitchen()
    parts = [draft_part(kitchen, "ground beef", "20 g"), draft_part(kitchen, "couscous", "60 g")]
    cold = sheet_of(kitchen, Meal("m", cooking="cold soak"), parts)
    assert any(c.rule == "cold-soak-animal" and c.severity == "stop" for c in cold.cautions)


def test_bought_animal_food_in_a_cold_soak_is_cautioned_too() -> None:
    kitchen = a_kitchen()
    cold = sheet_of(kitchen, Meal("m", cooking="cold soak"), [draft_part(kitchen, "egg powder", "20 g")])
    assert any(c.rule == "cold-soak-animal" and c.severity == "stop" for c in cold.cautions)


def test_a_cold_soak_says_what_it_will_not_cook() -> None:
    kitchen = a_kitchen()
    cold = sheet_of(kitchen, Meal("m", cooking="cold soak"), [draft_part(kitchen, "lentils", "80 g")])
    assert any("lentils" in remark for remark in cold.remarks)
    assert cold.minutes.flame.value == 0


def test_a_salty_packet_is_told_plainly_with_its_source() -> None:
    kitchen = a_kitchen()
    parts = [draft_part(kitchen, "couscous", "100 g"), draft_part(kitchen, "bouillon powder, beef", "12 g")]
    said = [r for r in sheet_of(kitchen, Meal("m"), parts).remarks if "sodium" in r]
    assert len(said) == 1
    assert "2300 mg" in said[0]
    assert "bouillon powder, beef" in said[0]
    assert "Dietary Guidelines" in said[0]
    assert not [r for r in sheet_of(kitchen, Meal("m"), parts[:1]).remarks if "sodium" in r]


# --- minutes ---------------------------------------------------------------------------------------------


def test_the_slowest_ingredient_sets_the_minutes() -> None:
    kitchen = a_kitchen()
    sheet = meal_sheet(kitchen, build(kitchen, ("couscous", "60 g"), ("lentils", "80 g")))
    assert sheet.minutes.cook.value == 30
    assert sheet.minutes.soak.value == 0


def test_published_soak_hours_stand_beside_the_soak_of_the_way() -> None:
    kitchen = a_kitchen()
    sheet = meal_sheet(kitchen, build(kitchen, ("carrot", "20 g")))
    assert sheet.minutes.soak.value == 20
    assert any("soak at least 1 h" in p.sentence for p in sheet.published)
    assert any("Georgia" in p.source for p in sheet.published)


def test_higher_up_it_takes_longer_and_boils_off_more() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("lentils", "80 g"))
    sea, high = meal_sheet(kitchen, id), meal_sheet(kitchen, id, altitude_m=2438.4)
    assert high.minutes.cook.value > 1.5 * sea.minutes.cook.value
    assert high.bag.water.value > sea.bag.water.value
    assert "water boils at" in read(high.minutes.cook.workings)


def test_boil_and_rest_burns_little_and_stands_long() -> None:
    kitchen = a_kitchen()
    sheet = meal_sheet(kitchen, build(kitchen, ("lentils", "80 g"), cooking="boil and rest"))
    assert sheet.minutes.flame.value == 2
    assert sheet.minutes.cook.value == 60


def test_a_copy_has_a_name_of_its_own_and_the_ingredients_but_not_the_notes() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("carrot", "20 g"), ("lentils", "80 g"))
    note_cooking(kitchen, CookingNote(id, DAY, came_back="hard"))
    known, parts = kitchen.journal.get(Meal, id), meal_parts(kitchen, id)
    names = []
    for _ in range(2):
        done = save_as_new(kitchen, known, parts)
        names.append(done.record.name)
    assert names == ["stew 2", "stew 3"]
    assert save_as_new(kitchen, done.record, parts).record.name == "stew 4"
    assert [p.name for p in meal_parts(kitchen, done.record.id)] == [p.name for p in parts]
    assert not notes_of(kitchen, done.record.id)
    assert kitchen.journal.get(Meal, id) == known
    kitchen.journal.write(done.undone().changes)
    assert len(meals(kitchen)) == 3


def test_a_variant_changes_amounts_and_leaves_out_what_has_none() -> None:
    kitchen = a_kitchen()
    parts = meal_parts(kitchen, build(kitchen, ("carrot", "20 g"), ("lentils", "80 g"), ("onion", "5 g")))
    less = varied(kitchen, parts, ["lentil=40 g", "onion="])
    assert [(p.name, p.mass.si) for p in less] == [("carrot", 20.0), ("lentils", 40.0)]
    for wrong in ("n=5 g", "beef=1 oz", "carrot"):
        with pytest.raises(InputProblem, match="names no one ingredient"):
            varied(kitchen, parts, [wrong])


def test_one_weighed_cup_stands_for_every_measure_of_it_and_can_be_taken_back() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("ground beef", "1/2 cup"), ("bouillon powder, beef", "1 tbsp"))
    assert [line.part.name for line in meal_sheet(kitchen, id).unweighed] == [
        "ground beef, cooked",
        "bouillon powder, beef",
    ]
    slug, weight = cup_of(kitchen, meal_parts(kitchen, id), "beef, cooked=90 g")
    done = keep_cup(kitchen, slug, weight)
    keep_cup(kitchen, "bouillon-beef", Mass(160.0))
    sheet = meal_sheet(kitchen, id)
    assert not sheet.unweighed
    assert [line.grams for line in sheet.parts] == pytest.approx([45.0, 10.0], rel=1e-3)
    assert any(b.kind == "own" for b in sheet.bag.dry_mass.basis)
    kitchen.journal.write(done.undone().changes)
    assert [line.part.food for line in meal_sheet(kitchen, id).unweighed] == ["ground-beef"]
    by_label = [replace(part_of(Choice(LABEL, "", "camp sauce")), volume=Volume(100.0))]
    assert not sheet_of(kitchen, Meal("m"), by_label).unweighed
    counted = [replace(by_label[0], label_energy_kcal=200.0)]
    assert sheet_of(kitchen, Meal("m"), counted).weigh == "give the weight of camp sauce"
    with pytest.raises(InputProblem, match="one full cup"):
        keep_cup(kitchen, "ground-beef", Mass(0.0))
