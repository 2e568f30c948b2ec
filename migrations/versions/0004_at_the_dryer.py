"""What happens at the dryer: weighings left out of the curve, read on a tray of their own or by an instrument;
trays taken off early or put in later."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

COLUMNS = (
    ("weighing", "vessel TEXT DEFAULT '' NOT NULL"),
    ("weighing", "left_out INTEGER DEFAULT 0 NOT NULL"),
    ("weighing", "instrument TEXT DEFAULT '' NOT NULL"),
    ("batch_event", "trays INTEGER"),
    ("batch_event", "mass_g REAL"),
    ("batch_event", "mass_typed TEXT"),
)


def upgrade() -> None:
    """Bring a journal of the third version to this one."""
    journal = op.get_bind()
    for table, column in COLUMNS:
        journal.execute(sa.text(f"ALTER TABLE {table} ADD COLUMN {column}"))
