"""Fitting every model a run carries and choosing one, or saying why not.

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
from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Told

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
            simpler = next((f for f in fits if m.name in CONTAINED_IN.get(f.name, ())), None)
            fits = (*fits, fit(m, t, y, line, simpler))
    chosen, why = _choose(fits, n)
    return CurveSet(tuple(t.tolist()), tuple(y.tolist()), fits, chosen, why, warnings)


CONTAINED_IN = {
    "Page": ("Midilli–Kucuk",),
    "Henderson–Pabis": ("logarithmic", "two-term"),
}
"""Models that hold another as a special case, and so can never fit worse."""
_SHORT = {3: ("Lewis",), 4: ("Lewis", "Page")}


def _choose(fits: tuple[Fit, ...], n: int) -> tuple[Fit, Message]:
    chosen = fits[0] if n < 5 else min(fits, key=lambda f: f.aicc)
    if n < 5:
        return chosen, message(Told.ONLY_LEWIS, n=n)
    left_out = len(MODELS) - len(fits)
    if not left_out:
        return chosen, message(Told.BEST_OF_MODELS, model=chosen.name, models=len(fits), n=n)
    return chosen, message(Told.BEST_OF_FEW_MODELS, model=chosen.name, models=len(fits), n=n, left_out=left_out)


def _unfit(t: Array, y: Array) -> Message | None:
    n = len(t)
    if n < FEWEST:
        return message(Told.TOO_FEW_TO_FIT if n else Told.NOTHING_TO_FIT, n=n, fewest=FEWEST)
    fell = float(y[0] - y.min())
    if float(y[-1]) > float(y[0]) + 0.005:
        return message(Told.LOAD_GREW)
    if fell < FLAT:
        return message(Told.FLAT_SO_FAR)
    return None


def about_weighings(t: Array, y: Array) -> tuple[Message, ...]:
    """What is odd about the weighings themselves: rises, water below nothing."""
    said = []
    rises = np.diff(y)
    up = np.flatnonzero(rises > 1e-9)
    if len(up):
        worst = up[np.argmax(rises[up])]
        said.append(
            message(
                Told.WEIGHT_RISES,
                times=len(up),
                since=(float(t[worst]), "h"),
                until=(float(t[worst + 1]), "h"),
                rise=float(rises[worst]),
            )
        )
    if np.any(y < -0.005):
        said.append(message(Told.BELOW_DRY_MATTER))
    return tuple(said)
