"""What was taken from a lot and what was found in it say when, where that was told on its own day."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None

TABLES = ("lot_draw", "lot_check")


def upgrade() -> None:
    """Bring a journal of the version before to this one."""
    journal = op.get_bind()
    for table in TABLES:
        journal.execute(sa.text(f"ALTER TABLE {table} ADD COLUMN at INTEGER"))
