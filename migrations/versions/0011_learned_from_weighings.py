"""What the weighings of a finished batch taught of its dry matter stays with it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

COLUMNS = ("curve_low REAL", "curve_dry REAL", "curve_high REAL", "curve_mark INTEGER")


def upgrade() -> None:
    """Bring a journal of the version before to this one."""
    journal = op.get_bind()
    for column in COLUMNS:
        journal.execute(sa.text(f"ALTER TABLE batch ADD COLUMN {column}"))
