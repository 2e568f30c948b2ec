"""A journal in memory with the records of a test module."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from dryhouse.journal.database import Database, in_memory
from dryhouse.journal.revision import create
from dryhouse.journal.writing import write
from dryhouse.kitchen.ports import Change


@pytest.fixture
def database(request: pytest.FixtureRequest) -> Iterator[Database]:
    """Holds the `RECORDS` of the module that asks, or nothing."""
    made = in_memory()
    create(made)
    write(made, [Change(None, record) for record in getattr(request.module, "RECORDS", ())])
    yield made
    made.close()
