"""Meals put together, changed, swapped, cooked and noted."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.exchange.meal_files import bring_meal, meal_text, read_meal, write_meal
from dryhouse.kitchen.kitchen import Kitchen
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
from dryhouse.kitchen.meals.swaps import differences, preview_swap, swap_in_copy, swap_part
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import (
    Batch,
    BatchPart,
    CookingNote,
    CookingNotePart,
    Lot,
    LotDraw,
    Meal,
    MealPart,
    OwnFood,
    Trip,
    TripMeal,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Length, Mass, Volume
from tests.fakes import FakeJournal
from tests.rows import every_row
from tests.workings import read, rests_on

DAY = date(2026, 8, 21)


def a_kitchen(*records: Record) -> Kitchen:
    return Kitchen(FakeJournal(*records), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)


def build(kitchen: Kitchen, *typed: tuple[str, str], **meal: object) -> int:
    done = save_meal(
        kitchen, Meal("stew", 2.0, **meal), [draft_part(kitchen, name, amount) for name, amount in typed]
    )
    return done.record.id


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


# --- swapping --------------------------------------------------------------------------------------------


def test_swapping_meat_for_a_soy_crumble_shows_what_changes_and_changes_nothing_yet() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("ground beef", "40 g"), ("couscous", "120 g"))
    beef = meal_parts(kitchen, id)[0]
    swap = preview_swap(kitchen, beef.id, "soy crumble")
    assert swap.into.mass == Mass(40.0)
    change = {d.name: d.change for d in differences(swap.before, swap.after)}
    assert change["dry weight"] == pytest.approx(0.0)
    assert change["fat"] is not None
    assert change["fat"] < 0
    assert any(c.severity == "stop" for c in swap.before.cautions)
    assert not any(c.rule.startswith("heat-meat") for c in swap.after.cautions)
    assert meal_parts(kitchen, id)[0] == beef
    swap_part(kitchen, beef.id, "soy crumble")
    assert meal_parts(kitchen, id)[0].staple == "soy-crumble"


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


# --- notes -----------------------------------------------------------------------------------------------


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


def test_a_variant_changes_amounts_and_leaves_out_what_has_none() -> None:
    kitchen = a_kitchen()
    parts = meal_parts(kitchen, build(kitchen, ("carrot", "20 g"), ("lentils", "80 g"), ("onion", "5 g")))
    less = varied(kitchen, parts, ["lentil=40 g", "onion="])
    assert [(p.name, p.mass.si) for p in less] == [("carrot", 20.0), ("lentils", 40.0)]
    for wrong in ("n=5 g", "beef=1 oz", "carrot"):
        with pytest.raises(InputProblem, match="names no one ingredient"):
            varied(kitchen, parts, [wrong])


def test_a_swap_in_a_copy_leaves_the_meal_as_it_was() -> None:
    kitchen = a_kitchen()
    id = build(kitchen, ("ground beef", "40 g"), ("couscous", "60 g"))
    beef = meal_parts(kitchen, id)[0]
    made = swap_in_copy(kitchen, beef.id, "soy crumble").record
    assert made.name == "stew with soy crumble, textured"
    assert [p.name for p in meal_parts(kitchen, made.id)] == ["soy crumble, textured", "couscous"]
    assert meal_parts(kitchen, id)[0] == beef


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


# --- files -----------------------------------------------------------------------------------------------


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
