"""Whether a load was brittle when its weight stayed the same, confirmed by hand."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Bring a journal of the seventh version to this one."""
    op.get_bind().execute(sa.text("ALTER TABLE batch ADD COLUMN settled INTEGER"))
    op.create_index("ix_batch_settled_food", "batch", ["settled", "food"])
