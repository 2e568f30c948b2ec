"""`dryhouse pack BATCH`: put a dried batch into jars and bags, a dried pot serving by serving."""

from __future__ import annotations

import argparse
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, cautions_of, say_answer, say_json

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.ports import Done
    from dryhouse.kitchen.records import Lot
    from dryhouse.science.values import Caution


def add(verbs: Any) -> None:
    """The parser of the verb."""
    from dryhouse.kitchen.records.lots import PACKAGES

    parser = verbs.add_parser(
        "pack",
        help="pack a finished batch, a dried pot by its servings",
        epilog="Example: dryhouse pack 12 --into 3 --place pantry, or dryhouse pack 15 --servings-each 1",
    )
    parser.add_argument("batch", metavar="BATCH", help="its number, or the name of the one batch of a food")
    how = parser.add_mutually_exclusive_group()
    how.add_argument("--into", type=int, metavar="N", help="number of packages, all alike; 1 if not given")
    how.add_argument("--servings-each", type=float, metavar="S", help="servings of a whole pot in each package")
    parser.add_argument(
        "--package", choices=PACKAGES, help="what it goes into; if not given a jar, for servings a bag"
    )
    parser.add_argument("--place", metavar="PLACE", help="one of your places, such as pantry")
    parser.add_argument("--servings", type=float, metavar="N", help="how many servings the pot made; remembered")
    add_more(parser)
    parser.set_defaults(run=run, of_a_journal=True)


def run(args: argparse.Namespace) -> int:
    """Pack the batch; answer with the labels of the new lots."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.records import Lot

    with open_kitchen(args.journal, sample=args.sample, write=True, begin=False) as kitchen:
        done = kitchen.do(_pack, args)
        _answer(kitchen, [c.record for c in done.changes if isinstance(c.record, Lot)], done.what, args)
    return 0


def _pack(kitchen: Kitchen, args: argparse.Namespace) -> Done[Lot]:
    from dryhouse.kitchen.batches.log import BatchDraft, edit_batch, parts_of
    from dryhouse.kitchen.records import Batch
    from dryhouse.kitchen.shelf.packing import Package, batch_to_pack, pack, split, split_servings
    from dryhouse.kitchen.shelf.places import find_place

    batch = batch_to_pack(kitchen, args.batch)
    if args.servings is not None:
        draft = BatchDraft(replace(batch, servings=args.servings), parts_of(kitchen, batch.id))
        edit_batch(kitchen, batch.id, draft)
        batch = kitchen.present(Batch, batch.id, "batch", "batch")
    place = None if args.place is None else find_place(kitchen, args.place).id
    kind = args.package or ("bag" if args.servings_each is not None else "jar")
    like = Package(kind, place=place, sealed=kind != "open container")
    if args.servings_each is not None:
        packages = split_servings(kitchen, batch, args.servings_each, like)
    else:
        packages = split(kitchen, batch, 1 if args.into is None else args.into, like)
    return pack(kitchen, batch.id, packages)


def _answer(kitchen: Kitchen, lots: Sequence[Lot], what: str, args: argparse.Namespace) -> None:
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.shelf.labels import lot_labels, lot_workings
    from dryhouse.words.workings import lines

    labels = lot_labels(kitchen, [lot.id for lot in lots], style(kitchen))
    cautions: list[Caution] = [caution for label in labels for caution in label.cautions]
    if args.json:
        items = [
            {
                "lot": lot.id,
                "name": label.title,
                "grams": None if lot.mass is None else lot.mass.si,
                "label": list(label.lines),
                "cautions": cautions_of(label.cautions),
            }
            for lot, label in zip(lots, labels, strict=True)
        ]
        say_json({"items": items})
        return
    packed = zip(lots, labels, strict=True)
    rows = (f"  {lot.id:>4}  {label.title}: {'; '.join(label.lines[1:])}" for lot, label in packed)
    # What is packed is not packed again: the arithmetic is not offered afterwards, it is there when asked for.
    worked = lot_workings(kitchen, [lot.id for lot in lots]) if args.workings else ()
    say_answer(args, [f"{what}."], rows=rows, workings=lines(worked, style(kitchen)), cautions=cautions)
