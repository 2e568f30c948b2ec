"""What is due on the dryers."""

from __future__ import annotations

from dryhouse.kitchen.dryer.drying import take_off
from dryhouse.kitchen.dryer.due_now import FINISH, PAST, WEIGH, reminders_due
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.records.weighings import PAUSED
from tests.kitchen.drying_room import Hands


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
    add_event(hands.kitchen, batch, PAUSED)
    assert reminders_due(hands.kitchen) == ()
    take_off(hands.kitchen, batch)
    assert reminders_due(hands.kitchen) == ()
