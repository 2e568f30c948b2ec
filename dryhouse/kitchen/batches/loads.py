"""What a batch was loaded with, as the mass balance needs it: grams on the trays and the dry matter in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dryhouse.handbook.tables import Food
from dryhouse.handbook.yield_spread import water_with_range
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.foods.taught import water_by_level, water_by_test
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.moisture import Load, LoadPart, load_of, typed_moisture
from dryhouse.science.values import Fact
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step
from dryhouse.words.verdicts import dry_already_sentence

OWN_START = "starting moisture entered for this batch"
OWN_TESTED = "starting moisture tested for this batch"
OWN_TARGET = "target moisture entered for this batch"


def starting_moisture(food: Food, batch: Batch) -> Fact | None:
    """Moisture (% wet basis) of a food as it went on the trays: by its dry-matter test, or entered for the batch,
    or followed through the cooking where the weights before and after are recorded, or the food's own figure.

    A food whose published figures are already of the cooked food needs no carrying."""
    if (by_test := water_by_test(batch, food.fact("water"))) is not None:
        return by_test
    if batch.start_moisture_pct is not None:
        tested = bool(batch.start_moisture_tested)
        return typed_moisture(batch.start_moisture_pct, OWN_TESTED if tested else OWN_START, tested=tested)
    water = _water_doubted(food)
    raw, cooked = batch.cooked_mass_in, batch.cooked_mass_out
    if water is None or raw is None or cooked is None or published_cooked(food):
        return water
    lost = poured_off(batch)
    after = _after_cooking(raw.si, cooked.si, lost, water.value)
    if after is None:
        return water
    ends = [_after_cooking(raw.si, cooked.si, lost, m) for m in (water.low, water.high)]
    fat = f", {lost:.0f} g of fat poured off" if lost else ""
    source = (
        f"{water.source}; carried through cooking, {raw.si:.0f} g in and {cooked.si:.0f} g out{fat}; "
        "liquid that was drained counts as water"
    )
    return replace(water, value=after, low=ends[0], high=ends[1], source=source, how="computed")


def published_cooked(food: Food) -> bool:
    """Whether the figures published of this food are of the food cooked, as the handbook names such foods."""
    return "cooked" in food.name


def poured_off(batch: Batch) -> float:
    """Grams of fat that left with the cooking: dry matter that never saw the trays."""
    return batch.drained_fat.si if batch.drained_fat is not None else 0.0


def _after_cooking(raw: float, cooked: float, fat: float, moisture: float | None) -> float | None:
    """Dry matter goes through the pot unchanged, less the fat that was poured off."""
    if moisture is None:
        return None
    after = 100.0 * (1.0 - (raw * (1.0 - moisture / 100.0) - fat) / cooked)
    return after if 0.0 < after < 100.0 else None


def loaded_grams(food: Food, batch: Batch) -> float | None:
    """Grams on the trays: weighed, or what came out of the pot; None where neither was recorded."""
    weighed = batch.prepared_mass or batch.cooked_mass_out
    return weighed.si if weighed is not None and weighed.si > 0 else None


def target_for(kitchen: Kitchen, batch: Batch, food: Food | None = None) -> Fact | None:
    """The moisture to dry to (% wet basis): entered for the batch, or the food's own; None where unknown."""
    if batch.target_moisture_pct is not None:
        return Fact(batch.target_moisture_pct, "%", OWN_TARGET, "entered")
    return (food or find_food(kitchen, batch.food)).fact("target_moisture")


def keeping_target(kitchen: Kitchen, batch: Batch, food: Food | None = None) -> Fact | None:
    """The moisture it must be dried to before it keeps: the drier of her own target and the published one."""
    own = target_for(kitchen, batch, food)
    known = kitchen.handbook.foods.get(batch.food)
    published = known.fact("target_moisture") if known is not None else None
    if own is None or published is None:
        return own or published
    return min(own, published, key=lambda fact: fact.value)


