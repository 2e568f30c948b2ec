"""The maker of large journals makes sound ones, only more of everything."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from dryhouse.journal.check import check
from dryhouse.journal.opening import open_journal
from dryhouse.journal.sample import sample_folder
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, Weighing


@pytest.fixture
def large(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(sys, "path", [str(sample_folder().parent), *sys.path])
    from large import make

    file = tmp_path / "large.dryhouse"
    make(file, batches=60, weighings=600)
    return file


def test_it_is_a_whole_journal_of_the_size_asked_for(large: Path) -> None:
    assert check(large) == []
    journal = open_journal(large, write=True)
    assert len(journal.batch_ids(BatchQuery())) == 60
    assert journal.next_id(Batch) == 61
    assert journal.next_id(Weighing) == 601
    journal.close()


def test_its_batches_and_weighings_agree(large: Path) -> None:
    journal = open_journal(large, write=False)
    for batch in journal.where(Batch):
        weighings = journal.where(Weighing, batch=batch.id)
        assert batch.prepared_mass is not None
        assert batch.dried_mass is not None
        assert batch.started is not None
        assert batch.ended is not None
        assert weighings[0].gross.si == pytest.approx(batch.prepared_mass.si, abs=1)
        assert weighings[-1].gross.si == pytest.approx(batch.dried_mass.si, abs=1)
        assert all(batch.started <= w.at <= batch.ended for w in weighings)
    (found,) = {row.weighings for row in journal.batch_rows(journal.batch_ids(BatchQuery()))}
    assert found == 10
    journal.close()


def test_it_never_writes_over_a_file(large: Path) -> None:
    from large import make

    with pytest.raises(SystemExit, match="already there"):
        make(large, 1, 1)
