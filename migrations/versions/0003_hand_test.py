"""How a cooled piece feels at the end, and whether the starting moisture was measured. What was never asked stays
unanswered."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

COLUMNS = ("felt TEXT DEFAULT '' NOT NULL", "start_moisture_tested INTEGER")


def upgrade() -> None:
    """Bring a journal of the second version to this one."""
    journal = op.get_bind()
    for column in COLUMNS:
        journal.execute(sa.text(f"ALTER TABLE batch ADD COLUMN {column}"))
