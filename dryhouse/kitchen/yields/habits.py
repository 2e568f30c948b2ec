"""How this kitchen loads its trays and how long its runs take, for one food: her own, else the handbook's."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.handbook.cut_hours import published_hours
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import YieldPair
from dryhouse.kitchen.records import Dryer
from dryhouse.science.values import Basis, Figure
from dryhouse.science.workings import Step, step
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.yields.belief import alone

_FEWEST_RUNS = 3
"""Fewer own runs than this make a middle, but no interval."""


@dataclass(frozen=True, slots=True)
class TrayLoad:
    """What one tray of one dryer takes of this food, prepared: the middle of her own loads, else the handbook's."""

    dryer: Dryer
    grams: float
    basis: Basis
    step: Step


def tray_loads(kitchen: Kitchen, food: Food, pairs: Sequence[YieldPair]) -> tuple[TrayLoad, ...]:
    """One load for each dryer in use whose load of this food is known."""
    found, printed = [], food.fact("tray_load")
    for dryer in dryers(kitchen):
        own = sorted(p.prepared_g / p.trays for p in pairs if p.dryer == dryer.id and p.trays)
        if own:
            grams = (own[(len(own) - 1) // 2] + own[len(own) // 2]) / 2
            line = step(Kind.OWN_TRAY_LOAD, (grams, "g"), dryer=dryer.name, n=len(own))
            found.append(TrayLoad(dryer, grams, Basis("own", f"tray loads in {dryer.name}", len(own)), line))
        elif printed is not None and dryer.tray_area is not None:
            grams = printed.value * 1000.0 * dryer.tray_area.si / 10000.0
            load, area = (printed.value, "kg/m2", printed.source), (dryer.tray_area.si, "cm2")
            line = step(Kind.PUBLISHED_TRAY_LOAD, (grams, "g"), dryer=dryer.name, load=load, area=area)
            found.append(TrayLoad(dryer, grams, printed.basis, line))
    return tuple(found)


def hours_for(food: Food, pairs: Sequence[YieldPair], cut: str = "") -> Figure | None:
    """Hours in the dryer: her own runs, else the handbook's with its published range, of the cut where there is
    one; None where neither."""
    own = [math.log(p.hours) for p in pairs if p.hours and p.hours > 0]
    if own:
        value = math.exp(math.fsum(own) / len(own))
        predicted = alone(own) if len(own) >= _FEWEST_RUNS else None
        hours, n = (value, "h"), len(own)
        line = (
            step(Kind.OWN_HOURS, hours, n=n, low=(predicted.low, "h"), high=(predicted.high, "h"))
            if predicted is not None
            else step(Kind.OWN_HOURS_FEW, hours, n=n, fewest=_FEWEST_RUNS)
        )
        return Figure(
            value,
            "h",
            low=None if predicted is None else predicted.low,
            high=None if predicted is None else predicted.high,
            basis=(Basis("own", "drying hours", len(own)),),
            workings=(line,),
        )
    printed = published_hours(food, cut)
    if printed is None:
        return None
    one = (printed.value, "h", printed.source)
    line = (
        step(Kind.PUBLISHED_HOURS_RANGE, one, low=(printed.low, "h"), high=(printed.high, "h"))
        if printed.low and printed.high
        else step(Kind.PUBLISHED_HOURS_ONE, one)
    )
    return Figure(
        printed.value,
        "h",
        low=printed.low,
        high=printed.high,
        basis=(printed.basis,),
        workings=(line,),
    )
