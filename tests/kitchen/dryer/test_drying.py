"""Starting, weighing, noting and taking off a batch."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone

import pytest

from dryhouse.kitchen.dryer.doubts import DoubtfulWeight
from dryhouse.kitchen.dryer.drying import (
    AHEAD,
    CameOff,
    add_weighing,
    correct_weighing,
    events_of,
    loaded_g,
    remembered_tare,
    remove_weighing,
    reopen,
    running_batch_named,
    scope_for,
    start_batch,
    take_off,
    weighings_of,
)
from dryhouse.kitchen.dryer.happenings import add_event, remove_event
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.records import Batch, BatchPart, Lot, Weighing
from dryhouse.kitchen.records.batches import DRYING, FINISHED, PLANNED
from dryhouse.kitchen.records.weighings import HEAT_CHANGED, LOAD, PAUSED, RESUMED, SAMPLE, TAKEN_OFF, TRAY, TURNED
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature, Volume
from dryhouse.words.messages import problem_sentence
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row


def the(hands: Hands, batch: int) -> Batch:
    found = hands.journal.get(Batch, batch)
    assert found is not None
    return found


def undo(hands: Hands, done) -> None:
    hands.journal.write(done.undone().changes)


def test_a_batch_started_without_a_time_starts_now_and_is_drying() -> None:
    hands = Hands()
    batch = the(hands, hands.start())
    assert (batch.state, batch.started, batch.food) == (DRYING, NOON, "apple")


def test_a_batch_is_found_by_any_name_of_its_food_and_kept_by_its_slug() -> None:
    hands = Hands()
    assert the(hands, hands.start(food="Apples")).food == "apple"


def test_a_planned_batch_is_started_by_its_own_record_and_keeps_its_number() -> None:
    hands = Hands(Batch("apple", state=PLANNED, prepared_mass=Mass(900.0, "900 g"), id=7))
    done = start_batch(hands.kitchen, the(hands, 7))
    assert the(hands, 7).state == DRYING
    assert the(hands, 7).started == NOON
    undo(hands, done)
    assert the(hands, 7).state == PLANNED
    hands.start()
    with pytest.raises(InputProblem, match="started already"):
        start_batch(hands.kitchen, replace(the(hands, 7), id=8))


def test_the_ingredients_of_a_mix_are_written_with_it() -> None:
    hands = Hands()
    parts = (BatchPart(0, 0, "apple", Mass(600.0)), BatchPart(0, 0, "sorrel", Mass(40.0), moisture_pct=90.0))
    batch = start_batch(hands.kitchen, Batch("apple", title="apple and sorrel"), parts).record.id
    assert [p.position for p in hands.journal.where(BatchPart, batch=batch)] == [0, 1]


@every_row(
    ("change", "field"),
    [
        ({"started": NOON + timedelta(hours=1)}, "started"),
        ({"start_moisture_pct": 60.0, "target_moisture_pct": 70.0}, "target_moisture_pct"),
        ({"kitchen_humidity_pct": 140.0}, "kitchen_humidity_pct"),
    ],
)
def test_a_start_that_cannot_be_is_refused_at_its_entry(change, field) -> None:
    hands = Hands()
    with pytest.raises(InputProblem) as refused:
        hands.start(**change)
    assert refused.value.field == field
    assert hands.journal.where(Batch) == ()


def test_the_tare_of_the_last_weighing_counts_again_for_the_same_scope() -> None:
    hands = Hands()
    batch = hands.start()
    hands.weigh(batch, 1300, tare=Mass(300.0, "300 g"))
    hands.wait(1)
    hands.weigh(batch, 1100)
    hands.wait(1)
    hands.weigh(batch, 260, scope=SAMPLE)
    hands.wait(1)
    hands.weigh(batch, 900, scope=LOAD)
    assert [w.net_g for w in weighings_of(hands.kitchen, batch)] == [1000, 800, 260, 600]


def test_a_tare_of_nothing_says_there_is_none_from_now_on() -> None:
    hands = Hands()
    batch = hands.start()
    hands.weigh(batch, 1300, tare=Mass(300.0, "300 g"))
    hands.wait(1)
    hands.weigh(batch, 800, tare=Mass(0.0, "0 g"))
    hands.wait(1)
    hands.weigh(batch, 700)
    assert weighings_of(hands.kitchen, batch)[-1].net_g == 700


def test_the_scope_of_the_last_weighing_is_remembered() -> None:
    hands = Hands()
    batch = hands.start()
    hands.weigh(batch, 250, scope=SAMPLE)
    hands.wait(1)
    hands.weigh(batch, 220)
    assert {w.scope for w in weighings_of(hands.kitchen, batch)} == {SAMPLE}


def test_a_weighing_may_be_entered_later_and_is_kept_in_utc() -> None:
    hands = Hands()
    batch = hands.start()
    hands.wait(5)
    hands.weigh(batch, 700)
    hands.weigh(batch, 850, at=datetime(2026, 8, 14, 16, 0, tzinfo=timezone(timedelta(hours=2))))
    assert [(w.at, w.net_g) for w in weighings_of(hands.kitchen, batch)] == [
        (NOON + timedelta(hours=2), 850),
        (NOON + timedelta(hours=5), 700),
    ]
    assert all(w.at.tzinfo is UTC for w in weighings_of(hands.kitchen, batch))


@every_row(
    ("grams", "more", "field"),
    [
        (500, {"at": NOON - timedelta(minutes=1)}, "at"),
        (500, {"at": NOON + timedelta(hours=9)}, "at"),
        (200, {"tare": Mass(250.0, "250 g")}, "gross"),
        (500, {"scope": "half"}, "scope"),
    ],
)
def test_a_weighing_that_cannot_be_is_refused_and_nothing_is_written(grams, more, field) -> None:
    hands = Hands()
    batch = hands.start()
    with pytest.raises(InputProblem) as refused:
        hands.weigh(batch, grams, **more)
    assert refused.value.field == field
    assert weighings_of(hands.kitchen, batch) == ()


def test_the_same_moment_is_not_weighed_twice() -> None:
    hands = Hands()
    batch = hands.start()
    first = hands.weigh(batch, 900)
    with pytest.raises(InputProblem, match="that moment already"):
        hands.weigh(batch, 900)
    with pytest.raises(DoubtfulWeight, match="880 g comes within a minute of 900 g") as asked:
        hands.weigh(batch, 880)
    assert asked.value.doubt.replaces == first
    with pytest.raises(InputProblem, match="that moment already"):
        hands.weigh(batch, 880, keep=True)
    hands.weigh(batch, 880, replacing=first)
    assert [w.net_g for w in weighings_of(hands.kitchen, batch)] == [880]


def test_a_planned_or_missing_batch_cannot_be_weighed() -> None:
    hands = Hands(Batch("apple", state=PLANNED, id=7))
    for batch, words in ((7, "not yet started"), (99, "batch is no longer here")):
        with pytest.raises(InputProblem, match=words):
            hands.weigh(batch, 500)


def test_a_weighing_is_corrected_and_the_correction_taken_back() -> None:
    hands = Hands()
    batch = hands.start()
    number = hands.insist(batch, 9000)
    before = hands.journal.get(Weighing, number)
    assert before is not None
    done = correct_weighing(hands.kitchen, replace(before, gross=Mass(900.0, "900 g")))
    assert weighings_of(hands.kitchen, batch)[0].net_g == 900
    undo(hands, done)
    assert weighings_of(hands.kitchen, batch)[0].net_g == 9000
    with pytest.raises(InputProblem, match="no longer there"):
        correct_weighing(hands.kitchen, replace(before, id=99))


def test_weighings_are_removed_together_and_brought_back() -> None:
    hands = Hands()
    batch = hands.start()
    numbers = []
    for grams in (900, 800):
        numbers.append(hands.weigh(batch, grams))
        hands.wait(1)
    done = remove_weighing(hands.kitchen, *numbers)
    assert weighings_of(hands.kitchen, batch) == ()
    undo(hands, done)
    assert len(weighings_of(hands.kitchen, batch)) == 2


def test_events_are_noted_and_refused_where_they_make_no_sense() -> None:
    hands = Hands()
    batch = hands.start()
    add_event(hands.kitchen, batch, Happening(TURNED))
    with pytest.raises(InputProblem, match="not paused"):
        add_event(hands.kitchen, batch, Happening(RESUMED))
    paused = add_event(hands.kitchen, batch, Happening(PAUSED))
    hands.wait(1)
    with pytest.raises(InputProblem, match="paused already"):
        add_event(hands.kitchen, batch, Happening(PAUSED))
    with pytest.raises(InputProblem, match="what temperature"):
        add_event(hands.kitchen, batch, Happening(HEAT_CHANGED))
    with pytest.raises(InputProblem, match="trays turned"):
        add_event(hands.kitchen, batch, Happening("sang to it"))
    add_event(hands.kitchen, batch, Happening(HEAT_CHANGED, temperature=Temperature(60.0, "60 C")))
    remove_event(hands.kitchen, paused.record.id)
    assert [e.kind for e in events_of(hands.kitchen, batch)] == [TURNED, HEAT_CHANGED]


def test_taking_off_finishes_the_batch_and_undo_puts_it_back() -> None:
    hands = Hands()
    batch = hands.start()
    hands.wait(8)
    done = take_off(
        hands.kitchen, batch, CameOff(Mass(170.0, "170 g"), dried_volume=Volume(700.0, "700 ml"), rating=4)
    )
    after = the(hands, batch)
    assert (after.state, after.ended, after.dried_mass, after.rating) == (
        FINISHED,
        NOON + timedelta(hours=8),
        Mass(170.0, "170 g"),
        4,
    )
    assert [e.kind for e in events_of(hands.kitchen, batch)] == [TAKEN_OFF]
    with pytest.raises(InputProblem, match="only a running batch"):
        take_off(hands.kitchen, batch)
    undo(hands, done)
    assert the(hands, batch).state == DRYING
    assert events_of(hands.kitchen, batch) == ()


def test_how_a_piece_feels_is_of_the_end_it_was_felt_at() -> None:
    hands = Hands()
    batch = hands.start()
    hands.wait(8)
    take_off(hands.kitchen, batch, CameOff(Mass(170.0, "170 g"), felt="leathery"))
    assert the(hands, batch).felt == "leathery"
    reopen(hands.kitchen, batch)
    assert the(hands, batch).felt == ""


def test_what_is_not_weighed_at_the_end_stays_unrecorded() -> None:
    hands = Hands()
    batch = hands.start()
    hands.weigh(batch, 300)
    hands.wait(1)
    take_off(hands.kitchen, batch)
    assert the(hands, batch).dried_mass is None


def test_dried_food_heavier_than_what_was_loaded_is_refused() -> None:
    hands = Hands()
    batch = hands.start()
    hands.wait(8)
    with pytest.raises(InputProblem, match="1700 g"):
        take_off(hands.kitchen, batch, CameOff(Mass(1700.0, "1700 g")))
    assert the(hands, batch).state == DRYING


def test_a_finished_batch_goes_back_on_and_its_dried_weight_becomes_a_weighing() -> None:
    hands = Hands()
    batch = hands.start()
    hands.wait(1)
    hands.weigh(batch, 1200, tare=Mass(300.0, "300 g"))
    hands.wait(6)
    take_off(hands.kitchen, batch, CameOff(Mass(200.0, "200 g")))
    hands.wait(1)
    done = reopen(hands.kitchen, batch)
    assert the(hands, batch).state == DRYING
    assert [w.net_g for w in weighings_of(hands.kitchen, batch)] == [900, 200]
    assert events_of(hands.kitchen, batch) == ()
    hands.weigh(batch, 480)
    assert weighings_of(hands.kitchen, batch)[-1].net_g == 180
    remove_weighing(hands.kitchen, weighings_of(hands.kitchen, batch)[-1].id)
    undo(hands, done)
    assert the(hands, batch).dried_mass == Mass(200.0, "200 g")


def test_a_batch_that_is_packed_does_not_go_back_on() -> None:
    hands = Hands()
    batch = hands.start()
    hands.wait(6)
    take_off(hands.kitchen, batch, CameOff(Mass(200.0, "200 g")))
    lot = Lot("apple", date(2026, 8, 14), batch=batch, id=1)
    from dryhouse.kitchen.ports import Change

    hands.journal.write([Change(None, lot)])
    with pytest.raises(InputProblem, match="packed"):
        reopen(hands.kitchen, batch)


def test_a_batch_is_meant_by_its_number_or_by_its_food_while_only_one_runs() -> None:
    hands = Hands()
    first = hands.start()
    assert running_batch_named(hands.kitchen, f"#{first}").id == first
    assert running_batch_named(hands.kitchen, "apple").id == first
    hands.start()
    with pytest.raises(InputProblem, match="More than one"):
        running_batch_named(hands.kitchen, "apple")
    with pytest.raises(InputProblem, match="No running batch"):
        running_batch_named(hands.kitchen, "sorrel")


def test_nothing_on_the_scale_is_no_weighing() -> None:
    hands = Hands()
    batch = hands.start()
    with pytest.raises(InputProblem, match="above 0"):
        add_weighing(hands.kitchen, batch, Reading(Mass(0.0, "0 g")))


def test_a_reading_past_any_tray_is_refused_and_nothing_is_written() -> None:
    hands = Hands()
    batch = hands.start(454.0)
    with pytest.raises(InputProblem, match="number and its unit") as caught:
        add_weighing(hands.kitchen, batch, Reading(Mass(4_535_470.0, "9999 lb")))
    assert caught.value.field == "gross"
    assert "9999 lb" in problem_sentence(caught.value)
    assert weighings_of(hands.kitchen, batch) == ()
    hands.weigh(batch, 6000.0, tare=Mass(5600.0))
    with pytest.raises(InputProblem, match="number and its unit"):
        correct_weighing(hands.kitchen, replace(weighings_of(hands.kitchen, batch)[0], gross=Mass(600_000.0)))


def test_food_is_not_dried_to_nothing() -> None:
    hands = Hands()
    batch = hands.start(454.0)
    hands.wait(9)
    with pytest.raises(InputProblem, match="leave it empty"):
        take_off(hands.kitchen, batch, CameOff(Mass(0.0)))


def reading(scope: str, vessel: str = "", tare: float | None = None, id: int = 0) -> Weighing:
    return Weighing(1, NOON, Mass(500.0), Mass(tare) if tare is not None else None, scope, vessel=vessel, id=id)


@every_row(
    ("before", "vessel", "scope", "tare"),
    [
        ((), "", LOAD, None),
        ((), "tray 2", TRAY, None),
        ((), "jar 2", LOAD, None),
        ((reading(LOAD, tare=300.0),), "", LOAD, 300.0),
        ((reading(LOAD, tare=300.0), reading(SAMPLE, tare=80.0)), "", SAMPLE, 80.0),
        ((reading(LOAD, tare=300.0), reading(TRAY, "tray 1", tare=90.0)), "", LOAD, 300.0),
        ((reading(LOAD, tare=300.0), reading(TRAY, "tray 1", tare=90.0)), "tray 1", TRAY, 90.0),
        ((reading(LOAD, tare=300.0), reading(TRAY, "tray 1", tare=90.0)), "tray 2", TRAY, None),
        ((reading(SAMPLE, "tray 1", tare=90.0),), "tray 1", SAMPLE, 90.0),
        ((reading(SAMPLE, "jar 3", tare=70.0), reading(SAMPLE, "jar 3", tare=60.0)), "jar 3", SAMPLE, 60.0),
    ],
)
def test_what_is_not_said_of_a_reading_is_as_it_was_the_last_time(before, vessel, scope, tare) -> None:
    assert scope_for(before, vessel) == scope
    found = remembered_tare(before, scope, vessel)
    assert (None if found is None else found.si) == tare


@every_row(
    ("ahead", "taken"),
    [(timedelta(0), True), (AHEAD, True), (AHEAD + timedelta(seconds=1), False), (timedelta(hours=-1), True),
     (timedelta(hours=-1, seconds=-1), False)],
)  # fmt: skip
def test_a_moment_lies_between_the_start_of_the_batch_and_now(ahead, taken) -> None:
    hands = Hands()
    batch = hands.start()
    hands.wait(1)
    if taken:
        assert hands.weigh(batch, 900, at=hands.time + ahead)
        return
    with pytest.raises(InputProblem) as refused:
        hands.weigh(batch, 900, at=hands.time + ahead)
    assert refused.value.field == "at"


def test_the_ingredients_of_a_mix_are_what_was_loaded_where_nothing_else_was_weighed() -> None:
    hands = Hands()
    parts = (BatchPart(0, 0, "apple", Mass(500.0)), BatchPart(0, 1, "apple", Mass(300.0)))
    mixed = start_batch(hands.kitchen, Batch("apple"), parts).record
    assert loaded_g(hands.kitchen, mixed) == 800.0
    assert loaded_g(hands.kitchen, replace(mixed, cooked_mass_out=Mass(700.0))) == 700.0
    assert loaded_g(hands.kitchen, replace(mixed, prepared_mass=Mass(600.0), cooked_mass_out=Mass(700.0))) == 600.0
    assert loaded_g(hands.kitchen, Batch("apple")) is None
