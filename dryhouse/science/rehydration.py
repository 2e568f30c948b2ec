"""Water that brings dried food back: what it takes up again, and never more than what left on the tray.

Dried food takes up less than it lost. A dried mass d takes up d × u, with u published in grams of water for a gram
dried. The mass balance sets the upper end: with a yield r (dried ÷ prepared, by mass) d (1/r − 1) grams left in
drying, and no more goes back. A milliliter of water is taken as a gram (0.998 g at 20 °C; common practice).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.units import cups
from dryhouse.science.values import Basis, Fact, Figure, Measure, merge_bases
from dryhouse.science.workings import Step, Term, step
from dryhouse.science.workings import StepKind as Kind


@dataclass(frozen=True, slots=True)
class Correction:
    """A shrunken mean of what n notes taught, as a factor on the reckoned water."""

    factor: float
    n: int
    prior: float
    what: str = "this meal"

    @property
    def basis(self) -> Basis:
        """The notes it rests on."""
        return Basis("own", n=self.n, said=message(Told.COOKING_NOTES, what=self.what))

    def step(self, water_ml: float) -> Step:
        """The correction of so much water, with n."""
        terms = (Term("what", self.what), Term("n", self.n), Term("factor", self.factor), Term("prior", self.prior))
        return Step(Kind.WATER_CORRECTED, terms, Term("result", water_ml, "ml"))


def taught_by(came_back: str, used_ml: float | None, reckoned_ml: float, step_pct: float) -> float | None:
    """What one note teaches: the log of the water that would have been right over the water reckoned.

    That is the water used where it came back right, and a step less (soupy) or more (hard) than used else.
    Where the water used was not noted, the reckoned water is taken to have been used. None where the note does
    not say how it came back.
    """
    steps = {"right": 0.0, "soupy": math.log1p(-step_pct / 100.0), "hard": math.log1p(step_pct / 100.0)}
    if came_back not in steps or reckoned_ml <= 0 or (used_ml is not None and used_ml <= 0):
        return None
    used = reckoned_ml if used_ml is None else used_ml
    return math.log(used / reckoned_ml) + steps[came_back]


def correction(taught: Iterable[float], prior: float, what: str = "this meal") -> Correction | None:
    """The factor that notes put on the water: Σ log ratios ÷ (n + prior), back from the log.

    `prior` is how many notes the reckoned figure itself is worth. None without notes.
    """
    known = tuple(taught)
    if not known:
        return None
    return Correction(math.exp(sum(known) / (len(known) + prior)), len(known), prior, what)


@dataclass(frozen=True, slots=True)
class TakesUp:
    """What is known of the water one dried food, or one jar of it, takes up."""

    uptake: Fact | None
    """Grams of water for a gram dried, with low and high; None where nothing is published."""
    ratio: Figure | None
    """Dried ÷ prepared by mass, with its interval; None where it is not known."""
    correction: Correction | None = None
    """What cooking notes on this food taught."""

    def water(self, dried_g: float) -> Figure | None:
        """Milliliters that `dried_g` grams take up: by the published uptake and the notes, at most what was lost.

        Where no uptake is published it is all that was lost. None where neither is known.
        """
        lost = None if self.ratio is None else lost_water(dried_g, self.ratio)
        reckoned = lost if self.uptake is None else taken_up(dried_g, self.uptake)
        if reckoned is None:
            return None
        if self.correction is not None:
            reckoned = _corrected(reckoned, self.correction)
        return with_cups(reckoned if lost is None else _at_most(reckoned, lost))


def _corrected(water: Figure, notes: Correction) -> Figure:
    value = water.value * notes.factor
    return replace(
        water,
        value=value,
        low=None if water.low is None else water.low * notes.factor,
        high=None if water.high is None else water.high * notes.factor,
        basis=merge_bases([notes.basis], water.basis),
        workings=(*water.workings, notes.step(value)),
    )


def taken_up(dried_g: float, uptake: Fact) -> Figure:
    """Milliliters that `dried_g` grams take up by a published figure (g/g), with its range."""
    value = dried_g * uptake.value
    each = (uptake.value, "g/g", f"{uptake.source}{f'; {uptake.note}' if uptake.note else ''}")
    line = step(Kind.WATER_TAKEN_UP, (value, "ml"), dried=(dried_g, "g"), each=each, density=(1.0, "g/ml"))
    return Figure(
        value,
        "ml",
        low=None if uptake.low is None else dried_g * uptake.low,
        high=None if uptake.high is None else dried_g * uptake.high,
        basis=(uptake.basis,),
        workings=(line,),
    )


def lost_water(dried_g: float, ratio: Figure) -> Figure:
    """Milliliters that `dried_g` grams lost in drying: what would bring them back to the moisture loaded at.

    `ratio` is the yield dried ÷ prepared by mass, a fraction with its interval and basis.
    """
    value, (low, high) = _lost(dried_g, ratio.value), (None, None)
    if ratio.low is not None and ratio.high is not None:
        low, high = _lost(dried_g, ratio.high), _lost(dried_g, ratio.low)
    fresh = dried_g / ratio.value
    return Figure(
        value,
        "ml",
        low=low,
        high=high,
        measure=in_cups(value, low, high),
        basis=ratio.basis,
        workings=(
            *ratio.workings,
            step(Kind.FRESH_WEIGHED, (fresh, "g"), dried=(dried_g, "g"), ratio=ratio.value),
            step(
                Kind.WATER_LOST,
                (value, "ml"),
                fresh=(fresh, "g"),
                dried=(dried_g, "g"),
                lost=(fresh - dried_g, "g"),
                density=(1.0, "g/ml"),
            ),
        ),
    )


def _lost(dried_g: float, ratio: float) -> float:
    return max(dried_g * (1.0 / ratio - 1.0), 0.0)


def _at_most(taken: Figure, lost: Figure) -> Figure:
    """The water reckoned, cut at what was lost: the ends of its interval at the ends of what may have been lost."""
    least, most = (lost.value if end is None else end for end in (lost.low, lost.high))
    value = min(taken.value, lost.value)
    low = None if taken.low is None else min(taken.low, least)
    high = None if taken.high is None else min(taken.high, most)
    capped = taken.value > lost.value
    return replace(
        taken,
        value=value,
        low=low,
        high=high,
        basis=merge_bases(taken.basis, lost.basis),
        workings=(
            *(() if taken.workings[: len(lost.workings)] == lost.workings else lost.workings),
            *taken.workings,
            *((step(Kind.NO_MORE_THAN_LOST, (value, "ml")),) if capped else ()),
        ),
    )


def in_cups(ml: float, low: float | None = None, high: float | None = None) -> Measure:
    """A volume (ml) and its interval in US cups."""
    return Measure(cups(ml), "cup", None if low is None else cups(low), None if high is None else cups(high))


def with_cups(figure: Figure) -> Figure:
    """A volume in ml with the same in US cups beside it."""
    return replace(figure, measure=in_cups(figure.value, figure.low, figure.high))
