"""`dryhouse batches`: every batch, newest first, or those on the dryer now."""

from __future__ import annotations

import argparse
from typing import Any

from dryhouse.cli.answers import add_more, cautions_of, say_items

_STATES = ("planned", "drying", "finished")


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "batches",
        help="list the batches",
        description="List the batches. With --json each has fresh, dried and water (what it lost in drying) in g, "
        "moisture in % wet basis and its times in UTC.",
        epilog="Example: dryhouse batches corn --newest 5",
    )
    parser.add_argument(
        "words", nargs="*", metavar="WORD", help="only batches with these words, or of this time: corn 2026"
    )
    parser.add_argument("--state", choices=_STATES, help="only batches in this state")
    parser.add_argument("--newest", type=int, default=0, metavar="N", help="only the N newest")
    add_more(parser, workings=False)
    parser.set_defaults(run=run, of_a_journal=True)


def run(args: argparse.Namespace) -> int:
    """List the batches. Raises InputProblem."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.calendar import start_of
    from dryhouse.kitchen.cards.batch_list import batch_items, batch_line
    from dryhouse.kitchen.ports import BatchQuery
    from dryhouse.kitchen.search_days import days_in
    from dryhouse.kitchen.settings import style
    from dryhouse.science.errors import InputProblem

    if args.newest < 0:
        raise InputProblem("--newest counts batches, such as 20.")
    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        text, first, after = days_in(" ".join(args.words))
        since, until = (None if day is None else start_of(kitchen, day) for day in (first, after))
        query = BatchQuery(text=text, states=(args.state,) if args.state else (), since=since, until=until)
        found = batch_items(kitchen, query, newest=args.newest)
        items = [{**item, "cautions": cautions_of(item["cautions"])} for item in found]
        like = style(kitchen)
        rows = [(batch_line(kitchen, item, like), item["cautions"]) for item in found]
        if_none = "No batches yet; “dryhouse log” records one."
        if args.words or args.state:
            kind = f"{args.state} batch" if args.state else "batch"
            if_none = f"No {kind} has these words." if args.words else f"There is no {kind}."
        say_items(items, rows, args, if_none=if_none)
    return 0
