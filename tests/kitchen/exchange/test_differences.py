"""What differs from a record of hers is found, listed and chosen; nothing comes twice, nothing of hers is lost."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.journal.sample import sample_folder
from dryhouse.kitchen.exchange import bring_in, every_record, look_through, read_records, take_in
from dryhouse.kitchen.exchange.bringing import MOST_UNDONE, Difference
from dryhouse.kitchen.exchange.matching import as_coming, differing, settled
from dryhouse.kitchen.exchange.numbers import Numbers
from dryhouse.kitchen.exchange.reading import Entry
from dryhouse.kitchen.exchange.telling import difference_line, record_name
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import (
    RECORD_KINDS,
    Batch,
    BatchPart,
    Dryer,
    Lot,
    Meal,
    OwnFood,
    Place,
    Preference,
    Trip,
    TripPerson,
    Weighing,
)
from dryhouse.kitchen.records.links import KNOWN_BY, LINKS, OWNER
from dryhouse.kitchen.records.shapes import shapes
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from tests.fakes import FakeJournal
from tests.rows import every_row

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
BATCH = Batch("corn", dryer=1, prepared_mass=Mass(907.2, "907.2 g"), started=NOON, notes="crisp", trays=4, id=3)
GALLEY: tuple[Record, ...] = (
    Dryer("shelf dryer", 6, id=1),
    BATCH,
    Weighing(3, NOON + timedelta(hours=1), Mass(850.0, "850 g"), id=8),
    Weighing(3, NOON + timedelta(hours=2), Mass(700.0, "700 g"), id=9),
    Lot("corn", date(2026, 8, 2), batch=3, id=2),
)


def kitchen(*records: Record) -> Kitchen:
    return Kitchen(FakeJournal(*records), handbook(), lambda: NOON + timedelta(days=90), UTC)


def counts(into: Kitchen) -> dict[type, int]:
    return {kind: len(into.journal.where(kind)) for kind in RECORD_KINDS}


def changed(records: tuple[Record, ...], old: Record, **said: Any) -> list[Record]:
    return [replace(r, **said) if r is old else r for r in records]


EDITS: tuple[tuple[int, dict[str, Any]], ...] = (
    (0, {"trays": 8}),
    (1, {"notes": "leathery"}),
    (1, {"started": NOON + timedelta(minutes=10)}),
    (1, {"prepared_mass": Mass(900.0, "900 g")}),
    (1, {"prepared_mass": None, "notes": ""}),
    (2, {"gross": Mass(851.0, "851 g")}),
    (2, {"at": NOON + timedelta(minutes=70)}),
    (2, {"at": NOON + timedelta(hours=2)}),
    (4, {"name": "second jar"}),
    (4, {"packed_on": date(2026, 8, 3)}),
    (4, {"mass": Mass(120.0, "120 g")}),
)


@pytest.mark.parametrize(("which", "said"), EDITS)
def test_a_record_edited_on_either_side_is_listed_and_not_doubled(which: int, said: dict[str, Any]) -> None:
    into = kitchen(*GALLEY)
    theirs = changed(GALLEY, GALLEY[which], **said)
    before = sorted(every_record(into.journal), key=repr)
    done = bring_in(into, theirs)
    assert done.changes == ()
    assert "1 record of yours kept" in done.what
    assert sorted(every_record(into.journal), key=repr) == before
    taken = bring_in(into, theirs, take_theirs=True)
    assert sorted(every_record(into.journal), key=repr) == sorted(theirs, key=repr)
    assert bring_in(into, theirs).what.endswith("5 were there already")
    into.journal.write(taken.undone().changes)
    assert sorted(every_record(into.journal), key=repr) == before


def test_any_field_of_the_sample_edited_is_a_difference_and_nothing_more() -> None:
    listed = read_records(sample_folder())
    into = kitchen()
    bring_in(into, listed)
    there = counts(into)
    for kind in RECORD_KINDS:
        some = next((r for r in listed if type(r) is kind), None)
        names = [
            s.name for s in shapes(kind) if s.holds is str and not s.about.choices and s.name not in KNOWN_BY[kind]
        ]
        if some is None or not names or kind is OwnFood:
            continue
        edited = [replace(r, **{names[-1]: "edited"}) if r is some else r for r in listed]
        coming = look_through(into, (Entry(r, 0.0) for r in in_order(edited)))
        assert [(type(d.mine), d.fields) for d in coming.differences] == [(kind, (names[-1],))]
        assert not coming.added
        coming.close()
    assert counts(into) == there


def in_order(records: list[Record]) -> list[Record]:
    journal = FakeJournal(*records)
    return list(every_record(journal))


def test_a_journal_that_renumbered_what_came_knows_it_again() -> None:
    into = kitchen(Dryer("box dryer", 10, id=1), Batch("apple", dryer=1, started=NOON, id=3))
    bring_in(into, GALLEY)
    there = counts(into)
    done = bring_in(into, changed(GALLEY, BATCH, notes="leathery"), take_theirs=True)
    assert counts(into) == there
    assert [b.notes for b in into.journal.where(Batch, food="corn")] == ["leathery"]
    assert len(done.changes) == 1


def test_two_kitchens_that_number_alike_are_not_taken_for_one() -> None:
    theirs = (
        Dryer("box dryer", 10, id=1),
        Batch(
            "corn", dryer=1, prepared_mass=Mass(500.0), started=NOON - timedelta(days=9), trays=9, notes="wet", id=3
        ),
        Weighing(3, NOON, Mass(480.0), id=8),
        Place("cellar", id=1),
    )
    into = kitchen(*GALLEY, Place("pantry", id=1))
    done = bring_in(into, theirs)
    assert "4 records" in done.what
    assert "kept" not in done.what
    assert counts(into)[Batch] == counts(into)[Dryer] == counts(into)[Place] == 2
    new = into.journal.where(Batch, started=NOON - timedelta(days=9))[0]
    assert [w.gross.si for w in into.journal.where(Weighing, batch=new.id)] == [480.0]


def test_jars_packed_alike_on_one_day_are_each_found_once() -> None:
    jars = [Lot("corn", date(2026, 8, 2), batch=3, mass=Mass(100.0 + n), id=10 + n) for n in range(3)]
    into = kitchen(*GALLEY, *jars)
    theirs = [*GALLEY, jars[2], replace(jars[0], notes="for the lake"), jars[1]]
    done = bring_in(into, in_order(theirs), take_theirs=True)
    assert [c.after for c in done.changes] == [replace(jars[0], notes="for the lake")]


def test_a_record_that_hers_would_leave_wrong_is_refused_with_hers_and_taken_with_theirs() -> None:
    mine = (
        Dryer("shelf dryer", 6, id=1),
        replace(BATCH, food="apple"),
        Lot("apple", date(2026, 8, 2), batch=3, id=2),
    )
    theirs = [
        mine[0],
        BATCH,
        replace(mine[2], food="corn"),  # type: ignore[call-arg]
        Lot("corn", date(2026, 8, 3), "new jar", batch=3, id=7),
    ]
    into = kitchen(*mine)
    with pytest.raises(InputProblem, match="Lot 7 holds corn, but its batch 3 is of apple"):
        bring_in(into, theirs)
    assert counts(into)[Lot] == 1
    bring_in(into, theirs, take_theirs=True)
    assert {lot.food for lot in into.journal.where(Lot)} == {"corn"}


def test_what_cannot_be_right_is_not_taken_and_hers_can_stay() -> None:
    into = kitchen(*GALLEY)
    theirs = changed(GALLEY, BATCH, trays=7)
    with pytest.raises(InputProblem, match="The shelf dryer has 6 trays, not 7"):
        bring_in(into, theirs, take_theirs=True)
    assert bring_in(into, theirs).changes == ()
    assert into.journal.get(Batch, 3) == BATCH


def test_what_is_taken_is_judged_beside_what_is_taken_with_it() -> None:
    into = kitchen(*GALLEY)
    theirs = [replace(r, trays=2) if isinstance(r, (Dryer, Batch)) else r for r in GALLEY]
    coming = look_through(into, (Entry(r, 0.0) for r in in_order(theirs)))
    dryer, batch = coming.differences
    take_in(into, coming, [dryer, batch])
    assert into.journal.get(Batch, 3) == replace(BATCH, trays=2)


def test_words_that_contradict_their_value_are_not_taken_either() -> None:
    into = kitchen(*GALLEY)
    with pytest.raises(InputProblem, match="was typed “2 lb”"):
        bring_in(into, changed(GALLEY, BATCH, prepared_mass=Mass(500.0, "2 lb")), take_theirs=True)
    assert into.journal.get(Batch, 3) == BATCH


def test_each_difference_can_be_chosen_by_itself() -> None:
    into = kitchen(*GALLEY)
    theirs = [replace(r, trays=5) if isinstance(r, (Dryer, Batch)) else r for r in GALLEY]
    coming = look_through(into, (Entry(r, 0.0) for r in in_order(theirs)))
    dryer, batch = coming.differences
    take_in(into, coming, [batch])
    assert into.journal.get(Batch, 3) == replace(BATCH, trays=5)
    assert into.journal.get(Dryer, 1) == GALLEY[0]
    assert isinstance(dryer.mine, Dryer)


def test_what_is_taken_may_refer_to_what_is_new() -> None:
    into = kitchen(*GALLEY, Trip("lake", date(2026, 8, 20), date(2026, 8, 29), id=1))
    theirs = [*changed(GALLEY, BATCH, trip=1), Trip("river", date(2027, 8, 1), date(2027, 8, 3), id=1)]
    bring_in(into, in_order(theirs), take_theirs=True)
    batch = into.journal.get(Batch, 3)
    assert batch is not None
    trip = into.journal.get(Trip, batch.trip or 0)
    assert trip is not None
    assert trip.name == "river"


def test_a_record_changed_while_she_chose_is_not_written_over() -> None:
    from dryhouse.kitchen.ports import Change
    from dryhouse.science.errors import WorldProblem

    into = kitchen(*GALLEY)
    coming = look_through(into, (Entry(r, 0.0) for r in in_order(changed(GALLEY, BATCH, notes="wet"))))
    into.journal.write([Change(BATCH, replace(BATCH, notes="mine, just now"))])
    with pytest.raises(WorldProblem):
        take_in(into, coming, coming.differences)
    assert into.journal.get(Batch, 3) == replace(BATCH, notes="mine, just now")


def test_more_than_undo_can_keep_is_said_by_its_kinds_alone() -> None:
    into = kitchen()
    done = bring_in(into, [Preference(f"k{n}", "", id=n + 1) for n in range(MOST_UNDONE + 1)])
    assert done.changes == ()
    assert done.kinds == {Preference}
    assert len(into.journal.where(Preference)) == MOST_UNDONE + 1


def test_the_look_can_be_stopped_and_nothing_has_changed() -> None:
    into = kitchen(*GALLEY)

    def stop(_share: float) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        look_through(into, [Entry(Meal("soup", id=1), 0.5)], stop)
    assert not into.journal.where(Meal)


# --- in words ---------------------------------------------------------------------------------------------------


def test_a_difference_is_said_field_by_field_as_it_was_typed() -> None:
    into = kitchen(*GALLEY)
    said = {
        "prepared_mass": Mass(850.0, "850 g"),
        "set_temperature": Temperature(57.2, "135 F"),
        "notes": "",
        "ended": NOON + timedelta(hours=9),
    }
    coming = look_through(into, (Entry(r, 0.0) for r in in_order(changed(GALLEY, BATCH, **said))))
    line = difference_line(into, coming.differences[0])
    assert line == (
        "Batch 3 (corn): “Weight loaded” is 907.2 g here and 850 g there; “Dryer temperature” is empty here "
        "and 135 F there; “Ended” is empty here and Sat 1 Aug 2026, 21:00 there; “Notes” is “crisp” here and empty "
        "there."
    )


@every_row(
    ("name", "here", "there", "said"),
    [
        ("settled", True, False, "yes here and no there"),
        ("settled", None, True, "empty here and yes there"),
        ("rating", 4, 5, "4 here and 5 there"),
        ("servings", 6.0, 6.5, "6 here and 6.5 there"),
        ("trip", 3, -4, "3 here and 4 there"),
        ("trip", 3, 4, "3 here and “a new one” there"),
        ("trip", 3, None, "3 here and empty there"),
    ],
)
def test_a_value_is_told_as_it_is_read(name: str, here: Any, there: Any, said: str) -> None:
    mine, theirs = (replace(BATCH, **{name: value}) for value in (here, there))
    assert difference_line(kitchen(), Difference(mine, theirs, (name,))).endswith(f"is {said}.")


def test_a_day_is_told_in_words() -> None:
    lot = Lot("corn", date(2026, 8, 2), id=2)
    told = difference_line(kitchen(), Difference(lot, replace(lot, packed_on=date(2026, 8, 3)), ("packed_on",)))
    assert told.endswith("is 2 Aug 2026 here and 3 Aug 2026 there.")


@pytest.mark.parametrize("kind", RECORD_KINDS)
def test_every_kind_of_record_is_known_by_something(kind: type) -> None:
    names = {f.name for f in fields(kind)}
    assert set(KNOWN_BY[kind]) <= names
    assert kind not in OWNER or OWNER[kind] in LINKS[kind]


def test_a_record_is_called_by_its_kind_its_number_and_what_it_is_of() -> None:
    assert record_name(GALLEY[0]) == "Dryer 1 (shelf dryer)"
    assert record_name(GALLEY[2]) == "Weighing 8 (load)"
    assert record_name(BATCH) == "Batch 3 (corn)"
    assert record_name(Preference("units", "us", id=2)) == "Preference 2 (units)"
    assert record_name(BatchPart(3, 0, "corn", Mass(5.0), id=4)) == "Ingredient 4"
    assert record_name(TripPerson(1, "bow", id=5)) == "Person on a trip 5 (bow)"
    assert record_name(Place("x" * 99, 1)) == f"Place 1 ({'x' * 57}…)"
    assert record_name(Place("7 Oaks", 1)) == "Place 1"


# --- numbers ------------------------------------------------------------------------------------------------------


def test_links_go_out_and_come_back() -> None:
    assert settled(as_coming(BATCH), {}) == BATCH
    assert settled(BATCH, {Dryer: 100, Trip: 0}).dryer == 101
    assert differing(BATCH, replace(BATCH, trays=5, id=9)) == ("trays",)


def test_a_number_comes_once_however_large_it_is() -> None:
    numbers = Numbers()
    for n in (3, 1, 2**40, 2**27 - 1, 2**27):
        assert numbers.take(replace(BATCH, id=n)) == n
    assert numbers.take(replace(BATCH, id=0)) == 2**40 + 1
    for n in (3, 2**40, 2**40 + 1, -1, 2**62 + 1):
        with pytest.raises(InputProblem, match="stands twice, or has a number below 1"):
            numbers.take(replace(BATCH, id=n))
    assert numbers.take(Dryer("box", 1, id=3)) == 3
    assert numbers.take(replace(BATCH, id=2**62)) == 2**62
    assert (numbers.of(Dryer, 3), numbers.of(Weighing, 1)) == (None, None)
    numbers.note(Dryer, 3, -7)
    numbers.note(Weighing, 1, 9)
    assert numbers.of(Dryer, 3) == -7
    assert numbers.of(Weighing, 1) is None, "nothing refers to a weighing"
