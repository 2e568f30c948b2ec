"""The entry for a moment, typed: `yesterday 18:00`, `8:30`, `2026-11-20 18:00`."""

from __future__ import annotations

from datetime import datetime

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.fields import Field
from dryhouse.kitchen.typed_moments import moment_text, read_moment
from dryhouse.words.dates import full_moment


def show_moment(session: Session, moment: datetime | None, *, missing: str = "—") -> str:
    """A moment on the person's own clock: `Fri 20 Nov 2026, 18:00`."""
    if moment is None:
        return missing
    return full_moment(session.kitchen.local(moment))


class MomentField(Field):
    """Answers a moment in UTC. A time alone is the last time the clock showed it."""

    def __init__(self, session: Session, label: str, *, hint: str = "yesterday 18:00", name: str = "") -> None:
        super().__init__(session, label, hint=hint, name=name)

    def read(self, text: str) -> datetime:
        return read_moment(self.session.kitchen, text, field=self.name)

    def write(self, value: datetime) -> str:
        return moment_text(self.session.kitchen, value)

    def echo(self, value: datetime, text: str) -> str:
        return show_moment(self.session, value)
