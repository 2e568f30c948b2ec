"""What a batch loaded, for the mass balance."""

from dataclasses import replace

import pytest

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.loads import (
    keeping_target,
    load_for,
    loaded_grams,
    missing_for,
    starting_moisture,
    target_for,
)
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Fact
from dryhouse.science.workings import StepKind
from tests.builders import CORN, TURKEY, a_kitchen, fact
from tests.rows import every_row
from tests.workings import read


def test_the_mass_loaded_is_weighed_before_it_is_reckoned():
    weighed = Batch("corn", prepared_mass=Mass(900), cooked_mass_out=Mass(950), purchased_mass=Mass(2500))
    assert loaded_grams(CORN, weighed) == 900
    assert loaded_grams(CORN, Batch("corn", cooked_mass_out=Mass(950), purchased_mass=Mass(2500))) == 950
    assert loaded_grams(CORN, Batch("corn", purchased_mass=Mass(2500))) is None


def test_a_mix_names_the_ingredient_whose_moisture_is_missing():
    kitchen = a_kitchen()
    parts = (BatchPart(1, 0, "corn", Mass(300), moisture_pct=70.0), BatchPart(1, 1, "apple", Mass(100)))
    load = load_for(kitchen, Batch("corn"), parts)
    assert load.solids == pytest.approx(300 * 0.3 + 100 * 0.144)
    assert load.grams == 400


def test_what_is_missing_is_said_in_words():
    said = missing_for(a_kitchen(), Batch("corn"))
    assert said == ("Enter what was loaded to see the target weight and the yield.",)
    assert missing_for(a_kitchen(), Batch("corn", prepared_mass=Mass(1))) == ()


def test_a_target_entered_for_the_batch_rules():
    assert target_for(a_kitchen(), Batch("corn", target_moisture_pct=7.0)).value == 7.0
    assert target_for(a_kitchen(), Batch("corn")).value == 10.0


def test_a_starting_moisture_that_was_tested_is_taken_as_it_stands_and_another_is_doubted():
    typed = Batch("corn", prepared_mass=Mass(1000), start_moisture_pct=80.0)
    tested = Batch("corn", prepared_mass=Mass(1000), start_moisture_pct=80.0, start_moisture_tested=True)
    loads = [load_for(a_kitchen(), batch) for batch in (typed, tested)]
    assert [load.solids for load in loads] == [pytest.approx(200)] * 2
    assert loads[0].solids_low < 190 < 210 < loads[0].solids_high
    assert not loads[1].doubted


def test_dry_matter_goes_through_the_pot_less_the_fat_poured_off():
    # 1000 g at 76.05 % holds 239.5 g; 40 g of fat leave, 650 g come out: 1 − 199.5 ÷ 650
    cooked = Batch("corn", cooked_mass_in=Mass(1000), cooked_mass_out=Mass(650), drained_fat=Mass(40))
    water = starting_moisture(CORN, cooked)
    assert water.value == pytest.approx(100 * (1 - 199.5 / 650))
    assert water.low == pytest.approx(100 * (1 - (260 - 40) / 650))
    assert "40 g of fat" in water.source
    assert "counts as water" in water.source


@every_row(
    ("cooked", "fat", "value"),
    [
        (1000, 0, 50.0),
        (800, 0, 37.5),
        (500, 0, 50.0),
        (400, 0, 50.0),
        (800, 500, 50.0),
        (800, 499, 99.875),
        (503, 0, 100 * 3 / 503),
    ],
)
def test_weights_that_leave_no_water_or_no_dry_matter_are_not_followed_through_the_pot(cooked, fat, value):
    half = Food("half", "half water", (), "other", {"water": fact(50.0)})
    batch = Batch(
        "half", cooked_mass_in=Mass(1000), cooked_mass_out=Mass(cooked), drained_fat=Mass(fat) if fat else None
    )
    assert starting_moisture(half, batch).value == pytest.approx(value)


