"""Runs made by laws of drying that the forecast does not hold, on a kitchen scale, to see whether its bands hold.

Page; constant rate to a sharp critical moisture and first order after it; a diffusing slab that shrinks (Crank's
series); two parallel parts; resistances in series; a level below zero water that stops short. Over each lies a
pace that wanders slowly (15 %), a cold start, 6 to 15 weighings to the gram on 200 to 1000 g, and an unknown
equilibrium moisture. Nothing here is a measurement.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

LAWS = ("Page", "critical", "slab", "two parts", "resistances", "stops short")


@dataclass(frozen=True)
class Made:
    """A made run: weighings, dry matter, target (% wet basis) and the hour it truly gets there."""

    law: str
    hours: np.ndarray
    grams: np.ndarray
    dry: float
    target_pct: float
    finish: float


def made_runs(count: int = 150, seed: int = 3) -> list[Made]:
    """That many runs, the same for the same seed."""
    rng = np.random.default_rng(seed)
    runs: list[Made] = []
    while len(runs) < count:
        run = _make(rng)
        if run is not None:
            runs.append(run)
    return runs


def _make(rng: np.random.Generator) -> Made | None:
    law = str(rng.choice(LAWS))
    hours = np.linspace(0.0, 30.0, 6001)
    half = float(np.exp(rng.normal(np.log(2.2), 0.5)))
    ratio = np.interp(paced(rng, hours, half), hours, law_of(rng, law, hours / half))
    wet = rng.uniform(0.68, 0.93)
    first = rng.uniform(200, 1000)
    dry, level = first * (1 - wet), rng.uniform(0.01, 0.08)
    mass = dry * (1 + level + (wet / (1 - wet) - level) * ratio)
    target = float(rng.choice([0.06, 0.08, 0.10, 0.12, 0.15, 0.18, 0.20]))
    aim = dry / (1 - target)
    if mass[-1] > aim or target / (1 - target) < level + 0.01:
        return None
    finish = float(np.interp(-aim, -mass, hours))
    count = int(rng.integers(6, 16))
    spread = np.concatenate(([0.0], rng.uniform(0.02, 1.15, count - 1)))
    times = np.sort(spread) if rng.random() < 0.5 else np.linspace(0.0, 1.1, count)
    times = np.unique(np.round(4 * finish * times, 1) / 4)
    grams = np.round(np.interp(times, hours, mass) * (1 + rng.normal(0, 0.0005, times.size)))
    return Made(law, times, grams, dry, 100 * target, finish)


def law_of(rng: np.random.Generator, law: str, t: np.ndarray) -> np.ndarray:
    """Moisture ratio against time in half-times."""
    if law == "Page":
        return np.exp(-np.log(2) * t ** rng.normal(1.05, 0.15))
    if law == "critical":
        c, u = rng.uniform(0.15, 0.9), t * rng.uniform(0.4, 0.6)
        return np.where(u < 1 - c, 1 - u, c * np.exp(-(u - (1 - c)) / c))
    if law == "slab":
        return _slab(t, rng.uniform(0.25, 1.0))
    if law == "two parts":
        share, ratio = rng.uniform(0.2, 0.8), rng.uniform(2, 6)
        return share * np.exp(-ratio * t) + (1 - share) * np.exp(-t)
    if law == "resistances":
        b, p, y = np.exp(rng.uniform(-1, 1.5)), rng.uniform(0.7, 1.3), np.linspace(1, 1e-4, 4000)
        time = (y ** (1 - p) - 1) / (p - 1) + b * (1 - y)
        return np.interp(t * np.interp(-0.5, -y, time), time, y)
    c = rng.uniform(0, 0.3)
    return np.maximum((1 + c) * np.exp(-0.5 * t) - c, 1e-4)


def _slab(t: np.ndarray, thickness_left: float) -> np.ndarray:
    """A slab drying from both faces, its thickness falling with its moisture to this share of the first."""
    n, fourier = 2 * np.arange(60) + 1, np.linspace(0, 6, 3000)
    ratio = (8 / np.pi**2 * np.exp(-np.outer(fourier, n**2 * np.pi**2 / 4)) / n**2).sum(axis=1)
    ratio[0] = 1.0
    thick = thickness_left + (1 - thickness_left) * ratio
    time = np.concatenate(([0], np.cumsum(np.diff(fourier) * ((thick[1:] + thick[:-1]) / 2) ** 2)))
    return np.interp(t * np.interp(-0.5, -ratio, time), time, ratio)


def paced(rng: np.random.Generator, hours: np.ndarray, half: float) -> np.ndarray:
    """The run's own time: a rate that wanders slowly and begins low while the food is cold."""
    bends = np.interp(hours / half, np.linspace(0, 14, 40), rng.normal(size=40))
    smooth = np.convolve(np.pad(bends, (100, 99), "edge"), np.ones(200) / 200, "valid")
    cold = 1 - rng.uniform(0, 0.6) * np.exp(-hours / (0.25 * half))
    rate = np.exp(0.15 * smooth - 0.011) * cold
    return np.concatenate(([0], np.cumsum((rate[1:] + rate[:-1]) / 2 * np.diff(hours))))
