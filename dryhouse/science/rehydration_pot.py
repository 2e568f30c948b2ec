"""The water of a whole pot, ingredient by ingredient, and the minutes that go with it.

    water = Σ what each ingredient takes up + loose liquid of the style + what boils off

Dried food takes up what it lost (`rehydration`); a staple takes up its own figure; the loose liquid is a
share of the food as it comes back, by style (none when dry, a little for stew, more for soup); boil-off is
a rate for the pot's surface times the minutes over the flame. What cooking notes taught corrects the sum.
The assumptions come in from outside with their names, and stand in the workings.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from dryhouse.science import rehydration
from dryhouse.science.units import cups
from dryhouse.science.values import Basis, Fact, Figure, merge_bases
from dryhouse.science.workings import Step


@dataclass(frozen=True, slots=True)
class Thirst:
    """What one ingredient takes up: its dry mass (g), the water (ml, with interval), and its minutes."""

    name: str
    grams: float
    water: Figure | None
    """None where nothing is published: no water is reckoned for it, and the workings say so."""
    soak_minutes: float = 0.0
    cook_minutes: float = 0.0
    correction: Correction | None = None
    """What notes on this food in other pots taught."""


@dataclass(frozen=True, slots=True)
class Taught:
    """One thing a note taught: the log of water that would have been right over water reckoned."""

    log_ratio: float
    told: str


@dataclass(frozen=True, slots=True)
class Correction:
    """A shrunken mean of what n notes taught, as a factor on the reckoned water."""

    factor: float
    n: int
    prior: float
    what: str = "this meal"

    @property
    def line(self) -> str:
        """The correction in a line of workings, with n."""
        return (
            f"Corrected by cooking notes on {self.what}, n={self.n}: × {self.factor:.3f} "
            f"(the reckoned figure counts as {self.prior:g} more)"
        )


def taught_by(came_back: str, used_ml: float | None, reckoned_ml: float, step_pct: float) -> Taught | None:
    """What one note says of the water: right as used, or a step less (soupy) or more (hard) than used.

    Where the water used was not noted, the reckoned water is taken to have been used. None where the note
    does not say how it came back.
    """
    steps = {"right": 0.0, "soupy": math.log1p(-step_pct / 100.0), "hard": math.log1p(step_pct / 100.0)}
    if came_back not in steps or reckoned_ml <= 0 or (used_ml is not None and used_ml <= 0):
        return None
    used = reckoned_ml if used_ml is None else used_ml
    return Taught(
        math.log(used / reckoned_ml) + steps[came_back],
        f"{used:.0f} ml used against {reckoned_ml:.0f} ml reckoned, came back {came_back}",
    )


def correction(taught: Iterable[Taught], prior: float, what: str = "this meal") -> Correction | None:
    """The factor that notes put on the water: Σ log ratios ÷ (n + prior), back from the log.

    `prior` is how many notes the reckoned figure itself is worth. None without notes.
    """
    known = tuple(taught)
    if not known:
        return None
    return Correction(math.exp(sum(t.log_ratio for t in known) / (len(known) + prior)), len(known), prior, what)


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


def boil_off(diameter_mm: float, rate: Fact, where: str = "") -> Figure:
    """Boil-off in ml per minute from a pot's diameter: rate per cm² × the surface of a round pot."""
    radius = diameter_mm / 20.0
    surface = math.pi * radius**2
    value = surface * rate.value
    return Figure(
        value,
        "ml/min",
        basis=(rate.basis,),
        workings=(
            f"Pot {diameter_mm / 10:.0f} cm across{where}: {surface:.0f} cm² × {rate.value:g} ml per min and cm² "
            f"= {value:.1f} ml/min   [{rate.source}]",
        ),
    )


def pot_water(parts: Sequence[Thirst], pot: Pot, meal: Correction | None = None) -> Figure:
    """The water to put in the pot, in ml (and cups), with its workings.

    The interval adds the ingredients' own ranges together (all low, all high): the cautious way.
    """
    lines: list[Step | str] = []
    value = low = high = back = 0.0
    for part in parts:
        if part.water is None:
            lines.append(f"{part.name}: {part.grams:.0f} g, no water of its own reckoned")
            back += part.grams
            continue
        factor = 1.0 if part.correction is None else part.correction.factor
        own = part.water.value * factor
        value += own
        low += factor * (part.water.value if part.water.low is None else part.water.low)
        high += factor * (part.water.value if part.water.high is None else part.water.high)
        back += part.grams + own
        lines.extend(f"{part.name}: {line}" for line in part.water.workings)
        if part.correction is not None:
            lines.append(f"{part.name}: {part.correction.line} → {own:.0f} ml")
    lines.append(f"Taken up together: {value:.0f} ml")
    extra = 0.0
    if pot.style_liquid is not None:
        extra = pot.style_liquid.value * back
        lines.append(
            f"{pot.style.capitalize()}: {back:.0f} g as it comes back × {pot.style_liquid.value:g} ml per g = "
            f"{extra:.0f} ml loose liquid   [{pot.style_liquid.source}]"
        )
    steam = pot.boil_off.value * pot.flame_minutes
    if pot.flame_minutes > 0:
        lines.extend(pot.boil_off.workings)
        lines.append(f"Boil-off: {pot.flame_minutes:.0f} min × {pot.boil_off.value:.1f} ml/min = {steam:.0f} ml")
    added = extra + steam
    factor = 1.0 if meal is None else meal.factor
    before = value + added
    if meal is not None:
        lines.append(f"Reckoned {before:.0f} ml. {meal.line}")
    answer = before * factor
    lines.append(f"Water for the pot: {answer:.0f} ml = {cups(answer):.2f} cups")
    spread = high - low > 1e-9
    return in_cups(
        Figure(
            answer,
            "ml",
            low=(low + added) * factor if spread else None,
            high=(high + added) * factor if spread else None,
            basis=_bases(parts, pot, meal),
            workings=tuple(lines),
        )
    )


def in_cups(figure: Figure) -> Figure:
    """A volume in ml with the same in US cups beside it."""
    return replace(figure, measure=rehydration.in_cups(figure.value, figure.low, figure.high))


def _bases(parts: Sequence[Thirst], pot: Pot, meal: Correction | None) -> tuple[Basis, ...]:
    taught = [c for c in (meal, *(p.correction for p in parts if p.water is not None)) if c is not None]
    return merge_bases(
        [Basis("own", f"cooking notes on {c.what}", c.n) for c in taught],
        *(part.water.basis for part in parts if part.water is not None),
        () if pot.style_liquid is None else (Basis("assumption", f"{pot.style}: {pot.style_liquid.source}"),),
        pot.boil_off.basis if pot.flame_minutes > 0 else (),
    )
