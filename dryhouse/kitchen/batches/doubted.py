"""A finished batch whose weights can't be true is asked about before it is recorded, with the likeliest reason."""

from __future__ import annotations

from dryhouse.kitchen.batches.loads import load_for
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.settings import style
from dryhouse.science.display import Style
from dryhouse.science.dryness import adds_up
from dryhouse.science.moisture import Load
from dryhouse.words.verdicts import is_cooked, too_light_sentence

_HARDLY = 0.95
"""Two scales may tell as little as this share apart."""
_FLUFFED = 1.5
"""Loosely heaped, dried food may fill a little more than it did packed fresh."""


def doubted_weights(kitchen: Kitchen, draft: BatchDraft, notation: Style | None = None) -> str:
    """What is asked of the weights of this draft before it is kept, in her own notation or in this one; nothing
    where they add up, by the verdict's own rule. A batch that is heavier than it was loaded is not asked about: it
    is refused. One that is heavier than its ingredients is: water may have gone into the pot with them."""
    batch, dried, ours = draft.batch, draft.batch.dried_mass, notation or style(kitchen)
    load = load_for(kitchen, batch, draft.parts, food=find_food(kitchen, batch.food))
    if load is not None and dried is not None and 0 < dried.si < load.grams and not adds_up(load, dried.si):
        return too_light_sentence(load, dried.si, ours)
    return _above_its_parts(draft, ours) or _swapped(batch, load, ours)


def _above_its_parts(draft: BatchDraft, ours: Style) -> str:
    """What is asked where a mix, whose load was not weighed, is no lighter dried than what went into it."""
    batch, dried = draft.batch, draft.batch.dried_mass
    whole = sum(part.mass.si for part in draft.parts)
    if batch.prepared_mass or batch.cooked_mass_out or dried is None or not 0 < whole <= dried.si:
        return ""
    return (
        f"{ours.mass(dried.si)} dried is not less than the {ours.mass(whole)} of its ingredients. Was a jar or "
        "tray weighed along, or is an ingredient missing?"
    )


def _swapped(batch: Batch, load: Load | None, ours: Style) -> str:
    """What is asked where less was bought than loaded, though nothing was cooked, or drying made it fill more."""
    bought, loaded = batch.purchased_mass, batch.prepared_mass
    cooked = batch.cooked_mass_out is not None or (load is not None and is_cooked(load))
    raw = batch.made_from == "fresh" and not cooked
    if raw and bought is not None and loaded is not None and bought.si < loaded.si * _HARDLY:
        less, more = ours.mass(bought.si), ours.mass(loaded.si)
        return f"{less} bought is less than the {more} loaded. Are the two swapped?"
    before, after = batch.prepared_volume, batch.dried_volume
    if before is not None and after is not None and after.si > before.si * _FLUFFED:
        more, less = ours.volume(after.si), ours.volume(before.si)
        return f"{more} dried is more than the {less} loaded. Are the two swapped?"
    return ""
