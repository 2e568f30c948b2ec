"""What is asked of a run, and that an answer is remembered, counts, and can be taken back."""

from __future__ import annotations

import math
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.drying import CameOff, reopen, take_off
from dryhouse.kitchen.dryer.questions import Asked, answer, questions_of
from dryhouse.kitchen.dryer.run_words import finish_moment, run_json, run_lines
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_readings import Notation
from dryhouse.kitchen.dryer.weigh_in import note_happening, read_line
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.weighings import PAUSED, RAN, RESUMED
from dryhouse.science.display import METRIC, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import NOON, Hands

GRAMS = Style(METRIC)


@pytest.fixture
def hands() -> Hands:
    return Hands()


def stalled(hands: Hands) -> int:
    """Three hours of drying, then three in which it lost a gram."""
    batch = hands.start()
    hands.dry(batch, (1, 2, 3))
    last = run_of(hands.kitchen, batch).net_g
    hands.wait(3)
    hands.weigh(batch, last - 1)
    return batch


def levelled(hands: Hands, level: float = 146.0, **more: object) -> int:
    """Dried until its weight stayed the same for three hours: 14 % solids hold 140 g."""
    batch = hands.start(**more)
    for hour, grams in ((2, 600), (5, 300), (9, 170), (12, level), (13, level), (14, level - 1), (15, level)):
        hands.time = NOON + timedelta(hours=hour)
        hands.weigh(batch, grams)
    return batch


def asked(hands: Hands, batch: int):
    return questions_of(hands.kitchen, run_of(hands.kitchen, batch), GRAMS)


def typed(hands: Hands, batch: int, text: str):
    return note_happening(hands.kitchen, batch, read_line(hands.kitchen, text, Notation("g")))


def undo(hands: Hands, done) -> None:
    hands.kitchen.write([change.reversed() for change in reversed(done.changes)])


# --- the dryer ---------------------------------------------------------------------------------------------


def test_a_dryer_that_stood_still_is_asked_about_by_the_clock(hands) -> None:
    batch = stalled(hands)
    (question,) = asked(hands, batch)
    assert question.text == (
        "It lost almost nothing between 15:00 and 18:00, and the forecast leaves that time out. Was the dryer off?"
    )
    run = run_of(hands.kitchen, batch)
    assert question.with_answers.endswith("Answer in place of a weight: “was off” or “was running”.")
    assert question.with_answers in run_json(hands.kitchen, run)["asks"]
    assert question.with_answers in list(run_lines(hands.kitchen, run, GRAMS))
    assert finish_moment(hands.kitchen, run) < NOON + timedelta(hours=48)


def test_that_it_was_running_is_remembered_and_the_forecast_counts_those_hours(hands) -> None:
    batch = stalled(hands)
    before = run_of(hands.kitchen, batch)
    done = typed(hands, batch, "no, it was running")
    assert asked(hands, batch) == ()
    after = run_of(hands.kitchen, batch)
    assert after.expected.forecast.stops == ()
    assert [(e.kind, e.at) for e in after.events] == [(RAN, NOON + timedelta(hours=6))]
    late = finish_moment(hands.kitchen, after)
    assert late is None or late > finish_moment(hands.kitchen, before) + timedelta(hours=2)
    undo(hands, done)
    assert len(asked(hands, batch)) == 1


def test_the_answer_is_for_that_stretch_and_no_later_one(hands) -> None:
    batch = stalled(hands)
    typed(hands, batch, "was running")
    for lost in (40, 35):
        hands.wait(1)
        hands.weigh(batch, run_of(hands.kitchen, batch).net_g - lost)
    assert asked(hands, batch) == ()
    hands.wait(3)
    hands.weigh(batch, run_of(hands.kitchen, batch).net_g - 1)
    (question,) = asked(hands, batch)
    assert "between 20:00 and 23:00" in question.text


def test_that_it_was_off_is_a_pause_of_that_stretch(hands) -> None:
    batch = stalled(hands)
    typed(hands, batch, "was off")
    run = run_of(hands.kitchen, batch)
    hours = {e.kind: (e.at - NOON).total_seconds() / 3600 for e in run.events}
    assert hours == {PAUSED: 3.0, RESUMED: 6.0}
    assert run.hours == pytest.approx(3.0)
    assert asked(hands, batch) == ()


def test_an_answer_to_nothing_is_refused_in_a_sentence(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 3))
    with pytest.raises(InputProblem, match="nothing is asked about the dryer"):
        typed(hands, batch, "was running")
    with pytest.raises(InputProblem, match="still falling"):
        typed(hands, batch, "brittle")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("was running", RAN), ("It was running", RAN), ("dryer kept running", RAN), ("no, the dryer was on", RAN),
        ("was off", "was off"), ("yes, it was off", "was off"), ("the power was off", "was off"),
        ("brittle", "brittle"), ("bone dry", "brittle"), ("dry to the bone", "brittle"),
        ("not brittle yet", "not brittle"), ("power off", PAUSED),
    ],
)  # fmt: skip
def test_answers_are_typed_as_one_says_them(hands, text, kind) -> None:
    assert read_line(hands.kitchen, text, Notation("g")).kind == kind


# --- the level ---------------------------------------------------------------------------------------------


def solids(hands: Hands) -> float:
    return 100.0 - food(hands.kitchen, "apple").fact("water").value


