"""The columns of a table as this person likes them: kept with the journal, and put back."""

from __future__ import annotations

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.paged_table import PagedTable
from dryhouse.kitchen.settings import preference, set_preference


def keep_columns(session: Session, table: PagedTable) -> None:
    """Show a table's columns as they were last left; whatever is chosen from now on is kept."""
    key = f"columns.{table.accessibleName().lower()}"
    table.set_columns(preference(session.kitchen, key))
    table.columns_chosen.connect(lambda chosen: session.attempt(set_preference, session.kitchen, key, chosen))
