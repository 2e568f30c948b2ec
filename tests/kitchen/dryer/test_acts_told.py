"""What each act at the dryer is called, and every field that it writes."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, timedelta, timezone

import pytest

from dryhouse.kitchen.dryer.doubts import DoubtfulWeight
from dryhouse.kitchen.dryer.drying import (
    CameOff,
    add_weighing,
    correct_weighing,
    events_of,
    leave_out,
    remove_weighing,
    reopen,
    running_batch_named,
    start_batch,
    take_off,
    weighings_of,
)
from dryhouse.kitchen.dryer.happenings import add_event, remove_event
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Weighing
from dryhouse.kitchen.records.batches import DRYING, FINISHED, PLANNED
from dryhouse.kitchen.records.weighings import LOAD, PAUSED, REMIND, SAMPLE, TAKEN_OFF, TRAY, TRAY_IN
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature, Volume
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row


def the(hands: Hands, batch: int) -> Batch:
    found = hands.journal.get(Batch, batch)
    assert found is not None
    return found


def weighed(*grams: float) -> tuple[Hands, list[int]]:
    """A batch weighed an hour apart."""
    hands, numbers = Hands(), []
    batch = hands.start()
    for each in grams:
        hands.wait(1)
        numbers.append(hands.weigh(batch, each))
    return hands, numbers


def test_a_batch_that_is_started_is_called_by_its_name_and_number_with_its_ingredients_numbered_on() -> None:
    hands = Hands(Batch("apple", id=9), BatchPart(9, 0, "apple", Mass(1.0), id=4))
    parts = (BatchPart(0, 0, "apple", Mass(600.0)), BatchPart(0, 0, "apple", Mass(300.0)))
    done = start_batch(hands.kitchen, Batch("apple", title="two kinds"), parts)
    assert done.what == "Started drying two kinds, batch 10"
    assert hands.journal.where(BatchPart, batch=10) == (
        BatchPart(10, 0, "apple", Mass(600.0), id=5),
        BatchPart(10, 1, "apple", Mass(300.0), id=6),
    )


@every_row(
    ("told", "begins"),
    [
        (NOON + timedelta(hours=9), NOON),  # as it was planned: it begins now
        (NOON - timedelta(hours=1), NOON - timedelta(hours=1)),
        (None, NOON),
        (NOON + timedelta(minutes=5), NOON + timedelta(minutes=5)),  # her clock runs ahead
        (NOON + timedelta(minutes=6), None),
    ],
)
def test_a_planned_batch_begins_when_it_is_put_on(told, begins) -> None:
    planned = Batch("apple", state=PLANNED, started=NOON + timedelta(hours=9), id=7)
    hands = Hands(planned)
    if begins is None:
        with pytest.raises(InputProblem, match="The start has not come yet"):
            start_batch(hands.kitchen, replace(planned, started=told))
        return
    start_batch(hands.kitchen, replace(planned, started=told))
    assert (the(hands, 7).state, the(hands, 7).started) == (DRYING, begins)


def test_what_the_scale_showed_is_told_as_typed_or_in_her_units() -> None:
    hands, _ = weighed()
    for typed, told in (("900 g", "900 g"), ("1 lb 14 oz", "1 lb 14 oz"), ("860", "1 lb 14.3 oz")):
        hands.wait(1)
        grams = {"900 g": 900.0, "1 lb 14 oz": 870.0, "860": 860.0}[typed]
        assert add_weighing(hands.kitchen, 1, Reading(Mass(grams, typed))).what == f"Recorded {told} for apple"
    hands.wait(1)
    aside = add_weighing(hands.kitchen, 1, Reading(Mass(90.0, "90 g")), keep=True)
    assert aside.what == "Recorded 90 g for apple, left out of the curve"


def test_a_weighing_has_every_field_that_was_told_and_a_number_of_its_own() -> None:
    hands, _ = weighed(900, 800)
    eastern = timezone(timedelta(hours=-5))
    at = (NOON + timedelta(hours=1, minutes=30)).astimezone(eastern)
    heat, tare = Temperature(57.0, "57 C"), Mass(100.0, "100 g")
    gross = Mass(350.0, "350 g")
    told = Reading(gross, tare=tare, scope=TRAY, at=at, heat=heat, note="windy", vessel="tray 2")
    done = add_weighing(hands.kitchen, 1, told)
    assert done.record == Weighing(1, at.astimezone(UTC), gross, tare, TRAY, heat, "windy", "tray 2", id=3)


def test_a_reading_that_takes_the_place_of_another_is_judged_without_it() -> None:
    hands, (first, second) = weighed(900, 800)
    taken = add_weighing(hands.kitchen, 1, Reading(Mass(880.0, "880 g"), at=hands.time), replacing=second)
    assert [(w.id, w.net_g) for w in weighings_of(hands.kitchen, 1)] == [(first, 900), (3, 880)]
    assert taken.what == "Recorded 880 g for apple"
    with pytest.raises(InputProblem, match="weighing is no longer here"):
        add_weighing(hands.kitchen, 1, Reading(Mass(870.0)), replacing=second)


def test_weighings_left_out_taken_in_corrected_and_removed_are_told_by_their_count() -> None:
    hands, numbers = weighed(900, 800, 700)
    first, second, third = numbers
    for out, ids, what in (
        (True, (first,), "Left a weighing of apple out"),
        (True, (first, second), "Left a weighing of apple out"),  # the first is out already
        (False, (first, second, third), "Took 2 weighings of apple in"),
        (True, (first, third, 99), "Left 2 weighings of apple out"),
        (False, (first, third), "Took 2 weighings of apple in"),
    ):
        assert leave_out(hands.kitchen, *ids, out=out).what == what
    with pytest.raises(InputProblem, match="That weighing counts already"):
        leave_out(hands.kitchen, first, out=False)
    noted = replace(hands.journal.get(Weighing, first), note="by lamplight", batch=9)
    corrected = correct_weighing(hands.kitchen, noted)
    assert corrected.what == "Corrected a weighing of apple"
    assert hands.journal.get(Weighing, first) == replace(noted, batch=1)
    assert remove_weighing(hands.kitchen, first, 99).what == "Removed the 13:00 weighing (900 g) of apple"
    assert remove_weighing(hands.kitchen, second, third).what == "Removed 2 weighings of apple"
    with pytest.raises(InputProblem, match="no such weighing to remove"):
        remove_weighing(hands.kitchen, first)


def test_a_correction_is_judged_by_the_others_and_not_by_what_it_corrects() -> None:
    hands, (first, second, _) = weighed(900, 800, 700)
    middle = hands.journal.get(Weighing, second)
    correct_weighing(hands.kitchen, replace(middle, gross=Mass(860.0, "860 g")))
    assert not hands.journal.get(Weighing, second).left_out
    for wrong in ({"gross": Mass(950.0, "950 g")}, {"tare": Mass(200.0, "200 g")}):
        with pytest.raises(DoubtfulWeight):
            correct_weighing(hands.kitchen, replace(middle, **wrong))
    kept = correct_weighing(hands.kitchen, replace(middle, gross=Mass(950.0, "950 g")), keep=True)
    assert kept.record.left_out
    with pytest.raises(InputProblem, match="a weighing of that moment already"):
        correct_weighing(hands.kitchen, replace(middle, at=hands.journal.get(Weighing, first).at))


@every_row(("grams", "typed", "told"), [
    (21_001.0, "21.001 kg", "21.001 kg is far more than the 2 lb 3.3 oz that was loaded"),
    (21_001.0, "", "21001 g is far more than the 2 lb 3.3 oz that was loaded"),
    (21_000.0, "", ""),
])  # fmt: skip
def test_twenty_kilograms_past_the_load_no_tray_explains_a_reading(grams, typed, told) -> None:
    hands, _ = weighed()
    with pytest.raises(InputProblem) as refused:
        add_weighing(hands.kitchen, 1, Reading(Mass(grams, typed)))
    assert isinstance(refused.value, DoubtfulWeight) == (told == "")
    assert str(refused.value.said).startswith(told)


TOLD = {
    "dried_mass": Mass(170.0, "170 g"), "dried_volume": Volume(700.0, "700 ml"), "energy_kwh": 2.5,
    "notes": "crisp", "rating": 4, "felt": "leathery",
}  # fmt: skip
BEFORE = {
    "dried_mass": Mass(180.0, "180 g"), "dried_volume": Volume(600.0, "600 ml"), "energy_kwh": 1.5,
    "notes": "windy", "rating": 3, "felt": "pliable",
}  # fmt: skip


@every_row("told", [{}, TOLD, *({name: value} for name, value in TOLD.items()), {"energy_kwh": 0.0}, {"notes": ""}])
def test_what_is_not_told_at_the_end_is_as_it_was(told) -> None:
    hands = Hands()
    batch = hands.start(**BEFORE)
    hands.wait(8)
    named = {name: value for name, value in told.items() if name != "dried_mass"}
    done = take_off(hands.kitchen, batch, CameOff(told.get("dried_mass"), **named))
    assert done.what == "Took apple off the dryer"
    after = the(hands, batch)
    assert {name: getattr(after, name) for name in TOLD} == {**BEFORE, **told}
    assert (after.state, after.ended) == (FINISHED, NOON + timedelta(hours=8))
    assert events_of(hands.kitchen, batch) == (BatchEvent(batch, after.ended, TAKEN_OFF, id=1),)


def test_back_on_the_dryer_nothing_of_its_end_is_left_but_the_weight_at_that_moment() -> None:
    hands = Hands()
    batch = hands.start(notes="windy")
    hands.wait(8)
    take_off(hands.kitchen, batch, CameOff(TOLD["dried_mass"], dried_volume=TOLD["dried_volume"], felt="brittle"))
    assert reopen(hands.kitchen, batch).what == "Put apple back on the dryer"
    back = the(hands, batch)
    cleared = (back.ended, back.dried_mass, back.dried_volume, back.felt, back.settled)
    assert (back.state, back.notes, cleared) == (DRYING, "windy", (None, None, None, "", None))
    assert weighings_of(hands.kitchen, batch) == (
        Weighing(
            batch, NOON + timedelta(hours=8), TOLD["dried_mass"], None, LOAD, note="weighed when taken off", id=1
        ),
    )
    with pytest.raises(InputProblem, match="Batch 1 is drying; only a finished batch can be put back"):
        reopen(hands.kitchen, batch)


@every_row(("scope", "weights"), [(LOAD, [200.0]), (SAMPLE, [50.0, 170.0])])
def test_a_load_weighed_as_it_came_off_is_not_weighed_twice(scope, weights) -> None:
    hands = Hands()
    batch = hands.start()
    hands.wait(8)
    hands.weigh(batch, weights[0], scope=scope)
    take_off(hands.kitchen, batch, CameOff(Mass(170.0)))
    reopen(hands.kitchen, batch)
    assert [w.net_g for w in weighings_of(hands.kitchen, batch)] == weights


def test_of_several_running_batches_the_numbers_are_told_and_a_number_means_any() -> None:
    hands, _ = weighed()
    hands.start()
    with pytest.raises(InputProblem, match=r"More than one running batch is called “apple” \(1, 2\)") as refused:
        running_batch_named(hands.kitchen, "apple")
    assert refused.value.field == "batch"
    hands.wait(1)
    take_off(hands.kitchen, 1)
    assert running_batch_named(hands.kitchen, "apple").id == 2
    assert running_batch_named(hands.kitchen, " #1 ").id == 1


def test_what_happened_is_told_by_its_kind_and_a_reminder_lies_within_a_day() -> None:
    hands, _ = weighed()
    hands.wait(1)
    noted = add_event(hands.kitchen, 1, Happening(PAUSED, note="  power  "))
    assert noted.what == "Noted “paused” for apple"
    assert noted.record == BatchEvent(1, hands.time, PAUSED, note="power", id=1)
    assert remove_event(hands.kitchen, 1).what == "Removed “paused”"
    day = timedelta(hours=24)
    assert (
        add_event(hands.kitchen, 1, Happening(REMIND, note="look", at=hands.time + day)).record.at
        == hands.time + day
    )
    with pytest.raises(InputProblem, match="when within a day"):
        add_event(hands.kitchen, 1, Happening(REMIND, note="look", at=hands.time + day + timedelta(seconds=1)))


def test_what_goes_in_later_is_written_into_the_load_as_it_would_be_typed() -> None:
    hands = Hands()
    batch = start_batch(hands.kitchen, Batch("apple", prepared_mass=Mass(1000.0, "1000 g"))).record.id
    number = add_event(hands.kitchen, batch, Happening(TRAY_IN, mass=Mass(250.5))).record.id
    assert (the(hands, batch).prepared_mass, the(hands, batch).trays) == (Mass(1250.5, "1250.5 g"), None)
    remove_event(hands.kitchen, number)
    assert the(hands, batch).prepared_mass == Mass(1000.0, "1000 g")
