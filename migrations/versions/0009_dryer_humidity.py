"""How damp the air in the dryer was, as an instrument read it with a weighing."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Bring a journal of the eighth version to this one."""
    op.get_bind().execute(sa.text("ALTER TABLE weighing ADD COLUMN dryer_humidity_pct REAL"))
