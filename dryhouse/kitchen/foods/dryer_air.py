"""The heat and the air in a dryer, as far as the records of a batch tell."""

from __future__ import annotations

from collections.abc import Iterable

from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.weighings import HEAT_CHANGED
from dryhouse.science.chamber import Chamber, warmed
from dryhouse.science.errors import InputProblem


def dryer_temperature(batch: Batch, events: Iterable[BatchEvent] = ()) -> float | None:
    """°C the dryer is set to now: the last change noted, else what it was started at."""
    changed = [e for e in events if e.kind == HEAT_CHANGED and e.temperature is not None]
    last = max(changed, key=lambda e: (e.at, e.id), default=None)
    setting = last.temperature if last is not None else batch.set_temperature
    return setting.si if setting is not None else None


def chamber_of(batch: Batch, heat_c: float | None) -> Chamber | None:
    """The air in the dryer, or None where the kitchen's air or the dryer's temperature is not recorded."""
    kitchen_c, humidity = batch.kitchen_temperature, batch.kitchen_humidity_pct
    if kitchen_c is None or humidity is None or heat_c is None:
        return None
    try:
        return warmed(kitchen_c.si, humidity, heat_c)
    except InputProblem:
        return None
