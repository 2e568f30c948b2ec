"""All six drying curve models on 40 weighings, against a general-purpose fitting library at equal residual.

Run: python tests/benchmarks/curve_fitting_speed.py        (prints one table; needs lmfit)

Ours is `fit_all`: six fits, their statistics, standard errors and warnings, and the choice. Theirs is six calls
of lmfit's Model.fit from plain starts, which gives the same parameters, errors and residual sums.
"""

from __future__ import annotations

import time
import warnings
from collections.abc import Callable

import numpy as np

from dryhouse.science.curves import fit_all

PLAIN = {
    "Lewis": (lambda x, k: np.exp(-k * x), {"k": 0.1}),
    "Page": (lambda x, k, n: np.exp(-k * x**n), {"k": 0.1, "n": 1}),
    "Henderson–Pabis": (lambda x, a, k: a * np.exp(-k * x), {"a": 1, "k": 0.1}),
    "logarithmic": (lambda x, a, k, c: a * np.exp(-k * x) + c, {"a": 1, "k": 0.1, "c": 0}),
    "Midilli–Kucuk": (
        lambda x, a, k, n, b: a * np.exp(-k * x**n) + b * x,
        {"a": 1, "k": 0.1, "n": 1, "b": 0},
    ),
    "two-term": (
        lambda x, a, k0, b, k1: a * np.exp(-k0 * x) + b * np.exp(-k1 * x),
        {"a": 0.5, "k0": 0.5, "b": 0.5, "k1": 0.1},
    ),
}


def main() -> None:
    """Median times over 40 rounds on three kinds of run, and how the residual sums compare."""
    import lmfit

    warnings.simplefilter("ignore")
    rng = np.random.default_rng(4)
    t = np.linspace(0.0, 10.0, 40)
    runs = {
        "two parts": 0.55 * np.exp(-0.6 * t) + 0.45 * np.exp(-0.2 * t**1.1),
        "Page": np.exp(-0.25 * t**1.1),
        "slow tail": np.exp(-0.5 * t**0.8),
    }
    print(f"{'run':12s}{'ours ms':>10s}{'lmfit ms':>10s}{'ratio':>8s}   largest SSE ours/lmfit")
    for name, clean in runs.items():
        mr = clean + rng.normal(0, 0.004, t.size)

        def theirs(mr: np.ndarray = mr) -> list[object]:
            return [lmfit.Model(formula).fit(mr, x=t, **start) for formula, start in PLAIN.values()]

        worst = max(f.sse / g.chisqr for f, g in zip(fit_all(t, mr).fits, theirs(), strict=True))
        ours_s, theirs_s = median_time(lambda mr=mr: fit_all(t, mr)), median_time(theirs)
        print(f"{name:12s}{1e3 * ours_s:10.2f}{1e3 * theirs_s:10.2f}{theirs_s / ours_s:8.1f}   {worst:.9f}")


def median_time(act: Callable[[], object], rounds: int = 40) -> float:
    """Seconds, the middle of `rounds`."""
    times = []
    for _ in range(rounds):
        began = time.perf_counter()
        act()
        times.append(time.perf_counter() - began)
    return float(np.median(times))


if __name__ == "__main__":
    main()
