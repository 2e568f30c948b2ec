"""A few of the kills that `kills.py` does by the thousand: one of each act."""

from __future__ import annotations

from tests.faults.kills import ACTS, kills


def test_a_program_killed_in_each_of_its_acts_loses_and_tears_nothing() -> None:
    done = list(kills(len(ACTS), seed=11))
    assert [(seed, act, wrong) for seed, act, wrong in done if wrong] == []
    assert {act for _, act, _ in done} == set(ACTS)
