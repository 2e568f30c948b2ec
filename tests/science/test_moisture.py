"""Nothing but water leaves a tray."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.errors import InputProblem
from dryhouse.science.moisture import (
    LoadPart,
    dry_matter,
    dry_to_wet,
    load_of,
    mass_at,
    moisture_now,
    target_mass,
    typed_moisture,
    wet_to_dry,
)
from dryhouse.science.values import Fact

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
    for wrong in (lambda: wet_to_dry(1.0), lambda: dry_to_wet(-0.1), lambda: mass_at(1, 100), lambda: load_of([])):
        with pytest.raises(InputProblem):
            wrong()


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
