"""The sheet of a meal: what a bag and a serving hold, whether a pot is heated, and how it is cooked in a line."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import set_fuel_per_liter
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.meals import draft_part
from dryhouse.kitchen.meals.sheet import MealSheet, cooking_line, sheet_of
from dryhouse.kitchen.records import Meal
from dryhouse.kitchen.records.meals import COLD_SOAK, NO_POT, NO_SOAK, REST, SHORT_SOAK
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Figure
from tests.fakes import FakeJournal
from tests.rows import every_row

KITCHEN = Kitchen(FakeJournal(), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)
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
