"""What is due on the dryers."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer import due_now
from dryhouse.kitchen.dryer.drying import take_off
from dryhouse.kitchen.dryer.due_now import FINISH, PAST, WEIGH, reminders_due
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.records.weighings import PAUSED
from tests.builders import TURKEY
from tests.kitchen.drying_room import NOON, Hands


def test_a_running_batch_has_a_finish_and_a_weighing_ahead() -> None:
    hands = Hands()
    batch = hands.start()
    hands.dry(batch, (1, 2, 3, 4))
    found = reminders_due(hands.kitchen)
    assert {d.kind for d in found} == {FINISH, WEIGH, PAST}
    assert [d.at for d in found] == sorted(d.at for d in found)
    assert all(d.batch == batch and d.after for d in found)


def test_a_dry_load_wants_no_weighing() -> None:
    hands = Hands()
    batch = hands.start()
    hands.dry(batch, (1, 2, 4, 6, 8, 12, 20))
    assert WEIGH not in {d.kind for d in reminders_due(hands.kitchen)}


def test_a_paused_or_finished_batch_is_left_in_peace() -> None:
    hands = Hands()
    batch = hands.start()
    hands.dry(batch, (1, 2, 3))
    add_event(hands.kitchen, batch, Happening(PAUSED))
    assert reminders_due(hands.kitchen) == ()
    take_off(hands.kitchen, batch)
    assert reminders_due(hands.kitchen) == ()


def test_what_is_due_is_told_with_its_batch_and_the_weighing_it_was_reckoned_from() -> None:
    hands = Hands()
    batch = hands.start(title="ring cuts")
    found = reminders_due(hands.kitchen)
    assert [(d.kind, d.after, d.sentence) for d in found] == [
        (WEIGH, 0, "Ring cuts, batch 1: weigh now for a better estimate."),
        (FINISH, 0, "Ring cuts, batch 1 may be dry by now. Weigh it and check by hand."),
        (PAST, 0, "Ring cuts, batch 1 was to be looked at before now: weigh it and check by hand."),
    ]
    hands.wait(1)
    number = hands.weigh(batch, 800)
    assert {d.after for d in reminders_due(hands.kitchen)} == {number}


def test_it_is_past_its_time_an_hour_after_the_late_end_or_half_as_late_again_where_that_is_open(
    monkeypatch,
) -> None:
    hands = Hands()
    hands.dry(hands.start(), (1, 2, 3, 4))
    run = run_of(hands.kitchen, 1)
    finish = run.expected.forecast.finish
    for high80, hours in ((finish.high80, finish.high80), (math.inf, 1.5 * finish.median)):
        ahead = replace(run.expected.forecast, finish=replace(finish, high80=high80))
        late = replace(run, expected=replace(run.expected, forecast=ahead))
        monkeypatch.setattr(due_now, "running", lambda kitchen, late=late: (late,))
        (past,) = [d for d in reminders_due(hands.kitchen) if d.kind == PAST]
        assert (past.at - NOON) / timedelta(hours=1) == pytest.approx(hours + 1)


def test_a_stop_is_part_of_what_is_said() -> None:
    hands = Hands()
    hands.kitchen.handbook.foods["turkey"] = TURKEY
    hands.start(food="turkey")
    for due in reminders_due(hands.kitchen):
        assert due.sentence.startswith("Turkey, cooked, batch 1")
        assert " Stop: " in due.sentence
        assert not due.sentence.endswith("..")
