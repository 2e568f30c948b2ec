"""`dryhouse water`: how much water brings a dried food back."""

from __future__ import annotations

import argparse
from typing import Any

from dryhouse.cli.answers import add_more, as_typed, say_figure


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser("water", help="how much water brings a dried food back")
    parser.add_argument("food", nargs="+", metavar="FOOD")
    parser.add_argument("--dried", required=True, metavar="QTY", help="a weight or a measure, such as “1/4 cup”")
    add_more(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Answer the water to the starting moisture, with the published cups beside it."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.yields.quick_answers import water
    from dryhouse.words.figures import figure_json
    from dryhouse.words.workings import lines

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        figure, published = water(kitchen, " ".join(args.food), args.dried)
        notation = as_typed(style(kitchen), args.dried)
        more = {"published": [figure_json(p, notation) for p in published]}
        details = [f"published: {notation.figure(p)}   [{p.basis[0].source}]" for p in published]
        workings = [line for p in published for line in lines(p.workings, notation)]
        say_figure("Water", figure, notation, args, more=more, details=details, workings=workings)
    return 0
