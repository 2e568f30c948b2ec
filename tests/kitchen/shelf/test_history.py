"""Moves and temperatures become stretches that follow one another without a gap."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from dryhouse.kitchen.records import LotMove, Place, PlaceTemperature
from dryhouse.kitchen.shelf.history import stretches, with_trip
from dryhouse.science.quantities import Temperature
from tests.rows import every_row

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


@every_row(
    ("put", "read", "said"),
    [
        (1, 0, []),
        (1.01, 0, ["before it was put there"]),
        (0, 1, []),
        (0, 1.01, ["its first recorded temperature"]),
        (2, 2, ["before it was put there", "its first recorded temperature"]),
    ],
)  # fmt: skip
def test_what_is_supposed_for_more_than_a_day_is_said(put, read, said):
    known = {1: [warmth(1, read, 21.0)]}
    (here,) = stretches(START, [LotMove(1, 1, day(put), 1)], known, PLACES)
    parts = here.assumed.split("; ") if here.assumed else []
    assert len(parts) == len(said)
    assert all(words in part for words, part in zip(said, parts, strict=True))


def test_only_its_first_place_is_supposed_to_have_held_it_before():
    known = {1: [warmth(1, -9, 21.0)], 2: [warmth(2, -9, 15.0), warmth(2, 40, 18.0, 2)]}
    first, *rest = stretches(START, [LotMove(1, 1, day(3), 1), LotMove(1, 2, day(30), 2)], known, PLACES)
    assert first.assumed
    assert [s.assumed for s in rest] == ["", ""]


def test_a_move_that_was_put_right_at_once_leaves_no_stretch():
    known = {2: [warmth(2, -9, 15.0)]}
    for first in (0, -3):
        moves = [LotMove(1, 1, day(first), 1), LotMove(1, 2, day(0), 2)]
        assert told(stretches(START, moves, known, PLACES)) == [("cellar", 0, None, 15.0)]


def test_a_place_that_is_gone_goes_by_its_number():
    (here,) = stretches(START, [LotMove(1, 7, day(0), 1)], {}, PLACES)
    assert here.place == "place 7"


@every_row(
    ("leaves", "kept"),
    [
        (-1, [("on the way", 0, None, 30.0)]),
        (0, [("on the way", 0, None, 30.0)]),
        (10, [("pantry", 0, 10, 21.0), ("on the way", 10, None, 30.0)]),
        (30, [("pantry", 0, 30, 21.0), ("on the way", 30, None, 30.0)]),
        (40, [("pantry", 0, 30, 21.0), ("cellar", 30, 40, 15.0), ("on the way", 40, None, 30.0)]),
    ],
)
def test_from_the_day_it_leaves_on_it_is_as_warm_as_the_way(leaves, kept):
    known = {1: [warmth(1, -9, 21.0)], 2: [warmth(2, -9, 15.0)]}
    history = stretches(START, [LotMove(1, 1, day(0), 1), LotMove(1, 2, day(30), 2)], known, PLACES)
    assert told(with_trip(history, day(leaves), 30.0)) == kept
    assert told(with_trip((), day(leaves), 30.0)) == [("on the way", leaves, None, 30.0)]


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
