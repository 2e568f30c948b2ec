"""What an import says of itself, how it is followed and stopped, and what it lets go of."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.exchange import bring_in, bringing, look_through, take_in
from dryhouse.kitchen.exchange.reading import Entry
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import (
    Batch,
    BatchPart,
    Dryer,
    Lot,
    LotMove,
    OwnFigure,
    OwnFood,
    Place,
    Preference,
    Trip,
    Weighing,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from tests.fakes import FakeJournal, FakeStaging
from tests.rows import every_row

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
BOX, SHELF = Dryer("box dryer", 10, id=1), Dryer("shelf dryer", 6, id=2)
CORN = Batch("corn", dryer=1, trays=4, prepared_mass=Mass(900.0, "900 g"), started=NOON, notes="crisp", id=1)
APPLE = Batch("apple", started=NOON + timedelta(days=2), id=2)


class Waiting(FakeStaging):
    """What waits, and whether it was let go."""

    let_go = 0

    def close(self) -> None:
        super().close()
        self.let_go += 1


class Journal(FakeJournal):
    """Keeps at hand what it gave out to wait in."""

    def stage(self) -> FakeStaging:
        self.waiting = Waiting()
        return self.waiting


def kitchen(*records: Record) -> Kitchen:
    return Kitchen(Journal(*records), handbook(), lambda: NOON + timedelta(days=60), UTC)


def let_go(of: Kitchen) -> int:
    return of.journal.waiting.let_go  # type: ignore[attr-defined, no-any-return]


def refused(into: Kitchen, *records: Record) -> str:
    with pytest.raises(InputProblem) as caught:
        bring_in(into, records)
    return str(caught.value.said)


TRAYS = replace(BOX, trays=8)


@every_row(
    ("mine", "theirs", "take", "what"),
    [
        ((), (), False, "Nothing new"),
        ((), (BOX,), False, "Imported 1 record"),
        ((), (BOX, CORN), False, "Imported 2 records, 1 of them a batch"),
        ((), (BOX, CORN, APPLE), False, "Imported 3 records, 2 of them batches"),
        ((BOX,), (BOX,), False, "Nothing new; 1 was there already"),
        ((BOX, CORN), (BOX, CORN, SHELF), False, "Imported 1 record; 2 were there already"),
        (
            (BOX, CORN),
            (TRAYS, CORN),
            False,
            "Nothing new; 1 was there already; 1 record of yours kept, where the file says otherwise",
        ),
        (
            (BOX, CORN),
            (TRAYS, replace(CORN, notes="")),
            True,
            "Nothing new; 2 records of yours changed to what the file says",
        ),
        (
            (BOX, CORN),
            (TRAYS, replace(CORN, notes=""), APPLE),
            False,
            "Imported 1 record, 1 of them a batch; 2 records of yours kept, where the file says otherwise",
        ),
    ],
)
def test_an_import_says_what_came_what_was_there_and_what_was_kept(
    mine: Any, theirs: Any, take: bool, what: str
) -> None:
    assert bring_in(kitchen(*mine), theirs, take_theirs=take).what == what


def test_of_two_differences_the_one_not_taken_is_said_to_be_kept() -> None:
    into = kitchen(BOX, CORN)
    coming = look_through(into, (Entry(r, 0.0) for r in (TRAYS, replace(CORN, notes=""))))
    assert take_in(into, coming, coming.differences[:1]).what == (
        "Nothing new; 1 record of yours changed to what the file says; "
        "1 record of yours kept, where the file says otherwise"
    )


@every_row(("wrong", "more"), [(5, ""), (6, ""), (7, " And 1 more of the kind."), (9, " And 3 more of the kind.")])
def test_six_faults_are_said_and_the_rest_counted(wrong: int, more: str) -> None:
    said = refused(kitchen(), *(Dryer("box", 0, id=n) for n in range(1, wrong + 1)))
    sentences = [f"Dryer {n}: A dryer has between 1 and 100 trays." for n in range(1, min(wrong, 6) + 1)]
    assert said == " ".join(sentences) + more


def test_what_belongs_to_a_faulty_record_is_not_called_homeless() -> None:
    faulty = replace(BOX, trays=0)
    assert refused(kitchen(), faulty, replace(CORN, trays=None)) == "Dryer 1: A dryer has between 1 and 100 trays."


@every_row(
    ("records", "said"),
    [
        ((CORN,), "Batch 1 belongs to Dryer 1, which is not there."),
        (
            (BOX, replace(SHELF, id=1)),
            "Dryer 1 stands twice, or has a number below 1; each needs its own.",
        ),
        (
            (Preference("units", "us", id=1), Preference("units", "us", id=2)),
            "There are 2 records Preference of the name “units”.",
        ),
        (
            (OwnFigure("corn", "water", 70.0, "%", id=1), OwnFigure("corn", "water", 71.0, "%", id=2)),
            "There are 2 records OwnFigure of the name “corn water”.",
        ),
        (
            (replace(APPLE, prepared_mass=Mass(500.0, "2 lb")),),
            "Batch 2: “Weight loaded” holds 500 g but was typed “2 lb”; which of the two is right?",
        ),
    ],
)
def test_a_file_that_contradicts_itself_is_refused_in_a_sentence(records: Any, said: str) -> None:
    assert refused(kitchen(), *records) == said


def test_a_fault_names_records_by_the_numbers_of_the_file() -> None:
    into = kitchen(BOX, CORN)
    lot = Lot("corn", date(2026, 8, 9), batch=9, id=6)
    said = refused(into, replace(APPLE, id=9), lot)
    assert said == "Lot 6 holds corn, but its batch 9 is of apple; put the food of one of them right."


def test_what_nobody_dated_is_known_by_its_number_or_by_much_that_is_alike() -> None:
    mine = Batch("corn", id=1)
    into = kitchen(mine)
    noted = replace(mine, notes="crisp")
    assert "kept" in bring_in(into, [noted]).what
    assert bring_in(into, [replace(noted, id=5)]).what == "Imported 1 record, 1 of them a batch"
    assert bring_in(kitchen(mine), [replace(noted, title="a", form="dice", pretreatment="b", id=1)]).changes


def test_what_is_taken_is_refused_by_what_is_wrong_with_it() -> None:
    into = kitchen(BOX, CORN)
    with pytest.raises(InputProblem) as caught:
        bring_in(into, [BOX, replace(CORN, trays=11)], take_theirs=True)
    assert caught.value.said == "What you take from the file can't be right: The box dryer has 10 trays, not 11."


def test_how_far_it_is_is_told_as_it_goes_and_at_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bringing, "_HELD", 2)
    told: list[float] = []
    many = [Preference(f"k{n}", "", id=n) for n in range(1, 6)]
    look_through(kitchen(), (Entry(r, r.id / 10) for r in many), told.append).close()
    assert told == [0.1, 0.3, 0.5, 1.0]


def test_what_waits_is_let_go_however_it_ends() -> None:
    into = kitchen()
    bring_in(into, [BOX])
    assert let_go(into) == 1
    refused(into, replace(SHELF, trays=0))
    assert let_go(into) == 1
    with pytest.raises(InputProblem, match="not there"):
        look_through(into, [Entry(replace(CORN, dryer=9), 0.0)])
    assert let_go(into) == 1
    look_through(into, [Entry(BOX, 0.0)]).close()
    assert let_go(into) == 1


@every_row(("new", "taken", "undone"), [(3, 0, True), (2, 1, True), (4, 0, False), (2, 2, False)])
def test_as_many_as_undo_keeps_are_undone_and_not_one_more(new: int, taken: int, undone: bool) -> None:
    kept, bringing.MOST_UNDONE = bringing.MOST_UNDONE, 3
    try:
        into = kitchen(*(Preference(f"mine{n}", "a", id=n) for n in range(1, taken + 1)))
        before = into.journal.where(Preference)
        theirs = [Preference(f"mine{n}", "b", id=n) for n in range(1, taken + 1)]
        theirs += [Preference(f"new{n}", "b", id=10 + n) for n in range(new)]
        done = bring_in(into, theirs, take_theirs=True)
    finally:
        bringing.MOST_UNDONE = kept
    assert len(into.journal.where(Preference)) == new + taken
    assert {p.value for p in into.journal.where(Preference)} == {"b"}
    assert (len(done.changes), done.kinds) == (new + taken if undone else 0, {Preference})
    if undone:
        into.write(done.undone().changes)
        assert into.journal.where(Preference) == before


def test_what_is_new_is_numbered_on_with_all_that_belongs_to_it() -> None:
    into = kitchen(BOX, Place("cellar", id=4), replace(APPLE, id=7))
    trip = Trip("lake", NOON.date(), NOON.date(), id=3)  # no trip was ever here: it keeps its number
    batch = replace(CORN, dryer=5, trip=3, id=9)
    theirs: tuple[Record, ...] = (
        trip,
        replace(SHELF, id=5),
        Place("pantry", id=2),
        batch,
        Weighing(9, NOON, Mass(850.0, "850 g"), id=8),
        Lot("corn", date(2026, 8, 2), batch=9, id=6),
        LotMove(6, 2, NOON + timedelta(days=1), id=1),
    )
    bring_in(into, theirs)
    look = into.journal.get
    assert look(Trip, 3) == trip
    assert look(Dryer, 2) == SHELF
    assert look(Place, 5) == Place("pantry", id=5)
    assert look(Batch, 8) == replace(batch, dryer=2, id=8)
    assert look(Weighing, 8) == replace(theirs[4], batch=8)  # type: ignore[call-arg]
    assert look(Lot, 6) == replace(theirs[5], batch=8)  # type: ignore[call-arg]
    assert look(LotMove, 1) == LotMove(6, 5, NOON + timedelta(days=1), id=1)


def test_an_ingredient_that_comes_for_a_batch_of_hers_ends_what_the_weighings_taught() -> None:
    taught = replace(APPLE, curve_low=0.1, curve_dry=0.2, curve_high=0.3, curve_mark=7)
    others = replace(taught, food="corn", started=NOON, id=3)
    into = kitchen(taught, others)
    bring_in(into, [taught, others, BatchPart(2, 0, "corn", Mass(50.0), id=1)])
    assert into.journal.get(Batch, 2) == APPLE
    assert into.journal.get(Batch, 3) == others


def test_a_food_of_the_same_name_that_is_no_animal_is_the_same_food() -> None:
    mine = OwnFood("relish", "relish", "vegetable", contains="plant", id=1)
    theirs = OwnFood("relish", "corn relish", "vegetable", contains="plant", id=1)
    into = kitchen(mine)
    assert bring_in(into, [theirs], take_theirs=True).what.startswith("Nothing new; 1 record of yours changed")
    assert into.journal.where(OwnFood) == (theirs,)
    said = refused(into, replace(theirs, contains="meat"))
    assert said == (
        "“corn relish” is an animal food where this journal comes from and vegetable here; give yours another name "
        "first."
    )