def test_what_was_cooked_is_known_as_well_as_both_its_weights_and_its_food_are():
    cooked = Batch("corn", cooked_mass_in=Mass(1000), cooked_mass_out=Mass(650))
    assert "fat" not in starting_moisture(CORN, cooked).source
    for one in (replace(cooked, cooked_mass_in=None), replace(cooked, cooked_mass_out=None)):
        assert starting_moisture(CORN, one).value == 76.05


def test_an_own_figure_is_doubted_as_a_typed_one_is_unless_its_range_is_told():
    def water(told: Fact) -> tuple[float, float]:
        food = Food("mine", "my food", (), "other", {"water": told})
        found = starting_moisture(food, Batch("mine"))
        assert found.value == told.value
        return found.low, found.high

    typed = starting_moisture(CORN, Batch("corn", start_moisture_pct=80.0))
    assert water(Fact(80.0, "%", "by hand", "entered")) == (typed.low, typed.high)
    assert water(Fact(80.0, "%", "by hand", "entered", low=75.0, high=85.0)) == (75.0, 85.0)
    low, high = water(Fact(80.0, "%", "a source", "published"))
    assert low < 80.0 < high
    assert (low, high) != (typed.low, typed.high)


@every_row(
    ("given", "target", "keeps"),
    [
        (Batch("corn"), 10.0, 10.0),
        (Batch("corn", target_moisture_pct=7.0), 7.0, 7.0),
        (Batch("corn", target_moisture_pct=15.0), 15.0, 10.0),
        (Batch("sorrel", target_moisture_pct=12.0), 12.0, 12.0),
        (Batch("sorrel"), None, None),
    ],
)
def test_what_keeps_is_the_drier_of_her_own_target_and_the_published_one(given, target, keeps):
    kitchen = a_kitchen()
    kitchen.handbook.foods["sorrel"] = Food("sorrel", "sorrel", (), "herb")
    found = target_for(kitchen, given), keeping_target(kitchen, given)
    assert tuple(f.value if f is not None else None for f in found) == (target, keeps)


@every_row(
    ("batch", "parts", "said"),
    [
        (Batch("corn", prepared_mass=Mass(1)), (), []),
        (Batch("corn"), (BatchPart(1, 0, "corn", Mass(300)),), []),
        (Batch("sorrel"), (), ["Enter what was loaded", "No starting moisture is known for sorrel", "No target"]),
        (Batch("sorrel", prepared_mass=Mass(1), start_moisture_pct=80.0), (), ["No target moisture is known"]),
        (
            Batch("corn"),
            (
                BatchPart(1, 0, "sorrel", Mass(300)),
                BatchPart(1, 1, "gone", Mass(1)),
                BatchPart(1, 2, "corn", Mass(1)),
            ),
            ["Enter the moisture of sorrel, gone; without it"],
        ),
        (Batch("corn", start_moisture_pct=80.0), (BatchPart(1, 0, "sorrel", Mass(300)),), []),
        (Batch("corn"), (BatchPart(1, 0, "sorrel", Mass(300), moisture_pct=88.0),), []),
    ],
)
def test_each_thing_that_would_tell_more_is_named_and_nothing_that_is_known(batch, parts, said):
    kitchen = a_kitchen()
    kitchen.handbook.foods["sorrel"] = Food("sorrel", "sorrel", (), "herb")
    found = missing_for(kitchen, batch, parts)
    assert len(found) == len(said)
    assert all(begun in line for begun, line in zip(said, found, strict=True))


def test_figures_published_of_cooked_food_are_not_carried_through_the_pot_again():
    batch = Batch("turkey", cooked_mass_in=Mass(1000), cooked_mass_out=Mass(700))
    assert starting_moisture(TURKEY, batch).value == 66.0


