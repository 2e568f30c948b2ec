"""What goes into each bag, and from where."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.holds import NOTHING, Holds
from dryhouse.kitchen.meals.ingredients import DRIED
from dryhouse.kitchen.meals.lines import PartSheet
from dryhouse.kitchen.meals.sheet import cooking_line
from dryhouse.kitchen.meals.shelf_keys import part_key
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.trips.bag_cautions import bag_cautions
from dryhouse.kitchen.trips.bag_holds import bag_holds
from dryhouse.kitchen.trips.lots import TripLot
from dryhouse.kitchen.trips.sheet import Eaten, TripSheet
from dryhouse.science.display import Style
from dryhouse.science.provisioning import Cover
from dryhouse.science.values import Caution, Figure
from dryhouse.words import bags as words

_ROUNDING_G = 0.5


@dataclass(frozen=True, slots=True)
class Packed:
    """One ingredient in a bag, and where it comes from."""

    name: str
    grams: float | None
    ml: float | None
    source: str
    water: Figure | None
    """What it takes up in the pot, loose liquid and steam not counted."""


@dataclass(frozen=True, slots=True)
class Bag:
    """One meal bag on the packing list, with what its label says."""

    day: date
    slot: str
    meal: int
    name: str
    servings: float
    water: Figure | None
    """None where a stop says that what is in it must not be eaten; so are the minutes, and `cooking` is empty. None
    too where it needs no water."""
    soak_minutes: float | None
    cook_minutes: float | None
    cooking: str
    """Soak and cook, in words."""
    parts: tuple[Packed, ...]
    cautions: tuple[Caution, ...] = ()
    """By the lots it draws on, on the trip."""
    holds: Holds = NOTHING
    forbidden: bool = False
    """Not to be eaten as it would be packed."""
    to_weigh: str = ""
    """What has to be weighed before its water is known."""

    @property
    def inside(self) -> tuple[str, ...]:
        """Its ingredients and allergens, as its label says them."""
        held = self.holds
        if not held.ingredients:
            return ()
        return words.ingredients(held.ingredients), words.contains(held.allergens, held.labels, held.unknown)

    def pot(self, notation: Style) -> str:
        """`2½ cups of water, soak 20 min, simmer 8 min`; of what must not be eaten, that."""
        if self.forbidden:
            return "do not eat"
        water = self.to_weigh if self.water is None else f"{notation.figure(self.water)} of water"
        cooking = f"{self.cooking[:1].lower()}{self.cooking[1:]}"
        return ", ".join(filter(None, (water, cooking)))


def packing_list(
    kitchen: Kitchen, sheet: TripSheet, covered: Cover, lots: Sequence[TripLot], bought: Collection[str] = ()
) -> tuple[Bag, ...]:
    """Every bag in the order it is eaten, with where each ingredient comes from; `bought` are foods she buys
    dried."""
    names, notation = {t.number: t.name for t in lots}, style(kitchen)
    bags = []
    for day in sheet.days:
        for eaten in day.meals:
            cautions = bag_cautions(kitchen, sheet.trip, covered, eaten)
            forbidden = any(c.forbids_eating for c in cautions)
            lacking = eaten.sheet.unweighed
            parts = []
            for line in eaten.sheet.parts:
                source = _source(line, covered, eaten, names, bought, notation)
                parts.append(Packed(line.part.name, line.grams, line.ml, source, None if forbidden else line.water))
            minutes = eaten.sheet.minutes
            bags.append(
                Bag(
                    day.day,
                    eaten.placed.slot,
                    eaten.placed.meal,
                    eaten.sheet.meal.name,
                    eaten.sheet.servings,
                    eaten.sheet.bag.water if eaten.sheet.needs_water and not (forbidden or lacking) else None,
                    minutes.soak.value if eaten.sheet.needs_pot and not forbidden else None,
                    minutes.cook.value if eaten.sheet.needs_pot and not forbidden else None,
                    "" if forbidden else cooking_line(eaten.sheet, cautions),
                    tuple(parts),
                    cautions,
                    bag_holds(kitchen, covered, eaten),
                    forbidden,
                    eaten.sheet.weigh,
                )
            )
    return tuple(bags)


def _source(
    line: PartSheet,
    covered: Cover,
    eaten: Eaten,
    names: Mapping[int, str],
    bought: Collection[str],
    notation: Style,
) -> str:
    """Where an ingredient comes from: the lots it is drawn from, and what is still to be dried or bought; with
    amounts where there is more than one."""
    mine = (eaten.placed.id, part_key(line.part))
    drawn = [d for d in covered.draws if (d.need.bag, d.need.food) == mine]
    got = sum(d.grams for d in drawn)
    if len(drawn) == 1 and line.grams is not None and got >= line.grams - _ROUNDING_G:
        return names[drawn[0].lot]
    said = [f"{notation.mass(d.grams)} of {names[d.lot]}" for d in drawn]
    if line.ingredient.kind != DRIED:
        rest = line.grams is None or got < line.grams - _ROUNDING_G
        more = f"{notation.mass(line.grams - got)} bought" if drawn and line.grams is not None else "bought"
        return ", ".join([*said, more] if rest else said)
    if line.grams is not None and got < line.grams - _ROUNDING_G:
        how = "to be bought dried" if line.part.food in bought else "to be dried"
        said.append(f"{notation.mass(line.grams - got)} {how}" if drawn else how)
    return ", ".join(said)
