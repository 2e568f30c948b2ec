"""What is asked first is answered without SQLAlchemy, and as SQLAlchemy would answer it."""

from __future__ import annotations

import subprocess
import sys
from contextlib import closing
from datetime import timedelta
from pathlib import Path

from dryhouse.journal import reading
from dryhouse.journal.database import Database, in_memory
from dryhouse.journal.opening import open_journal
from dryhouse.journal.revision import create
from dryhouse.journal.sqlite import direct_sql
from dryhouse.journal.writing import write
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Dryer, Weighing
from dryhouse.science.quantities import Mass
from tests.journal import test_reading
from tests.journal.test_reading import NOON

ROOT = Path(__file__).parents[3]
RECORDS = test_reading.RECORDS


def test_records_are_the_same_either_way(database: Database) -> None:
    assert direct_sql.every(database.driver, Batch) == reading.every(database.connection, Batch, {})
    (corn,) = direct_sql.records_numbered(database.driver, Batch, [3, 99, 10**30])
    assert corn == reading.one(database.connection, Batch, 3)


def test_weighings_are_counted_for_the_batches_that_have_some(database: Database) -> None:
    write(database, [Change(None, Weighing(3, NOON, Mass(float(n)), id=n)) for n in (1, 2)])
    assert direct_sql.weighings_counted(database.driver, [1, 3]) == {3: 2}


def test_by_dryer_goes_by_name_then_time_and_those_without_a_dryer_stand_apart(database: Database) -> None:
    later = Batch("pear", dryer=1, id=7)
    write(database, [Change(None, Dryer("shelf", 6, id=1)), Change(None, Dryer("box", 10, id=2))])
    write(database, [Change(None, later), Change(None, Batch("plum", dryer=2, id=8))])
    assert direct_sql.batches_ordered(database.driver, "dryer") == ([8, 7], [1, 2, 3])


def test_a_batch_of_which_only_the_end_is_known_stands_by_it_in_time_and_by_its_name_in_names(
    tmp_path: Path,
) -> None:
    database = in_memory()
    create(database)
    hours = {n: NOON + timedelta(hours=n) for n in (1, 2, 3)}
    kept = (
        Batch("pear", started=hours[1], id=1),
        Batch("apple", ended=hours[2], id=2),
        Batch("corn", started=hours[3], id=3),
        Batch("beet", id=4),
    )
    write(database, [Change(None, batch) for batch in kept])
    assert direct_sql.batches_ordered(database.driver, "started") == ([1, 2, 3], [4])
    assert direct_sql.batches_ordered(database.driver, "food") == ([2, 4, 3, 1], [])
    database.close()


def test_the_first_page_and_a_yield_do_not_wait_for_sqlalchemy(tmp_path: Path) -> None:
    file = tmp_path / "journal.dryhouse"
    with closing(open_journal(file, write=True)) as journal:
        journal.write([Change(None, Batch("corn", id=1))])
    code = (
        "import sys; from pathlib import Path; from dryhouse.journal.opening import open_journal;"
        "from dryhouse.kitchen.ports import BatchQuery; from dryhouse.kitchen.records import Batch, Dryer;"
        f"journals = [open_journal(Path({str(file)!r}), write=write) for write in (False, True)];"
        "[(j.get(Batch, 1), j.where(Dryer), j.batch_rows(j.batch_ids(BatchQuery())), j.yield_pairs('corn'))"
        " for j in journals];"
        "print('sqlalchemy' in sys.modules); [j.close() for j in journals]"
    )
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert answer.stdout.strip() == "False"
