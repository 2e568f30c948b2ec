"""What a record is judged against: what it belongs to, the foods there are, and the present moment."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any, Protocol, TypeVar

R = TypeVar("R")


class Around(Protocol):
    """Everything outside a record that its judgement may ask for. All of it is only looked up."""

    @property
    def now(self) -> datetime | None:
        """The present moment; None where records of any time are read, and none is refused as still to come."""

    def day(self, moment: datetime) -> date:
        """The day a moment falls on where the person is."""

    def get(self, kind: type[R], id: int) -> R | None:
        """The record of that number, among those that come together with the one judged or recorded already."""

    def food_known(self, slug: str) -> bool:
        """Whether there is a food of this slug, in the handbook or of her own."""

    def in_handbook(self, slug: str) -> bool:
        """Whether the handbook has a food of this slug."""

    def is_animal(self, slug: str) -> bool:
        """Whether the food of this slug is of animal origin, as far as it is known."""

    def animal_named(self, name: str, *, exactly: bool = False) -> str:
        """What in a name speaks of an animal, or the animal food that has exactly this name; empty for neither."""

    def is_called(self, slug: str, name: str) -> bool:
        """Whether a food or a staple has this name, in whatever order its words stand."""

    def staple_known(self, slug: str) -> bool:
        """Whether the handbook has a staple of this slug."""

    def staple_animal(self, slug: str) -> bool:
        """Whether a staple is of animal origin, or may hold something that is."""


def there(around: Around, kind: type[Any], id: int | None) -> Any:
    """The record a link names; None where it names none, or where it is not there."""
    return None if id is None else around.get(kind, id)
