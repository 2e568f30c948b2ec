"""What is left of a lot after what was drawn, and what a weighing of it found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from dryhouse.kitchen.records import Lot, LotCheck, LotDraw
from dryhouse.kitchen.records.lots import THROWN_OUT
from dryhouse.science.display import US, Style
from dryhouse.science.units import SIZES


@dataclass(frozen=True, slots=True)
class Left:
    """What is left: grams and millilitres, None where not known. `gone` says how the last of it went."""

    mass_g: float | None
    volume_ml: float | None
    gone: str = ""


def left_of(
    lot: Lot, draws: Sequence[LotDraw], checks: Sequence[LotCheck], on: date, ml_per_g: float | None = None
) -> Left:
    """What is left at the end of a day. A check that weighed the lot counts from its day on; of what was taken that
    day only what is known to have been taken after it goes off.

    Volume goes with mass; where only the mass is known, `ml_per_g` (of the dried food) gives the volume.
    """
    if not draws and not checks:
        mass = lot.mass.si if lot.mass else None
        return Left(mass, _volume(lot, mass, ml_per_g))
    mass = lot.mass.si if lot.mass else None
    weighed = [check for check in checks if check.mass is not None and check.on <= on]
    last = max(weighed, key=lambda c: (c.on, c.at.timestamp() if c.at else 0.0, c.id), default=None)
    if last is not None and last.mass is not None:
        mass = last.mass.si
    for draw in sorted(draws, key=lambda d: (d.on, d.id)):
        if draw.on > on:
            continue
        if draw.mass is None:
            return Left(0.0, 0.0, draw.purpose)
        if mass is not None and _after(draw, last):
            mass -= draw.mass.si
            if mass <= 0.05:
                return Left(0.0, 0.0, draw.purpose)
    return Left(mass, _volume(lot, mass, ml_per_g))


def _after(draw: LotDraw, weighed: LotCheck | None) -> bool:
    """Whether it was taken after the lot was weighed."""
    if weighed is None or draw.on != weighed.on:
        return weighed is None or draw.on > weighed.on
    return draw.at is not None and weighed.at is not None and draw.at > weighed.at


def _volume(lot: Lot, mass: float | None, ml_per_g: float | None) -> float | None:
    if lot.volume is not None:
        whole = lot.mass.si if lot.mass else None
        return lot.volume.si if mass is None or not whole else lot.volume.si * mass / whole
    return mass * ml_per_g if mass is not None and ml_per_g is not None else None


def amount_words(mass_g: float | None, volume_ml: float | None, style: Style) -> str:
    """What is left, by mass and by measure, as one would measure it: to an eighth of a cup, above two cups to a
    quarter. Empty where neither is known."""
    mass = style.mass(mass_g) if mass_g is not None else ""
    volume = ""
    if volume_ml is not None:
        cups = volume_ml / SIZES["cup"]
        step = 0.25 if cups > 2 else 0.125
        near = round(cups / step) * step * SIZES["cup"] if style.system == US and cups > step else volume_ml
        volume = style.volume(near)
    return " · ".join(filter(None, (mass, volume)))


def thrown_out(left: Left) -> bool:
    """Whether the last of it was thrown out."""
    return left.gone == THROWN_OUT
