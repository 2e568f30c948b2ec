"""New batches that were begun and left, kept across sittings: the newest first, a line of text each."""

from __future__ import annotations

from dryhouse.desk.session import Session
from dryhouse.kitchen.settings import preference, set_preference

KEY = "draft.batch"
MOST = 5


class Drafts:
    """The lines that were left. Nothing is written before `save`."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._lines = preference(session.kitchen, KEY).splitlines()

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
        """Write what is kept; `standing` is what still stands in the form and is not yet left."""
        kitchen, text = self._session.kitchen, "\n".join(self._with(standing))
        if text != preference(kitchen, KEY):
            self._session.attempt(set_preference, kitchen, KEY, text)

    def _with(self, line: str) -> list[str]:
        return [one for one in (line, *self._lines) if one][:MOST]
