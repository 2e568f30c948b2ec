"""What dried food holds per 100 g: by what its own batch weighed out, by its ingredients, else by what is known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from dryhouse.handbook.pot import pot
from dryhouse.handbook.staples import COMPOSITION, STAPLE, staples
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.loads import poured_off, published_cooked
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.science.nutrition import concentration, dried
from dryhouse.science.values import Fact, Figure


def dried_composition(
    kitchen: Kitchen, known: Food, batch: Batch | None, ratio: Figure | None
) -> Mapping[str, Fact]:
    """Composition per 100 g dried: from what the lot's own batch weighed out, else from the two published
    moistures (dry matter is conserved), else, where one of them is not known, from the estimated yield.

    A mix is the sum of its recorded ingredients. A batch whose weights would make more dry matter than
    there was is not believed.
    """
    mix = _mix_composition(kitchen, known, batch)
    if mix is not None:
        return mix
    water, target = known.fact("water"), known.fact("target_moisture")
    if batch is not None and batch.dried_mass is not None and batch.dried_mass.si > 0:
        raw = batch.prepared_mass if published_cooked(known) else batch.cooked_mass_in or batch.prepared_mass
        if raw is not None:
            factor = raw.si / batch.dried_mass.si
            if water is None or factor * (100.0 - water.value) <= 100.0:
                whole = dried(known.facts, factor, why=f"batch {batch.id}")
                return whole if published_cooked(known) else _without_fat(whole, batch)
    if water is not None and target is not None:
        return dried(known.facts, concentration(water.value, target.value), why="dry matter conserved")
    if ratio is not None and ratio.value > 0:
        return dried(known.facts, 1.0 / ratio.value, why="estimated yield")
    return {}


def _without_fat(per_100g: Mapping[str, Fact], batch: Batch) -> Mapping[str, Fact]:
    """The composition less the fat that was poured off before drying, and the energy in it.

    Where more was poured off than the food is published to hold, neither figure is believed, and both are missing.
    """
    assert batch.dried_mass is not None
    lost = 100.0 * poured_off(batch) / batch.dried_mass.si
    if not lost:
        return per_100g
    worth = pot("fat_energy")
    left = {"fat": lost, "energy": lost * worth.value}
    less = {
        name: replace(
            fact,
            value=fact.value - left[name],
            source=f"{fact.source}, less {poured_off(batch):.0f} g fat poured off",
        )
        for name, fact in per_100g.items()
        if name in left
    }
    kept = {name: fact for name, fact in per_100g.items() if name not in left}
    return kept | (less if all(fact.value >= 0 for fact in less.values()) else {})


def _fact(known: Food, name: str) -> Fact | None:
    """A figure of an ingredient as it went in: of a food, or of a staple as it stands in the cupboard."""
    bought = staples().get(known.slug) if STAPLE in known.traits else None
    return known.fact(name) if bought is None else bought.facts.get(name)


def _mix_composition(kitchen: Kitchen, known: Food, batch: Batch | None) -> Mapping[str, Fact] | None:
    """The composition of a mix per 100 g dried from its recorded ingredients, or None where it is no mix."""
    if batch is None and known.category == "mixed":
        made = [b for b in kitchen.journal.where(Batch, food=known.slug, state="finished") if b.dried_mass]
        batch = made[-1] if made else None
    if batch is None or batch.dried_mass is None or batch.dried_mass.si <= 0:
        return None
    parts = kitchen.journal.where(BatchPart, batch=batch.id)
    if not parts:
        return None
    foods = [(food(kitchen, p.food), p.mass.si) for p in parts]
    found: dict[str, Fact] = {}
    for name, unit in COMPOSITION.items():
        facts = [(_fact(f, name), grams) for f, grams in foods]
        if all(fact is not None for fact, _ in facts):
            amount = sum(fact.value * grams / 100.0 for fact, grams in facts if fact is not None)
            sources = "; ".join(dict.fromkeys(fact.source for fact, _ in facts if fact is not None))
            per_100g = amount * 100.0 / batch.dried_mass.si
            found[name] = Fact(per_100g, unit, f"ingredients of batch {batch.id} ({sources})", "computed")
    return _without_fat(found, batch)