def test_fat_poured_off_a_mix_is_no_dry_matter_on_the_trays():
    kitchen = a_kitchen()
    parts = (BatchPart(1, 0, "corn", Mass(500)), BatchPart(1, 1, "turkey", Mass(500)))
    plain = Batch("corn", cooked_mass_out=Mass(800))
    lean = Batch("corn", cooked_mass_out=Mass(800), drained_fat=Mass(30))
    assert load_for(kitchen, plain, parts).solids == pytest.approx(500 * 0.2395 + 500 * 0.34)
    assert load_for(kitchen, lean, parts).solids == pytest.approx(500 * 0.2395 + 500 * 0.34 - 30)
    assert "Fat poured off" in read(load_for(kitchen, lean, parts).workings)
    (poured,) = [line for line in load_for(kitchen, lean, parts).workings if line.kind == StepKind.FAT_POURED_OFF]
    assert poured.result.value == pytest.approx(500 * 0.2395 + 500 * 0.34 - 30)
    whole = load_for(kitchen, Batch("corn"), parts)
    less = load_for(kitchen, Batch("corn", drained_fat=Mass(30)), parts)
    for name in ("grams", "solids", "solids_low", "solids_high"):
        assert getattr(less, name) == pytest.approx(getattr(whole, name) - 30), name


def test_a_mix_is_known_no_better_than_its_ingredients():
    kitchen = a_kitchen()
    parts = (BatchPart(1, 0, "corn", Mass(500)), BatchPart(1, 1, "apple", Mass(500)))
    mix = load_for(kitchen, Batch("corn"), parts)
    one = load_for(kitchen, Batch("apple", prepared_mass=Mass(500)))
    assert mix.solids_low == pytest.approx(500 * 0.22 + one.solids_low)
    assert mix.solids_high == pytest.approx(500 * 0.26 + one.solids_high)
    assert one.solids_low < one.solids < one.solids_high


def test_what_was_weighed_on_the_trays_shares_out_the_solids_of_a_mix():
    kitchen = a_kitchen()
    parts = (BatchPart(1, 0, "corn", Mass(500)), BatchPart(1, 1, "apple", Mass(500)))
    whole = load_for(kitchen, Batch("corn"), parts)
    half = load_for(kitchen, Batch("corn"), parts, grams=500.0)
    assert (half.grams, half.solids) == (500.0, pytest.approx(whole.solids / 2))
    assert (half.solids_low, half.solids_high) == (
        pytest.approx(whole.solids_low / 2),
        pytest.approx(whole.solids_high / 2),
    )
    assert len(half.workings) == len(whole.workings) + 1
    cooked = Batch("corn", cooked_mass_out=Mass(800))
    assert load_for(kitchen, cooked, parts).grams == 800.0
    assert load_for(kitchen, cooked, parts).solids == pytest.approx(whole.solids)
    assert load_for(kitchen, cooked, parts, grams=400.0).solids == pytest.approx(whole.solids / 2)
    less_than_its_solids = Batch("corn", cooked_mass_out=Mass(0.9 * whole.solids))
    assert load_for(kitchen, less_than_its_solids, parts) is None


def test_a_pinch_of_a_mix_is_a_load_and_one_of_nothing_but_dry_matter_too():
    kitchen = a_kitchen()
    pinch = (BatchPart(1, 0, "corn", Mass(2.0)), BatchPart(1, 1, "apple", Mass(1.0)))
    whole = load_for(kitchen, Batch("corn"), pinch)
    assert (whole.grams, whole.solids) == (3.0, pytest.approx(2 * 0.2395 + 0.144))
    dry = load_for(kitchen, Batch("corn", cooked_mass_out=Mass(whole.solids)), pinch)
    assert (dry.grams, dry.solids) == (pytest.approx(whole.solids), pytest.approx(whole.solids))
    lean = Batch("corn", drained_fat=Mass(0.5))
    assert load_for(kitchen, lean, pinch).solids == pytest.approx(whole.solids - 0.5)