def load_for(
    kitchen: Kitchen,
    batch: Batch,
    parts: Sequence[BatchPart] = (),
    *,
    grams: float | None = None,
    food: Food | None = None,
) -> Load | None:
    """The load of a batch with these ingredients, or None where its mass or its moisture is not known.

    `food` spares looking it up again. `grams` stands in for the mass on the trays: the first weighing, or the
    start mass of a sample tray. In a mix the solids of the parts add up, whatever water was cooked off before
    loading.
    """
    food = food or find_food(kitchen, batch.food)
    mass = grams if grams is not None else loaded_grams(food, batch)
    by_level = None
    if batch.settled and batch.test_dry is None and not batch.start_moisture_tested:
        by_level = water_by_level(kitchen, batch)
    if parts and batch.start_moisture_pct is None and batch.test_dry is None and by_level is None:
        return _mix(kitchen, batch, parts, mass)
    water = by_level or starting_moisture(food, batch)
    if mass is None or water is None:
        return None
    tested = batch.test_dry is not None or bool(batch.start_moisture_tested)
    return replace(load_of([LoadPart(food.name, mass, water)]), tested=tested)


def _mix(kitchen: Kitchen, batch: Batch, parts: Sequence[BatchPart], grams: float | None) -> Load | None:
    ingredients = []
    for part in sorted(parts, key=lambda p: p.position):
        name, water = _water_of(kitchen, part)
        if water is None:
            return None
        ingredients.append(LoadPart(name, part.mass.si, water))
    whole = _without_fat(load_of(ingredients), poured_off(batch))
    weighed = batch.prepared_mass or batch.cooked_mass_out
    loaded = weighed.si if weighed is not None else whole.grams
    if whole.solids <= 0 or loaded < whole.solids:
        return None
    mass = loaded if grams is None else grams
    if mass == whole.grams:
        return whole
    share = mass / loaded
    line = step(Kind.ON_THE_TRAYS, (whole.solids * share, "g"), mass=(mass, "g"))
    return replace(
        whole,
        grams=mass,
        solids=whole.solids * share,
        solids_low=whole.solids_low * share,
        solids_high=whole.solids_high * share,
        workings=(*whole.workings, line),
    )


def _without_fat(load: Load, fat: float) -> Load:
    if not fat:
        return load
    line = step(Kind.FAT_POURED_OFF, (load.solids - fat, "g"), before=(load.solids, "g"), fat=(fat, "g"))
    return replace(
        load,
        grams=load.grams - fat,
        solids=load.solids - fat,
        solids_low=load.solids_low - fat,
        solids_high=load.solids_high - fat,
        workings=(*load.workings, line),
    )


def _water_of(kitchen: Kitchen, part: BatchPart) -> tuple[str, Fact | None]:
    try:
        known = find_food(kitchen, part.food)
    except InputProblem:
        return part.food, None
    if part.moisture_pct is not None:
        return known.name, typed_moisture(part.moisture_pct, "moisture entered for this ingredient")
    return known.name, _water_doubted(known)


def _water_doubted(food: Food) -> Fact | None:
    """The water of the raw food (% wet basis) with its range; one entered by hand is doubted as any typed one."""
    water = food.fact("water")
    if water is None:
        return None
    ranged = water_with_range(food, water)
    if ranged.low is not None or ranged.how != "entered":
        return ranged
    typed = typed_moisture(ranged.value, ranged.source)
    return replace(ranged, low=typed.low, high=typed.high)


def dry_already(food: Food, style: Style) -> str:
    """That a food comes as dry as it would be dried, or may, in a sentence; nothing where it is moister."""
    water, target = _water_doubted(food), food.fact("target_moisture")
    if water is None or target is None:
        return ""
    return dry_already_sentence(load_of([LoadPart(food.name, 100.0, water)]), target, style)


def missing_for(
    kitchen: Kitchen, batch: Batch, parts: Sequence[BatchPart] = (), food: Food | None = None
) -> tuple[str, ...]:
    """What, if it were recorded, would tell more about this batch: a sentence each."""
    food = food or find_food(kitchen, batch.food)
    said = []
    if loaded_grams(food, batch) is None and not parts:
        said.append("Enter what was loaded to see the target weight and the yield.")
    strangers = [name for name, water in (_water_of(kitchen, p) for p in parts) if water is None]
    if batch.start_moisture_pct is None and strangers:
        said.append(f"Enter the moisture of {', '.join(strangers)}; without it the dry matter is not known.")
    elif batch.start_moisture_pct is None and not parts and food.fact("water") is None:
        said.append(f"No starting moisture is known for {food.name}; enter one to see moisture and target weight.")
    if target_for(kitchen, batch, food) is None:
        said.append(f"No target moisture is known for {food.name}; enter one to see when it is dry enough.")
    return tuple(said)
