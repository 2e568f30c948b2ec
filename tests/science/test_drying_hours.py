"""Half-hours in which loads are started and taken off."""

from __future__ import annotations

from datetime import timedelta

from dryhouse.science.drying_hours import AtHand, Grid, Hours
from tests.science.drying_days import MIDNIGHT, at_home


def hour(n: float):
    return MIDNIGHT + timedelta(hours=n)


def test_a_run_ends_when_somebody_is_at_hand() -> None:
    grid = Grid(Hours((AtHand(hour(7), hour(22)), AtHand(hour(31), hour(46)))), MIDNIGHT, hour(72))
    ends = grid.ends(grid.slots(10))
    assert ends[14] == 34  # 7:00 to 17:00
    assert ends[24] == 44  # 12:00 to 22:00
    assert ends[25] == -1  # 12:30 would be dry at 22:30, hours before anybody is up
    assert ends[38] == 62  # 19:00, dry at 5:00, is off at 7:00
    assert ends[37] == -1  # 18:30 would lie dry for two hours and a half
    assert ends[12] == -1  # nobody is up at 6:00


def test_nothing_runs_through_a_still_night() -> None:
    grid = Grid(at_home(3, away=False, nights=False), MIDNIGHT, hour(72))
    ends = grid.ends(grid.slots(10))
    assert ends[24] == 44
    assert ends[38] == -1


def test_a_stretch_without_starts_is_for_taking_off() -> None:
    grid = Grid(Hours((AtHand(hour(7), hour(8), starts=False), AtHand(hour(17), hour(22)))), MIDNIGHT, hour(24))
    ends = grid.ends(grid.slots(1))
    assert [n for n in range(48) if ends[n] >= 0] == list(range(34, 43))


def test_moments_fall_on_half_hours_and_part_hours_count_whole() -> None:
    grid = Grid(at_home(1), MIDNIGHT, hour(24))
    assert (grid.at_or_after(hour(7.1)), grid.at_or_before(hour(7.1))) == (15, 14)
    assert (grid.slots(10.0), grid.slots(10.1), grid.slots(0.1)) == (20, 21, 1)
    assert grid.moment(15) == hour(7.5)


def test_a_run_ends_as_a_still_night_begins_and_starts_as_it_ends() -> None:
    grid = Grid(at_home(3, away=False, nights=False), MIDNIGHT, hour(72))
    ends = grid.ends(grid.slots(10))
    assert [int(ends[n]) for n in (14, 24, 25, 44, 62)] == [34, 44, -1, -1, 82]


def test_what_began_before_the_time_that_is_planned_counts_from_its_beginning() -> None:
    early = Hours((AtHand(hour(-5), hour(2)),), ((hour(-9), hour(1)),))
    grid = Grid(early, MIDNIGHT, hour(24))
    ends = grid.ends(1)
    assert [int(ends[n]) for n in range(6)] == [-1, -1, 3, 4, -1, -1]
    assert Grid(early, MIDNIGHT, hour(-3)).count == 1
    still = Hours((AtHand(hour(0), hour(2)),), ((hour(-9), hour(0.5)),))
    assert [int(Grid(still, MIDNIGHT, hour(24)).ends(1)[n]) for n in range(3)] == [-1, 2, 3]


def test_what_was_over_before_the_time_that_is_planned_says_nothing_of_it() -> None:
    """Home from 5 hours before midnight to 2:00; away, and a still night, that both ended an hour before."""
    home, gone = AtHand(hour(-5), hour(2)), AtHand(hour(-9), hour(-1))
    grid = Grid(Hours((home, gone), ((hour(-9), hour(-1)),)), MIDNIGHT, hour(24))
    assert [int(end) for end in grid.ends(1)[:6]] == [1, 2, 3, 4, -1, -1]
    assert set(Grid(Hours((gone,)), MIDNIGHT, hour(24)).ends(1)) == {-1}


def test_a_load_may_lie_dry_for_as_long_as_is_said() -> None:
    """Home from 7:00 to 8:00 and from 12:00 on: what is dry at 9:00 to 11:30 lies until noon."""
    stretches = (AtHand(hour(7), hour(8)), AtHand(hour(12), hour(14)))
    for wait, last in ((2, 20), (3, 18)):
        grid = Grid(Hours(stretches, past_finish=timedelta(hours=wait)), MIDNIGHT, hour(24))
        # started at 7:00 they are dry after so many half-hours
        found = {slots: int(grid.ends(slots)[14]) for slots in (2, 3, 4, 5, 6, 7, 10, 14, 15)}
        assert found == {
            slots: 16 if slots == 2 else 24 if last - 14 <= slots <= 10 else 28 if slots == 14 else -1
            for slots in found
        }
