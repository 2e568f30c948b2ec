"""A dry-matter test of a batch: what a sample weighed, and what was left of it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

COLUMNS = ("test_sample_g REAL", "test_sample_typed TEXT", "test_dry_g REAL", "test_dry_typed TEXT")


def upgrade() -> None:
    """Bring a journal of the fifth version to this one."""
    journal = op.get_bind()
    for column in COLUMNS:
        journal.execute(sa.text(f"ALTER TABLE batch ADD COLUMN {column}"))
    op.create_index("ix_batch_start_moisture_tested_food", "batch", ["start_moisture_tested", "food"])
