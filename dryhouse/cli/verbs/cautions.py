"""`dryhouse cautions FOOD` and `dryhouse cautions --batch BATCH`: what must be said, with sources."""

from __future__ import annotations

import argparse
from typing import Any

from dryhouse.cli.answers import add_json, cautions_of, say_json
from dryhouse.house import open_kitchen
from dryhouse.kitchen.batches.log import batch_named
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.cautions.cautions import batch_cautions, food_cautions, lot_cautions
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.shelf.lots import lot_named, lot_title
from dryhouse.science.errors import InputProblem
from dryhouse.words.cautions import reason_words


def add(verbs: Any) -> None:
    """The verb and its options."""
    parser = verbs.add_parser(
        "cautions",
        help="the cautions of a food, a batch or a lot, with their sources",
        epilog="Example: dryhouse cautions ground beef",
    )
    parser.add_argument("food", nargs="*", metavar="FOOD", help="the food, by its everyday name")
    parser.add_argument("--batch", metavar="BATCH", help="the cautions of this batch")
    parser.add_argument("--lot", metavar="LOT", help="the cautions of this lot")
    add_json(parser)
    parser.set_defaults(run=_run, of_a_journal=("batch", "lot"))


def _run(args: argparse.Namespace) -> int:
    wanted = " ".join(args.food).strip()
    if sum(map(bool, (wanted, args.batch, args.lot))) != 1:
        raise InputProblem("Name one food, or one batch with --batch, or one lot with --lot.")
    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        if args.batch:
            batch = batch_named(kitchen, args.batch)
            title = f"Batch {batch.id}, {batch_name(kitchen, batch)}"
            about, cautions = {"batch": batch.id, "food": batch.food}, batch_cautions(kitchen, batch)
        elif args.lot:
            lot = lot_named(kitchen, args.lot)
            title = lot_title(kitchen, lot)
            about, cautions = {"lot": lot.id, "food": lot.food}, lot_cautions(kitchen, lot)
        else:
            known = food(kitchen, wanted)
            title, about, cautions = known.name, {"food": known.slug}, food_cautions(kitchen, known)
    sources = list(dict.fromkeys(c.source for c in cautions))
    if args.json:
        say_json(
            {
                **about,
                "value": len(cautions),
                "low": None,
                "high": None,
                "unit": "caution",
                "measure": None,
                "basis": [{"kind": "handbook", "n": None, "source": s} for s in sources],
                "workings": [f"{c.rule}: {reason_words(c)}" for c in cautions],
                "cautions": cautions_of(cautions),
            }
        )
        return 0
    print(title)
    for caution in cautions:
        print(f"  {caution.severity.upper()}: {caution.text}")
        print(f"      because: {reason_words(caution)}. Source: {caution.source}.")
    return 0
