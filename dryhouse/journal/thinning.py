"""Which of a journal's backups are kept: many of the last days, fewer the older they are, never none."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from datetime import datetime

DAYS, WEEKS, MONTHS = 14, 8, 24
"""For so many days, weeks and months that have a backup the newest of each is kept; and one of every year."""

_PERIODS: tuple[tuple[Callable[[datetime], Hashable], int | None], ...] = (
    (lambda at: at.date(), DAYS),
    (lambda at: at.isocalendar()[:2], WEEKS),
    (lambda at: (at.year, at.month), MONTHS),
    (lambda at: at.year, None),
)


def kept(made: Iterable[datetime], now: datetime, newest: int) -> set[datetime]:
    """The moments whose backups are kept: so many of the newest, and the newest of each period.

    What is dated ahead of the clock was made while the clock was wrong: it takes no other one's place, and so
    many of those are kept beside.
    """
    listed = sorted(set(made), reverse=True)
    ahead, past = [at for at in listed if at > now], [at for at in listed if at <= now]
    keep = {*ahead[:newest], *past[:newest]}
    for period, most in _PERIODS:
        firsts: dict[Hashable, datetime] = {}
        for at in past:
            firsts.setdefault(period(at), at)
        keep.update(list(firsts.values())[:most])
    return keep
