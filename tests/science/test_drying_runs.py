"""What is in a run, how long it takes and what it draws."""

from __future__ import annotations

from datetime import timedelta

from dryhouse.science.drying_runs import Machine, PlannedLoad, Run, tray_count
from dryhouse.science.provisioning import Span
from tests.science.drying_days import NOW

LOADS = tuple(PlannedLoad(food, trays, 800.0, 80.0, Span(9.0, 8.0, 10.0), days)
              for food, trays, days in (("corn", 2, 10), ("beef", 3, 0)))  # fmt: skip


def test_a_run_is_ready_when_the_last_of_its_food_is_conditioned_and_draws_by_the_hour() -> None:
    end = NOW + timedelta(hours=10)
    run = Run(Machine(1, "shelf dryer", 6, watts=500.0), LOADS, NOW, end, NOW)
    assert (run.trays, run.ready, run.kwh) == (5, end + timedelta(days=10), 5.0)
    assert Run(Machine(2, "box dryer", 10), LOADS, NOW, end, NOW).kwh is None


def test_a_tray_more_is_taken_for_whatever_does_not_fit() -> None:
    assert [tray_count(grams, 400.0) for grams in (0.0, 400.0, 400.0000000001, 401.0, 800.0)] == [1, 1, 1, 2, 2]
