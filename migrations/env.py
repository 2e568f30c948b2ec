"""How Alembic reaches a journal: over the connection the program hands it, else over an empty one in memory.

The program opens, locks, backs up and begins the transaction; a migration only changes tables. From the
command line (`alembic revision`, `alembic check`) an empty journal of the newest shape stands in.
"""

from __future__ import annotations

from alembic import context
from sqlalchemy import Connection

from dryhouse.journal.database import in_memory
from dryhouse.journal.revision import create
from dryhouse.journal.tables import metadata


def _ours(name: str | None, kind: str, _parent: object) -> bool:
    """The word index is SQLite's own and no table of ours."""
    return not (kind == "table" and (name or "").startswith("batch_words"))


def _migrate(connection: Connection) -> None:
    context.configure(
        connection=connection,
        target_metadata=metadata,
        render_as_batch=True,
        include_name=_ours,
        transactional_ddl=True,
    )
    context.run_migrations()


handed = context.config.attributes.get("connection")
if handed is not None:
    _migrate(handed)
else:
    stand_in = in_memory()
    create(stand_in)
    with stand_in.transaction() as connection:
        _migrate(connection)
