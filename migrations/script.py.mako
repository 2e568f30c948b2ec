"""${message}."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "${up_revision}"
down_revision = "${down_revision}"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Bring a journal of the version before to this one."""
    op.get_bind().execute(sa.text("ALTER TABLE … ADD COLUMN …"))
