"""What an amount of prepared food means at the market and on the trays."""

from __future__ import annotations

import math
from dataclasses import dataclass

from dryhouse.kitchen.records import Dryer
from dryhouse.kitchen.yields.knowledge import YieldKnowledge
from dryhouse.science.values import Figure, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step


@dataclass(frozen=True, slots=True)
class Trays:
    """How an amount spreads over one dryer."""

    dryer: Dryer
    trays: Figure
    batches: int
    """How many loads of this dryer the middle amount makes."""
    batches_high: int
    """The same for the upper end of the amount."""


def as_purchased(knowledge: YieldKnowledge, prepared: Figure) -> Figure | None:
    """What to buy for this much prepared food, by the published refuse (g); None where none is known."""
    refuse = knowledge.refuse
    if refuse is None or refuse.value >= 100:
        return None
    keep = 1 - refuse.value / 100

    def bought(value: float | None) -> float | None:
        return None if value is None else value / keep

    grams = (prepared.value, prepared.unit)
    line = step(Kind.AS_PURCHASED, (prepared.value / keep, "g"), prepared=grams, refuse=refuse)
    return Figure(
        prepared.value / keep,
        "g",
        bought(prepared.low),
        bought(prepared.high),
        basis=merge_bases(prepared.basis, [refuse.basis]),
        workings=(line,),
    )


def trays_for(knowledge: YieldKnowledge, prepared: Figure) -> tuple[Trays, ...]:
    """Trays and batches this much prepared food fills, for each dryer whose tray load is known."""
    answers = []
    for load in knowledge.loads:

        def spread(value: float | None, grams: float = load.grams) -> float | None:
            return None if value is None else value / grams

        trays = prepared.value / load.grams
        high = spread(prepared.high)
        line = step(
            Kind.TRAYS,
            (trays, "tray"),
            dryer=load.dryer.name,
            prepared=(prepared.value, "g"),
            each=(load.grams, "g"),
            trays=load.dryer.trays,
        )
        workings = (load.step, line)
        figure = Figure(trays, "tray", spread(prepared.low), high, basis=(load.basis,), workings=workings)
        most = trays if high is None else high
        answers.append(Trays(load.dryer, figure, _loads_of(load.dryer, trays), _loads_of(load.dryer, most)))
    return tuple(answers)


def _loads_of(dryer: Dryer, trays: float) -> int:
    return max(math.ceil(trays / dryer.trays - 1e-9), 1)
