"""New batches that were begun and left, kept across sittings: the newest first, a line of text each."""

from __future__ import annotations

from dryhouse.desk.session import Session
from dryhouse.kitchen.settings import preference, set_preference

FORM, KEY = "batch", "draft.batch"
"""Where they lie beside the journal, and the setting they were kept in before."""
MOST = 5


class Drafts:
    """The lines that were left. Nothing is written before `save`."""

    def __init__(self, session: Session) -> None:
        self._book = session.drafts.book
        self._lines: list[str] = [line for line in self._book.get(FORM) if isinstance(line, str)]
        if before := preference(session.kitchen, KEY).splitlines():
            self._lines += before
            self.save()
            session.attempt(set_preference, session.kitchen, KEY, "")

    @property
    def newest(self) -> str:
        """The draft to offer; empty where there is none."""
        return self._lines[0] if self._lines else ""

    def take(self) -> str:
        """The newest, which is kept no longer."""
        newest, self._lines = self.newest, self._lines[1:]
        return newest

    def put(self, line: str) -> None:
        """Keep a line as the newest. An empty one changes nothing."""
        self._lines = self._with(line)

    def save(self, standing: str = "") -> None:
        """Keep them beside the journal; `standing` is what still stands in the form and is not yet left."""
        self._book.put(FORM, "", self._with(standing))
        self._book.save()

    def _with(self, line: str) -> list[str]:
        return [one for one in (line, *self._lines) if one][:MOST]
