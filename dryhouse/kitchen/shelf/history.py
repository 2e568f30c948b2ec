"""Where a lot has been and how warm it was there: moves and temperatures made into stretches."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from dryhouse.kitchen.records import LotMove, Place, PlaceTemperature
from dryhouse.science.keeping import Stretch

_SHORT = timedelta(days=1)


def _name(places: Mapping[int, Place], number: int) -> str:
    """What a place is called; one that is gone from a damaged journal goes by its number."""
    return places[number].name if number in places else f"place {number}"


def stretches(
    start: datetime,
    moves: Sequence[LotMove],
    temperatures: Mapping[int, Sequence[PlaceTemperature]],
    places: Mapping[int, Place],
) -> tuple[Stretch, ...]:
    """The history of a lot from `start` on; moves and temperatures oldest first. Empty without a move.

    Time before the first move is counted as spent in that first place, and time before a place's first
    temperature as that warm; both are said where they last longer than a day.
    """
    if not moves:
        return ()
    history: list[Stretch] = []
    begins = [start, *(max(start, m.at) for m in moves[1:])]
    for n, move in enumerate(moves):
        begin = begins[n]
        end = begins[n + 1] if n + 1 < len(moves) else None
        if end is not None and end <= begin:
            continue
        late = n == 0 and move.at - start > _SHORT
        said = f"it stood in the {_name(places, move.place)} before it was put there, too" if late else ""
        history += _in_place(_name(places, move.place), begin, end, temperatures.get(move.place, ()), said)
    return tuple(history)


def _in_place(
    name: str, begin: datetime, end: datetime | None, readings: Sequence[PlaceTemperature], said: str
) -> list[Stretch]:
    if not readings:
        return [Stretch(name, begin, end, None, said)]
    first = 0
    for n, reading in enumerate(readings):
        if reading.since <= begin:
            first = n
    early = readings[first].since - begin > _SHORT
    why = f"the {name} was as warm before its first recorded temperature" if early else ""
    here: list[Stretch] = []
    at = begin
    for n in range(first, len(readings)):
        until = readings[n + 1].since if n + 1 < len(readings) else None
        if until is None or (end is not None and end < until):
            until = end
        if until is not None and until <= at:
            continue
        here.append(Stretch(name, at, until, readings[n].temperature.si, "; ".join(filter(None, (said, why)))))
        said = why = ""
        if until is None or until == end:
            break
        at = until
    return here


def with_trip(
    history: Sequence[Stretch], leaves: datetime, temperature_c: float | None, name: str = "on the way"
) -> tuple[Stretch, ...]:
    """The same history, but from `leaves` on the food travels at this temperature and does not come back."""
    kept = [replace(s, end=leaves) if s.end is None or s.end > leaves else s for s in history if s.start < leaves]
    begins = leaves if not history else max(leaves, history[0].start)
    return (*kept, Stretch(name, begins, None, temperature_c))
