"""The published yields and the published rehydration keep the handbook's rules."""

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.rehydration_table import (
    GROUPS,
    published_water,
    rehydration_of,
    rehydrations,
    soaking,
)
from dryhouse.handbook.yield_table import published_yields
from dryhouse.science.moisture import dry_matter, mass_at
from tests.rows import every_row


@every_row("row", published_yields(), ids=lambda row: f"{row.food}, {row.source[:20]}")
def test_a_published_yield_is_possible(row):
    assert row.food in load_foods()
    assert row.as_purchased_g or row.prepared_g or row.prepared_ml
    assert row.dried_g or row.dried_ml_low
    fresh = row.prepared_g or row.as_purchased_g
    if fresh and row.dried_g:
        assert 0.02 < row.dried_g / fresh < 0.5
    if row.dried_ml_low:
        assert row.dried_ml_low <= row.dried_ml_high
    assert row.comparable or row.why


def test_rows_that_keep_to_the_solids_are_comparable_and_others_say_why():
    """Against the mass balance at the food's own target: comparable rows stray less than 30 %, marked ones more.

    Commercial and pressed products and jerky are marked for what they are.
    """
    for row in published_yields():
        food = load_foods()[row.food]
        water, target, refuse = (food.fact(n) for n in ("water", "target_moisture", "refuse"))
        if row.dried_g is None or target is None or not (row.as_purchased_g or row.prepared_g):
            continue
        prepared = row.prepared_g or row.as_purchased_g * (1 - refuse.value / 100)
        expected = mass_at(dry_matter(prepared, water.value), target.value)
        off = abs(row.dried_g / expected - 1)
        if row.comparable:
            assert off < 0.30, row
        elif row.strays:
            assert off > 0.25, row


def test_onions_have_several_published_yields_and_jerky_none_that_compares():
    assert len([row for row in published_yields() if row.food == "onion"]) >= 5
    assert [row.comparable for row in published_yields() if row.food == "beef-jerky"] == [False, False]


@every_row("row", rehydrations(), ids=lambda row: f"{row.foods[0]}, {row.source[:20]}")
def test_published_rehydration_is_possible(row):
    assert all(food in load_foods() or food in GROUPS for food in row.foods)
    if row.cups_per_cup is not None:
        assert 1 <= row.cups_per_cup <= 4
    assert row.cups_per_cup is not None or row.soak_hours_low is not None or row.soak_hours_high is not None
    if row.soak_hours_low is not None and row.soak_hours_high is not None:
        assert row.soak_hours_low <= row.soak_hours_high <= 2


def test_a_food_without_a_row_of_its_own_gets_its_group():
    assert [row.cups_per_cup for row in published_water("mushroom")] == [1.5]
    assert all("vegetable" in row.foods for row in rehydration_of("leek"))
    assert published_water("kiwifruit")[0].cups_per_cup == 1
    assert published_water("salmon") == ()
    assert published_water("no-such-food") == ()


def test_recalled_rows_say_so():
    (row,) = published_water("mushroom")
    assert "from memory, not yet checked" in row.basis.source
    assert published_water("rice-white")[0].basis.kind == "common practice"


def test_soaking_figures():
    kinds = {row.kind: row for row in soaking() if "chickpea" in row.foods}
    assert {"peleg_k1", "peleg_k2"} <= set(kinds)
    for row in soaking():
        assert row.fact.value > 0
        assert all(food in load_foods() for food in row.foods)
