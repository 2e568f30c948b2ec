"""How moments, days, yes and no, and numbers are kept in a column, in any database."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

from sqlalchemy import INTEGER, REAL, TEXT, BigInteger, Dialect, Double, TypeDecorator
from sqlalchemy.types import TypeEngine

WORDS = TEXT()
WHOLE: TypeEngine[int] = BigInteger().with_variant(INTEGER(), "sqlite")
NUMBER: TypeEngine[float] = Double().with_variant(REAL(), "sqlite")

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)


def to_micros(moment: datetime) -> int:
    """Microseconds since 1970 in UTC. A moment that does not know its zone is our own mistake."""
    if moment.tzinfo is None:
        raise ValueError(f"{moment} does not say in which zone it is")
    return (moment - _EPOCH) // _MICROSECOND


def from_micros(micros: int) -> datetime:
    """The moment, exactly, in UTC."""
    return _EPOCH + timedelta(microseconds=micros)


class Moment(TypeDecorator[datetime]):
    """Whole microseconds since 1970 in UTC."""

    impl = WHOLE
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> int | None:
        """As it is kept."""
        return None if value is None else to_micros(value)

    def process_result_value(self, value: int | None, dialect: Dialect) -> datetime | None:
        """As it was."""
        return None if value is None else from_micros(value)


class Day(TypeDecorator[date]):
    """ISO text: `2026-08-22`."""

    impl = WORDS
    cache_ok = True

    def process_bind_param(self, value: date | None, dialect: Dialect) -> str | None:
        """As it is kept."""
        return None if value is None else value.isoformat()

    def process_result_value(self, value: str | None, dialect: Dialect) -> date | None:
        """As it was."""
        return None if value is None else date.fromisoformat(value)


class YesNo(TypeDecorator[bool]):
    """1 and 0."""

    impl = WHOLE
    cache_ok = True

    def process_bind_param(self, value: bool | None, dialect: Dialect) -> int | None:
        """As it is kept."""
        return None if value is None else int(value)

    def process_result_value(self, value: int | None, dialect: Dialect) -> bool | None:
        """As it was."""
        return None if value is None else bool(value)
