"""A finished batch whose weights can't be true is asked about before it is recorded, with the likeliest reason."""

from __future__ import annotations

from dryhouse.kitchen.batches.loads import load_for
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.settings import style
from dryhouse.science.display import Style
from dryhouse.science.dryness import adds_up
from dryhouse.words.verdicts import too_light_sentence


def doubted_weights(kitchen: Kitchen, draft: BatchDraft, notation: Style | None = None) -> str:
    """What is asked of the weights of this draft before it is kept, in her own notation or in this one; nothing
    where they add up, by the verdict's own rule. A batch that is heavier than it was loaded is not asked about: it
    is refused."""
    batch, dried = draft.batch, draft.batch.dried_mass
    load = load_for(kitchen, batch, draft.parts, food=find_food(kitchen, batch.food))
    if load is None or dried is None or not 0 < dried.si < load.grams or adds_up(load, dried.si):
        return ""
    return too_light_sentence(load, dried.si, notation or style(kitchen))
