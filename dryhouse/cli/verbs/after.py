"""`dryhouse after TRIP`: what came back of its meals, what was short, and the next trip planned from it."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_json, say_json

if TYPE_CHECKING:
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.records import AfterTrip, Trip


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "after",
        help="record what came back or ran short on a trip, and plan the next one from it",
        epilog='Example: dryhouse after Lake circuit 2026 --uneaten "bean chili=2"',
    )
    parser.add_argument("trip", nargs="+", metavar="TRIP", help="the trip, by name or by number")
    noted = (
        ("--uneaten", "MEAL=N", "servings of a meal that came back"),
        ("--short", "MEAL=N", "servings of a meal that were missing"),
        ("--change", "MEAL=TEXT", "what to change in a meal"),
    )
    for option, metavar, said in noted:
        parser.add_argument(option, action="append", default=[], metavar=metavar, help=said)
    parser.add_argument("--again", metavar="DAY", help="plan the trip again from this day, by what came back")
    parser.add_argument("--name", default="", metavar="NAME", help="name of the new trip")
    parser.add_argument("--workings", action="store_true", help="show the arithmetic of the new amounts")
    add_json(parser)
    parser.set_defaults(run=run, of_a_journal=True)


def run(args: argparse.Namespace) -> int:
    """Note what is said; answer with what is noted and what the next trip takes in another amount."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.calendar import read_date
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.trips.after import note_after, plan_again
    from dryhouse.kitchen.trips.trips import find_trip

    noted = args.uneaten or args.short or args.change
    with open_kitchen(args.journal, sample=args.sample, write=bool(noted or args.again), begin=False) as kitchen:
        trip = find_trip(kitchen, " ".join(args.trip))
        day = None if args.again is None else read_date(kitchen, args.again, "again")
        if noted:
            note_after(kitchen, trip.id, _notes(kitchen, trip, args))
        done = None if day is None else plan_again(kitchen, trip.id, style(kitchen), day, args.name)
        _answer(kitchen, trip, "" if done is None else done.what, args)
    return 0


def _notes(kitchen: Kitchen, trip: Trip, args: argparse.Namespace) -> list[AfterTrip]:
    """What was noted before, with what is said now in its place."""
    from dataclasses import replace

    from dryhouse.kitchen.meals.meals import find_meal
    from dryhouse.kitchen.records import AfterTrip
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.trips.after import returned
    from dryhouse.science.errors import InputProblem
    from dryhouse.science.quantities import parse_number

    before = {one.meal.id: one.noted for one in returned(kitchen, trip.id) if one.noted is not None}
    notes: dict[int, AfterTrip] = {}
    for field in ("uneaten", "short", "change"):
        for typed in getattr(args, field):
            name, mark, said = typed.partition("=")
            if not mark:
                raise InputProblem(f"Write --{field} as a meal and what is said of it: “bean chili=2”.", field)
            meal = find_meal(kitchen, name.strip()).id
            value: Any = said.strip()
            if field != "change":
                comma = style(kitchen).decimal_comma
                value = parse_number(value, decimal_comma=comma, what="number of servings")
            note = notes.get(meal) or before.get(meal) or AfterTrip(trip.id, meal)
            notes[meal] = replace(note, **{field: value})
    return list(notes.values())


def _answer(kitchen: Kitchen, trip: Trip, planned: str, args: argparse.Namespace) -> None:
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.trips.after import changes_of, returned
    from dryhouse.words.after_trips import NOTHING_NOTED, next_takes
    from dryhouse.words.workings import lines

    notation, meals = style(kitchen), returned(kitchen, trip.id)
    figures = [(one, one.next_servings(one.carried / len(one.bags))) for one in meals if one.noted is not None]
    arithmetic = {one.meal.id: list(lines(figure.workings, notation)) for one, figure in figures}
    changes = changes_of(kitchen, trip.id, notation)
    if args.json:
        items = [
            {
                "meal": one.meal.name,
                "servings": one.carried,
                "spare_servings": one.spare,
                "uneaten": 0.0 if one.noted is None else one.noted.uneaten,
                "short": 0.0 if one.noted is None else one.noted.short,
                "change": "" if one.noted is None else one.noted.change,
                "share_pct": one.eaten_share * 100.0,
                "workings": arithmetic.get(one.meal.id, []),
            }
            for one in meals
        ]
        say_json({"trip": trip.name, "items": items, "next": list(changes), "planned": planned})
        return
    said = [one.sentence(notation) for one in meals if one.noted is not None]
    print(f"{trip.name}:{'' if said else f' {NOTHING_NOTED}'}")
    for line in said:
        print(f"  {line}")
    if said:
        print(next_takes(changes))
    for line in (line for each in arithmetic.values() for line in each if args.workings):
        print(f"  {line}")
    if planned:
        print(f"{planned}.")
