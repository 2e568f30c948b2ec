"""How many servings a whole pot made; who goes on a trip, its spare and layover days, and from when it is dried
for."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

STATEMENTS = (
    "ALTER TABLE batch ADD COLUMN servings REAL",
    "ALTER TABLE trip ADD COLUMN dry_from TEXT",
    "ALTER TABLE trip ADD COLUMN spare_days INTEGER DEFAULT 0 NOT NULL",
    "ALTER TABLE trip ADD COLUMN layovers TEXT DEFAULT '' NOT NULL",
    """CREATE TABLE trip_person (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    trip INTEGER NOT NULL,
    name TEXT DEFAULT '' NOT NULL,
    appetite_pct REAL NOT NULL,
    avoids TEXT DEFAULT '' NOT NULL,
    at_risk INTEGER NOT NULL,
    CONSTRAINT fk_trip_person_trip FOREIGN KEY(trip) REFERENCES trip (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_trip_person_trip ON trip_person (trip)",
)


def upgrade() -> None:
    """Bring a journal of the fourth version to this one."""
    journal = op.get_bind()
    for statement in STATEMENTS:
        journal.execute(sa.text(statement))
