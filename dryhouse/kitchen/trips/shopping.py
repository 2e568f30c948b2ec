"""The shopping list of a trip: what to buy of each thing, in the form she buys it in, by aisle, ticked off."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from dryhouse.handbook.aisles import aisle_of, aisles
from dryhouse.handbook.pieces import pieces
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.loads import dry_already
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import DRIED as HOME_DRIED
from dryhouse.kitchen.meals.lines import PartSheet
from dryhouse.kitchen.meals.shelf_keys import part_key
from dryhouse.kitchen.ports import Done
from dryhouse.kitchen.records import Preference
from dryhouse.kitchen.settings import preference, set_preference, style
from dryhouse.kitchen.trips.plan_items import Item
from dryhouse.kitchen.trips.raw_amounts import before_cooking
from dryhouse.kitchen.trips.sheet import TripSheet
from dryhouse.science.display import US, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.provisioning import Cover
from dryhouse.science.values import Caution, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step
from dryhouse.words import shopping as words

_ROUNDING_G = 0.5
_PLANTS = frozenset({"vegetable", "fruit", "mushroom"})


@dataclass(frozen=True, slots=True)
class Buy:
    """One line of the shopping list."""

    name: str
    amount: Figure | None
    """What the trip needs: raw where it is cooked first, as purchased where it is peeled or shelled."""
    note: str
    for_drying: bool
    cautions: tuple[Caution, ...] = ()
    """Of what is bought to be dried."""
    key: str = ""
    """What tells it apart from the other lines."""
    aisle: str = ""
    form: str = ""
    """The form it is bought in, where it is dried; one of `forms`."""
    forms: tuple[str, ...] = ()
    to_buy: Figure | None = None
    """The amount rounded up to what shops sell."""
    pieces: str = ""
    """How many that is, where a piece has a published weight."""
    ticked: bool = False
    animal: bool = False


# --- the form she buys it in -----------------------------------------------------------------------------


def forms_of(food: Food) -> tuple[str, ...]:
    """The forms a food to be dried is bought in, the usual one first: what comes as dry as it would be dried is
    bought so."""
    if dry_already(food, Style()):
        return (words.DRIED, words.FRESH, words.READY)
    if "cooked" in food.name:
        cooked = words.COOKED if food.animal or food.category == "grain" else words.CANNED
        return (words.RAW, cooked, words.DRIED)
    if food.category in _PLANTS:
        return (words.FRESH, words.READY, words.FROZEN, words.CANNED, words.DRIED)
    return (words.FRESH, words.READY, words.DRIED)


def bought_as(kitchen: Kitchen, food: Food) -> str:
    """The form she last chose for a food, or the usual one."""
    kept = preference(kitchen, _form_key(food.slug))
    return kept if kept in forms_of(food) else forms_of(food)[0]


def buy_as(kitchen: Kitchen, food: str, form: str) -> Done[Preference]:
    """Remember the form a food is bought in. Raises InputProblem where it is not sold so."""
    known = find_food(kitchen, food)
    if form not in forms_of(known):
        offered = ", ".join(forms_of(known))
        raise InputProblem(f"“{form}” is no form that {known.name} is bought in; choose {offered}.", "buy")
    return set_preference(kitchen, _form_key(known.slug), form)


def _form_key(food: str) -> str:
    return f"buy.{food}"


# --- ticks -----------------------------------------------------------------------------------------------


def ticked(kitchen: Kitchen, trip: int) -> frozenset[str]:
    """The lines of a trip's list that are ticked off."""
    return frozenset(preference(kitchen, _tick_key(trip)).split("\n")) - {""}


def tick(kitchen: Kitchen, trip: int, key: str, bought: bool) -> Done[Preference]:
    """Tick a line off, or take the tick back."""
    kept = ticked(kitchen, trip)
    return set_preference(kitchen, _tick_key(trip), "\n".join(sorted(kept | {key} if bought else kept - {key})))


def _tick_key(trip: int) -> str:
    return f"bought.{trip}"


# --- the list --------------------------------------------------------------------------------------------


def shopping_list(
    kitchen: Kitchen,
    sheet: TripSheet,
    items: Sequence[Item],
    covered: Cover,
    dried: Mapping[str, float] | None = None,
) -> tuple[Buy, ...]:
    """Food to dry, what is bought dried (grams by food), then the bought ingredients of the meals, by aisle; what
    the shelf holds of them is not bought again.

    Two different things that the meals call alike are called as the handbook calls them.
    """
    lines = [_to_dry(kitchen, item) for item in items]
    lines += [_bought_dried(kitchen, food, grams) for food, grams in (dried or {}).items()]
    bought: dict[str, list[PartSheet]] = {}
    for day in sheet.days:
        for eaten in day.meals:
            for line in eaten.sheet.parts:
                if line.ingredient.kind != HOME_DRIED:
                    bought.setdefault(line.part.staple or line.part.name, []).append(line)
    made = [_as_it_is(kitchen, key, parts, covered) for key, parts in bought.items()]
    twice = {buy.name for buy in made if sum(other.name == buy.name for other in made) > 1}
    for buy, parts in zip(made, bought.values(), strict=True):
        if buy.amount is not None and buy.amount.value <= _ROUNDING_G:
            continue
        staple = parts[0].ingredient.staple
        lines.append(replace(buy, name=staple.name) if buy.name in twice and staple is not None else buy)
    walk = [aisle.name for aisle in aisles()]
    done = ticked(kitchen, sheet.trip.id)
    in_order = sorted(lines, key=lambda buy: (not buy.for_drying, walk.index(buy.aisle)))
    return tuple(replace(buy, ticked=buy.key in done) for buy in in_order)


