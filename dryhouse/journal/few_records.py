"""Records there are only a few of, and which everything asks for: read once, and kept until one changes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from dryhouse.journal.database import Database
from dryhouse.journal.sqlite.direct_sql import every
from dryhouse.journal.sqlite.file import data_version
from dryhouse.kitchen.ports import R
from dryhouse.kitchen.records import Dryer, OwnFigure, OwnFood, Place, Preference

FEW = frozenset({Preference, OwnFood, OwnFigure, Dryer, Place})


class FewRecords:
    """Her own foods and figures, her dryers, places and preferences. Not for two threads at once."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._kept: dict[type, tuple[Any, ...]] = {}
        self._seen_version = -1

    def where(self, kind: type[R], equals: Mapping[str, Any]) -> tuple[R, ...]:
        """Every record whose fields equal (or are in the given tuple of) these values, by number."""
        version = data_version(self._database.driver)
        if version != self._seen_version:
            self._kept.clear()
            self._seen_version = version
        if kind not in self._kept:
            self._kept[kind] = every(self._database.driver, kind)
        known: tuple[R, ...] = self._kept[kind]
        return tuple(record for record in known if _fits(record, equals)) if equals else known

    def forget(self, kinds: Iterable[type]) -> None:
        """Records of these kinds have changed."""
        for kind in kinds:
            self._kept.pop(kind, None)


def _fits(record: Any, equals: Mapping[str, Any]) -> bool:
    return all(
        getattr(record, name) in wanted if isinstance(wanted, tuple) else getattr(record, name) == wanted
        for name, wanted in equals.items()
    )
