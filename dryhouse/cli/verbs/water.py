"""`dryhouse water`: how much water brings a dried food back."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, as_typed, say_figure

if TYPE_CHECKING:
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.records import Batch


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "water",
        help="how much water a dried food needs",
        epilog="Example: dryhouse water corn --dried 1/4 cup",
    )
    parser.add_argument("food", nargs="+", metavar="FOOD", help="the food, by its everyday name")
    parser.add_argument("--dried", required=True, metavar="QTY", help="a weight or a measure, such as “1/4 cup”")
    parser.add_argument("--lot", metavar="LOT", help="of this lot, by the batch it came from")
    add_more(parser)
    parser.set_defaults(run=run, of_a_journal=("lot",))


def run(args: argparse.Namespace) -> int:
    """Answer the water that brings it back, with the published cups beside it."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.yields.quick_answers import water
    from dryhouse.words.figures import figure_json
    from dryhouse.words.workings import lines

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        name = " ".join(args.food)
        figure, published = water(kitchen, name, args.dried, _batch(kitchen, name, args.lot))
        notation = as_typed(style(kitchen), args.dried)
        more = {"published": [figure_json(p, notation) for p in published]}
        details = [f"published: {notation.figure(p)}   [{p.basis[0].source}]" for p in published]
        workings = [line for p in published for line in lines(p.workings, notation)]
        say_figure("Water", figure, notation, args, more=more, details=details, workings=workings)
    return 0


def _batch(kitchen: Kitchen, name: str, lot: str | None) -> Batch | None:
    """The batch the lot was packed from; InputProblem where it is no lot of this food."""
    from dryhouse.kitchen.foods.catalog import food
    from dryhouse.kitchen.shelf.lots import lot_named
    from dryhouse.kitchen.yields.jar_water import batch_of
    from dryhouse.science.errors import InputProblem

    if lot is None:
        return None
    found = lot_named(kitchen, lot)
    if found.food != food(kitchen, name).slug:
        raise InputProblem(
            f"Lot {found.id} holds another food: give the name of what is in it, such as {found.food}."
        )
    return batch_of(kitchen, found)
