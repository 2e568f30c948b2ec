"""How long food stood warm since it came off the dryer. Asked only of food that is not dry."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime, timedelta

from dryhouse.kitchen.records import LotMove, PlaceTemperature
from dryhouse.science.safety.rules import ROUNDING_C
from dryhouse.science.safety.warmth import COUNTED_MIN, HOT_C, WARM_C

Stood = tuple[float | None, float | None]
"""Minutes above 40 °F, and of them above 90 °F, counted no further than a day; None where nobody knows."""

UNKNOWN: Stood = (None, None)


def stood_in_kitchen(off_dryer: datetime | None, at: datetime, kitchen_c: float | None) -> Stood:
    """Of food that was put nowhere: the kitchen counts as warm, and as hot where that is recorded."""
    return UNKNOWN if off_dryer is None else _in_kitchen(off_dryer, at, kitchen_c)


def _in_kitchen(since: datetime, until: datetime, kitchen_c: float | None) -> tuple[float, float]:
    minutes = _counted(until - since)
    return minutes, minutes if kitchen_c is not None and kitchen_c > HOT_C + ROUNDING_C else 0.0


def stood_on_shelf(
    off_dryer: datetime | None,
    moves: Sequence[LotMove],
    readings: Mapping[int, Sequence[PlaceTemperature]],
    at: datetime,
    kitchen_c: float | None = None,
) -> Stood:
    """Of a lot, through every place it was put in by `at`; moves and readings oldest first.

    Before the first move it stood in the kitchen. Not known where the temperature of a place was not recorded then.
    """
    if off_dryer is None or not moves:
        return UNKNOWN
    warm, hot = _in_kitchen(off_dryer, moves[0].at, kitchen_c)
    for move, leaves in zip(moves, (*(m.at for m in moves[1:]), at), strict=True):
        for celsius, stayed in _spans(readings.get(move.place, ()), max(move.at, off_dryer), min(leaves, at)):
            if celsius is None:
                return UNKNOWN
            warm += stayed if celsius > WARM_C + ROUNDING_C else 0.0
            hot += stayed if celsius > HOT_C + ROUNDING_C else 0.0
    return min(warm, COUNTED_MIN), min(hot, COUNTED_MIN)


def _spans(
    readings: Sequence[PlaceTemperature], begin: datetime, end: datetime
) -> Iterator[tuple[float | None, float]]:
    """The temperatures of a place between two moments, and the minutes at each; None before the first reading."""
    known: float | None = None
    for reading in readings:
        if reading.since >= end:
            break
        if reading.since > begin:
            yield known, _counted(reading.since - begin)
            begin = reading.since
        known = reading.temperature.si
    if end > begin:
        yield known, _counted(end - begin)


def _counted(time: timedelta) -> float:
    return min(max(time.total_seconds() / 60.0, 0.0), COUNTED_MIN)
