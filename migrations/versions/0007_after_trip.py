"""What came back from a trip, meal by meal."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

STATEMENTS = (
    """CREATE TABLE after_trip (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    trip INTEGER NOT NULL,
    meal INTEGER NOT NULL,
    uneaten REAL NOT NULL,
    short REAL NOT NULL,
    change TEXT DEFAULT '' NOT NULL,
    CONSTRAINT fk_after_trip_trip FOREIGN KEY(trip) REFERENCES trip (id) DEFERRABLE INITIALLY DEFERRED,
    CONSTRAINT fk_after_trip_meal FOREIGN KEY(meal) REFERENCES meal (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_after_trip_trip ON after_trip (trip)",
    "CREATE INDEX ix_after_trip_meal ON after_trip (meal)",
)


def upgrade() -> None:
    """Bring a journal of the sixth version to this one."""
    journal = op.get_bind()
    for statement in STATEMENTS:
        journal.execute(sa.text(statement))
