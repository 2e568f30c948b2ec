"""What a batch was loaded with, as the mass balance needs it: grams on the trays and the dry matter in them."""

from __future__ import annotations

from dataclasses import replace

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods import food as find_food
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.kitchen.room import Kitchen
from dryhouse.science.errors import InputProblem
from dryhouse.science.moisture import Ingredient, Load, load_of
from dryhouse.science.values import Fact

OWN_START = "starting moisture entered for this batch"


def starting_moisture(food: Food, batch: Batch) -> Fact | None:
    """Moisture (% wet basis) of a single food as it went on the trays: entered for the batch, or followed
    through the cooking where the weights before and after are recorded, or the food's own figure."""
    if batch.start_moisture_pct is not None:
        return Fact(batch.start_moisture_pct, "%", OWN_START, "entered")
    water = food.fact("water")
    raw, cooked = batch.cooked_mass_in, batch.cooked_mass_out
    if water is None or raw is None or cooked is None:
        return water
    lost = batch.drained_fat.si if batch.drained_fat else 0.0
    ends = [_after_cooking(raw.si, cooked.si, lost, m) for m in (water.value, water.low, water.high)]
    if ends[0] is None:
        return water
    source = f"{water.source}; carried through cooking, {raw.si:.0f} g in and {cooked.si:.0f} g out"
    return replace(water, value=ends[0], low=ends[1], high=ends[2], source=source, how="computed")


def _after_cooking(raw: float, cooked: float, fat: float, moisture: float | None) -> float | None:
    """Dry matter goes through the pot unchanged, less the fat that was poured off."""
    if moisture is None:
        return None
    after = 100.0 * (1.0 - (raw * (1.0 - moisture / 100.0) - fat) / cooked)
    return after if 0.0 < after < 100.0 else None


def load_of_batch(
    kitchen: Kitchen, batch: Batch, food: Food | None = None, *, grams: float | None = None
) -> Load | None:
    """The load of a batch, or None where its mass or its moisture is not known.

    `grams` stands in for the prepared mass: the first weighing, or the start mass of a sample tray. In a
    mix the solids of the parts add up, whatever water was cooked off before loading.
    """
    food = food or find_food(kitchen, batch.food)
    mass = grams if grams is not None else (batch.prepared_mass.si if batch.prepared_mass else None)
    parts = kitchen.journal.where(BatchPart, batch=batch.id) if batch.id else ()
    if parts and batch.start_moisture_pct is None:
        return _mix(kitchen, parts, mass, batch)
    water = starting_moisture(food, batch)
    if mass is None or water is None:
        return None
    return load_of([Ingredient(food.name, mass, water)])


def _mix(kitchen: Kitchen, parts: tuple[BatchPart, ...], grams: float | None, batch: Batch) -> Load | None:
    ingredients = []
    for part in sorted(parts, key=lambda p: p.position):
        known = _known(kitchen, part.food)
        water = known.fact("water") if known else None
        if part.moisture_pct is not None:
            water = Fact(part.moisture_pct, "%", "moisture entered for this ingredient", "entered")
        if water is None:
            return None
        ingredients.append(Ingredient(known.name if known else part.food, part.mass.si, water))
    whole = load_of(ingredients)
    loaded = batch.prepared_mass.si if batch.prepared_mass else whole.grams
    if loaded < whole.solids:
        return None
    share = (grams if grams is not None else loaded) / loaded
    if share == 1.0 and loaded == whole.grams:
        return whole
    line = f"On the trays: {loaded * share:.1f} g, holding {whole.solids * share:.1f} g of that dry matter"
    return Load(
        loaded * share,
        whole.solids * share,
        whole.solids_low * share,
        whole.solids_high * share,
        whole.ingredients,
        (*whole.workings, line),
    )


def _known(kitchen: Kitchen, slug: str) -> Food | None:
    try:
        return find_food(kitchen, slug)
    except InputProblem:
        return None