def test_a_level_is_asked_about_and_teaches_nothing_by_itself(hands) -> None:
    batch = levelled(hands)
    (question,) = asked(hands, batch)
    assert question.text == (
        "The weight has stayed at 146 g since tomorrow 00:00. Is a cooled piece brittle right through? If so, it "
        "shows how much dry matter your apple holds."
    ).replace("tomorrow ", "")
    assert solids(hands) == pytest.approx(14.0)
    take_off(hands.kitchen, batch, CameOff(Mass(146.0)))
    assert solids(hands) == pytest.approx(14.0)


def test_a_level_confirmed_by_hand_teaches_the_load_and_the_food_and_is_undone(hands) -> None:
    batch = levelled(hands, 160.0)
    before = run_of(hands.kitchen, batch).load
    done = typed(hands, batch, "brittle")
    assert asked(hands, batch) == ()
    after = run_of(hands.kitchen, batch)
    # 160 g hold 153.8 g of dry matter where food settles at 0.04 g of water a gram;
    # the table counts as three tests
    assert after.load.solids == pytest.approx(160.0 / 1.04, rel=0.01)
    assert after.load.solids_high / after.load.solids_low < 1 + 0.5 * (before.solids_high / before.solids_low - 1)
    assert solids(hands) == pytest.approx(100 * math.exp((3 * math.log(0.14) + math.log(0.1538)) / 4), abs=0.1)
    assert (
        "a load dried until the weight stayed the same of your own"
        in food(hands.kitchen, "apple").fact("water").source
    )
    assert after.verdict.name == "dry enough"
    undo(hands, done)
    assert solids(hands) == pytest.approx(14.0)
    assert len(asked(hands, batch)) == 1


def test_brittle_when_it_comes_off_confirms_a_level_and_putting_it_back_takes_that_away(hands) -> None:
    batch = levelled(hands, 160.0)
    take_off(hands.kitchen, batch, CameOff(Mass(160.0), felt="brittle"))
    assert solids(hands) > 14.1
    reopen(hands.kitchen, batch)
    assert solids(hands) == pytest.approx(14.0)


def test_leathery_at_a_level_teaches_nothing(hands) -> None:
    batch = levelled(hands, 160.0)
    take_off(hands.kitchen, batch, CameOff(Mass(160.0), felt="leathery"))
    assert hands.kitchen.journal.get(Batch, batch).settled is None
    assert solids(hands) == pytest.approx(14.0)


def test_brittle_without_a_level_teaches_nothing(hands) -> None:
    batch = hands.start()
    hands.dry(batch, (2, 5, 9, 12))
    take_off(hands.kitchen, batch, CameOff(felt="brittle"))
    assert solids(hands) == pytest.approx(14.0)


def test_not_yet_is_remembered(hands) -> None:
    batch = levelled(hands)
    done = answer(hands.kitchen, batch, Asked.LEVEL, False)
    assert (done.what, done.record.settled, done.record.felt) == ("Noted for apple: not brittle yet", False, "")
    assert asked(hands, batch) == ()
    assert solids(hands) == pytest.approx(14.0)


def test_a_level_while_the_dryer_was_off_is_none(hands) -> None:
    batch = levelled(hands)
    hands.kitchen.commit("", pending_pause(batch))
    with pytest.raises(InputProblem, match="still falling"):
        answer(hands.kitchen, batch, Asked.LEVEL, True)


def pending_pause(batch: int):
    from dryhouse.kitchen.ports import Pending
    from dryhouse.kitchen.records import BatchEvent

    pending = Pending()
    pending.add(BatchEvent(batch, NOON + timedelta(hours=12.5), PAUSED, id=91))
    return pending


def test_a_weight_far_from_such_food_is_a_slip_and_teaches_nothing(hands) -> None:
    batch = hands.start()
    for hour, grams in ((2, 700), (9, 420), (12, 400), (13, 400), (15, 400)):
        hands.time = NOON + timedelta(hours=hour)
        hands.weigh(batch, grams)
    take_off(hands.kitchen, batch, CameOff(Mass(400.0), felt="brittle"))
    assert solids(hands) == pytest.approx(14.0)


def test_an_answer_may_be_for_one_moment_of_the_stretch(hands) -> None:
    batch = stalled(hands)
    for hours in (2.99, 6.01):
        with pytest.raises(InputProblem, match="nothing is asked about the dryer"):
            answer(hands.kitchen, batch, Asked.STOP, True, at=NOON + timedelta(hours=hours))
    for hours in (3, 4.5, 6):
        done = answer(hands.kitchen, batch, Asked.STOP, True, at=NOON + timedelta(hours=hours))
        assert done.what == "Noted for apple: the dryer was off"
        assert [c.record for c in done.changes][:2] == [
            BatchEvent(batch, NOON + timedelta(hours=3), PAUSED, id=done.record.id),
            BatchEvent(batch, NOON + timedelta(hours=6), RESUMED, id=done.record.id + 1),
        ]
        undo(hands, done)
    assert answer(hands.kitchen, batch, Asked.STOP, False).what == "Noted for apple: the dryer kept running"


def test_a_level_that_is_confirmed_is_written_as_brittle(hands) -> None:
    batch = levelled(hands)
    (question,) = asked(hands, batch)
    assert (question.begin, question.end) == (NOON + timedelta(hours=12), NOON + timedelta(hours=15))
    done = answer(hands.kitchen, batch, Asked.LEVEL, True)
    assert done.what == "Noted for apple: brittle, and its weight stayed the same"
    assert (done.record.settled, done.record.felt) == (True, "brittle")
