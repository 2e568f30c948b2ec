"""What to buy and what goes into each bag."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import DRIED
from dryhouse.kitchen.meals.lines import PartSheet
from dryhouse.kitchen.meals.sheet import cooking_line
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.trips.bag_cautions import bag_cautions
from dryhouse.kitchen.trips.lots import TripLot
from dryhouse.kitchen.trips.plan_items import Item
from dryhouse.kitchen.trips.raw_amounts import before_cooking
from dryhouse.kitchen.trips.sheet import TripSheet
from dryhouse.science.provisioning import Cover
from dryhouse.science.values import Caution, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step


@dataclass(frozen=True, slots=True)
class Buy:
    """One line of the shopping list."""

    name: str
    amount: Figure | None
    note: str
    for_drying: bool
    cautions: tuple[Caution, ...] = ()
    """Of what is bought to be dried."""


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
    """None where a stop says that what is in it must not be eaten; so are the minutes, and `cooking` is empty."""
    soak_minutes: float | None
    cook_minutes: float | None
    cooking: str
    """Soak and cook, in words."""
    parts: tuple[Packed, ...]
    cautions: tuple[Caution, ...] = ()
    """By the lots it draws on, on the trip."""


def shopping_list(sheet: TripSheet, items: Sequence[Item]) -> tuple[Buy, ...]:
    """Fresh food to dry, then the bought ingredients of the meals.

    Two different things that the meals call alike are called as the handbook calls them.
    """
    lines = []
    for item in items:
        amount = item.purchased or _uncooked(item) or item.prepared
        lines.append(Buy(item.name, amount, _as_bought(item), True, item.cautions))
    bought: dict[str, list[PartSheet]] = {}
    for day in sheet.days:
        for eaten in day.meals:
            for line in eaten.sheet.parts:
                if line.ingredient.kind != DRIED:
                    bought.setdefault(line.part.staple or line.part.name, []).append(line)
    made = [_bought(parts) for parts in bought.values()]
    twice = {buy.name for buy in made if sum(other.name == buy.name for other in made) > 1}
    for buy, parts in zip(made, bought.values(), strict=True):
        staple = parts[0].ingredient.staple
        lines.append(replace(buy, name=staple.name) if buy.name in twice and staple is not None else buy)
    return tuple(lines)


def _as_bought(item: Item) -> str:
    if item.purchased is not None:
        return "as purchased"
    if _uncooked(item) is not None:
        return "raw or dry, to be cooked before it is dried"
    if "cooked" in item.name:
        return "weighed cooked; what it weighs before cooking is not known"
    return "prepared weight; no refuse figure is known"


def _uncooked(item: Item) -> Figure | None:
    """Raw or dry weight of food that is cooked before it is dried; else None."""
    return before_cooking(item.food, item.prepared, item.own_cooking) if "cooked" in item.name else None


def _bought(parts: Sequence[PartSheet]) -> Buy:
    """One bought thing over the whole trip, called as the meals call it, or as the handbook where they differ."""
    names = {line.part.name for line in parts}
    staple = parts[0].ingredient.staple
    name = names.pop() if len(names) == 1 or staple is None else staple.name
    weights, measures = [line.grams for line in parts], [line.ml for line in parts]
    if all(weight is None for weight in weights):
        return Buy(name, _summed(measures, "ml"), "by measure; its weight is not known", False)
    hole = "" if None not in weights else "some of it without a weight"
    return Buy(name, _summed(weights, "g"), hole, False)


def _summed(amounts: Sequence[float | None], unit: str) -> Figure | None:
    known = [amount for amount in amounts if amount is not None]
    if not known:
        return None
    total = sum(known)
    return Figure(total, unit, workings=(step(Kind.IN_BAGS, (total, unit), n=len(amounts)),))


def packing_list(kitchen: Kitchen, sheet: TripSheet, covered: Cover, lots: Sequence[TripLot]) -> tuple[Bag, ...]:
    """Every bag in the order it is eaten, with where each ingredient comes from."""
    names, notation = {t.number: t.name for t in lots}, style(kitchen)
    bags = []
    for day in sheet.days:
        for eaten in day.meals:
            cautions = bag_cautions(kitchen, sheet.trip, covered, eaten)
            forbidden = any(c.forbids_eating for c in cautions)
            parts = []
            for line in eaten.sheet.parts:
                source = "bought"
                if line.ingredient.kind == DRIED:
                    mine = (eaten.placed.id, line.part.food)
                    drawn = [d for d in covered.draws if (d.need.bag, d.need.food) == mine]
                    said = [f"{notation.mass(d.grams)} of {names[d.lot]}" for d in drawn]
                    got = sum(d.grams for d in drawn)
                    if line.grams is not None and got < line.grams - 0.5:
                        said.append(f"{notation.mass(line.grams - got)} to be dried")
                    source = ", ".join(said)
                parts.append(Packed(line.part.name, line.grams, line.ml, source, None if forbidden else line.water))
            minutes = eaten.sheet.minutes
            bags.append(
                Bag(
                    day.day,
                    eaten.placed.slot,
                    eaten.placed.meal,
                    eaten.sheet.meal.name,
                    eaten.sheet.servings,
                    None if forbidden else eaten.sheet.bag.water,
                    None if forbidden else minutes.soak.value,
                    None if forbidden else minutes.cook.value,
                    "" if forbidden else cooking_line(eaten.sheet, cautions),
                    tuple(parts),
                    cautions,
                )
            )
    return tuple(bags)
