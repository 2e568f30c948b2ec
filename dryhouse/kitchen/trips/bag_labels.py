"""The labels of a trip's meal bags: what it is, for whom and when, water and minutes, cautions."""

from __future__ import annotations

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.sheet import cooking_line
from dryhouse.kitchen.shelf.labels import Label
from dryhouse.kitchen.trips.bag_cautions import bag_cautions
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.kitchen.trips.sheet import Eaten
from dryhouse.science.display import Style
from dryhouse.words.dates import weekday_words


def bag_labels(kitchen: Kitchen, plan: Plan, style: Style) -> tuple[Label, ...]:
    """One label for each bag, in the order the bags are eaten."""
    return tuple(_label(kitchen, plan, eaten, style) for day in plan.sheet.days for eaten in day.meals)


def _label(kitchen: Kitchen, plan: Plan, eaten: Eaten, style: Style) -> Label:
    sheet, on = eaten.sheet, eaten.placed.on
    energy = sheet.serving.energy
    gives = "" if energy is None else f" · {energy.value:.0f} kcal each"
    cautions = bag_cautions(kitchen, plan.trip, plan.cover, eaten)
    forbidden = any(c.forbids_eating for c in cautions)
    pot = () if forbidden else (f"Water {style.volume(sheet.bag.water.value)}", cooking_line(sheet, cautions))
    lines = (
        f"{weekday_words(on)}, {eaten.placed.slot}",
        f"For {style.number(sheet.servings)} · {style.mass(sheet.bag.dry_mass.value)} dry{gives}",
        *pot,
    )
    name = sheet.meal.name
    return Label(name[:1].upper() + name[1:], lines, cautions, "pot")
