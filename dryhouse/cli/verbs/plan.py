"""`dryhouse plan`: what a trip asks of the shelf, the market and the dryers."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import MOST_LINES, add_more, cautions_of, say_answer, say_json
from dryhouse.science.display import counted
from dryhouse.science.safety.unfolded import OF_ANIMAL_FOOD, unfolded
from dryhouse.science.values import gravest_first
from dryhouse.words.dates import full_day, weekday_words

if TYPE_CHECKING:
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.trips.household import DryingHours
    from dryhouse.kitchen.trips.lists import Bag
    from dryhouse.kitchen.trips.plan_items import Item
    from dryhouse.kitchen.trips.provisioning import Plan
    from dryhouse.science.display import Style
    from dryhouse.science.values import Caution, Figure

MOST_ROWS = 40
"""How long a plan in words is at most; `--full` says every line."""
FEWEST_ROWS = 3


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "plan",
        help="what to dry, buy and pack for a trip, and by when",
        epilog="Example: dryhouse plan Lake circuit 2027",
    )
    parser.add_argument("trip", nargs="+", metavar="TRIP", help="the trip, by name or by number")
    parser.add_argument("--full", action="store_true", help="every line of every list")
    hours = parser.add_argument_group("the hours you keep (for this answer; --keep-hours remembers them)")
    hours.add_argument("--awake", metavar="HOURS", help="when you are up, such as 7:00-22:00")
    hours.add_argument("--away", metavar="HOURS", help="when you are away on workdays, such as 8:00-17:30; or none")
    hours.add_argument(
        "--days", metavar="DAYS", help="days you start loads on, such as “Sat Sun”, Mon-Fri, every day"
    )
    hours.add_argument("--nights", choices=("yes", "no"), help="whether a dryer may run through the night")
    hours.add_argument("--keep-hours", action="store_true", help="remember these hours in the journal")
    parser.add_argument("--from", dest="begin", metavar="MONTH", help="spread the loads from here, such as 2027-05")
    parser.add_argument(
        "--buy", action="append", default=[], metavar="FOOD=FORM", help="the form a food is bought in; remembered"
    )
    parser.add_argument(
        "--fuel", metavar="QTY", help="fuel you weighed for a liter boiled, such as “9 g”; remembered"
    )
    parser.add_argument("--ics", metavar="FILE", help="write the drying calendar as a file (iCalendar)")
    parser.add_argument("--write", action="store_true", help="save the loads as planned batches")
    add_more(parser)
    parser.set_defaults(run=run, of_a_journal=True)


def run(args: argparse.Namespace) -> int:
    """Answer with the dried grams still to be made, the lists, and what would help where it cannot be met."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.meals.heat import set_fuel_per_liter
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.trips.calendar_file import write_calendar
    from dryhouse.kitchen.trips.household import changed, drying_hours, read_month, set_drying_hours
    from dryhouse.kitchen.trips.provisioning import plan, plan_batches
    from dryhouse.kitchen.trips.shopping import buy_as
    from dryhouse.kitchen.trips.trips import find_trip
    from dryhouse.science.quantities import parse_mass

    writes = args.write or args.keep_hours or bool(args.buy) or args.fuel is not None
    with open_kitchen(args.journal, sample=args.sample, write=writes, begin=False) as kitchen:
        trip = find_trip(kitchen, " ".join(args.trip))
        hours = changed(drying_hours(kitchen), awake=args.awake, away=args.away, days=args.days, nights=args.nights)
        begin = None if args.begin is None else read_month(kitchen, args.begin)
        for choice in args.buy:
            buy_as(kitchen, *_bought(choice))
        if args.fuel is not None:
            set_fuel_per_liter(kitchen, parse_mass(args.fuel, default_unit="g"))
        if args.keep_hours:
            set_drying_hours(kitchen, hours)
        worked = plan(kitchen, trip.id, hours, begin)
        done = [f"{plan_batches(kitchen, trip.id, hours, begin).what}."] if args.write else []
        if args.ics is not None:
            done.append(f"Wrote the drying calendar to {write_calendar(kitchen, worked, Path(args.ics))}.")
        if args.json:
            say_json(plan_json(kitchen, worked))
        else:
            _say(kitchen, worked, style(kitchen), args)
            print(*done, sep="\n", end="\n" * bool(done))
    return 0


def _bought(choice: str) -> tuple[str, str]:
    """A food and the form it is bought in, as they are typed: `tomato=canned`."""
    from dryhouse.science.errors import InputProblem

    food, mark, form = choice.rpartition("=")
    if not mark or not food.strip():
        raise InputProblem("Write --buy as a food and the form it is bought in: “tomato=canned”.", "buy")
    return food, form


