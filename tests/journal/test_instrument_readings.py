"""What scales that report every second leave in the journal's file."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Pending
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.science.quantities import Mass
from dryhouse.science.steady import Thinned
from tests.kitchen.instruments.played_scale import true_g

START = datetime(2026, 8, 1, tzinfo=UTC)
DAYS, SCALES, MOST_BYTES = 30, 4, 50_000_000


def test_thirty_days_of_four_scales_leave_a_journal_of_a_few_megabytes(tmp_path: Path) -> None:
    """Each second has a reading; one a minute is asked here, since none is kept within five minutes of another."""
    pending = Pending()
    for scale in range(1, SCALES + 1):
        for day in range(DAYS):
            batch, thinned = scale * 100 + day, Thinned(1000.0)
            started = START + timedelta(days=day)
            pending.add(Batch("apple", DRYING, prepared_mass=Mass(1000.0), started=started, id=batch))
            for minute in range(24 * 60):
                at = START + timedelta(days=day, minutes=minute)
                grams = true_g(minute / 60)
                if thinned.wants(minute * 60.0, grams):
                    number = len(pending.changes) + 1
                    pending.add(Weighing(batch, at, Mass(round(grams, 2)), instrument=f"scale {scale}", id=number))
    journal = open_journal(tmp_path / "journal.dryhouse", write=True)
    journal.write(pending.changes)
    journal.close()
    size = sum(file.stat().st_size for file in tmp_path.glob("journal.dryhouse*"))
    assert SCALES * DAYS * 48 < len(pending.changes) < SCALES * DAYS * 300
    assert size < MOST_BYTES
    assert size < 10_000_000
    with_all = open_journal(tmp_path / "journal.dryhouse", write=False)
    assert len(with_all.where(Weighing, batch=100)) < 300
    with_all.close()
