"""`dryhouse watch`: alarms and instruments while the window is closed."""

from __future__ import annotations

import argparse
from typing import Any


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "watch",
        help="run the alarms and read the instruments without the window",
        epilog="Example: dryhouse watch --quiet 22:00-7:00",
    )
    parser.add_argument(
        "--quiet", metavar="HOURS", help="no alarms between these times, such as 22:00-7:00; remembered"
    )
    parser.add_argument("--once", action="store_true", help="list what is due, now and later, and stop")
    parser.add_argument("--json", action="store_true", help="with --once: one JSON object")
    parser.set_defaults(run=run, of_a_journal=True)


def run(args: argparse.Namespace) -> int:
    """Watch until it is told to end."""
    from dryhouse.house import keep_watch
    from dryhouse.kitchen.cards.alarms import read_quiet_hours

    if args.quiet is not None:
        read_quiet_hours(args.quiet)
    if args.once:
        return _once(args)
    return keep_watch(args.journal, sample=args.sample, quiet=args.quiet)


def _once(args: argparse.Namespace) -> int:
    """What is due, in lines or as JSON."""
    from dryhouse.cli.answers import say_json
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.cards.alarms import alarms
    from dryhouse.kitchen.dryer.run_moments import clock_words

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        found = alarms(kitchen)
        if args.json:
            names = ("batch", "kind", "after", "sentence")
            items = [{**{n: getattr(d, n) for n in names}, "at": d.at.isoformat()} for d in found]
            say_json({"items": items})
            return 0
        for due in found:
            print(f"{clock_words(kitchen, due.at)}  {due.sentence}")
        if not found:
            print("Nothing is due: nothing is on a dryer.")
    return 0
