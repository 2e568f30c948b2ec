"""The sheet of a meal: what a bag and a serving hold, whether a pot is heated, and how it is cooked in a line."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import set_fuel_per_liter
from dryhouse.kitchen.meals.ingredients import LABEL, STAPLE, Pantry
from dryhouse.kitchen.meals.meals import draft_part
from dryhouse.kitchen.meals.sheet import MealSheet, cooking_line, meal_parts, sheet_of
from dryhouse.kitchen.records import Lot, Meal, MealPart
from dryhouse.kitchen.records.meals import COLD_SOAK, NO_POT, NO_SOAK, REST, SHORT_SOAK
from dryhouse.kitchen.shelf.shelf import shelf
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.values import Figure
from tests.fakes import FakeJournal
from tests.rows import every_row
from tests.workings import read, rests_on

KITCHEN = Kitchen(FakeJournal(), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
DAY = timedelta(days=1)
LENTILS = (("couscous", "100 g"), ("carrot", "40 g"))


def sheet(*typed: tuple[str, str], kitchen: Kitchen = KITCHEN, servings: float | None = None, **meal) -> MealSheet:
    made = Meal("stew", **{"servings": 2.0, **meal})
    parts = [draft_part(kitchen, name, amount) for name, amount in typed or LENTILS]
    return sheet_of(kitchen, made, parts, servings=servings)


@every_row("servings", [1.0, 3.0, 2.0])
def test_a_serving_is_its_share_of_the_bag_whatever_is_packed(servings) -> None:
    made, asked = sheet(), sheet(servings=servings)
    assert asked.bag.dry_mass.value == pytest.approx(70.0 * servings)
    for name in ("dry_mass", "energy", "protein", "fat", "carbohydrate", "fibre", "sodium"):
        bag, one, before = (getattr(sums, name) for sums in (asked.bag, asked.serving, made.serving))
        assert one.value == pytest.approx(bag.value / servings), name
        assert one.value == pytest.approx(before.value), name
        for end in ("low", "high"):
            told = getattr(bag, end)
            assert getattr(one, end) == (None if told is None else pytest.approx(told / servings)), name
        assert len(one.workings) == len(bag.workings) + (servings != 1.0), name
    assert asked.serving.energy_per_gram == asked.bag.energy_per_gram
    assert asked.bag.energy_per_gram.value == pytest.approx(asked.bag.energy.value / asked.bag.dry_mass.value)


@every_row(("servings", "of"), [(0.0, 2.0), (-1.0, 2.0), (1.0, 0.0)])
def test_a_meal_for_nobody_is_refused(servings, of) -> None:
    with pytest.raises(InputProblem, match="A meal serves someone") as refused:
        sheet(servings=servings) if of else sheet_of(KITCHEN, Meal("m", of), [], servings=servings)
    assert refused.value.field == "servings"


@every_row(
    ("cooking", "heated"), [(SHORT_SOAK, True), (NO_SOAK, True), (REST, True), (COLD_SOAK, False), (NO_POT, False)]
)
def test_what_is_not_cooked_takes_no_heat(cooking, heated) -> None:
    assert (sheet(cooking=cooking).heat is not None) is heated


def test_her_own_fuel_for_a_liter_gives_the_grams_of_a_pot() -> None:
    kitchen = Kitchen(FakeJournal(), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
    assert sheet(kitchen=kitchen).heat.grams is None
    set_fuel_per_liter(kitchen, Mass(10.0))
    found = sheet(kitchen=kitchen)
    assert found.heat.grams.value > 0
    assert Pantry(kitchen).own_fuel == 10.0


def test_what_holds_nothing_that_is_known_has_no_energy_for_a_gram() -> None:
    found = sheet(("honey", "1 tbsp"))
    assert found.bag.dry_mass.value == 0
    assert found.bag.energy_per_gram is None
    nothing = sheet_of(KITCHEN, Meal("m"), [MealPart(0, 0, "couscous", staple="couscous", mass=Mass(0.0))])
    assert nothing.bag.energy.value == 0
    assert nothing.bag.energy_per_gram is None
    crumb = sheet(("couscous", "0.5 g")).bag.energy_per_gram
    assert crumb.value == pytest.approx(3.76)


@every_row(
    ("cooking", "soak", "cook", "line"),
    [
        (SHORT_SOAK, 15.0, 12.0, "Soak 15 min, simmer 12 min"),
        (SHORT_SOAK, 1.0, 12.0, "Soak 1 min, simmer 12 min"),
        (SHORT_SOAK, 0.5, 12.0, "Simmer 12 min"),
        (NO_SOAK, 0.0, 20.0, "Simmer 20 min"),
        (COLD_SOAK, 90.0, 0.0, "Soak 1 h 30 min in cold water, no cooking"),
        (COLD_SOAK, 0.0, 0.0, "Soak in cold water, no cooking"),
    ],
)
def test_soak_and_cook_are_said_in_a_line(cooking, soak, cook, line) -> None:
    made = sheet(cooking=cooking)
    minutes = replace(made.minutes, soak=Figure(soak, "min"), cook=Figure(cook, "min"))
    assert cooking_line(replace(made, minutes=minutes), ()) == line


def test_a_pot_that_rests_is_boiled_first() -> None:
    made = sheet(cooking=REST)
    minutes = replace(made.minutes, soak=Figure(0.0, "min"), cook=Figure(15.0, "min"), flame=Figure(2.0, "min"))
    assert cooking_line(replace(made, minutes=minutes), ()) == "Boil 2 min, rest 15 min well wrapped"


def test_without_a_pot_it_is_eaten_as_it_is_or_stirred_into_cold_water() -> None:
    made = sheet(("raisins", "50 g"), cooking=NO_POT)
    assert cooking_line(made, ()) == "Eaten as it is, no cooking"
    wet = replace(made, bag=replace(made.bag, water=Figure(200.0, "ml")))
    assert cooking_line(wet, ()) == "Stir into cold water, no cooking"


def test_the_workings_of_a_serving_go_on_from_those_of_the_bag() -> None:
    """Couscous: 376 kcal and 12.76 g of protein in 100 g. Carrot: 41 kcal in 100 g fresh, × 90 ÷ 11.71 dried."""
    found = sheet(boil_off_ml_per_min=0.0, liquid="dry").serving
    plain = {
        name: [line.partition("   [")[0] for line in read(getattr(found, name).workings).splitlines()]
        for name in ("dry_mass", "energy", "energy_per_gram", "protein", "water")
    }
    assert plain["dry_mass"] == ["couscous: 100 g", "carrot: 40 g", "Together 140 g", "One serving: × 0.5 = 70 g"]
    assert plain["energy"] == [
        "couscous: 100 g × 3.76 kcal/g = 376 kcal",
        "carrot: 40 g × 3.151 kcal/g = 126 kcal",
        "Together 502 kcal",
        "One serving: × 0.5 = 251 kcal",
    ]
    assert plain["energy_per_gram"] == [*plain["energy"][:3], "Together 140 g", "502 kcal ÷ 140 g = 3.586 kcal/g"]
    assert plain["protein"][-2:] == ["Together 15.62 g", "One serving: × 0.5 = 7.81 g"]
    assert plain["water"][-2:] == ["Water for the pot: 358.4 ml", "One serving: × 0.5 = 179.2 ml"]
    assert found.water.measure.value == pytest.approx(179.2 / 236.588, rel=1e-3)
    assert found.energy_per_gram.basis == found.energy.basis
    bag = sheet(boil_off_ml_per_min=0.0, liquid="dry").bag.water
    assert bag.low < bag.value < bag.high
    assert (found.water.low, found.water.high) == pytest.approx((bag.low / 2, bag.high / 2))
    assert found.water.measure.high == pytest.approx(bag.high / 2 / 236.588, rel=1e-3)


def test_what_is_measured_rests_on_what_a_cup_of_it_weighs_and_what_is_weighed_on_nothing() -> None:
    weighed, measured = sheet(("couscous", "100 g")), sheet(("couscous", "1 cup"))
    assert weighed.bag.dry_mass.basis == ()
    assert measured.bag.dry_mass.value == pytest.approx(173.0)
    assert rests_on(measured.bag.dry_mass.basis)[0].startswith("handbook: USDA")
    carrot = sheet(("carrot", "1 cup"))
    assert carrot.bag.dry_mass.basis != ()
    sauce = sheet_of(KITCHEN, Meal("m"), [MealPart(0, 0, "sauce", volume=Volume(60.0))])
    assert (sauce.bag.dry_mass.basis, sauce.bag.dry_mass.value) == ((), 0.0)


def test_what_has_to_be_weighed_first_is_named_by_how_it_is_weighed() -> None:
    parts = [
        draft_part(KITCHEN, "ground beef", "1/2 cup"),
        draft_part(KITCHEN, "honey", "1 tbsp"),
        draft_part(KITCHEN, "couscous", "1 cup"),
        MealPart(0, 3, "gravy", volume=Volume(60.0), label_water=Volume(90.0)),
        MealPart(0, 4, "sauce", volume=Volume(60.0)),
    ]
    found = sheet_of(KITCHEN, Meal("m"), parts)
    assert [line.part.name for line in found.unweighed] == ["ground beef, cooked", "honey", "gravy"]
    assert found.weigh == "weigh one cup of ground beef, cooked and of honey, and give the weight of gravy"
    assert sheet().weigh == ""


@every_row(
    ("cooking", "label", "pot", "water"),
    [
        (SHORT_SOAK, None, True, True),
        (NO_POT, None, False, False),
        (NO_POT, 90.0, False, True),
        (NO_POT, 0.5, False, True),
    ],
)
def test_water_goes_into_a_pot_and_onto_what_a_label_asks_it_for(cooking, label, pot, water) -> None:
    drink = MealPart(0, 0, "lemon", mass=Mass(10.0), label_water=None if label is None else Volume(label))
    found = sheet_of(KITCHEN, Meal("m", cooking=cooking), [drink, draft_part(KITCHEN, "raisins", "9 g")])
    assert (found.needs_pot, found.needs_water) == (pot, water)


@every_row(
    ("grams", "shelved", "named", "waits"),
    [(40.0, 39.4, None, True), (40.0, 39.5, None, False), (40.0, 0.0, 1, False), (0.0, 0.0, None, False)],
)
def test_meat_waits_to_be_dried_where_the_shelf_falls_short_by_more_than_half_a_gram(
    grams, shelved, named, waits
) -> None:
    day = date(2026, 8, 1)
    jar = Lot("ground-beef", day, mass=Mass(shelved), bought_keep_by=date(2027, 8, 1), origin="bought", id=1)
    kitchen = Kitchen(FakeJournal(jar), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
    parts = [
        MealPart(0, 0, "beef crumble", "ground-beef", lot=named, mass=Mass(grams)),
        MealPart(0, 1, "carrot", "carrot", mass=Mass(20.0)),
    ]
    found = sheet_of(kitchen, Meal("m"), parts)
    assert found.to_dry == (("beef crumble",) if waits else ())
    assert sheet_of(kitchen, Meal("m", cooking=NO_POT), parts).to_dry == ()


def test_the_parts_of_a_meal_stand_in_the_order_of_its_card() -> None:
    parts = [MealPart(1, position, f"part {id}", id=id) for id, position in ((1, 2), (2, 0), (3, 1), (4, 0))]
    kitchen = Kitchen(
        FakeJournal(Meal("m", id=1), *parts), handbook(), lambda: datetime(2026, 8, 1, tzinfo=UTC), UTC
    )
    assert [part.id for part in meal_parts(kitchen, 1)] == [2, 4, 3, 1]


# --- its ingredients ----------------------------------------------------------------------------------------------


def test_an_ingredient_has_its_figures_from_its_label_first_then_from_the_handbook() -> None:
    labelled = MealPart(0, 0, "rice", staple="rice-white", portion=Mass(50.0), label_energy_kcal=180.0)
    found = Pantry(KITCHEN).ingredient(labelled)
    assert (found.kind, found.slug) == (STAPLE, "rice-white")
    assert (found.per_100g["energy"].value, found.per_100g["energy"].unit) == (360.0, "kcal per 100 g")
    assert found.per_100g["energy"].source == "label of rice"
    assert found.per_100g["fat"].value == pytest.approx(0.66)
    every = MealPart(
        0, 0, "mix", label_energy_kcal=1.0, label_protein_g=2.0, label_fat_g=3.0, label_carbohydrate_g=4.0,
        label_sodium_mg=5.0,
    )  # fmt: skip
    told = Pantry(KITCHEN).ingredient(every)
    assert (told.kind, told.slug) == (LABEL, "")
    assert {name: (fact.value, fact.unit) for name, fact in told.per_100g.items()} == {
        "energy": (1.0, "kcal per 100 g"),
        "protein": (2.0, "g per 100 g"),
        "fat": (3.0, "g per 100 g"),
        "carbohydrate": (4.0, "g per 100 g"),
        "sodium": (5.0, "mg per 100 g"),
    }
    none = MealPart(0, 0, "mix", label_energy_kcal=0.0)
    assert Pantry(KITCHEN).ingredient(none).per_100g["energy"].value == 0.0


def test_a_pantry_keeps_what_it_looked_up_whatever_the_amount_and_gives_the_part_itself() -> None:
    asked: list[object] = []
    kitchen = replace(KITCHEN, journal=FakeJournal())
    where = kitchen.journal.where
    kitchen.journal.where = lambda kind, **equals: asked.append(kind) or where(kind, **equals)  # type: ignore[method-assign]
    pantry, part = Pantry(kitchen), MealPart(1, 4, "carrot", "carrot", mass=Mass(9.0), id=7)
    first = pantry.ingredient(part)
    looked = len(asked)
    again = pantry.ingredient(replace(part, mass=Mass(20.0), position=2, id=9))
    assert len(asked) == looked > 0
    assert (first.part, first.grams, again.grams) == (part, 9.0, 20.0)


def test_the_shelf_gives_its_lots_in_good_standing_in_the_order_to_use_them() -> None:
    lots = [
        Lot(
            "carrot",
            date(2026, 7, 1),
            mass=Mass(mass) if mass else None,
            bought_keep_by=until,
            origin="bought",
            id=id,
        )
        for id, mass, until in (
            (1, 30.0, date(2027, 8, 1)),
            (2, 20.0, date(2027, 2, 1)),
            (3, 90.0, date(2026, 7, 9)),
            (4, None, date(2027, 1, 1)),
        )
    ]
    kitchen = Kitchen(FakeJournal(*lots), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
    assert Pantry(kitchen).good_lots("carrot") == ((2, 20.0), (1, 30.0))
    assert Pantry(kitchen).good_lots("corn") == ()


def test_what_is_drunk_without_a_pot_goes_bad_like_a_pot_and_what_is_eaten_dry_does_not() -> None:
    """Only what water goes on can stand too long as a leftover."""
    for label, cooking, wet in ((None, NO_POT, False), (90.0, NO_POT, True), (None, SHORT_SOAK, True)):
        water = None if label is None else Volume(label)
        bean = MealPart(0, 0, "kidney bean", "kidney-bean", mass=Mass(10.0), label_water=water)
        rules = {caution.rule for caution in sheet_of(KITCHEN, Meal("m", cooking=cooking), [bean]).cautions}
        assert ({"leftovers-cold", "danger-zone"} <= rules) is wet, (label, cooking)


def test_what_goes_off_first_is_used_first_though_another_is_to_be_used_soon() -> None:
    """Five days left of fourteen are not the last quarter yet; twenty of half a year are among the last thirty."""
    today = date(2026, 8, 1)
    lots = [
        Lot(
            "carrot",
            today - packed * DAY,
            mass=Mass(9.0),
            bought_keep_by=today + left * DAY,
            origin="bought",
            id=id,
        )
        for id, packed, left in ((1, 160, 20), (2, 9, 5))
    ]
    kitchen = Kitchen(FakeJournal(*lots), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
    assert [line.lot.id for line in shelf(kitchen)] == [1, 2]
    assert Pantry(kitchen).good_lots("carrot") == ((2, 9.0), (1, 9.0))
