"""Weights of a finished batch that can't be true are asked about, with the likeliest reason."""

from __future__ import annotations

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.batches.doubted import doubted_weights
from dryhouse.kitchen.batches.dryness import verdicts_of
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.science.quantities import Mass, Volume
from tests.fakes import FakeJournal
from tests.rows import every_row

KITCHEN = Kitchen(FakeJournal(), handbook())


def asked(food: str, loaded: float, dried: float | None, **more: object) -> str:
    mass = Mass(dried, f"{dried:g} g") if dried is not None else None
    return doubted_weights(KITCHEN, BatchDraft(Batch(food, prepared_mass=Mass(loaded), dried_mass=mass, **more)))


@pytest.mark.parametrize(
    ("food", "dried", "end"),
    [
        ("turkey", 200, "of cooked food, at least"),
        ("kidney-bean", 150, "of cooked food, at least"),
        ("corn", 90, "or its tare taken off twice?"),
        ("tomato", 25, "or its tare taken off twice?"),
    ],
)
def test_less_than_such_food_holds_is_asked_about(food, dried, end):
    said = asked(food, 1000, dried)
    assert end in said
    assert ("Was 2 lb 3.3 oz the weight before cooking?" in said) == ("cooked" in end)


@pytest.mark.parametrize(("food", "dried"), [("turkey", 340), ("corn", 240), ("tomato", 60), ("corn", None)])
def test_what_adds_up_is_not_asked_about(food, dried):
    assert asked(food, 1000, dried) == ""


def test_it_is_asked_where_the_card_says_that_the_weights_do_not_add_up_and_nowhere_else():
    for dried in range(60, 400, 10):
        batch = Batch("turkey", prepared_mass=Mass(1000), dried_mass=Mass(float(dried)))
        mismatch = verdicts_of(KITCHEN, batch, ())[0].name == "weights don't add up"
        assert mismatch == bool(doubted_weights(KITCHEN, BatchDraft(batch))), dried


@pytest.mark.parametrize(
    ("dried", "loaded", "asks"),
    [(1400.0, None, True), (600.0, None, True), (590.0, None, False), (180.0, None, False), (700.0, 900.0, False)],
)
def test_a_mix_no_lighter_than_its_ingredients_is_asked_about_where_its_load_was_not_weighed(dried, loaded, asks):
    parts = tuple(BatchPart(0, n, food, Mass(300.0)) for n, food in enumerate(("turkey", "tomato")))
    load = None if loaded is None else Mass(loaded)
    draft = BatchDraft(Batch("vegetable-stew", prepared_mass=load, dried_mass=Mass(dried)), parts)
    assert ("of its ingredients" in doubted_weights(KITCHEN, draft)) == asks


def test_a_batch_heavier_than_it_was_loaded_is_left_to_its_refusal():
    assert asked("corn", 300, 900) == ""


@every_row(
    ("more", "asks"),
    [
        (
            {"purchased_mass": Mass(900)},
            "1 lb 15.7 oz bought is less than the 2 lb 3.3 oz loaded. Are the two swapped?",
        ),
        ({"purchased_mass": Mass(950)}, ""),  # two scales
        ({"purchased_mass": Mass(949)}, "Are the two swapped?"),
        ({"purchased_mass": Mass(900), "made_from": "frozen"}, ""),
        ({"purchased_mass": Mass(900), "cooked_mass_in": Mass(900), "cooked_mass_out": Mass(1000)}, ""),
        ({"prepared_volume": Volume(1000), "dried_volume": Volume(1520)}, "dried is more than the"),
        ({"prepared_volume": Volume(1000), "dried_volume": Volume(1500)}, ""),  # heaped loosely
        ({"prepared_volume": Volume(1000)}, ""),
    ],
)
def test_amounts_that_stand_in_each_other_s_place_are_asked_about(more, asks):
    said = asked("corn", 1000, 240, **more)
    assert asks in said
    assert bool(asks) == bool(said)


def test_less_rice_than_its_cooked_weight_was_bought():
    assert asked("rice-white", 1000, 320, purchased_mass=Mass(400)) == ""
