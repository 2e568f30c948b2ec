"""All six drying curve models on 40 weighings, against a general-purpose fitting library at equal residual.

Run: python tests/benchmarks/curve_fitting_speed.py        (prints one table; needs lmfit)
"""

from __future__ import annotations

import time
import warnings

import numpy as np

from dryhouse.science.curves import MODELS, fit_all
from dryhouse.science.curves.fitting import fit


def main() -> None:
    """Median time of each over 30 rounds on one run, and the ratio of the two residual sums."""
    import lmfit

    warnings.simplefilter("ignore")
    rng = np.random.default_rng(4)
    t = np.linspace(0.0, 10.0, 40)
    mr = 0.55 * np.exp(-0.6 * t) + 0.45 * np.exp(-0.2 * t**1.1) + rng.normal(0, 0.004, t.size)
    total_ours = total_theirs = 0.0
    print(f"{'model':18s}{'ours ms':>10s}{'lmfit ms':>10s}{'ratio':>8s}{'SSE ours/lmfit':>16s}")
    for model in MODELS:
        general = lmfit.Model(
            lambda x, m=model, **p: m.curve(x, np.array(list(p.values()))), independent_vars=["x"]
        )
        parameters = lmfit.Parameters()
        for parameter, start in zip(model.parameters, model.starts(t, mr)[0], strict=True):
            parameters.add(parameter.name, value=float(start), min=parameter.low, max=parameter.high)
        ours = median_time(lambda m=model: fit(m, t, mr))
        theirs = median_time(lambda g=general, p=parameters: g.fit(mr, p, x=t))
        ratio = fit(model, t, mr).sse / general.fit(mr, parameters, x=t).chisqr
        total_ours, total_theirs = total_ours + ours, total_theirs + theirs
        print(f"{model.name:18s}{1e3 * ours:10.2f}{1e3 * theirs:10.2f}{theirs / ours:8.1f}{ratio:16.9f}")
    together = median_time(lambda: fit_all(t, mr))
    print(
        f"{'all six':18s}{1e3 * together:10.2f}{1e3 * total_theirs:10.2f}{total_theirs / together:8.1f}"
        "   (ours with choice, statistics and warnings)"
    )


def median_time(act: object, rounds: int = 30) -> float:
    """Seconds, the middle of `rounds`."""
    times = []
    for _ in range(rounds):
        began = time.perf_counter()
        act()  # type: ignore[operator]
        times.append(time.perf_counter() - began)
    return float(np.median(times))


if __name__ == "__main__":
    main()
