"""Every record is read and judged: what cannot be read is told apart from what cannot be right."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime

import pytest

from dryhouse.journal.database import Database, in_memory
from dryhouse.journal.mapping import mapped
from dryhouse.journal.record_check import judge_all
from dryhouse.journal.revision import create
from dryhouse.journal.sqlite.file import enforce_foreign_keys, keep_unreadable_text
from dryhouse.journal.tables import TABLES
from dryhouse.kitchen.records import Batch, Lot, LotDraw, Weighing
from dryhouse.science.quantities import Mass
from tests.told import in_words

STARTED = datetime(2026, 8, 1, 12, tzinfo=UTC)


@pytest.fixture
def database() -> Iterator[Database]:
    made = in_memory()
    create(made)
    records = [Batch("corn", started=STARTED, ended=STARTED.replace(hour=20), id=1)]
    records += [Weighing(1, STARTED.replace(hour=12 + n), Mass(900.0 - n, f"{900 - n} g"), id=n) for n in (1, 2, 3)]
    with made.transaction() as connection:
        for record in records:
            connection.execute(TABLES[type(record)].insert(), mapped(type(record)).row(record))
    keep_unreadable_text(made.driver)
    yield made
    made.close()


def test_records_as_they_were_kept_have_no_fault(database: Database) -> None:
    judged = judge_all(database, 20)
    assert (judged.said, dict(judged.unreadable)) == ([], {})


def test_what_cannot_be_read_is_named_and_counted_and_the_rest_is_judged_on(database: Database) -> None:
    database.driver.execute("UPDATE weighing SET note = CAST(x'ff80' AS TEXT) WHERE id = 1")
    database.driver.execute("UPDATE weighing SET gross_g = 9e999 WHERE id = 2")
    database.driver.execute("UPDATE weighing SET tare_g = 5000, tare_typed = '5000 g' WHERE id = 3")
    judged = judge_all(database, 20)
    assert dict(judged.unreadable) == {Weighing: [1, 2]}
    said = in_words(judged.said)
    assert said[0] == "Weighing 1 holds something that cannot be read."
    assert said[1] == "Weighing 2 holds something that cannot be read."
    assert any(line.startswith("Weighing 3: The scale reads") for line in said)


def test_no_more_than_asked_for_are_named(database: Database) -> None:
    database.driver.execute("UPDATE weighing SET gross_g = 9e999")
    assert len(judge_all(database, 2).said) == 2


def test_of_a_large_journal_only_the_newest_may_be_asked_for_and_their_owners_are_looked_up(
    database: Database,
) -> None:
    with database.transaction() as connection:
        for number in (2, 3):
            later = Batch("corn", started=STARTED, id=number)
            connection.execute(TABLES[Batch].insert(), mapped(Batch).row(later))
    assert judge_all(database, 20, newest=2).said == [], "the batch is older than two, and known all the same"
    database.driver.execute("UPDATE weighing SET tare_g = 5000, tare_typed = '5000 g' WHERE id = 1")
    assert judge_all(database, 20, newest=2).said == []
    database.driver.execute("UPDATE weighing SET tare_g = 5000, tare_typed = '5000 g' WHERE id = 3")
    assert [line[:11] for line in in_words(judge_all(database, 20, newest=2).said)] == ["Weighing 3:"]


def test_a_record_whose_owner_is_gone_is_left_to_who_names_orphans(database: Database) -> None:
    enforce_foreign_keys(database.driver, False)
    database.driver.execute("DELETE FROM batch")
    assert judge_all(database, 20).said == []


@pytest.mark.parametrize(
    ("draws", "said"),
    [
        # a lot of 100 g: two in a hundred and a gram are let pass, 103 g
        ((100.0,), []),
        ((60.0, 43.0), []),
        ((60.0, 43.1), ["Lot 5 (corn) has given more than it weighed."]),
        ((60.0, 22.0, 21.1), ["Lot 5 (corn) has given more than it weighed."]),
    ],
)
def test_a_lot_that_gave_more_than_it_weighed_is_named_once(
    database: Database, draws: tuple[float, ...], said: list[str]
) -> None:
    on = date(2026, 8, 9)
    lots = [Lot("corn", on, batch=1, mass=Mass(100.0, "100 g"), id=5), Lot("corn", on, batch=1, id=6)]
    drawn = [LotDraw(5, on, mass=Mass(grams, f"{grams:g} g"), id=n) for n, grams in enumerate(draws, start=1)]
    drawn += [LotDraw(5, on, id=8), LotDraw(6, on, mass=Mass(900.0, "900 g"), id=9)]  # no weight to hold them to
    with database.transaction() as connection:
        for record in (*lots, *drawn):
            connection.execute(TABLES[type(record)].insert(), mapped(type(record)).row(record))
    assert in_words(judge_all(database, 20).said) == said
    assert judge_all(database, 20, newest=50).said == [], "of the newest alone nothing is added up"
