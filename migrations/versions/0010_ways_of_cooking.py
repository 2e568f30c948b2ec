"""Meals are soaked or not, or need no pot; a cooking note says how it was cooked that time."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None

STATEMENTS = (
    "ALTER TABLE cooking_note ADD COLUMN cooking TEXT DEFAULT '' NOT NULL",
    "UPDATE meal SET cooking = 'short soak' WHERE cooking = 'simmer'",
)


def upgrade() -> None:
    """Bring a journal of the version before to this one."""
    journal = op.get_bind()
    for statement in STATEMENTS:
        journal.execute(sa.text(statement))
