"""How much is said at once: stops always, then what matters at this moment, and the rest one step away."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from dryhouse.science.values import Caution, Moment, gravest_first

AT_A_LOOK_UP, OF_A_PLANT, OF_ANIMAL_FOOD = 2, 1, 3
"""How many cautions below a stop are said in full: of a figure that is looked up, of a batch of plants, of a batch
of animal food. Our own choice: what is always shown in full is no longer read."""


def most_for(kinds: Collection[str]) -> int:
    """How many cautions below a stop are said in full of a batch, a lot or a meal of these kinds of food."""
    return OF_ANIMAL_FOOD if "animal" in kinds else OF_A_PLANT


def most_while_drying(cautions: Iterable[Caution], kinds: Collection[str]) -> int:
    """The same of a load that is planned or on the dryer: of plants only a warning of this moment is said in full,
    for jar and pot are not yet."""
    if "animal" in kinds:
        return OF_ANIMAL_FOOD
    return min(OF_A_PLANT, sum(c.severity == "warn" and c.moment == "now" for c in cautions))


def unfolded(
    cautions: Iterable[Caution], most: int, moment: Moment = "now"
) -> tuple[tuple[Caution, ...], tuple[Caution, ...]]:
    """What is said in full and what waits behind a count, together every caution once.

    Every stop is in the first. Below the stops come the warnings of this moment, then those of the other moments,
    then notes of this moment, up to `most` in all; a note of another moment waits.
    """
    ordered = gravest_first(cautions)
    below = [c for c in ordered if c.severity != "stop" and (c.severity == "warn" or c.moment == moment)]
    below.sort(key=lambda c: (c.severity != "warn", c.moment != moment))
    chosen = below[: max(most, 0)]
    shown = tuple(c for c in ordered if c.severity == "stop" or c in chosen)
    return shown, tuple(c for c in ordered if c not in shown)
