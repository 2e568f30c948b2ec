"""Each ingredient with the lots it would be drawn from, and what it holds: on that stand the cautions of a meal."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.drawn import from_the_shelf, parts_by_lot
from dryhouse.kitchen.meals.holds import held, inside_of
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.lines import line_of
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import Batch, BatchPart, Lot, MealPart, OwnFood
from dryhouse.science.quantities import Mass
from tests.fakes import FakeJournal
from tests.rows import every_row

CARROT = MealPart(1, 0, "carrot", "carrot", mass=Mass(40.0), id=1)


def a_kitchen(*records: Record) -> Kitchen:
    return Kitchen(FakeJournal(*records), handbook(), lambda: datetime(2026, 8, 1, 9, tzinfo=UTC), UTC)


def jar(id: int, grams: float, keep_by: date, food: str = "carrot") -> Lot:
    return Lot(food, date(2026, 7, 1), mass=Mass(grams), bought_keep_by=keep_by, origin="bought", id=id)


def lots_of(parts: list[MealPart]) -> list[tuple[str, int | None]]:
    return [(part.name, part.lot) for part in parts]


@every_row(
    ("given", "lots"),
    [
        ([], [None]),
        ([(1, 40.0)], [1]),
        ([(1, 39.5)], [1]),
        ([(1, 39.4)], [1, None]),
        ([(1, 20.0), (2, 20.0)], [1, 2]),
        ([(1, 20.0), (2, 5.0)], [1, 2, None]),
    ],
)
def test_what_no_lot_covers_stands_without_one(given: list[tuple[int, float]], lots: list[int | None]) -> None:
    line = line_of(Pantry(a_kitchen()).ingredient(CARROT))
    assert parts_by_lot([line], lambda _line: given) == [replace(CARROT, lot=lot) for lot in lots]


def test_what_has_no_weight_is_never_covered() -> None:
    line = line_of(Pantry(a_kitchen()).ingredient(replace(CARROT, mass=None)))
    assert lots_of(parts_by_lot([line], lambda _line: [(1, 9.0)])) == [("carrot", 1), ("carrot", None)]


def test_two_ingredients_of_one_food_share_its_lots_in_the_order_to_use_them() -> None:
    """50 g in the jar to use first, 90 g in the other: 40 g come from the first, then 10 g of it and 30 g of the
    other."""
    shelf = (jar(1, 90.0, date(2027, 9, 1)), jar(2, 50.0, date(2027, 3, 1)))
    pantry = Pantry(a_kitchen(*shelf))
    second, named = replace(CARROT, name="more carrot", id=2), replace(CARROT, name="that jar", lot=1, id=3)
    rice = MealPart(1, 3, "rice", staple="rice-white", mass=Mass(9.0), id=4)
    onion = MealPart(1, 4, "onion", "onion", mass=Mass(9.0), id=5)
    lines = [line_of(pantry.ingredient(part)) for part in (CARROT, second, named, rice, onion)]
    assert lots_of(from_the_shelf(pantry, lines)) == [
        ("that jar", 1),
        ("rice", None),
        ("carrot", 2),
        ("more carrot", 2),
        ("more carrot", 1),
        ("onion", None),
    ]
    crumb = line_of(pantry.ingredient(replace(CARROT, mass=Mass(50.6))))
    assert lots_of(from_the_shelf(pantry, [crumb])) == [("carrot", 2), ("carrot", 1)]
    all_of_it = line_of(pantry.ingredient(replace(CARROT, mass=Mass(50.0))))
    assert lots_of(from_the_shelf(pantry, [all_of_it])) == [("carrot", 2)]
    more = [line_of(pantry.ingredient(replace(CARROT, mass=Mass(140.5)))), lines[1]]
    assert lots_of(from_the_shelf(pantry, more)) == [("carrot", 2), ("carrot", 1), ("more carrot", None)]


# --- what is in it ------------------------------------------------------------------------------------------------


def of(kitchen: Kitchen, part: MealPart, *lots: int) -> tuple[str, set[str], bool, bool]:
    """The name, the allergens, whether its label tells more, whether nobody knows."""
    found = held(kitchen, Pantry(kitchen).ingredient(part), lots)
    return found.name, set(found.allergens), found.label, found.unknown


@every_row(
    ("part", "allergens", "label", "unknown"),
    [
        (CARROT, set(), False, False),
        (MealPart(1, 0, "pasta", staple="pasta-elbows"), {"wheat"}, False, False),
        (MealPart(1, 0, "stock", staple="bouillon-beef"), set(), True, False),
        (MealPart(1, 0, "milk", staple="milk-whole-dry"), {"milk"}, False, False),
        (MealPart(1, 0, "sauce"), set(), True, False),
        (MealPart(1, 0, "peanut sauce"), {"peanut"}, True, False),
        (MealPart(1, 0, "cheese powder"), {"milk"}, True, False),
        (MealPart(1, 0, "chili", "chili-meat"), set(), False, True),
        (MealPart(1, 0, "cod", "cod"), {"fish"}, False, False),
    ],
)
def test_an_ingredient_says_its_allergens_and_what_only_others_know(
    part: MealPart, allergens: set[str], label: bool, unknown: bool
) -> None:
    assert of(a_kitchen(), part) == (part.name, allergens, label, unknown)


def test_a_mix_holds_what_was_recorded_in_every_lot_it_is_drawn_from() -> None:
    own = OwnFood("stew", "stew", "mixed", contains="plant", id=1)
    batches = [Batch("stew", id=n) for n in (1, 2, 3)]
    parts = (
        BatchPart(1, 0, "tofu", Mass(9.0), id=1),
        BatchPart(1, 1, "carrot", Mass(9.0), id=2),
        BatchPart(2, 0, "carrot", Mass(9.0), id=3),
        BatchPart(2, 1, "onion", Mass(9.0), id=4),
    )
    jars = [Lot("stew", date(2026, 7, 1), batch=n, id=n) for n in (1, 2, 3)]
    kitchen = a_kitchen(own, *batches, *parts, *jars, Lot("stew", date(2026, 7, 1), id=4))
    mix = MealPart(1, 0, "camp stew", "stew", mass=Mass(40.0))
    assert of(kitchen, mix, 1, 2) == ("camp stew (firm tofu, carrot, onion)", {"soy"}, False, False)
    assert of(kitchen, replace(mix, lot=2), 1)[0] == "camp stew (carrot, onion)"
    for lots in ((), (9,), (1, 3), (4,)):
        assert of(kitchen, mix, *lots) == ("camp stew", set(), False, True)
    item = Pantry(kitchen).ingredient(mix)
    assert [food.slug for food in inside_of(kitchen, item, (2, 1))] == ["carrot", "onion", "tofu"]
    assert inside_of(kitchen, item, (2, 3)) == ()
