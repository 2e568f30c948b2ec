"""The level a batch settled at, read from its weighings, and what it says of the dry matter where it was brittle.

Only what she confirmed by hand counts (`Batch.settled`): a load that is known by weight alone teaches no solids.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from dryhouse.handbook.gab import isotherms
from dryhouse.handbook.yield_spread import solids_spread
from dryhouse.kitchen.foods.dryer_air import chamber_of, dryer_temperature
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.weighings import LOAD, MOVED, PAUSED, SAMPLE, TRAY_IN, TRAY_OFF
from dryhouse.science.quantities import Mass, unit_typed
from dryhouse.science.sorption import equilibrium_moisture
from dryhouse.science.statuses import Feel
from dryhouse.science.units import SIZES

AT_THE_START_H = 0.25
"""Where the load was not weighed apart, its first weighing stands for it no later than this."""
NO_SUCH_FOOD_SD = 3.0
"""A level further from what the handbook says of such food is a slip of tare or unit (in standard deviations)."""
_NUMBER = re.compile(r"\d+(?:[.,](\d+))?")


@dataclass(frozen=True, slots=True)
class Settled:
    """The weight (net g) that stayed the same, since when, and the dry matter that it means as a share of the load,
    with the spread of its logarithm."""

    grams: float
    since: datetime
    until: datetime
    share: float
    log_sd: float


def settled(
    kitchen: Kitchen,
    batch: Batch,
    weighings: Sequence[Weighing] | None = None,
    events: Sequence[BatchEvent] | None = None,
) -> Settled | None:
    """The level that the batch has settled at by its weighings, to the last of them; None where it has not, or
    where what was loaded is not known, changed on the way, or would be no such food."""
    if weighings is None:
        weighings = kitchen.journal.where(Weighing, batch=batch.id)
    if events is None:
        events = kitchen.journal.where(BatchEvent, batch=batch.id)
    counted = sorted((w for w in weighings if not w.left_out), key=lambda w: (w.at, w.id))
    scope = LOAD if sum(w.scope == LOAD for w in counted) >= sum(w.scope == SAMPLE for w in counted) else SAMPLE
    readings = [(w.at, w.net_g, w.gross) for w in counted if w.scope == scope]
    loaded = _loaded(batch, readings, scope)
    if scope == LOAD and batch.state == FINISHED and batch.ended is not None and batch.dried_mass is not None:
        readings = [r for r in readings if r[0] < batch.ended]
        readings.append((batch.ended, batch.dried_mass.si, batch.dried_mass))
    if loaded is None or not readings:
        return None
    from dryhouse.science.settling import settled_from, share_of_level  # brings NumPy, which a name can do without

    step = max(step_of(gross) for _, _, gross in readings[-3:])
    began = readings[0][0]
    hours = [(at - began).total_seconds() / 3600 for at, _, _ in readings]
    first = settled_from(hours, [net for _, net, _ in readings], step)
    if first is None:
        return None
    since, until = readings[first][0], readings[-1][0]
    if any(_unsettles(e, since, until, scope) for e in events):
        return None
    level = sum(net for _, net, _ in readings[first:]) / (len(readings) - first)
    share, log_sd = share_of_level(level, loaded, step, _settles(batch, events), sample=scope == SAMPLE)
    return Settled(level, since, until, share, log_sd) if _can_be(kitchen, batch, share) else None


def confirmed(batch: Batch) -> bool:
    """Whether she confirmed by hand that it was dry when its weight stayed the same."""
    return bool(batch.settled) and batch.felt == Feel.BRITTLE


def marked_settled(kitchen: Kitchen, batch: Batch) -> Batch:
    """The batch as it is written down: a finished one that was brittle and whose weight stayed the same is
    confirmed; one that was not brittle is not."""
    if batch.felt != Feel.BRITTLE:
        return replace(batch, settled=None) if batch.settled else batch
    if batch.settled or batch.state != FINISHED or not batch.id or settled(kitchen, batch) is None:
        return batch
    return replace(batch, settled=True)


def step_of(mass: Mass) -> float:
    """Grams between one reading of a scale and the next, as the number was typed."""
    numbers = _NUMBER.findall(mass.typed)
    decimals = len(numbers[-1]) if numbers else 1
    return float(10.0**-decimals * SIZES[unit_typed(mass)])


def _loaded(batch: Batch, readings: Sequence[tuple[datetime, float, Mass]], scope: str) -> float | None:
    """Grams that the level is a share of: what was loaded, or the first weight of the sample tray."""
    weighed = batch.prepared_mass or batch.cooked_mass_out
    if scope == LOAD and weighed is not None:
        return weighed.si if weighed.si > 0 else None
    if not readings or batch.started is None or batch.started > readings[0][0]:
        return None
    late = (readings[0][0] - batch.started).total_seconds() / 3600 > AT_THE_START_H
    return None if late or readings[0][1] <= 0 else readings[0][1]


def _unsettles(event: BatchEvent, since: datetime, until: datetime, scope: str) -> bool:
    """Whether a level means nothing beside what happened: the dryer was off, or trays came and went."""
    if event.kind == PAUSED:
        return since <= event.at < until
    return scope == LOAD and event.kind in (TRAY_OFF, TRAY_IN, MOVED)


def _settles(batch: Batch, events: Sequence[BatchEvent]) -> tuple[float, float, float]:
    """The moisture (dry basis) such food settles at in the air of the dryer, where that is known."""
    from dryhouse.science.dry_matter import SETTLES

    heat = dryer_temperature(batch, events)
    chamber = chamber_of(batch, heat)
    if chamber is None or heat is None:
        return SETTLES
    found = equilibrium_moisture(isotherms(batch.food), chamber.relative_humidity_pct / 100.0, heat)
    if found is None or found.low is None or found.high is None:
        return SETTLES
    return found.value, found.low, found.high


def _can_be(kitchen: Kitchen, batch: Batch, share: float) -> bool:
    if not 0.0 < share < 1.0:
        return False
    known = kitchen.handbook.foods.get(batch.food)
    water = known.fact("water") if known is not None else None
    if known is None or water is None or not 0.0 < water.value < 100.0 or batch.cooked_mass_in is not None:
        return True
    off = math.log(share / (1.0 - water.value / 100.0))
    return abs(off) <= NO_SUCH_FOOD_SD * solids_spread(known, water).value
