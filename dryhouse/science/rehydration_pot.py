"""The water of a whole pot, ingredient by ingredient, and the minutes that go with it.

    water = Σ what each ingredient takes up + loose liquid of the style + what boils off

Dried food takes up its published share, at most what it lost (`rehydration`); a staple takes up its own figure; the
loose liquid is a share of the food as it comes back, by style (none when dry, a little for stew, more for soup);
boil-off is a rate for the pot's surface times the minutes over the flame. What cooking notes taught corrects the
sum.
The assumptions come in from outside with their names, and stand in the workings.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.rehydration import Correction, with_cups
from dryhouse.science.values import Basis, Fact, Figure, merge_bases
from dryhouse.science.workings import Step, about, step
from dryhouse.science.workings import StepKind as Kind


@dataclass(frozen=True, slots=True)
class Thirst:
    """What one ingredient takes up: its dry mass (g), the water (ml, with interval), and its minutes."""

    name: str
    grams: float
    water: Figure | None
    """None where nothing is published: no water is counted for it, and the workings say so."""
    soak_minutes: float = 0.0
    cook_minutes: float = 0.0


@dataclass(frozen=True, slots=True)
class Pot:
    """How the meal is cooked, every figure with its source.

    `style_liquid` is ml per gram of food as it comes back; `boil_off` ml per minute for this pot;
    `flame_minutes` how long it boils.
    """

    style: str
    style_liquid: Fact | None
    boil_off: Figure
    flame_minutes: float


def boil_off(diameter_mm: float, rate: Fact, assumed: str = "") -> Figure:
    """Boil-off in ml per minute from a pot's diameter: rate per cm² × the surface of a round pot.

    `assumed` says why the diameter was taken, where nobody entered one.
    """
    radius = diameter_mm / 20.0
    surface = math.pi * radius**2
    value = surface * rate.value
    return Figure(
        value,
        "ml/min",
        basis=(rate.basis,),
        workings=(
            step(
                Kind.BOIL_RATE_ASSUMED if assumed else Kind.BOIL_RATE,
                (value, "ml/min"),
                across=(diameter_mm, "mm"),
                surface=(surface, "cm2"),
                rate=(rate.value, "ml/min/cm2", rate.source),
                **({"why": assumed} if assumed else {}),
            ),
        ),
    )


def pot_water(parts: Sequence[Thirst], pot: Pot, meal: Correction | None = None) -> Figure:
    """The water to put in the pot, in ml (and cups), with its workings.

    The interval adds the ingredients' own ranges together (all low, all high): the cautious way.
    """
    lines: list[Step] = []
    value = low = high = back = 0.0
    for part in parts:
        if part.water is None:
            lines.append(step(Kind.NO_OWN_WATER, about=part.name, mass=(part.grams, "g")))
            back += part.grams
            continue
        own = part.water.value
        value += own
        low += own if part.water.low is None else part.water.low
        high += own if part.water.high is None else part.water.high
        back += part.grams + own
        lines.extend(about(part.name, part.water.workings))
    lines.append(step(Kind.WATER_TOGETHER, (value, "ml")))
    extra = 0.0
    if pot.style_liquid is not None:
        extra = pot.style_liquid.value * back
        lines.append(
            step(
                Kind.LOOSE_LIQUID,
                (extra, "ml"),
                style=pot.style,
                back=(back, "g"),
                each=(pot.style_liquid.value, "ml/g", pot.style_liquid.source),
            )
        )
    steam = pot.boil_off.value * pot.flame_minutes
    if pot.flame_minutes > 0:
        lines.extend(pot.boil_off.workings)
        minutes, rate = (pot.flame_minutes, "min"), (pot.boil_off.value, "ml/min")
        lines.append(step(Kind.BOIL_OFF, (steam, "ml"), minutes=minutes, rate=rate))
    added = extra + steam
    factor = 1.0 if meal is None else meal.factor
    before = value + added
    answer = before * factor
    if meal is not None:
        lines += [step(Kind.WATER_CALCULATED, (before, "ml")), meal.step(answer)]
    lines.append(step(Kind.WATER_FOR_POT, (answer, "ml")))
    spread = high - low > 1e-9
    return with_cups(
        Figure(
            answer,
            "ml",
            low=(low + added) * factor if spread else None,
            high=(high + added) * factor if spread else None,
            basis=_bases(parts, pot, meal),
            workings=tuple(lines),
        )
    )


def _bases(parts: Sequence[Thirst], pot: Pot, meal: Correction | None) -> tuple[Basis, ...]:
    return merge_bases(
        () if meal is None else (meal.basis,),
        *(part.water.basis for part in parts if part.water is not None),
        () if pot.style_liquid is None else (_style_basis(pot.style, pot.style_liquid),),
        pot.boil_off.basis if pot.flame_minutes > 0 else (),
    )


def _style_basis(style: str, liquid: Fact) -> Basis:
    return Basis("assumption", said=message(Told.STYLE_LIQUID, style=style, rule=liquid.source))
