"""Moves and temperatures become stretches that follow one another without a gap."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from dryhouse.kitchen.records import LotMove, Place, PlaceTemperature
from dryhouse.kitchen.shelf.history import stretches, with_trip
from dryhouse.science.quantities import Temperature

START = datetime(2026, 1, 1, tzinfo=UTC)
PLACES = {1: Place("pantry", 1), 2: Place("cellar", 2)}


def day(n):
    return START + timedelta(days=n)


def warmth(place, n, celsius, id=1):
    return PlaceTemperature(place, day(n), Temperature(celsius), id=id)


def told(history):
    return [(s.place, (s.start - START).days, s.end and (s.end - START).days, s.temperature_c) for s in history]


def test_a_move_ends_one_stretch_and_begins_the_next():
    known = {1: [warmth(1, -9, 21.0)], 2: [warmth(2, -9, 15.0)]}
    moves = [LotMove(1, 1, day(0), 1), LotMove(1, 2, day(30), 2)]
    assert told(stretches(START, moves, known, PLACES)) == [("pantry", 0, 30, 21.0), ("cellar", 30, None, 15.0)]


def test_a_place_that_grows_warmer_is_two_stretches():
    known = {1: [warmth(1, -9, 18.0), warmth(1, 10, 27.0, 2)]}
    history = stretches(START, [LotMove(1, 1, day(0), 1)], known, PLACES)
    assert told(history) == [("pantry", 0, 10, 18.0), ("pantry", 10, None, 27.0)]
    assert not any(s.assumed for s in history)


def test_what_is_not_recorded_is_supposed_and_said():
    known = {1: [warmth(1, 5, 21.0)]}
    (before,) = stretches(START, [LotMove(1, 1, day(3), 1)], known, PLACES)
    assert (before.temperature_c, before.start) == (21.0, START)
    assert "before it was put there" in before.assumed
    assert "before its first recorded temperature" in before.assumed


def test_a_place_without_a_temperature_has_none_and_no_move_is_no_history():
    (here,) = stretches(START, [LotMove(1, 1, day(0), 1)], {}, PLACES)
    assert here.temperature_c is None
    assert stretches(START, [], {}, PLACES) == ()


def test_on_a_trip_it_travels_and_does_not_come_back():
    known = {1: [warmth(1, -9, 21.0)]}
    history = stretches(START, [LotMove(1, 1, day(0), 1), LotMove(1, 2, day(50), 2)], known, PLACES)
    assert told(with_trip(history, day(20), 30.0)) == [("pantry", 0, 20, 21.0), ("on the way", 20, None, 30.0)]


@given(st.lists(st.tuples(st.integers(0, 60), st.sampled_from([1, 2])), min_size=1, max_size=6), st.data())
def test_whatever_the_moves_no_time_is_lost_or_counted_twice(given_moves, data):
    moves = [LotMove(1, place, day(n), id) for id, (n, place) in enumerate(sorted(given_moves), 1)]
    days = st.lists(st.integers(-5, 70), min_size=1, max_size=4, unique=True)
    known = {
        place: [warmth(place, n, 10.0 + n, id) for id, n in enumerate(sorted(data.draw(days)), 1)]
        for place in (1, 2)
    }
    history = stretches(START, moves, known, PLACES)
    assert history[0].start == START
    assert history[-1].end is None
    assert all(a.end == b.start and a.start < a.end for a, b in pairwise(history))
