"""The one place that wires the journal, the kitchen and the desk together."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.room import Kitchen


def default_journal() -> Path:
    """Where a person's own journal lives: the platform's data folder."""
    from platformdirs import user_data_path

    return user_data_path("dryhouse", appauthor=False) / "journal.dryhouse"


@contextmanager
def open_kitchen(path: Path | None = None, *, sample: bool = False, write: bool = False) -> Iterator[Kitchen]:
    """A kitchen over her journal, the one named, or a copy of the sample.

    Reading never blocks and never creates a file; writing takes the journal's lock, and makes the file
    where there is none. Raises WorldProblem.
    """
    from dryhouse.journal.opening import open_journal, sample_journal

    file = sample_journal() if sample else (path or default_journal())
    journal = open_journal(file, write=write)
    try:
        yield Kitchen(journal, handbook())
    finally:
        journal.close()


def open_desk(path: Path | None, *, sample: bool, timings: bool, quit_when_ready: bool, began: float) -> int:
    """Open the window; answer the exit code when it closes."""
    from dryhouse.desk.app import run

    def journal_opener() -> Kitchen:
        from dryhouse.journal.opening import open_journal, sample_journal

        file = sample_journal() if sample else (path or default_journal())
        return Kitchen(open_journal(file, write=True), handbook())

    return run(journal_opener, timings=timings, quit_when_ready=quit_when_ready, began=began)
