"""Which foods may share a dryer, by smell: practice, with no source. Heat is the food's own figure."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.reading import read
from dryhouse.handbook.tables import CATEGORIES, Food
from dryhouse.science.values import Fact


@cache
def sharing() -> Mapping[str, Fact]:
    """By food or category: the company it keeps, in `unit`; empty for what is dried alone. Practice, each."""
    found = {}
    for row in read("sharing", ("about", "company", "source", "note"), key=("about",)):
        about, source = row.text("about"), row.source()
        if about not in load_foods() and about not in CATEGORIES:
            raise row.fault(f"“{about}” is no food and no category")
        found[about] = Fact(0.0, row.text("company"), source.citation, row.how(), note=row.text("note"))
    return MappingProxyType(found)


def company_of(food: Food) -> str:
    """The foods it may share a dryer with, named together and by their heat: `onions at 60 °C`; empty where it is
    dried alone, as is food of which no drying temperature is known."""
    rule = sharing().get(food.slug) or sharing().get(food.category)
    heat = food.fact("drying_temperature")
    if rule is None or not rule.unit or heat is None:
        return ""
    return f"{rule.unit} at {heat.value:.0f} °C"
