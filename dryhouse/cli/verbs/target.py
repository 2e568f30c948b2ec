"""`dryhouse target`: what a load should weigh when it is dry."""

from __future__ import annotations

import argparse
from typing import Any

from dryhouse.cli.answers import add_more, as_typed, say_figure


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "target",
        help="what a load should weigh when it is dry",
        epilog="Example: dryhouse target sweet cherry --fresh 40 oz",
    )
    parser.add_argument("food", nargs="+", metavar="FOOD", help="the food, by its everyday name")
    parser.add_argument("--fresh", required=True, metavar="QTY", help="what is loaded, such as “40 oz”, “6 ears”")
    parser.add_argument("--solids", metavar="PCT", help="solids of the fresh food, %% by weight")
    parser.add_argument("--moisture", metavar="PCT", help="target moisture, %%")
    add_more(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Answer the target mass in the unit the fresh mass was typed in."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.yields.quick_answers import dry_already_words, target

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        figure = target(kitchen, " ".join(args.food), args.fresh, solids=args.solids, moisture=args.moisture)
        dry = dry_already_words(kitchen, " ".join(args.food), solids=args.solids, moisture=args.moisture)
        more = {"sentence": dry or None}
        shown = as_typed(style(kitchen), args.fresh)
        say_figure("Target weight", figure, shown, args, more=more, details=filter(None, [dry]))
    return 0