def plan_json(kitchen: Kitchen, worked: Plan) -> dict[str, Any]:
    """The plan as the command line answers it."""
    from dryhouse.kitchen.meals.shelf_keys import slug_of
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.trips.people import days_of_people
    from dryhouse.science.values import Figure, merge_bases
    from dryhouse.science.workings import StepKind as Kind
    from dryhouse.science.workings import step
    from dryhouse.words.figures import figure_json
    from dryhouse.words.workings import lines

    total = sum(item.dried.value for item in worked.items)
    worked_out = (
        *(step(Kind.PART_WEIGHT, (i.dried.value, "g"), food=i.name) for i in worked.items),
        step(Kind.DRIED_TO_MAKE, (total, "g")),
    )
    basis = merge_bases(*(i.dried.basis for i in worked.items))
    figure = Figure(total, "g", basis=basis, workings=worked_out, cautions=worked.cautions)
    return {
        **figure_json(figure, style(kitchen)),
        "trip": worked.trip.name,
        "items": [_item(kitchen, item) for item in worked.items],
        "shopping": [
            {
                "name": b.name,
                "amount": _short(b.amount),
                "buy": _short(b.to_buy),
                "note": b.note,
                "pieces": b.pieces,
                "aisle": b.aisle,
                "form": b.form,
                "ticked": b.ticked,
                "for_drying": b.for_drying,
                "cautions": cautions_of(b.cautions),
            }
            for b in worked.shopping
        ],
        "calendar": [
            {
                "dryer": run.machine.name,
                "start": kitchen.local(run.start).isoformat(),
                "end": kitchen.local(run.end).isoformat(),
                "latest_start": kitchen.local(run.latest).isoformat(),
                "temperature_c": run.temperature_c,
                "loads": [
                    {
                        "food": load.food,
                        "trays": load.trays,
                        "prepared_g": load.prepared,
                        "dried_g": load.dried,
                        "hours": {"low": load.hours.low, "value": load.hours.value, "high": load.hours.high},
                        "conditioning_days": load.conditioning_days,
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
        "shortfall": None if worked.shortfall is None else asdict(worked.shortfall),
        "next_steps": [asdict(step) for step in worked.next_steps],
        "drying_hours": _hours(worked.hours),
        "latest_start": None if worked.latest_start is None else kitchen.local(worked.latest_start).isoformat(),
        "draws": [
            {"lot": d.lot, "food": slug_of(d.need.food), "on": d.need.day, "meal": d.need.meal, "grams": d.grams}
            for d in worked.cover.draws
        ],
        "days": [
            {
                "day": d.day,
                "grams_per_person": d.grams_per_person.value,
                "energy_per_person": None if d.energy_per_person is None else d.energy_per_person.value,
                "energy_not_known_for": list(d.energy_lacks),
                "energy_wanted": d.wish_kcal,
                "sodium_per_person": None if d.sodium_per_person is None else d.sodium_per_person.value,
                "water_ml": d.water.value,
                "flame_minutes": d.flame_minutes,
                "carried_g_per_person": d.carried_per_person,
                "spare": d.spare,
                "layover": d.layover,
                "people": [asdict(one) for one in days_of_people(worked.sheet, worked.people, d)],
                "remarks": list(d.remarks),
            }
            for d in worked.sheet.days
        ],
        "fuel": {
            "water_ml": worked.fuel.water.value,
            "heat_kj": worked.fuel.heat.value,
            "burnt_kj": worked.fuel.burnt.value,
            "grams": _short(worked.fuel.grams),
            "workings": list(lines((worked.fuel.grams or worked.fuel.burnt).workings, style(kitchen))),
        },
        "people": [asdict(person) for person in worked.people],
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
        "latest_start": None if item.latest_start is None else kitchen.local(item.latest_start).isoformat(),
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
        "cooking": bag.cooking,
        "do_not_eat": bag.forbidden,
        "ingredients": list(bag.holds.ingredients),
        "allergens": list(bag.holds.allergens),
        "allergens_on_labels": list(bag.holds.labels),
        "contents_unknown": list(bag.holds.unknown),
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


def _hours(hours: DryingHours) -> dict[str, Any]:
    from dryhouse.kitchen.trips.household import days_words, span_words

    return {
        "awake": span_words(hours.awake),
        "away": span_words(hours.away),
        "days": days_words(hours.days),
        "nights": hours.nights,
        "assumed": hours.assumed,
    }


def _say(kitchen: Kitchen, worked: Plan, notation: Style, args: argparse.Namespace) -> None:
    from dryhouse.kitchen.calendar import today
    from dryhouse.words.workings import lines

    trip = worked.trip
    head = f"{trip.name}: {weekday_words(trip.starts_on)} to {full_day(trip.ends_on)}"
    said = [f"{head}, {counted(trip.people, 'person', 'people')}"]
    lists = [list(_to_dry(kitchen, worked, notation)), list(_to_buy(worked, notation))]
    lists.append(list(_to_pack(worked, notation)))
    shown, _ = unfolded(gravest_first(worked.cautions), OF_ANIMAL_FOOD, "pot")
    details = (*worked.alternatives[1:], *worked.remarks, *_to_carry(worked, notation))
    if trip.ends_on < today(kitchen):
        said.append("This trip is over; what follows is what it would take today.")
    said += worked.alternatives[:1]
    if args.full:
        lists.append([f"  {line}" for line in details])
        details = ()
    beside = min(len(details), max(0, MOST_LINES - 1 - len(said) - sum(c.severity != "stop" for c in shown)))
    if not args.full:
        lists = _folded(lists, MOST_ROWS - 1 - len(said) - len(shown) - beside)
    say_answer(
        args,
        said,
        rows=[line for rows in lists for line in rows],
        details=details,
        workings=[line for item in worked.items for line in lines(item.dried.workings, notation)],
        cautions=worked.cautions,
        most=OF_ANIMAL_FOOD,
        moment="pot",
    )


def _folded(lists: list[list[str]], room: int) -> list[list[str]]:
    """The lists in so many lines at most: the longest is cut first, and says how much of it there is."""
    kept = [len(rows) for rows in lists]
    while sum(kept) > max(room, FEWEST_ROWS * len(lists)):
        kept[max(range(len(kept)), key=lambda n: kept[n])] -= 1
    return [
        rows if length == len(rows) else [*rows[: length - 1], f"  and {len(rows) - length + 1} more: add --full"]
        for rows, length in zip(lists, kept, strict=True)
    ]


def _to_dry(kitchen: Kitchen, worked: Plan, notation: Style) -> Iterator[str]:
    from dryhouse.kitchen.trips.household import hours_words
    from dryhouse.kitchen.trips.plan_rows import run_rows

    if not worked.items:
        yield "To dry: nothing; the shelf covers it."
        return
    rows = list(run_rows(kitchen, worked, notation))
    kept = "assumed: " if worked.hours.assumed else ""
    yield f"To dry ({kept}{hours_words(worked.hours)}):" if rows else "To dry: no load can be ready in time."
    for row in rows:
        after = "; ".join(dict.fromkeys(load.after for load in row.loads if load.after))
        cautions = [c for load in row.loads for c in load.cautions]
        yield f"  {row.line}{f'; {after}' if after else ''}{_stops(cautions)}"
    for step in worked.next_steps:
        yield f"  {step.sentence}"


def _to_buy(worked: Plan, notation: Style) -> Iterator[str]:
    from dryhouse.kitchen.trips.plan_rows import buy_rows

    yield "To buy:" if worked.shopping else "To buy: nothing."
    for aisle, rows in buy_rows(worked, notation):
        cautions = [c for row in rows for c in row.buy.cautions]
        yield f"  {aisle}: {', '.join(row.line for row in rows)}{_stops(cautions)}"


def _to_pack(worked: Plan, notation: Style) -> Iterator[str]:
    from dryhouse.kitchen.trips.plan_rows import meal_rows

    yield "To pack:" if worked.bags else "To pack: no meal is on any day yet."
    for row in meal_rows(worked, notation):
        yield f"  {row.line}{_stops(row.cautions)}"


def _to_carry(worked: Plan, notation: Style) -> Iterator[str]:
    from dryhouse.kitchen.trips.fuel import fuel_words

    if worked.bags:
        first = notation.load(worked.sheet.days[0].carried_per_person)
        each = notation.load(worked.sheet.grams_per_person_day.value)
        burns = fuel_words(worked.fuel, notation)
        yield f"each carries {first} of food on the first day, {each} for a day{f'; {burns}' if burns else ''}"


def _stops(cautions: Sequence[Caution]) -> str:
    """The stops of a row in the few words of a label; their full text stands below the lists."""
    briefs = dict.fromkeys(c.brief for c in cautions if c.severity == "stop")
    return f"  STOP: {'; '.join(briefs)}" if briefs else ""
