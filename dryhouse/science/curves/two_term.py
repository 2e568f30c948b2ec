"""Two-term: MR = a exp(-k0 t) + b exp(-k1 t), a quick and a slow part, neither below nothing.

Ill-conditioned with few weighings; a run that starts slowly makes it fall together with Henderson–Pabis."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from dryhouse.science.curves.model import Array, Model, Parameter, Searched
from dryhouse.science.curves.separable import MULTIPLES, Shapes, decays, one_decay, separated


def curve(t: Array, p: Array) -> Array:
    """MR at time t (h)."""
    return np.asarray(p[..., 0:1] * np.exp(-p[..., 1:2] * t) + p[..., 2:3] * np.exp(-p[..., 3:4] * t))


def both(t: Array, p: Array) -> tuple[Array, Array]:
    """MR and its slopes by a, k0, b and k1."""
    a, k0, b, k1 = p.tolist()
    quick, slow = np.exp(-k0 * t), np.exp(-k1 * t)
    first, second = a * quick, b * slow
    return first + second, np.array([quick, -t * first, slow, -t * second])


def search(t: Array, mr: Array, k: float, n: float, simpler: Sequence[float] = ()) -> Searched:
    """The two rates alone are searched, from the best pair of a grid: a and b follow from them.

    Where the best single exponential (`simpler`: its a and k) leaves nothing that a further one could fit, there is
    no better pair, and it is given as two alike: the optimality condition of a mixture (Lindsay 1983).
    """
    low, high = math.log(MODEL.parameters[1].low), math.log(MODEL.parameters[1].high)
    if simpler:
        size, rate = simpler
    else:
        one = one_decay(t, mr, math.log(k) / n, (0.0, 3.0), (low, high))
        size, rate = one.amplitudes[0], math.exp(one.searched[0])
    with np.errstate(all="ignore"):
        rates = np.concatenate(([MODEL.low[1]], rate * MULTIPLES, [MODEL.high[1]]))
        past = np.exp(-rates[:, None] * t)
        left = mr - size * np.exp(-rate * t)
        sse = float(left @ left)
        if float((past @ left).max()) <= NOTHING_LEFT * math.sqrt(sse):
            return np.array([0.5 * size, rate, 0.5 * size, rate]), sse, True, 0
        pairs = _best_pairs(past, mr)
    best, rounds = None, 0
    for quick, slow, about in pairs:
        if best is not None and about > best.sse:
            break
        found = separated(_both(t), mr, [math.log(rates[quick]), math.log(rates[slow])], (0.0, 3.0) * 2, low, high)
        best, rounds = found if best is None or found.sse < best.sse else best, rounds + found.rounds
    assert best is not None
    a, b = best.amplitudes
    first, second = np.exp(best.searched).tolist()
    return np.array([a, first, b, second]), best.sse, best.settled, rounds


NOTHING_LEFT = 1e-6
"""What is left and an exponential of any rate point the same way by less than this: none would be taken."""
_QUICK, _SLOW = np.tril_indices(len(MULTIPLES) + 2, -1)
_INSIDE = (_SLOW > 0) & (len(MULTIPLES) >= _QUICK)


def _best_pairs(past: Array, mr: Array) -> list[tuple[int, int, float]]:
    """The pairs of rates that fit best inside the grid, and with one at an end of it: as places in the grid, with
    the sums of squares that they leave."""
    gram, seen = past @ past.T, past @ mr
    own = gram.diagonal()
    g00, g11, g01, c0, c1 = own[_QUICK], own[_SLOW], gram[_QUICK, _SLOW], seen[_QUICK], seen[_SLOW]
    apart = g00 * g11 - g01 * g01
    a, b = (c0 * g11 - c1 * g01) / apart, (c1 * g00 - c0 * g01) / apart
    fits = a * c0 + b * c1
    fits = np.where((a >= 0) & (b >= 0) & (a <= 3) & (b <= 3) & np.isfinite(fits), fits, -np.inf)
    whole = float(mr @ mr)
    best = (int(np.where(among, fits, -np.inf).argmax()) for among in (_INSIDE, ~_INSIDE))
    return [(int(_QUICK[i]), int(_SLOW[i]), whole - float(fits[i])) for i in best]


def _both(t: Array) -> Shapes:
    def shapes(q: list[float], rows: Array) -> None:
        decays(q, t, rows[:2], rows[2:4], rows[4:6])

    return shapes


MODEL = Model(
    "two-term",
    "MR = a exp(-k0 t) + b exp(-k1 t)",
    (
        Parameter("a", "", 0.0, 3.0),
        Parameter("k0", "1/h", 1e-6, 1e4),
        Parameter("b", "", 0.0, 3.0),
        Parameter("k1", "1/h", 1e-6, 1e4),
    ),
    curve,
    both,
    None,
    "Henderson 1974; equation as listed in Sci. Rep. 15 (2025) s41598-025-29436-x, Table 3",
    needs=10,
    search=search,
)
