"""Hours of drying: UTC, pauses left out, nothing that ticks."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.kitchen.dryer.running_time import Clock, clock_of, paused_at
from dryhouse.kitchen.records.weighings import PAUSED, RESUMED, TURNED, BatchEvent

START = datetime(2026, 8, 14, 12, 0, tzinfo=UTC)


def at(hours: float) -> datetime:
    return START + timedelta(hours=hours)


def event(hours: float, kind: str, id: int = 1) -> BatchEvent:
    return BatchEvent(1, at(hours), kind, id=id)


def test_hours_run_from_the_start() -> None:
    assert Clock(START).hours(at(3.5)) == pytest.approx(3.5)
    assert Clock(START).hours(at(-1)) == 0.0


def test_a_night_of_pause_is_not_drying() -> None:
    clock = clock_of(START, [event(2, PAUSED), event(10, RESUMED, 2), event(11, TURNED, 3)])
    assert clock.hours(at(2)) == pytest.approx(2)
    assert clock.hours(at(6)) == pytest.approx(2)
    assert clock.hours(at(12)) == pytest.approx(4)
    assert clock.paused_hours == pytest.approx(8)
    assert clock.paused_since is None


def test_an_open_pause_stops_the_clock() -> None:
    clock = clock_of(START, [event(2, PAUSED)])
    assert clock.hours(at(30)) == pytest.approx(2)
    assert clock.paused_since == at(2)


def test_a_pause_noted_before_the_start_begins_with_it() -> None:
    assert clock_of(START, [event(-1, PAUSED), event(1, RESUMED, 2)]).hours(at(3)) == pytest.approx(2)


def test_whether_it_was_paused_depends_on_the_last_word() -> None:
    events = [event(2, PAUSED), event(4, RESUMED, 2)]
    assert [paused_at(events, at(h)) for h in (1, 3, 5)] == [False, True, False]


def test_a_change_of_summer_time_adds_no_hour() -> None:
    zone = ZoneInfo("America/Chicago")
    evening = datetime(2026, 10, 31, 22, 0, tzinfo=zone).astimezone(UTC)
    morning = datetime(2026, 11, 1, 6, 0, tzinfo=zone).astimezone(UTC)
    assert clock_of(evening, []).hours(morning) == pytest.approx(9)


@given(st.lists(st.floats(0, 100), min_size=0, max_size=6, unique=True), st.floats(0, 100))
def test_the_moment_of_so_many_hours_has_so_many_hours(marks, hours) -> None:
    kinds = [event(h, PAUSED if n % 2 == 0 else RESUMED, n + 1) for n, h in enumerate(sorted(marks))]
    clock = clock_of(START, kinds[: len(kinds) // 2 * 2])
    assert clock.hours(clock.moment(hours)) == pytest.approx(hours, abs=1e-6)


def test_what_is_reached_as_a_pause_begins_is_reached_before_it() -> None:
    clock = clock_of(START, [event(2, PAUSED), event(10, RESUMED, 2)])
    assert [clock.moment(h) for h in (1.5, 2, 2.5)] == [at(1.5), at(2), at(10.5)]
