"""Which of hers a record that comes is: by what she knows it by, by its number, or by much that is alike."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

from dryhouse.kitchen.exchange.matching import Known, as_coming, differing, settled, unlike
from dryhouse.kitchen.records import Batch, Dryer, Lot, MealPart, OwnFood, Place, Preference, Trip, Weighing
from dryhouse.kitchen.records.links import LINKS
from dryhouse.science.quantities import Area, Mass
from tests.fakes import FakeJournal
from tests.rows import every_row

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
HOUR = timedelta(hours=1)
BOX = Dryer("box dryer", 10, Area(1000.0), 500.0, id=1)
CORN = Batch("corn", form="kernels", dryer=1, prepared_mass=Mass(900.0), started=NOON, notes="crisp", trays=4, id=1)


def found(record: Any, *mine: Any) -> tuple[int, tuple[str, ...]] | None:
    """The number of hers that it is, and the fields that differ."""
    met = Known(FakeJournal(*mine)).find(as_coming(record), record.id)
    return None if met is None else (met[0].id, met[1])


@every_row(
    ("change", "number", "met"),
    [
        ({}, 1, (1, ())),
        ({}, 7, (1, ())),
        ({"notes": "wet"}, 7, (1, ("notes",))),
        (
            {"form": "", "prepared_mass": None, "notes": "", "trays": 9},
            7,
            (1, ("form", "prepared_mass", "trays", "notes")),
        ),
        # of another food, but of its number: three fields differ at most, and three that say anything are alike
        ({"food": "apple"}, 1, (1, ("food",))),
        ({"food": "apple", "notes": "", "trays": 9}, 1, (1, ("food", "trays", "notes"))),
        ({"food": "apple", "notes": "", "trays": 9, "form": ""}, 1, None),
        ({"food": "apple"}, 7, None),
        ({"started": NOON + HOUR}, 7, None),
        ({"started": NOON + HOUR}, 1, (1, ("started",))),
    ],
)
def test_a_batch_is_known_by_its_food_and_start_or_by_its_number_and_much_that_is_alike(
    change: dict[str, Any], number: int, met: Any
) -> None:
    assert found(replace(CORN, id=number, **change), BOX, CORN) == met


def test_what_says_little_is_not_taken_for_another_of_its_number() -> None:
    """A dryer by another name: what it draws and the area of its trays are two fields, with its trays three."""
    other = replace(BOX, name="shelf dryer")
    assert found(other, BOX) == (1, ("name",))
    assert found(replace(other, watts=None), replace(BOX, watts=None)) is None
    assert found(replace(other, id=2), BOX) is None
    assert found(Place("pantry", 1), Place("cellar", 1)) is None


def test_what_nobody_dated_needs_its_number_or_much_that_is_alike() -> None:
    bare = Batch("corn", id=1)
    assert found(replace(bare, notes="a", form="b", title="c"), bare) == (1, ("title", "form", "notes"))
    assert found(replace(bare, notes="a", form="b", title="c", pretreatment="d"), bare) is None
    assert found(replace(bare, notes="a", id=7), bare) is None
    full = replace(CORN, started=None)
    assert found(replace(full, notes="a", id=7), BOX, full) == (1, ("notes",))


def test_of_several_the_nearest_is_it_then_the_one_of_its_number_then_the_first() -> None:
    packed, opened = date(2026, 8, 2), date(2026, 8, 9)
    jars = [
        Lot("corn", packed, mass=Mass(grams), opened_on=opened, notes=note, id=id)
        for id, grams, note in ((1, 100.0, ""), (2, 100.0, ""), (3, 200.0, "a"))
    ]
    assert found(replace(jars[0], mass=Mass(150.0), id=2), *jars) == (2, ("mass",))
    assert found(replace(jars[0], mass=Mass(150.0), id=9), *jars) == (1, ("mass",))
    assert found(replace(jars[2], mass=Mass(150.0), id=1), *jars) == (3, ("mass",))
    assert found(replace(jars[2], id=1), *jars) == (3, ())


def test_a_jar_of_a_batch_is_known_by_what_stands_on_it_whatever_its_number() -> None:
    jar = Lot("corn", date(2026, 8, 2), "door jar", batch=1, mass=Mass(90.0), id=6)
    there = (BOX, CORN, replace(CORN, started=NOON + HOUR, id=2), jar)
    assert found(replace(jar, mass=Mass(80.0), id=9), *there) == (6, ("mass",))
    assert found(replace(jar, batch=2, id=9), *there) is None
    assert found(replace(jar, name="other jar", id=9), *there) is None


def test_each_of_hers_is_found_once() -> None:
    known = Known(FakeJournal(BOX))
    assert known.find(BOX, 1) == (BOX, ())
    assert known.find(BOX, 1) is None
    assert known.none_of[Batch]
    assert not known.none_of[Dryer]


def test_a_part_belongs_to_the_same_whole_and_is_known_there_by_its_moment_or_its_number() -> None:
    first = Weighing(1, NOON, Mass(900.0), id=1)
    second = Weighing(1, NOON + HOUR, Mass(800.0), id=2)
    there = (BOX, CORN, replace(CORN, started=NOON + HOUR, id=2), first, second)
    assert found(replace(first, gross=Mass(850.0), id=9), *there) == (1, ("gross",))
    assert found(replace(first, at=NOON + 2 * HOUR, gross=Mass(1.0), note="odd"), *there) == (
        1,
        ("at", "gross", "note"),
    )
    assert found(replace(first, at=NOON + 2 * HOUR, id=9), *there) is None
    assert found(replace(first, batch=2, id=1), *there) is None
    new = Known(FakeJournal(*there))
    assert new.find(replace(first, batch=5), 1) is None, "of a batch that is new itself"


def test_a_name_or_a_slug_that_comes_once_is_the_same_whatever_else_differs() -> None:
    mine = OwnFood("stew", "stew", "mixed", contains="plant", id=1)
    assert found(OwnFood("stew", "soup", "other", "pot", "corn", id=4), mine) == (
        1,
        ("name", "category", "other_names", "like", "contains"),
    )
    assert found(Preference("units", "us", id=2), Preference("units", "metric", id=1)) == (1, ("value",))


def test_links_of_hers_are_told_from_links_that_come() -> None:
    """Hers are below nought; a record that comes may link to what is new."""
    trip = replace(CORN, trip=3)
    assert as_coming(trip) == replace(trip, dryer=-1, trip=-3)
    assert as_coming(replace(CORN, dryer=None)) == replace(CORN, dryer=None)
    assert unlike(CORN, as_coming(CORN)) == ()
    assert unlike(CORN, replace(CORN, dryer=1)) == ("dryer",)
    assert unlike(CORN, replace(CORN, dryer=None)) == ("dryer",)
    assert unlike(replace(CORN, dryer=None), as_coming(CORN)) == ("dryer",)
    assert unlike(CORN, replace(as_coming(CORN), curve_low=0.1, curve_mark=7, id=9)) == ()
    assert differing(CORN, replace(CORN, trays=5, notes="", curve_low=0.1, id=9)) == ("trays", "notes")
    bases = {Dryer: 10, Trip: 20}
    assert settled(replace(CORN, dryer=-1, trip=3), bases) == replace(CORN, dryer=1, trip=23)
    assert settled(MealPart(1, 0, "x"), dict.fromkeys(LINKS[MealPart].values(), 5)) == MealPart(6, 0, "x")
