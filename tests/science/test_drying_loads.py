"""Foods made into whole loads, and the loads spread."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from dryhouse.science.drying_hours import SLOT, Grid
from dryhouse.science.drying_loads import Filling, Setting, can_be_set, filled
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


def test_a_dryer_is_taken_with_the_turnaround_after_and_never_before_its_time() -> None:
    """Half-hours 3 to 5 and two more; what was over before midnight takes nothing, what began before it does."""
    at = replace(setting(SHELF), taken={1: ((3, 5),)})
    free = Filling(at, (), tight=False).busy(SHELF)
    assert [int(n) for n in free[:10]] == [0, 0, 0, 0, 1, 2, 3, 4, 4, 4]
    over, begun = (
        Filling(replace(at, taken={1: ((-9, end),)}), (), tight=False).busy(SHELF)[:5] for end in (-2, 1)
    )
    assert [list(over), list(begun)] == [[0] * 5, [0, 1, 2, 3, 3]]
    assert not Filling(at, (), tight=False).busy(BOX).any()


def test_a_load_that_may_start_when_the_run_does_joins_it_and_a_later_one_does_not() -> None:
    """Corn is set as late as can be; peas that keep from its start on go with it."""
    at, corn = setting(SHELF), asked(200.0, recipe(), late=1)
    begin = at.grid.moment(filled(at, [corn]).runs[0].start)
    together = {
        wait: [len(run.loads) for run in filled(at, [corn, asked(100.0, recipe("pea"), wait)]).runs]
        for wait in (begin, begin + SLOT)
    }
    assert list(together.values()) == [[2], [1, 1]]


def test_a_load_says_its_trays_its_grams_and_its_hours() -> None:
    """900 g dried are 3600 g prepared: six trays of 400 g take two thirds, and three more the rest."""
    runs = filled(setting(SHELF), [asked(900.0, recipe(conditioning_days=2))]).runs
    first, rest = sorted((run.loads[0] for run in runs), key=lambda load: -load.trays)
    assert [(load.food, load.trays, round(load.prepared, 6), round(load.dried, 6)) for load in (first, rest)] == [
        ("corn", 6, 2400.0, 600.0), ("corn", 3, 1200.0, 300.0),
    ]  # fmt: skip
    assert (first.hours, first.conditioning_days) == (Span(10.0, 8.0, 10.0), 2)


def test_what_conditions_longest_keeps_shortest_or_takes_longest_is_set_first() -> None:
    """Late food before all; then by conditioning, by when it keeps, by hours and by name."""
    at = setting(SHELF)
    wanted = [
        asked(600.0, recipe("b", company="")),
        asked(600.0, recipe("a", company="")),
        asked(600.0, recipe("long", 12, company="")),
        asked(600.0, recipe("fresh", company=""), READY - timedelta(days=9)),
        asked(600.0, recipe("fruit", company="", conditioning_days=3)),
        asked(600.0, recipe("meat", company=""), late=1),
        asked(600.0, recipe("beef", company=""), late=2),
    ]
    assert [run.loads[0].food for run in filled(at, wanted).runs] == [
        "beef", "meat", "fresh", "long", "a", "b", "fruit",
    ]  # fmt: skip


def test_grams_that_no_run_takes_are_named_and_a_crumb_is_not() -> None:
    nothing = asked(100.0, recipe(tray_grams={}))
    assert filled(setting(SHELF), [nothing, asked(200.0, recipe("pea"))]).left_over == {"corn": 100.0}
    for grams, named in ((0.5, {"corn": 0.5}), (5e-7, {})):
        assert filled(setting(SHELF), [asked(grams, recipe(tray_grams={}))]).left_over == named
