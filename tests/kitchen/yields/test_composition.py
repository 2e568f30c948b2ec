"""What dried food holds, by what is known of it: its own batch, its ingredients, its moistures, its yield."""

from __future__ import annotations

import pytest

from dryhouse.handbook.pot import pot
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.kitchen.yields.composition import dried_composition
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Figure
from tests.builders import a_kitchen, fact
from tests.rows import every_row

BEEF = Food(
    "beef", "beef", (), "meat",
    {
        "water": fact(70.0), "target_moisture": fact(10.0), "energy": fact(200.0, "kcal/100 g"),
        "fat": fact(10.0, "g/100 g"),
    },
)  # fmt: skip
FATLESS = Food("sorrel", "sorrel", (), "herb", {"energy": fact(40.0, "kcal/100 g"), "water": fact(90.0)})


@every_row(
    ("batch", "ratio", "energy", "fat"),
    [
        (None, None, 600.0, 30.0),  # 30 g of dry matter are 90 g of the dried
        (Batch("beef", prepared_mass=Mass(1000), dried_mass=Mass(320), id=1), None, 625.0, 31.25),
        # 1000 g with 300 g of dry matter can't come to 290 g; 300 g is none too little
        (Batch("beef", prepared_mass=Mass(1000), dried_mass=Mass(290), id=1), None, 600.0, 30.0),
        (Batch("beef", prepared_mass=Mass(1000), dried_mass=Mass(300), id=1), None, 200 / 0.3, 10 / 0.3),
        (Batch("beef", prepared_mass=Mass(1000), id=1), None, 600.0, 30.0),
        (Batch("beef", dried_mass=Mass(320), id=1), None, 600.0, 30.0),
        # what went into the pot, not what came out of it
        (
            Batch("beef", cooked_mass_in=Mass(1000), prepared_mass=Mass(700), dried_mass=Mass(320), id=1),
            None, 625.0, 31.25,
        ),
    ],
)  # fmt: skip
def test_the_weights_of_its_own_batch_come_before_the_two_moistures(batch, ratio, energy, fat) -> None:
    found = dried_composition(a_kitchen(), BEEF, batch, ratio)
    assert (found["energy"].value, found["fat"].value) == (pytest.approx(energy), pytest.approx(fat))


@every_row(
    ("fat", "left"),
    [
        (0.0, 31.25),
        (16.0, 26.25),  # 5 g of a hundred
        (100.0, 0.0),  # all that such food holds
        (101.0, None),
    ],
)
def test_fat_poured_off_is_taken_out_with_its_energy_and_more_than_there_was_is_not_believed(fat, left) -> None:
    batch = Batch(
        "beef", prepared_mass=Mass(1000), dried_mass=Mass(320), drained_fat=Mass(fat) if fat else None, id=1
    )
    found = dried_composition(a_kitchen(), BEEF, batch, None)
    if left is None:
        assert set(found) & {"fat", "energy"} == set()
        return
    assert found["fat"].value == pytest.approx(left, abs=1e-9)
    assert found["energy"].value == pytest.approx(625.0 - (31.25 - left) * pot("fat_energy").value)
    assert ("g fat poured off" in found["fat"].source) == (fat > 0)


def test_without_a_target_the_estimated_yield_tells_and_without_that_nothing_does() -> None:
    kitchen = a_kitchen()
    by_yield = dried_composition(kitchen, FATLESS, None, Figure(0.125, "g/g"))
    assert by_yield["energy"].value == pytest.approx(320.0)
    assert "estimated yield" in by_yield["energy"].source
    assert dried_composition(kitchen, FATLESS, None, None) == {}
    assert dried_composition(kitchen, FATLESS, None, Figure(0.0, "g/g")) == {}


def test_a_mix_holds_what_went_into_its_newest_finished_batch() -> None:
    stew = Food("stew", "stew", (), "mixed")
    known = {"beef": BEEF, "sorrel": FATLESS, "stew": stew}
    made = [Batch("stew", dried_mass=Mass(dried), id=n) for n, dried in ((1, 500.0), (2, 400.0))]
    kitchen = a_kitchen(
        *made, Batch("stew", id=3),
        *(BatchPart(n, 0, "beef", Mass(1000.0), id=2 * n) for n in (1, 2)),
        *(BatchPart(n, 1, "sorrel", Mass(500.0), id=2 * n + 1) for n in (1, 2)),
    )  # fmt: skip
    kitchen.handbook.foods.update(known)
    # 2000 kcal of the beef and 200 of the herb, in 400 g; nobody knows the fat of the herb
    for batch, dried in ((None, 400.0), (made[0], 500.0)):
        found = dried_composition(kitchen, stew, batch, None)
        assert found["energy"].value == pytest.approx(2200 * 100 / dried)
        assert found["energy"].source == f"ingredients of batch {2 if batch is None else 1} (a source for tests)"
        assert "fat" not in found
    assert dried_composition(kitchen, stew, Batch("stew", id=3), None) == {}
