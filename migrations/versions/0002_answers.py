"""Entries that answer a question of safety: how food was heated, where a lot came from, what is in an own food.

Records of the first version keep every word. What was never asked stays unanswered.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from dryhouse.kitchen.records.former import contents_of, notes_with, origin_of, precook_of

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

COLUMNS = (
    ("batch", "precook_held_s REAL"),
    ("batch", "precook_held_typed TEXT"),
    ("batch", "finish_temperature_c REAL"),
    ("batch", "finish_temperature_typed TEXT"),
    ("batch", "finish_held_s REAL"),
    ("batch", "finish_held_typed TEXT"),
    ("batch", "identified TEXT DEFAULT '' NOT NULL"),
    ("lot", "origin TEXT DEFAULT '' NOT NULL"),
    ("lot", "in_oil INTEGER"),
    ("own_food", "contains TEXT DEFAULT '' NOT NULL"),
)


def upgrade() -> None:
    """Bring a journal of the first version to this one."""
    journal = op.get_bind()
    for table, column in COLUMNS:
        journal.execute(sa.text(f"ALTER TABLE {table} ADD COLUMN {column}"))
    _cooking(journal)
    _origins(journal)
    _contents(journal)
    _plans(journal)


def _cooking(journal: sa.Connection) -> None:
    """What was free text becomes one of the methods; its words go to the notes."""
    described = journal.execute(sa.text("SELECT id, precook_method, notes FROM batch WHERE precook_method <> ''"))
    change = sa.text("UPDATE batch SET precook_method = :method, notes = :notes WHERE id = :id")
    for id, words, notes in described.all():
        journal.execute(change, {"method": precook_of(words), "notes": notes_with(notes, words), "id": id})


def _origins(journal: sa.Connection) -> None:
    change = sa.text("UPDATE lot SET origin = :origin WHERE id = :id")
    for id, batch, keep_by in journal.execute(sa.text("SELECT id, batch, bought_keep_by FROM lot")).all():
        journal.execute(change, {"origin": origin_of(batch, keep_by), "id": id})


def _contents(journal: sa.Connection) -> None:
    change = sa.text("UPDATE own_food SET contains = :contains WHERE id = :id")
    for id, category in journal.execute(sa.text("SELECT id, category FROM own_food")).all():
        journal.execute(change, {"contains": contents_of(category), "id": id})


def _plans(journal: sa.Connection) -> None:
    """What was planned for a trip was titled for the trip; it goes by the name of its food again."""
    named = "title = (SELECT 'for ' || trip.name FROM trip WHERE trip.id = batch.trip)"
    journal.execute(sa.text(f"UPDATE batch SET title = '' WHERE trip IS NOT NULL AND {named}"))
