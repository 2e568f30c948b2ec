"""What is in a bag, by the very lots it draws on."""

from __future__ import annotations

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.holds import Holds, held, holds
from dryhouse.kitchen.trips.sheet import Eaten
from dryhouse.science.provisioning import Cover


def bag_holds(kitchen: Kitchen, cover: Cover, eaten: Eaten) -> Holds:
    """The ingredients, allergens and unknowns of a bag."""
    found = []
    for line in eaten.sheet.parts:
        mine = (eaten.placed.id, line.part.food)
        lots = [d.lot for d in cover.draws if (d.need.bag, d.need.food) == mine and d.lot > 0]
        found.append((held(kitchen, line.ingredient, lots), line.grams))
    return holds(found)
