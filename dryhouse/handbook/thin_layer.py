"""Published thin-layer drying constants, k in hours, and what they lead one to expect of a food."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from dryhouse.handbook.activation import activation_of
from dryhouse.handbook.reading import read
from dryhouse.science.forecast.answer import Prior
from dryhouse.science.forecast.priors import PageRun, prior_from_published
from dryhouse.science.values import Basis, merge_bases

COLUMNS = (
    "food", "name", "form", "thickness_mm", "temperature_c", "model", "k_per_h", "n", "a", "b_per_h", "c",
    "r2", "sse", "points", "series", "source", "how", "note",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class ThinLayer:
    """One row: a model's constants for a food (slug, empty where it is none of ours) at a temperature."""

    food: str
    name: str
    form: str
    temperature_c: float | None
    model: str
    k: float
    n: float | None
    a: float | None
    b: float | None
    c: float | None
    series: str
    basis: Basis
    note: str


@cache
def thin_layers() -> tuple[ThinLayer, ...]:
    """Every row of the table."""
    found = []
    for row in read("thin_layer", COLUMNS):
        fact = row.fact("k_per_h", "1/h")
        assert fact is not None
        found.append(
            ThinLayer(
                food=row.text("food"),
                name=row.text("name"),
                form=row.text("form"),
                temperature_c=row.number("temperature_c"),
                model=row.text("model"),
                k=fact.value,
                n=row.number("n"),
                a=row.number("a"),
                b=row.number("b_per_h"),
                c=row.number("c"),
                series=row.text("series"),
                basis=fact.basis,
                note=row.text("note"),
            )
        )
    return tuple(found)


def published_prior(food: str, temperature_c: float | None = None) -> Prior | None:
    """What the published Page (or Lewis, n = 1) constants of this food lead one to expect; None without any.

    Of one series Page is preferred to Lewis. Constants at another temperature are moved by the activation energy.
    """
    rows: dict[str, ThinLayer] = {}
    for row in thin_layers():
        if row.food != food or row.model not in ("Page", "Lewis"):
            continue
        key = row.series or f"{row.basis.source} {row.temperature_c}"
        if key not in rows or (row.model == "Page" and rows[key].model != "Page"):
            rows[key] = row
    if not rows:
        return None
    energy = activation_of(food)
    runs = [PageRun(r.k, r.n or 1.0, r.temperature_c) for r in rows.values()]
    n = sum(r.n for r in runs) / len(runs)
    log_rate = sum(r.log_rate for r in runs) / len(runs)
    known = [r.temperature_c for r in runs if r.temperature_c is not None]
    middle = sum(known) / len(known) if known else None
    bases = merge_bases([r.basis for r in rows.values()])
    source = "; ".join(b.source for b in bases)
    together = PageRun(math.exp(log_rate * n), n, middle)
    return prior_from_published(together, temperature_c, energy, Basis("handbook", source), studies=len(runs))
