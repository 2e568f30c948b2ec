"""What is known of a food, gathered once for all that is typed of it; and the amount shown where none was typed."""

from __future__ import annotations

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.cautions.cautions import food_cautions
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.yields.knowledge import YieldKnowledge, learn
from dryhouse.kitchen.yields.yields import FRESH
from dryhouse.science.display import METRIC
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.units import SIZES
from dryhouse.science.values import Caution


class Learned:
    """What the records and the handbook say of each food asked about, until it is forgotten."""

    def __init__(self, kitchen: Kitchen) -> None:
        self._kitchen = kitchen
        self._known: dict[tuple[str, str, str], tuple[YieldKnowledge, tuple[Caution, ...]]] = {}

    def of(self, food: Food, form: str, pretreatment: str) -> tuple[YieldKnowledge, tuple[Caution, ...]]:
        """The yield of a food in this form, and its cautions. Empty words: any form, any pretreatment."""
        key = (food.slug, form, pretreatment)
        if key not in self._known:
            known = learn(self._kitchen, food, form, pretreatment)
            self._known[key] = known, food_cautions(self._kitchen, food)
        return self._known[key]

    def forget(self) -> None:
        """Records or figures changed: everything is gathered anew."""
        self._known.clear()


def everyday_amount(known: YieldKnowledge, direction: str, system: str) -> Mass | Volume:
    """An amount to show where none was typed: a cup where its weight is known, else a pound; a kilogram."""
    if system == METRIC:
        return Mass(SIZES["kg"], "1 kg")
    if (known.fresh if direction == FRESH else known.dried) is not None:
        return Volume(SIZES["cup"], "1 cup")
    return Mass(SIZES["lb"], "1 lb")
