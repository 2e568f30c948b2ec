"""How this kitchen loads its trays and how long its runs take, for one food: her own, else the handbook's."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import YieldPair
from dryhouse.kitchen.records import Dryer
from dryhouse.science.values import Basis, Figure
from dryhouse.science.yields.belief import alone

_FEWEST_RUNS = 3
"""Fewer own runs than this make a middle, but no interval."""


@dataclass(frozen=True, slots=True)
class TrayLoad:
    """What one tray of one dryer takes of this food, prepared: the middle of her own loads, else the handbook's."""

    dryer: Dryer
    grams: float
    basis: Basis
    words: str


def tray_loads(kitchen: Kitchen, food: Food, pairs: Sequence[YieldPair]) -> tuple[TrayLoad, ...]:
    """One load for each dryer in use whose load of this food is known."""
    found, printed = [], food.fact("tray_load")
    for dryer in dryers(kitchen):
        own = sorted(p.prepared_g / p.trays for p in pairs if p.dryer == dryer.id and p.trays)
        if own:
            grams = (own[(len(own) - 1) // 2] + own[len(own) // 2]) / 2
            words = f"{dryer.name}: {grams:.0f} g a tray, the middle of your {len(own)} loads"
            found.append(TrayLoad(dryer, grams, Basis("own", f"tray loads in {dryer.name}", len(own)), words))
        elif printed is not None and dryer.tray_area is not None:
            grams = printed.value * 1000.0 * dryer.tray_area.si / 10000.0
            words = f"{dryer.name}: {printed.value:g} kg/m² × {dryer.tray_area.si:.0f} cm² = {grams:.0f} g a tray"
            found.append(TrayLoad(dryer, grams, printed.basis, f"{words}   [{printed.source}]"))
    return tuple(found)


def hours_for(food: Food, pairs: Sequence[YieldPair]) -> Figure | None:
    """Hours in the dryer: her own runs, else the handbook's with its published range; None where neither."""
    own = [math.log(p.hours) for p in pairs if p.hours and p.hours > 0]
    if own:
        value = math.exp(math.fsum(own) / len(own))
        predicted = alone(own) if len(own) >= _FEWEST_RUNS else None
        ends = (
            f", 80 % between {predicted.low:.1f} and {predicted.high:.1f} h"
            if predicted is not None
            else f"; fewer than {_FEWEST_RUNS} make no interval"
        )
        return Figure(
            value,
            "h",
            low=None if predicted is None else predicted.low,
            high=None if predicted is None else predicted.high,
            basis=(Basis("own", "drying hours", len(own)),),
            workings=(f"Hours: {value:.1f} h, the mean of your runs (n={len(own)}){ends}",),
        )
    printed = food.fact("drying_hours")
    if printed is None:
        return None
    ends = f", published range {printed.low:g} to {printed.high:g} h" if printed.low and printed.high else ""
    return Figure(
        printed.value,
        "h",
        low=printed.low,
        high=printed.high,
        basis=(printed.basis,),
        workings=(f"Hours: {printed.value:g} h{ends}   [{printed.source}]",),
    )
