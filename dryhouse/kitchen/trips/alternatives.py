"""What would help where a plan cannot be met: fewer bags, another dryer, or buying dried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.trips.plan_items import Item
from dryhouse.kitchen.trips.sheet import TripSheet
from dryhouse.science.drying_calendar import Calendar, Machine, calendar
from dryhouse.science.provisioning import Recipe, ToDry


def alternatives(
    kitchen: Kitchen,
    sheet: TripSheet,
    items: Sequence[Item],
    batches: Sequence[tuple[ToDry, Recipe]],
    machines: Sequence[Machine],
    made: Calendar,
    ready_by: datetime,
) -> tuple[str, ...]:
    """What could give where something does not fit: fewer bags, another dryer, buy dried; why, first."""
    if not made.left_over:
        return ()
    said, notation = [], style(kitchen)
    for item in items:
        if item.left_over <= 0:
            continue
        recipe = next(r for b, r in batches if b.food == item.food)
        why = _why(item, recipe, machines, past=ready_by <= kitchen.now())
        said.append(
            f"{item.name}: {notation.mass(item.left_over)} dried of {notation.mass(item.dried.value)} "
            f"cannot be ready: {why}"
        )
        bags = [e for d in sheet.days for e in d.meals if any(p.part.food == item.food for p in e.sheet.parts)]
        each = max((p.grams or 0.0 for e in bags for p in e.sheet.parts if p.part.food == item.food), default=0.0)
        if each > 0:
            fewer = min(len(bags), -int(-item.left_over // each))
            said.append(f"Fewer bags: leave out {fewer} of the {len(bags)} bags with {item.name}.")
        said.append(f"Buy dried: {notation.mass(item.left_over)} of dried {item.name}.")
    biggest = max(machines, key=lambda m: m.trays, default=None)
    if biggest is not None:
        extra = replace(biggest, id=-1, name=f"a second {biggest.name}")
        lent = [
            (b, replace(r, tray_grams={**r.tray_grams, -1: r.tray_grams[biggest.id]}))
            for b, r in batches
            if biggest.id in r.tray_grams
        ]
        retry = calendar(lent, (*machines, extra), now=kitchen.now(), ready_by=ready_by)
        rest, before = sum(retry.left_over.values()), sum(made.left_over.values())
        if len(lent) == len(batches) and rest < before - 0.5:
            enough = "everything fits" if rest <= 0 else f"{notation.mass(before - rest)} more fit"
            said.append(f"Another dryer: with a second one like {biggest.name}, {enough}.")
    return tuple(said)


def _why(item: Item, recipe: Recipe, machines: Sequence[Machine], *, past: bool) -> str:
    if past:
        return "the day before departure is past"
    if recipe.fresh_per_dried is None:
        return "its yield is not known yet"
    if recipe.hours is None:
        return "its drying hours are not known yet"
    if not machines:
        return "no dryer is recorded"
    if not recipe.tray_grams:
        return "no dryer has its tray area recorded"
    condition = f" and {recipe.conditioning_days} days of conditioning" if recipe.conditioning_days else ""
    return f"the dryers have no {recipe.hours.high:.0f} h{condition} left before departure"
