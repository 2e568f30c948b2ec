"""The labels of a trip's meal bags: what it is, for whom and when, water and minutes, what is in it, cautions."""

from __future__ import annotations

from dryhouse.kitchen.shelf.labels import Label
from dryhouse.kitchen.trips.lists import Bag
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.kitchen.trips.sheet import Eaten
from dryhouse.science.display import Style, calories
from dryhouse.words.dates import weekday_words
from dryhouse.words.sums import at_least


def bag_labels(plan: Plan, style: Style) -> tuple[Label, ...]:
    """One label for each bag, in the order the bags are eaten."""
    eaten = (eaten for day in plan.sheet.days for eaten in day.meals)
    return tuple(_label(bag, one, style) for bag, one in zip(plan.bags, eaten, strict=True))


def _label(bag: Bag, eaten: Eaten, style: Style) -> Label:
    sheet = eaten.sheet
    energy = sheet.serving.energy
    kcal = "" if energy is None else f"{calories(energy.value)} kcal"
    gives = "" if energy is None else f" · {at_least(kcal, sheet.serving.without('energy'))} each"
    water = () if bag.water is None else (f"Water {style.figure(bag.water)}",)
    pot = () if bag.forbidden else (*water, bag.cooking)
    lines = (
        f"{weekday_words(bag.day)}, {bag.slot}",
        f"For {style.number(bag.servings)} · {style.mass(sheet.bag.dry_mass.value)} dry{gives}",
        *pot,
        *bag.inside,
    )
    return Label(bag.name[:1].upper() + bag.name[1:], lines, bag.cautions, "pot")
