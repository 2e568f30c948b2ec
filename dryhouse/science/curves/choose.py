"""Fitting every model a run carries and choosing one, or saying in a sentence why not.

A model with one or two parameters wants 5 weighings, one with three 8, one with four 10, t = 0 among them
(a working rule drawn from the lengths of published runs). The choice is the smallest AICc.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from dryhouse.science.curves.fitting import fit
from dryhouse.science.curves.model import Array, page_line
from dryhouse.science.curves.models import MODELS
from dryhouse.science.curves.result import CurveSet, Fit

FEWEST = 3
"""With fewer weighings than this not even a single rate is fitted."""
FLAT = 0.03
"""A run that lost less than this share of its free water shows no curve yet."""


def fit_all(hours: ArrayLike, mr: ArrayLike) -> CurveSet:
    """All models on one run. `hours` from the first weighing, ascending; `mr` moisture ratios, about 1 at first.

    With 3 or 4 weighings only Lewis is fitted, and Page beside it from 4. Raises ValueError where the two
    differ in length, or a value is not finite, or times do not ascend.
    """
    t, y = np.asarray(hours, dtype=float), np.asarray(mr, dtype=float)
    if t.shape != y.shape or t.ndim != 1:
        raise ValueError("hours and moisture ratios are two lists of one length")
    if not (np.all(np.isfinite(t)) and np.all(np.isfinite(y))) or np.any(np.diff(t) <= 0):
        raise ValueError("times ascend, and every value is a number")
    said = _unfit(t, y)
    warnings = about_weighings(t, y)
    if said:
        return CurveSet(tuple(t.tolist()), tuple(y.tolist()), (), None, said, warnings)
    n = len(t)
    line = page_line(t, y)
    fits: tuple[Fit, ...] = ()
    for m in MODELS:
        if n >= m.needs or (n < 5 and m.name in _SHORT[n]):
            beat = min((f.sse for f in fits if m.name in CONTAINED_IN.get(f.name, ())), default=None)
            fits = (*fits, fit(m, t, y, line, beat))
    chosen, sentence = _choose(fits, n)
    return CurveSet(tuple(t.tolist()), tuple(y.tolist()), fits, chosen, sentence, warnings)


CONTAINED_IN = {
    "Page": ("Midilli–Kucuk",),
    "Henderson–Pabis": ("logarithmic", "two-term"),
}
"""Models that hold another as a special case, and so can never fit worse."""
_SHORT = {3: ("Lewis",), 4: ("Lewis", "Page")}


def for_forecasting(curves: CurveSet) -> Fit | None:
    """The best fit that may be read past the last weighing, or None."""
    sound = [f for f in curves.fits if not any("past the last" in w or "between the" in w for w in f.warnings)]
    return min(sound, key=lambda f: f.aicc, default=None)


def _choose(fits: tuple[Fit, ...], n: int) -> tuple[Fit, str]:
    chosen = fits[0] if n < 5 else min(fits, key=lambda f: f.aicc)
    if n < 5:
        return chosen, f"{n} weighings carry no more than the simplest curve, Lewis; five would carry Page."
    left_out = len(MODELS) - len(fits)
    why = f"{chosen.name} has the smallest AICc of the {len(fits)} models that {n} weighings carry"
    return chosen, why + (f"; {left_out} with more parameters were left out." if left_out else ".")


def _unfit(t: Array, y: Array) -> str:
    n = len(t)
    if n < FEWEST:
        count = {0: "No weighings", 1: "One weighing", 2: "Two weighings"}[n]
        return f"{count}: a curve wants at least {FEWEST}, and 5 to choose between models."
    fell = float(y[0] - y.min())
    if float(y[-1]) > float(y[0]) + 0.005:
        return "The load weighs more at the end than at the beginning: no drying curve goes through that."
    if fell < FLAT:
        return "The weight has hardly moved yet: there is no curve to draw."
    return ""


def about_weighings(t: Array, y: Array) -> tuple[str, ...]:
    """What is odd about the weighings themselves: rises, water below nothing."""
    said = []
    rises = np.diff(y)
    up = np.flatnonzero(rises > 1e-9)
    if len(up):
        worst = up[np.argmax(rises[up])]
        said.append(
            f"The weight rises {len(up)} time{'s' if len(up) > 1 else ''}, most between "
            f"{t[worst]:.2f} h and {t[worst + 1]:.2f} h (MR by {rises[worst]:.3f}): a scale reading, "
            "a swapped tray or food added?"
        )
    if np.any(y < -0.005):
        said.append("Some weighings lie below the dry matter: the starting moisture or the tare is not right.")
    return tuple(said)