def _to_dry(kitchen: Kitchen, item: Item) -> Buy:
    known = find_food(kitchen, item.food)
    form, offers = bought_as(kitchen, known), forms_of(known)
    amount, note = _amount(item, form)
    if item.left_over > _ROUNDING_G:
        note = f"{note}; {words.NOT_IN_TIME}"
    sold = {words.FROZEN: words.FROZEN, words.CANNED: words.CANNED}.get(form, known.category)
    made = Buy(item.name, amount, note, True, item.cautions, f"dry {item.food}", form=form, forms=offers)
    return replace(_rounded(kitchen, made, sold), pieces=_pieces(item, form), animal=item.animal)


def _amount(item: Item, form: str) -> tuple[Figure | None, str]:
    """What to buy in a form, and what the amount is of."""
    if form == words.RAW:
        raw = before_cooking(item.food, item.prepared, item.own_cooking)
        return (raw, words.note(item.food, form)) if raw is not None else (item.prepared, words.NOT_KNOWN_RAW)
    if form != words.FRESH:
        return item.prepared, words.note(item.food, form)
    if item.purchased is None:
        return item.prepared, words.NO_REFUSE
    return item.purchased, words.note(item.food, form)


def _pieces(item: Item, form: str) -> str:
    """How many pieces that is, whole: by what one weighs prepared."""
    known = pieces().get(item.food, {})
    usual = next((name for name in known if name.startswith("medium")), next(iter(known), ""))
    if form != words.FRESH or not usual or item.prepared is None:
        return ""
    return words.about_pieces(math.ceil(item.prepared.value / known[usual].value), usual)


def _bought_dried(kitchen: Kitchen, food: str, grams: float) -> Buy:
    known = find_food(kitchen, food)
    amount = Figure(grams, "g", workings=(step(Kind.EATEN_ON_TRIP, (grams, "g")),))
    note = words.note(food, words.DRIED)
    made = Buy(known.name, amount, note, False, (), f"dry {food}", "", words.DRIED, forms_of(known))
    return _rounded(kitchen, made, "dried")


def _as_it_is(kitchen: Kitchen, key: str, parts: Sequence[PartSheet], covered: Cover) -> Buy:
    """One bought thing over the whole trip, called as the meals call it, or as the handbook where they differ,
    less what the shelf gives."""
    names = {line.part.name for line in parts}
    staple = parts[0].ingredient.staple
    name = names.pop() if len(names) == 1 or staple is None else staple.name
    weights = [line.grams for line in parts]
    sold = "other" if staple is None else staple.animal or staple.kind
    if all(weight is None for weight in weights):
        made = Buy(name, _summed((line.ml for line in parts), "ml"), words.BY_MEASURE, False, key=key)
    else:
        hole = "" if None not in weights else words.SOME_UNWEIGHED
        shelved = sum(draw.grams for draw in covered.draws if draw.need.food == part_key(parts[0].part))
        there = words.on_the_shelf(style(kitchen).load(shelved)) if shelved else ""
        note = "; ".join(filter(None, (hole, there)))
        made = Buy(name, _less(_summed(weights, "g"), shelved), note, False, key=key)
    return _rounded(kitchen, made, sold)


def _summed(amounts: Iterable[float | None], unit: str) -> Figure | None:
    known = [amount for amount in amounts if amount is not None]
    if not known:
        return None
    total = sum(known)
    return Figure(total, unit, workings=(step(Kind.IN_BAGS, (total, unit), n=len(known)),))


def _less(amount: Figure | None, shelved: float) -> Figure | None:
    """What is still to be bought, where the shelf gives some of it."""
    if amount is None or not shelved:
        return amount
    left = max(0.0, amount.value - shelved)
    line = step(Kind.FROM_SHELF, (left, "g"), shelved=(shelved, "g"))
    return replace(amount, value=left, workings=(*amount.workings, line))


def _rounded(kitchen: Kitchen, buy: Buy, sold: str) -> Buy:
    """The line in its aisle, its amount rounded up to the step the aisle sells by."""
    aisle = aisle_of(sold)
    to_buy = buy.amount
    if to_buy is not None and to_buy.unit == "g":
        size = aisle.us_step if style(kitchen).system == US else aisle.metric_step
        to_buy = Figure(math.ceil(to_buy.value / size - 1e-9) * size, "g", basis=to_buy.basis)
    return replace(buy, aisle=aisle.name, to_buy=to_buy)
