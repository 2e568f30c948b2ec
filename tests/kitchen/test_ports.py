"""What an act answers with, what it changed, and how it is taken back."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change, Done, Pending, ReadByInstruments, WrittenElsewhere, joined
from dryhouse.kitchen.records import RECORD_KINDS, Batch, Dryer, Lot, Weighing
from dryhouse.science.errors import NotKnown
from dryhouse.science.quantities import Mass
from tests.builders import NOW, a_kitchen
from tests.fakes import FakeJournal

OLD, NEW = Batch("corn", id=1), Batch("corn", notes="windy", id=1)
SHELF = Dryer("Shelf dryer", 6, id=1)
WEIGHING = Weighing(1, NOW, Mass(500.0), id=1)


def test_a_change_is_of_the_record_as_it_is_now_or_as_it_last_was() -> None:
    for change, record in ((Change(None, NEW), NEW), (Change(OLD, NEW), NEW), (Change(OLD, None), OLD)):
        assert change.record == record
        assert change.reversed() == Change(change.after, change.before)


def test_an_act_is_about_the_first_record_it_changed_and_is_taken_back_from_its_end() -> None:
    done = Done("Logged", (Change(None, NEW), Change(SHELF, None)), frozenset({Lot}))
    assert done.record == NEW
    assert done.kinds == {Batch, Dryer, Lot}
    assert done.undone() == Done("Logged", (Change(None, SHELF), Change(NEW, None)))
    with pytest.raises(IndexError):
        _ = Done("Nothing").record


def test_what_instruments_read_is_one_act_called_by_the_last() -> None:
    acts = [Done("read 1 weight", (Change(None, WEIGHING),)), Done("read 2 weights", (Change(OLD, NEW),))]
    found = ReadByInstruments.of(acts)
    assert (type(found), found.what) == (ReadByInstruments, "read 2 weights")
    assert found.changes == (Change(None, WEIGHING), Change(OLD, NEW))


def test_what_was_written_elsewhere_may_be_anything() -> None:
    assert WrittenElsewhere("elsewhere").kinds == frozenset(RECORD_KINDS)


def test_what_is_pending_notes_no_edit_that_changes_nothing() -> None:
    pending = Pending()
    pending.add(OLD, SHELF)
    pending.edit(OLD, OLD)
    pending.edit(OLD, NEW)
    pending.remove(WEIGHING, SHELF)
    assert pending.changes == [
        Change(None, OLD), Change(None, SHELF), Change(OLD, NEW), Change(WEIGHING, None), Change(SHELF, None),
    ]  # fmt: skip


def test_what_follows_an_edit_is_one_edit_with_it() -> None:
    followed = Batch("corn", notes="windy", curve_mark=7, id=1)
    other = Batch("corn", curve_mark=9, id=2)
    changes = (Change(None, OLD), Change(WEIGHING, None))
    assert joined(changes, ()) == changes
    assert joined((Change(OLD, NEW),), (Change(NEW, followed),)) == (Change(OLD, followed),)
    assert joined(changes, (Change(OLD, followed), Change(OLD, other))) == (
        Change(None, followed),
        Change(WEIGHING, None),
        Change(OLD, other),
    )


def test_a_kitchen_writes_what_follows_with_what_it_follows_from_and_nothing_for_nothing() -> None:
    plain = a_kitchen(OLD)
    kitchen = Kitchen(
        plain.journal,
        plain.handbook,
        plain.now,
        UTC,
        follow=lambda kitchen, changes: [Change(NEW, Batch("corn", notes="windy", rating=3, id=1))],
    )
    assert kitchen.write([]) == ()
    assert kitchen.commit("Nothing", Pending()).changes == ()
    pending = Pending()
    pending.edit(OLD, NEW)
    done = kitchen.commit("Noted", pending)
    assert (done.what, done.changes) == ("Noted", (Change(OLD, Batch("corn", notes="windy", rating=3, id=1)),))
    assert kitchen.journal.get(Batch, 1).rating == 3
    judged = Pending()
    judged.edit(kitchen.journal.get(Batch, 1), NEW)
    assert kitchen.commit("Judged", judged, judged=True).record.rating == 3


def test_what_is_gone_is_said_by_what_it_is_called() -> None:
    kitchen = a_kitchen(OLD)
    assert kitchen.present(Batch, 1, "batch") == OLD
    with pytest.raises(NotKnown, match="That jar is no longer here") as gone:
        kitchen.present(Lot, 1, "jar", "lot")
    assert gone.value.field == "lot"
    assert kitchen.do(lambda kitchen, number, *, kind: kitchen.present(kind, number, "batch"), 1, kind=Batch) == OLD


def test_the_clock_of_a_kitchen_that_was_told_none_is_the_machine_s() -> None:
    kitchen = Kitchen(FakeJournal(), a_kitchen().handbook)
    before = datetime.now(UTC)
    assert before <= kitchen.now() <= datetime.now(UTC)
    assert kitchen.local(NOW) == NOW
    assert kitchen.write([Change(None, SHELF)]) == (Change(None, SHELF),)
