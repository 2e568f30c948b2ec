"""What calls for her, when, and what waits: quiet hours, and what she put off."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

import pytest

from dryhouse.kitchen.cards.alarms import (
    CONDITIONING,
    QUIET_KEY,
    TIMER,
    AlarmClock,
    QuietHours,
    alarms,
    quiet_hours,
    read_quiet_hours,
)
from dryhouse.kitchen.dryer.drying import CameOff, add_weighing, take_off
from dryhouse.kitchen.dryer.due_now import FINISH, PAST, WEIGH, Due
from dryhouse.kitchen.dryer.typed_happenings import read_happening
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.dryer.weigh_in import note_happening
from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.settings import set_preference
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row

NEVER = QuietHours()
PROMISES = ("is dry", "is done", "is ready", "safe", "finished")


def due(kind: str, hours: float, batch: int = 1, after: int = 1) -> Due:
    return Due(batch, kind, NOON + timedelta(hours=hours), after, f"{kind} of {batch}")


def ringing(clock: AlarmClock, dues, hours: float, quiet: QuietHours = NEVER) -> list[str]:
    now = NOON + timedelta(hours=hours)
    return [d.kind for d in clock.ringing(dues, now, now, quiet)]


def test_each_thing_is_said_once_when_its_time_comes() -> None:
    clock, dues = AlarmClock(), [due(WEIGH, 1), due(TIMER, 2)]
    assert [ringing(clock, dues, h) for h in (0, 1, 1.5, 2, 3)] == [[], [WEIGH], [], [TIMER], []]


def test_of_one_batch_only_the_gravest_is_said_at_a_time() -> None:
    dues = [due(WEIGH, 1), due(FINISH, 2), due(PAST, 3), due(WEIGH, 1, batch=2)]
    now = NOON + timedelta(hours=9)
    assert [(d.batch, d.kind) for d in AlarmClock().ringing(dues, now, now, NEVER)] == [(1, PAST), (2, WEIGH)]


def test_what_is_put_off_is_said_again_after_half_an_hour_and_then_not_again() -> None:
    clock, dues = AlarmClock(), [due(FINISH, 1)]
    assert ringing(clock, dues, 1) == [FINISH]
    clock.put_off(dues, NOON + timedelta(hours=1))
    assert [ringing(clock, dues, h) for h in (1.2, 1.4, 1.5, 2)] == [[], [], [FINISH], []]


def test_in_quiet_hours_nothing_is_said_and_nothing_is_lost() -> None:
    clock, dues, night = AlarmClock(), [due(FINISH, 11)], QuietHours(time(22), time(7))
    assert ringing(clock, dues, 11, night) == []
    assert ringing(clock, dues, 18.9, night) == []
    assert ringing(clock, dues, 19, night) == [FINISH]


@every_row(
    ("typed", "quiet", "heard"),
    [
        ("22:00-7:00", ("22:00", "23:59", "00:00", "06:59"), ("21:59", "07:00", "12:00")),
        ("13:00-14:30", ("13:00", "14:29"), ("12:59", "14:30", "00:00")),
        ("7:00-7:00", (), ("06:59", "07:00", "07:01")),
        ("", (), ("00:00", "12:00")),
    ],
)
def test_quiet_hours_begin_and_end_on_the_minute(typed, quiet, heard) -> None:
    hours = read_quiet_hours(typed)
    day = datetime(2026, 8, 14, tzinfo=UTC).date()
    for moments, held in ((quiet, True), (heard, False)):
        for at in moments:
            assert hours.at(datetime.combine(day, time.fromisoformat(at))) is held, at


def test_quiet_hours_that_cannot_be_read_are_none_and_a_thing_put_off_may_come_later() -> None:
    hands = Hands()
    set_preference(hands.kitchen, QUIET_KEY, "late")
    assert quiet_hours(hands.kitchen) == QuietHours()
    clock, dues = AlarmClock(), [due(FINISH, 1)]
    clock.put_off(dues, NOON + timedelta(hours=1), timedelta(hours=3))
    assert [ringing(clock, dues, h) for h in (1, 3.9, 4, 5)] == [[], [], [FINISH], []]


def test_what_is_due_comes_by_its_time_and_of_a_batch_off_the_dryer_nothing_does() -> None:
    hands = Hands()
    first, second = hands.start(), hands.start()
    for batch, line in ((first, "remind in 3 h turn"), (second, "remind in 1 h look"), (first, "soak 2 h")):
        note_happening(hands.kitchen, batch, read_happening(hands.kitchen, line))
    assert [d.batch for d in alarms(hands.kitchen) if d.kind == TIMER] == [second, first, first]
    hands.wait(0.5)
    take_off(hands.kitchen, first, CameOff(Mass(160.0, "160 g")))
    assert [d.batch for d in alarms(hands.kitchen) if d.kind == TIMER] == [second]


def test_quiet_hours_are_read_kept_and_refused_with_an_example() -> None:
    assert read_quiet_hours("22:00-7:00") == read_quiet_hours("22 to 7") == QuietHours(time(22), time(7))
    assert not read_quiet_hours("").at(datetime(2026, 8, 14, 3, tzinfo=UTC))
    assert read_quiet_hours("13-14").at(datetime(2026, 8, 14, 13, 59, tzinfo=UTC))
    hands = Hands()
    set_preference(hands.kitchen, QUIET_KEY, "22:00-7:00")
    assert quiet_hours(hands.kitchen) == QuietHours(time(22), time(7))
    for nonsense in ("late", "25:00-7:00", "22:00"):
        with pytest.raises(InputProblem, match="22:00-7:00"):
            read_quiet_hours(nonsense)


def test_a_run_is_weighed_may_be_dry_and_is_past_its_time_and_never_said_to_be_done() -> None:
    hands = Hands()
    hands.dry(hands.start(), (1, 2, 3, 4))
    found = alarms(hands.kitchen)
    assert [d.kind for d in found] == [WEIGH, FINISH, PAST]
    assert all("by hand" in d.sentence for d in found if d.kind in (FINISH, PAST))
    assert not any(promise in d.sentence.lower() for d in found for promise in PROMISES)
    hands.wait(2)
    add_weighing(hands.kitchen, 1, Reading(Mass(300.0, "300 g")))
    assert {d.after for d in alarms(hands.kitchen)} != {d.after for d in found}


def test_the_end_of_a_soak_and_what_she_asked_for_are_alarms_of_their_own() -> None:
    hands = Hands()
    hands.start()
    for line in ("soak 8 h", "remind in 30 min turn the trays"):
        what = read_happening(hands.kitchen, line)
        note_happening(hands.kitchen, 1, what)
    timers = [(d.at - NOON, d.sentence) for d in alarms(hands.kitchen) if d.kind == TIMER]
    assert timers == [
        (timedelta(minutes=30), "Turn the trays (batch 1)."),
        (timedelta(hours=8), "The soak is over (batch 1)."),
    ]
    with pytest.raises(InputProblem, match="within a day"):
        note_happening(hands.kitchen, 1, read_happening(hands.kitchen, "soak 30 h"))


def test_conditioning_is_spoken_of_once_a_day_in_the_morning() -> None:
    hands = Hands(Lot("apple", date(2026, 8, 12), name="apple rings", conditioned_from=date(2026, 8, 12), id=1))
    (morning,) = alarms(hands.kitchen)
    said = morning.sentence
    assert morning == Due(0, CONDITIONING, NOON.replace(hour=9), date(2026, 8, 14).toordinal(), said)
    assert "lot 1 (day 3 of 10)" in said
    assert "\n" not in said
    hands.wait(24)
    (next_day,) = alarms(hands.kitchen)
    assert next_day.after == morning.after + 1
    assert hands.journal.next_id(Lot) == 2, "to look costs no number: the next jar is lot 2"


def test_a_shelf_of_five_thousand_lots_is_not_gone_through_for_a_notice() -> None:
    for number, spoken_of in ((4999, 1), (5000, 0)):
        jar = Lot("apple", date(2026, 8, 12), conditioned_from=date(2026, 8, 12), id=number)
        assert len(alarms(Hands(jar).kitchen)) == spoken_of
