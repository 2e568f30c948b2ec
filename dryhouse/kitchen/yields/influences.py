"""What moves the yield of a food: her own batches by cut, pretreatment, temperature and dryer."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass

from dryhouse.kitchen.yields.knowledge import OwnDot, YieldKnowledge
from dryhouse.science.yields.moves import Group, side_by_side

STEP_C = 2.5
"""Set temperatures within one such step are one group: about the 5 °F of a dial's marks (common practice)."""


@dataclass(frozen=True, slots=True)
class Move:
    """One way of dividing her batches, and what the groups show."""

    what: str
    groups: tuple[Group, ...]
    """For temperature the group's name is its mean setting in °C, as digits."""


def what_moves(knowledge: YieldKnowledge) -> tuple[Move, ...]:
    """Every division that has something to say; the rule is `side_by_side`'s, and it is silent on too little."""
    settings = _settings(knowledge)

    def heat(dot: OwnDot) -> str:
        return "" if dot.temperature_c is None else settings[_step(dot.temperature_c)]

    ways: tuple[tuple[str, Callable[[OwnDot], str]], ...] = (
        ("cut", lambda d: d.form.casefold()),
        ("pretreatment", lambda d: d.pretreatment.casefold()),
        ("temperature", heat),
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


def _settings(knowledge: YieldKnowledge) -> dict[int, str]:
    """The mean setting of the batches of each step, as digits."""
    steps: dict[int, list[float]] = defaultdict(list)
    for dot in knowledge.dots:
        if dot.temperature_c is not None:
            steps[_step(dot.temperature_c)].append(dot.temperature_c)
    return {step: f"{sum(settings) / len(settings):.1f}" for step, settings in steps.items()}


def _step(temperature_c: float) -> int:
    return round(temperature_c / STEP_C)
