"""The journal that is not there yet answers what an empty one answers, and takes nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from dryhouse.journal.missing_journal import MissingJournal
from dryhouse.kitchen.ports import BatchQuery, Change
from dryhouse.kitchen.records import RECORD_KINDS, Batch
from dryhouse.science.errors import WorldProblem
from tests.journal.journals import empty_journal
from tests.told import told


@pytest.mark.parametrize("kind", RECORD_KINDS)
def test_it_answers_as_an_empty_journal_does(kind: type, tmp_path: Path) -> None:
    missing = MissingJournal(tmp_path / "none.dryhouse")
    with empty_journal("in memory") as empty:
        assert missing.get(kind, 1) == empty.get(kind, 1)
        assert missing.where(kind) == empty.where(kind)
        assert missing.next_id(kind) == empty.next_id(kind)


def test_its_lists_are_those_of_an_empty_journal(tmp_path: Path) -> None:
    missing = MissingJournal(tmp_path / "none.dryhouse")
    with empty_journal("in memory") as empty:
        assert list(missing.batch_ids(BatchQuery())) == list(empty.batch_ids(BatchQuery()))
        assert missing.batch_rows([1]) == empty.batch_rows([1])
        assert missing.yield_pairs("corn") == empty.yield_pairs("corn")


def test_writing_is_refused_by_its_name_and_makes_no_file(tmp_path: Path) -> None:
    file = tmp_path / "none.dryhouse"
    missing = MissingJournal(file)
    missing.get_ready()
    with told(WorldProblem, r"none\.dryhouse"):
        missing.write([Change(None, Batch("corn", id=1))])
    missing.close()
    assert not file.exists()
