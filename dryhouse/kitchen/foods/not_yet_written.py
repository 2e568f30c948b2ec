"""A food of her own that is written together with the first thing recorded of it: both, or neither."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any, cast

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change, Journal, R
from dryhouse.kitchen.records import OwnFood
from dryhouse.kitchen.records.problems import refuse


def with_food(kitchen: Kitchen, own: OwnFood) -> Kitchen:
    """A kitchen in which this food is known already. The first write of the answered kitchen writes it too.
    Raises InputProblem where it can be no food of hers."""
    refuse(own, kitchen.around())
    return replace(kitchen, journal=cast(Journal, _WithFood(kitchen.journal, own)))


class _WithFood:
    """The journal with one more own food in it, which goes to the file with the next write."""

    def __init__(self, journal: Journal, own: OwnFood) -> None:
        self._journal, self._own = journal, own
        self._written = False

    def __getattr__(self, name: str) -> Any:
        return getattr(self._journal, name)

    def where(self, kind: type[R], **equals: Any) -> tuple[R, ...]:
        found = self._journal.where(kind, **equals)
        fits = all(getattr(self._own, name, None) == value for name, value in equals.items())
        return (*found, cast(R, self._own)) if kind is OwnFood and fits and not self._written else found

    def write(self, changes: Iterable[Change]) -> None:
        self._journal.write(changes if self._written else (Change(None, self._own), *changes))
        self._written = True
