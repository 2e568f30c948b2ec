"""`dryhouse plan`: what a trip asks of the shelf, the market and the dryers."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, cautions_of, say_answer, say_json
from dryhouse.science.display import counted
from dryhouse.science.safety.unfolded import OF_ANIMAL_FOOD
from dryhouse.words.dates import weekday_clock, weekday_words

if TYPE_CHECKING:
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.trips.lists import Bag
    from dryhouse.kitchen.trips.plan_items import Item
    from dryhouse.kitchen.trips.provisioning import Plan
    from dryhouse.science.display import Style
    from dryhouse.science.values import Caution, Figure


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser("plan", help="what to dry, buy and pack for a trip, and by when")
    parser.add_argument("trip", nargs="+", metavar="TRIP", help="the trip, by name or by number")
    parser.add_argument("--write", action="store_true", help="put the loads among the planned batches")
    add_more(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Answer with the dried grams still to be made, the lists, and what would help where it cannot be met."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.trips.provisioning import plan, plan_batches
    from dryhouse.kitchen.trips.trips import find_trip

    with open_kitchen(args.journal, sample=args.sample, write=args.write) as kitchen:
        trip = find_trip(kitchen, " ".join(args.trip))
        worked = plan(kitchen, trip.id)
        if args.write:
            plan_batches(kitchen, trip.id)
        if args.json:
            say_json(plan_json(kitchen, worked))
        else:
            _say(kitchen, worked, style(kitchen), args)
    return 0


def plan_json(kitchen: Kitchen, worked: Plan) -> dict[str, Any]:
    """The plan as the command line answers it."""
    from dryhouse.kitchen.settings import style
    from dryhouse.science.values import Figure, merge_bases
    from dryhouse.science.workings import StepKind as Kind
    from dryhouse.science.workings import step
    from dryhouse.words.figures import figure_json

    total = sum(item.dried.value for item in worked.items)
    lines = (
        *(step(Kind.PART_WEIGHT, (i.dried.value, "g"), food=i.name) for i in worked.items),
        step(Kind.DRIED_TO_MAKE, (total, "g")),
    )
    basis = merge_bases(*(i.dried.basis for i in worked.items))
    figure = Figure(total, "g", basis=basis, workings=lines, cautions=worked.cautions)
    return {
        **figure_json(figure, style(kitchen)),
        "trip": worked.trip.name,
        "items": [_item(kitchen, item) for item in worked.items],
        "shopping": [
            {
                "name": b.name,
                "amount": _short(b.amount),
                "note": b.note,
                "for_drying": b.for_drying,
                "cautions": cautions_of(b.cautions),
            }
            for b in worked.shopping
        ],
        "calendar": [
            {
                "dryer": run.machine.name,
                "start": kitchen.local(run.start),
                "end": kitchen.local(run.end),
                "loads": [
                    {
                        "food": load.food,
                        "trays": load.trays,
                        "prepared_g": load.prepared,
                        "dried_g": load.dried,
                        "cautions": cautions_of(worked.cautions_of(load.food)),
                    }
                    for load in run.loads
                ],
                "kwh": run.kwh,
            }
            for run in worked.calendar.runs
        ],
        "packing": [{**_bag(bag), "cautions": cautions_of(bag.cautions)} for bag in worked.bags],
        "gives": list(worked.alternatives),
        "latest_start": None if worked.latest_start is None else kitchen.local(worked.latest_start),
        "draws": [
            {"lot": d.lot, "food": d.need.food, "on": d.need.day, "meal": d.need.meal, "grams": d.grams}
            for d in worked.cover.draws
        ],
        "days": [
            {
                "day": d.day,
                "grams_per_person": d.grams_per_person.value,
                "energy_per_person": None if d.energy_per_person is None else d.energy_per_person.value,
                "energy_wanted": d.wish_kcal,
                "sodium_per_person": None if d.sodium_per_person is None else d.sodium_per_person.value,
                "water_ml": d.water.value,
                "flame_minutes": d.flame_minutes,
                "remarks": list(d.remarks),
            }
            for d in worked.sheet.days
        ],
        "remarks": list(worked.remarks),
        "kwh": worked.kwh,
    }


def _item(kitchen: Kitchen, item: Item) -> dict[str, Any]:
    from dryhouse.kitchen.settings import style
    from dryhouse.words.figures import figure_json

    return {
        "food": item.food,
        "name": item.name,
        **figure_json(item.dried.with_cautions(item.cautions), style(kitchen)),
        "needed_g": item.needed,
        "shelved_g": item.shelved,
        "prepared": _short(item.prepared),
        "as_purchased": _short(item.purchased),
        "hours": _short(item.hours),
        "loads": list(item.loads),
        "conditioning_days": item.conditioning_days,
        "latest_start": None if item.latest_start is None else kitchen.local(item.latest_start),
        "left_over_g": item.left_over,
    }


def _bag(bag: Bag) -> dict[str, Any]:
    return {
        "day": bag.day,
        "slot": bag.slot,
        "meal": bag.name,
        "servings": bag.servings,
        "water": _short(bag.water),
        "soak_minutes": bag.soak_minutes,
        "cook_minutes": bag.cook_minutes,
        "parts": [
            {
                "name": p.name,
                "grams": p.grams,
                "ml": p.ml,
                "from": p.source,
                "water_ml": None if p.water is None else p.water.value,
            }
            for p in bag.parts
        ],
    }


def _short(figure: Figure | None) -> dict[str, Any] | None:
    if figure is None:
        return None
    return {"value": figure.value, "low": figure.low, "high": figure.high, "unit": figure.unit}


def _say(kitchen: Kitchen, worked: Plan, notation: Style, args: argparse.Namespace) -> None:
    from dryhouse.words.workings import lines

    trip = worked.trip
    people = counted(trip.people, "person", "people")
    say_answer(
        args,
        [f"{trip.name}: {trip.starts_on.isoformat()} to {trip.ends_on.isoformat()}, {people}"],
        rows=(*_to_dry(kitchen, worked, notation), *_to_buy(worked, notation), *_to_pack(worked, notation)),
        details=(*worked.alternatives, *worked.remarks),
        workings=[line for item in worked.items for line in lines(item.dried.workings, notation)],
        cautions=worked.cautions,
        most=OF_ANIMAL_FOOD,
        moment="pot",
    )


def _to_dry(kitchen: Kitchen, worked: Plan, notation: Style) -> Iterator[str]:
    yield "To dry:" if worked.items else "To dry: nothing; the shelf covers it."
    for item in worked.items:
        fresh = item.purchased or item.prepared
        buy = "" if fresh is None else f", from {notation.figure(fresh)} fresh"
        start = "" if item.latest_start is None else f", start by {weekday_clock(kitchen.local(item.latest_start))}"
        yield f"  {item.name}: {notation.figure(item.dried)} dried{buy}{start}{_stops(item.cautions)}"
        yield from (f"    {load}" for load in item.loads)


def _to_buy(worked: Plan, notation: Style) -> Iterator[str]:
    yield "To buy:"
    for buy in worked.shopping:
        amount = "amount not known" if buy.amount is None else notation.figure(buy.amount)
        yield f"  {buy.name}: {amount}" + (f" ({buy.note})" if buy.note else "") + _stops(buy.cautions)


def _to_pack(worked: Plan, notation: Style) -> Iterator[str]:
    yield "To pack:"
    for bag in worked.bags:
        pot = "do not eat" if bag.water is None else f"{notation.volume(bag.water.value)}, {bag.cooking}"
        day = f"{weekday_words(bag.day)} {bag.slot}: {bag.name} for {notation.number(bag.servings)}"
        yield f"  {day}, {pot}{_stops(bag.cautions)}"


def _stops(cautions: Sequence[Caution]) -> str:
    """The stops of a row in the few words of a label; their full text stands below the lists."""
    briefs = dict.fromkeys(c.brief for c in cautions if c.severity == "stop")
    return f"  STOP: {'; '.join(briefs)}" if briefs else ""
