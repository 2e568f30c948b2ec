"""Foods made into whole loads, and the loads spread."""

from __future__ import annotations

from dryhouse.science.drying_hours import SLOT, Grid
from dryhouse.science.drying_loads import Setting, can_be_set, filled
from dryhouse.science.drying_spread import spread_out
from dryhouse.science.provisioning import Span
from tests.science.drying_days import BOX, MIDNIGHT, NOW, READY, SHELF, asked, at_home, recipe


def setting(*machines):
    grid = Grid(at_home(), MIDNIGHT, READY)
    ready = grid.at_or_before(READY)
    return Setting(grid, machines, grid.at_or_after(NOW), ready, ready, {}, turnaround=2, apart=12)


def test_a_food_goes_on_the_smallest_dryer_that_takes_it_and_its_companions_whole() -> None:
    small = filled(setting(SHELF, BOX), [asked(400.0, recipe("corn"))])
    assert [run.machine.id for run in small.runs] == [1]
    shared = filled(setting(SHELF, BOX), [asked(400.0, recipe("corn")), asked(400.0, recipe("pea"))])
    assert [(run.machine.id, len(run.loads)) for run in shared.runs] == [(2, 2)]


def test_food_that_no_dryer_takes_whole_fills_the_trays_others_leave() -> None:
    """Five trays of berries and eleven of apple on ten: one full run of both, then the six that are left on six."""
    berry, apple = recipe("berry", 14, company="fruit"), recipe("apple", 10, company="fruit")
    found = filled(setting(SHELF, BOX), [asked(500.0, berry), asked(1100.0, apple)])
    assert sorted((run.machine.id, run.spare) for run in found.runs) == [(1, 0), (2, 0)]
    assert not found.left_over


def test_what_is_not_known_cannot_be_set() -> None:
    known = recipe("corn")
    assert can_be_set(asked(10.0, known))
    assert not can_be_set(asked(10.0, recipe("corn", tray_grams={})))
    assert known.hours == Span(10.0, 8.0, 10.0)


def test_a_spread_moves_nothing_later_and_nothing_that_is_late() -> None:
    at, meat = setting(SHELF), recipe("beef", 8, company="meat")
    wanted = [asked(600.0, recipe(food, company="")) for food in "abc"]
    runs = filled(at, [*wanted, asked(100.0, meat, late=2)]).runs
    moved = spread_out(at, runs, at.now)
    before = {run.loads[0].food: run for run in runs}
    for run in moved:
        assert run.end <= before[run.loads[0].food].end
        assert run.latest == before[run.loads[0].food].start
    assert next(run for run in moved if run.late) == before["beef"]
    firsts = sorted(run.start for run in moved)
    assert (firsts[1] - firsts[0]) * SLOT.total_seconds() / 86400 > 2
