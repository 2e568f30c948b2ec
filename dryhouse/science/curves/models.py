"""The drying curve models, the simplest first. To add one: write its file and name it here."""

from __future__ import annotations

from dryhouse.science.curves import henderson_pabis, lewis, logarithmic, midilli_kucuk, page, two_term
from dryhouse.science.curves.model import Model

MODELS: tuple[Model, ...] = (
    lewis.MODEL,
    page.MODEL,
    henderson_pabis.MODEL,
    logarithmic.MODEL,
    midilli_kucuk.MODEL,
    two_term.MODEL,
)


def model(name: str) -> Model:
    """The model of that name. KeyError where there is none."""
    return {m.name: m for m in MODELS}[name]
