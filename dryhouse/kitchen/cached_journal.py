"""A journal that is asked again and again for the same few records, and reads them once."""

from __future__ import annotations

from typing import Any, cast

from dryhouse.kitchen.ports import Journal, R
from dryhouse.kitchen.records import OwnFigure, OwnFood


def remembering(journal: Journal) -> Journal:
    """The journal, but her own foods and figures are read only once: for a reading of many batches, never kept."""
    return cast(Journal, _Remembering(journal))


class _Remembering:
    """The journal, but her own foods and figures are read only once: every batch of the shelf asks for them."""

    def __init__(self, journal: Journal) -> None:
        self._journal = journal
        self._known: dict[Any, Any] = {}

    def __getattr__(self, name: str) -> Any:
        return getattr(self._journal, name)

    def where(self, kind: type[R], **equals: Any) -> tuple[R, ...]:
        if kind not in (OwnFood, OwnFigure):
            return self._journal.where(kind, **equals)
        if kind not in self._known:
            self._known[kind] = self._journal.where(kind)
        known: tuple[R, ...] = self._known[kind]
        return tuple(r for r in known if all(getattr(r, name) == value for name, value in equals.items()))
