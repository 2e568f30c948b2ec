"""Nothing but water leaves a tray."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.dry_matter import Belief, exactly
from dryhouse.science.errors import InputProblem
from dryhouse.science.moisture import (
    LoadPart,
    dry_as_loaded,
    dry_matter,
    dry_to_wet,
    load_of,
    load_spread,
    mass_at,
    moisture_at,
    moisture_now,
    scale_step,
    target_mass,
    typed_moisture,
    wet_to_dry,
)
from dryhouse.science.values import Fact
from tests.workings import read

CORN = Fact(76.05, "%", "a source", low=74.0, high=78.0)
TARGET = Fact(10.0, "%", "another source")

percent = st.floats(1, 98)
grams = st.floats(10, 20_000)


def one(mass=1000.0, water=CORN):
    return load_of([LoadPart("corn", mass, water)])


@given(st.floats(0, 0.99))
def test_the_two_bases_are_each_others_inverse(wet):
    assert dry_to_wet(wet_to_dry(wet)) == pytest.approx(wet)


@given(grams, percent, percent)
def test_dry_matter_is_the_same_before_and_after(mass, before, after):
    solids = dry_matter(mass, before)
    assert dry_matter(mass_at(solids, after), after) == pytest.approx(solids)


@given(st.lists(st.tuples(grams, percent), min_size=1, max_size=6))
def test_the_solids_of_a_mix_add_up(parts):
    load = load_of([LoadPart(f"part {i}", m, Fact(w, "%", "s")) for i, (m, w) in enumerate(parts)])
    assert load.solids == pytest.approx(sum(m * (1 - w / 100) for m, w in parts))
    assert load.grams == pytest.approx(sum(m for m, _ in parts))


def test_a_target_mass_carries_its_interval_its_basis_and_its_workings():
    figure = target_mass(one(), TARGET)
    assert figure.value == pytest.approx(239.5 / 0.9)
    assert figure.low < figure.value < figure.high
    assert {b.source for b in figure.basis} == {"a source", "another source"}
    last = figure.workings[-1]
    assert [(t.name, t.value, t.unit) for t in last.terms] == [
        ("solids", pytest.approx(239.5), "g"),
        ("target", 10.0, "%"),
    ]
    assert (last.result.value, last.result.unit) == (figure.value, "g")
    assert figure.workings[0].terms[-1].source == "a source"


def test_a_dry_matter_test_of_the_load_moves_its_target():
    load = one()
    figure = target_mass(load, TARGET, load.belief.tested(0.22))
    assert figure.value == pytest.approx(220.0 / 0.9, rel=0.01)
    assert figure.low < figure.value < figure.high
    assert figure.value < target_mass(load, TARGET).value


@given(grams, percent, st.floats(0.02, 1.0))
def test_the_starting_moisture_named_as_an_explanation_makes_the_weights_add_up(mass, water, share):
    load = one(mass, Fact(water, "%", "s"))
    dried = mass * share
    if dried < load.solids:
        needed = 100 * (1 - dried / mass)
        assert moisture_now(one(mass, Fact(needed, "%", "s")), dried).value == pytest.approx(0, abs=1e-6)


def test_moisture_now_shows_its_working_and_its_range():
    figure = moisture_now(one(), 300)
    assert figure.value == pytest.approx(100 * (1 - 239.5 / 300), abs=0.1)
    assert figure.low < figure.value < figure.high
    assert figure.unit == "%"


def test_what_cannot_be_is_refused():
    for wrong in (lambda: wet_to_dry(1.0), lambda: dry_to_wet(-0.1), lambda: mass_at(1, 100), lambda: load_of([]),
                  lambda: wet_to_dry(-0.1), lambda: mass_at(1, -1), lambda: moisture_at(0.0, 1.0)):  # fmt: skip
        with pytest.raises(InputProblem):
            wrong()
    assert (wet_to_dry(0.0), dry_to_wet(0.0), mass_at(7.0, 0.0), moisture_at(0.5, 0.25)) == (0.0, 0.0, 7.0, 50.0)


@given(st.floats(50, 98), st.floats(0.02, 1.0), st.floats(0.02, 0.3))
def test_a_moisture_is_never_negative_and_lies_inside_its_interval(water, share, doubt):
    solids = 100 - water
    load = one(
        1000, Fact(water, "%", "s", low=100 - min(solids * (1 + doubt), 99), high=100 - solids / (1 + doubt))
    )
    now = moisture_now(load, 1000 * share)
    assert 0 <= now.low <= now.value <= now.high < 100


def test_a_typed_starting_moisture_carries_a_doubt_unless_it_was_tested():
    typed, tested = typed_moisture(88.0, "entered"), typed_moisture(88.0, "entered", tested=True)
    assert typed.low < 88.0 < typed.high
    assert (tested.low, tested.high) == (None, None)
    none, all_of_it = typed_moisture(0.0, "entered"), typed_moisture(100.0, "entered")
    assert (none.low, none.high, all_of_it.low, all_of_it.high) == (None,) * 4
    assert typed_moisture(0.5, "entered").low == 0.0
    # solids of 12 % with a spread of a tenth in their logarithm: 10.6 to 13.6 %
    assert (typed.low, typed.high) == (pytest.approx(86.36, abs=0.01), pytest.approx(89.44, abs=0.01))


def test_a_mix_by_hand_from_its_parts_to_its_target():
    """400 g of corn at 76 % and 600 g of onion at 89 to 91 % hold 96 + 60 g; at 10 % that is 173.3 g."""
    parts = [LoadPart("corn", 400.0, Fact(76.0, "%", "a table")),
             LoadPart("onion", 600.0, Fact(90.0, "%", "a table", low=89.0, high=91.0))]  # fmt: skip
    load = load_of(parts)
    assert (load.solids_low, load.solids, load.solids_high) == pytest.approx((150.0, 156.0, 162.0))
    assert load.moisture_pct == pytest.approx(84.4)
    assert not load.tested
    assert load_spread(load) == pytest.approx(math.log(162 / 150) / 2 / 1.2816, rel=1e-4)
    assert read(target_mass(load, TARGET).workings) == (
        "corn: 400 g × (1 − 76 %) = 96 g dry matter   [a table]\n"
        "onion: 600 g × (1 − 90 %) = 60 g dry matter   [a table]\n"
        "Together: 1000 g loaded, 156 g dry matter\n"
        "Target 10 % moisture wet basis   [another source]\n"
        "Target mass = 156 g ÷ (1 − 10 %) = 173.3 g"
    )


def test_a_food_whose_figure_has_no_range_is_taken_as_told():
    told = one(water=Fact(76.0, "%", "s"))
    assert (told.doubted, load_spread(told)) == (False, 0.002)
    now = moisture_now(told, 300.0)
    assert (now.value, now.low, now.high) == (pytest.approx(20.0), None, None)
    assert moisture_now(told, 200.0).value == 0.0
    sure = target_mass(told, TARGET)
    assert (sure.low, sure.high) == (None, None)
    ranged = target_mass(told, Fact(10.0, "%", "s", low=8.0, high=12.0))
    assert (ranged.low, ranged.high) == (pytest.approx(240 / 0.92, rel=0.005), pytest.approx(240 / 0.88, rel=0.005))


def test_the_range_of_a_target_widens_what_the_load_leaves_open():
    narrow, wide = target_mass(one(), TARGET), target_mass(one(), Fact(10.0, "%", "s", low=5.0, high=15.0))
    assert wide.low == pytest.approx(narrow.low * 0.90 / 0.95)
    assert wide.high == pytest.approx(narrow.high * 0.90 / 0.85)


def test_drying_makes_nothing_heavier():
    moist = target_mass(one(), Fact(80.0, "%", "another source"))
    assert moist.low == moist.value == moist.high == 1000.0
    maybe = target_mass(one(), Fact(76.0, "%", "another source"))
    assert (maybe.value, maybe.high) == (pytest.approx(239.5 / 0.24), 1000.0)
    assert read(moist.workings).endswith("it is as dry as its target already, at 1000 g")
    assert dry_as_loaded(one(), Fact(80.0, "%", "s")) > 0.99
    assert dry_as_loaded(one(water=Fact(76.0, "%", "s")), Fact(76.0, "%", "s")) == 1.0
    assert dry_as_loaded(one(water=Fact(76.0, "%", "s")), Fact(75.9, "%", "s")) == 0.0


def test_what_the_weights_teach_stands_in_the_workings_where_it_shows():
    assert "What was weighed" not in read(moisture_now(one(), 600.0).workings)
    light = read(moisture_now(one(), 236.0).workings)
    assert "What was weighed leaves" in light
    assert "Moisture = 1 − " in light


def test_what_was_learned_is_told_with_its_middle_80_per_cent():
    """A quarter holds 100 g of dry matter, half 200 and a quarter 400, in 500 g: the middle is 60 % of water."""
    taught = Belief(np.array([0.1, 0.2, 0.4]), np.array([0.25, 0.5, 0.25]))
    now = moisture_now(one(), 500.0, taught)
    assert (now.low, now.value, now.high) == pytest.approx((20.0, 60.0, 80.0))
    assert [basis.source for basis in now.basis] == ["a source"]
    assert read(now.workings) == (
        "corn: 1000 g × (1 − 76.05 %) = 239.5 g dry matter   [a source]\n"
        "What was weighed leaves 100 g to 400 g of dry matter (80 % likely); taken: 200 g\n"
        "Moisture = 1 − 200 g ÷ 500 g = 60 % wet basis"
    )
    aim = target_mass(one(), TARGET, taught)
    assert (aim.low, aim.value, aim.high) == pytest.approx((100 / 0.9, 200 / 0.9, 400 / 0.9))
    assert read(aim.workings).endswith("taken: 200 g\nTarget 10 % moisture wet basis   [another source]\n"
                                       "Target mass = 200 g ÷ (1 − 10 %) = 222.2 g")  # fmt: skip
    sure = one(water=Fact(76.05, "%", "tested"))
    assert target_mass(sure, TARGET, taught).value == pytest.approx(239.5 / 0.9), "no doubt, nothing to learn"


def test_a_step_is_said_where_it_moves_the_dry_matter_by_a_thousandth():
    def taught(share: float) -> str:
        return read(moisture_now(one(), 500.0, exactly(share)).workings)

    assert "What was weighed" not in taught(0.2395 * 1.0009)
    assert "What was weighed" in taught(0.2395 * 1.0011)


def test_a_small_load_may_be_in_doubt_and_one_of_next_to_no_dry_matter_is_taken_as_told():
    """Ten grams of corn hold 2.2 to 2.6 g. No food holds less than half a percent: 0.5 g of 100 g."""
    assert one(10.0).doubted
    watery = one(100.0, Fact(99.9, "%", "s", low=99.8, high=99.95))
    assert (watery.doubted, load_spread(watery)) == (True, 0.002)
    assert watery.belief.middle == pytest.approx(0.005 * math.exp(0.6745 * 0.002), rel=1e-4), (
        "the upper half is left"
    )
    some = one(100.0, Fact(99.4, "%", "s", low=99.0, high=99.8))
    assert load_spread(some) == pytest.approx(math.log(1.0 / 0.5) / 2.563103, rel=1e-5)


def test_a_load_is_at_its_target_before_it_is_dried_as_often_as_its_range_says():
    """Solids of 24 % with a middle 80 % from 22 to 26: as dry as 76 % of water in half of all cases, and as 78 %
    in nine of ten."""
    load = one(water=Fact(76.0, "%", "s", low=100 - 24 * 1.1, high=100 - 24 / 1.1))
    at = {water: dry_as_loaded(load, Fact(water, "%", "s")) for water in (100 - 24 * 1.1, 76.0, 100 - 24 / 1.1)}
    assert list(at.values()) == pytest.approx([0.1, 0.5, 0.9], abs=0.003)


def test_two_weights_are_told_apart_by_a_gram_or_a_hundredth_of_a_small_load():
    assert [scale_step(one(grams)) for grams in (1000.0, 100.0, 50.0)] == [1.0, 1.0, 0.5]
