"""The labels of a trip's meal bags: what it is, for whom and when, water and minutes, cautions."""

from __future__ import annotations

from dataclasses import replace

from dryhouse.kitchen.cautions.cautions import meal_cautions
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.sheet import cooking_line
from dryhouse.kitchen.records import MealPart
from dryhouse.kitchen.shelf.labels import Label
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.kitchen.trips.sheet import Eaten, altitude_of
from dryhouse.science.display import Style
from dryhouse.science.values import Caution


def bag_labels(kitchen: Kitchen, plan: Plan, style: Style) -> tuple[Label, ...]:
    """One label for each bag, in the order the bags are eaten."""
    return tuple(_label(kitchen, plan, eaten, style) for day in plan.sheet.days for eaten in day.meals)


def bag_cautions(kitchen: Kitchen, plan: Plan, eaten: Eaten) -> tuple[Caution, ...]:
    """The cautions of a bag from the very lots it draws on; what is still to be dried has nothing recorded."""
    parts: list[MealPart] = []
    for line in eaten.sheet.parts:
        drawn = [d for d in plan.cover.draws if (d.need.bag, d.need.food) == (eaten.placed.id, line.part.food)]
        parts += [replace(line.part, lot=d.lot) for d in drawn if d.lot > 0]
        given = sum(d.grams for d in drawn if d.lot > 0)
        if not drawn or line.grams is None or given < line.grams - 0.5:
            parts.append(replace(line.part, lot=None))
    soak = eaten.sheet.minutes.soak.value
    return meal_cautions(kitchen, eaten.sheet.meal, parts, soak_minutes=soak, altitude_m=altitude_of(plan.trip))


def _label(kitchen: Kitchen, plan: Plan, eaten: Eaten, style: Style) -> Label:
    sheet, on = eaten.sheet, eaten.placed.on
    energy = sheet.serving.energy
    gives = "" if energy is None else f" · {energy.value:.0f} kcal each"
    lines = (
        f"{on:%a} {on.day} {on:%b}, {eaten.placed.slot}",
        f"For {style.number(sheet.servings)} · {style.mass(sheet.bag.dry_mass.value)} dry{gives}",
        f"Water {style.volume(sheet.bag.water.value)}",
        cooking_line(sheet),
    )
    name = sheet.meal.name
    return Label(name[:1].upper() + name[1:], lines, bag_cautions(kitchen, plan, eaten))
