"""What moves the yield of a food: her own batches by cut, pretreatment, temperature and dryer."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass

from dryhouse.kitchen.yield_knowledge import OwnDot, YieldKnowledge
from dryhouse.science.yields.moves import Group, side_by_side

STEP_C = 5.0
"""Set temperatures within the same 5 °C are one group: dials are not read more finely (common practice)."""


@dataclass(frozen=True, slots=True)
class Move:
    """One way of dividing her batches, and what the groups show."""

    what: str
    groups: tuple[Group, ...]
    """For temperature the group's name is its middle in °C, as digits."""


def what_moves(knowledge: YieldKnowledge) -> tuple[Move, ...]:
    """Every division that has something to say; the rule is `side_by_side`'s, and it is silent on too little."""
    ways: tuple[tuple[str, Callable[[OwnDot], str]], ...] = (
        ("cut", lambda d: d.form.casefold()),
        ("pretreatment", lambda d: d.pretreatment.casefold()),
        ("temperature", _heat),
        ("dryer", lambda d: d.dryer),
    )
    moves = []
    for what, name in ways:
        groups: dict[str, list[float]] = defaultdict(list)
        for dot in knowledge.dots:
            if key := name(dot):
                groups[key].append(math.log(dot.ratio))
        if said := side_by_side(groups):
            moves.append(Move(what, said))
    return tuple(moves)


def _heat(dot: OwnDot) -> str:
    return "" if dot.temperature_c is None else f"{round(dot.temperature_c / STEP_C) * STEP_C:.0f}"
