"""Calm without silence: nothing is lost, no stop is folded, and what matters now comes first."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from dryhouse.handbook.safety_table import safety_rules
from dryhouse.science.safety import BatchFacts, FoodFacts, evaluate
from dryhouse.science.safety.unfolded import (
    AT_A_LOOK_UP,
    OF_A_PLANT,
    OF_ANIMAL_FOOD,
    most_for,
    most_while_drying,
    unfolded,
)
from dryhouse.science.values import MOMENTS, SEVERITIES, Caution

some = st.builds(
    lambda severity, moment, rank: Caution(severity, f"{severity} {moment} {rank}", "s", moment=moment, rank=rank),
    st.sampled_from(SEVERITIES),
    st.sampled_from(MOMENTS),
    st.integers(0, 20),
)


@given(st.lists(some, max_size=20), st.integers(0, 5), st.sampled_from(MOMENTS))
def test_every_caution_is_shown_or_counted_and_every_stop_is_shown(cautions, most, moment):
    shown, rest = unfolded(cautions, most, moment)
    assert set(shown) | set(rest) == set(cautions)
    assert len(shown) + len(rest) == len(set(cautions))
    assert all(c.severity != "stop" for c in rest)
    assert sum(c.severity != "stop" for c in shown) <= most


def test_what_matters_at_this_moment_comes_before_the_rest():
    now, pot, always, note = (
        Caution("warn", "now", "s", moment="now"),
        Caution("warn", "pot", "s", moment="pot"),
        Caution("warn", "always", "s"),
        Caution("note", "note", "s"),
    )
    assert unfolded([note, always, pot, now], 1)[0] == (now,)
    assert unfolded([note, always, pot, now], 1, "pot")[0] == (pot,)
    assert unfolded([note, always, pot, now], 9)[0] == (now, pot, always)


def test_heat_two_hours_and_people_at_risk_come_before_the_vague_ones():
    heated = BatchFacts(
        FoodFacts("turkey", "poultry"),
        precook_method="simmered or steamed",
        precook_temperature_c=80.0,
        precook_measured=True,
    )
    shown, _rest = unfolded(evaluate(FoodFacts("turkey", "poultry"), safety_rules()), OF_ANIMAL_FOOD, "pot")
    assert [c.rule for c in shown if c.severity != "stop"] == ["heat-to-165", "danger-zone", "risk-people"]
    assert len(unfolded(evaluate(heated, safety_rules()), OF_ANIMAL_FOOD)[0]) == OF_ANIMAL_FOOD


def test_a_plain_vegetable_says_one_thing_and_a_look_up_two():
    carrot = FoodFacts("carrot", "vegetable")
    assert len(unfolded(evaluate(BatchFacts(carrot), safety_rules()), OF_A_PLANT)[0]) == OF_A_PLANT
    assert len(unfolded(evaluate(carrot, safety_rules()), AT_A_LOOK_UP)[0]) == AT_A_LOOK_UP


def test_of_plants_on_the_dryer_only_a_warning_of_this_moment_is_said_in_full():
    def told(severity, moment):
        return Caution(severity, f"{severity} {moment}", "s", moment=moment)

    assert most_while_drying([told("note", "now"), told("warn", "pot"), told("stop", "now")], {"vegetable"}) == 0
    assert most_while_drying([told("warn", "now"), told("warn", "now")], {"vegetable"}) == OF_A_PLANT == 1
    assert most_while_drying([], {"animal", "meat"}) == OF_ANIMAL_FOOD == 3
    assert (most_for({"vegetable"}), most_for({"animal"})) == (OF_A_PLANT, OF_ANIMAL_FOOD)
