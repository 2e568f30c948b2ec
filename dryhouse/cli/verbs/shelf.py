"""`dryhouse shelf [--on DATE]`: every lot, its standing, its keep-by, what is left and what to use first."""

from __future__ import annotations

import argparse
from typing import Any

from dryhouse.cli.answers import add_more, say_items
from dryhouse.house import open_kitchen
from dryhouse.kitchen.calendar import end_of_day, read_date, today
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.labels import lot_water
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.kitchen.shelf.portions import portion_of
from dryhouse.kitchen.shelf.remaining import amount_words
from dryhouse.kitchen.shelf.shelf import shelf
from dryhouse.science.display import Style
from dryhouse.science.statuses import Status
from dryhouse.science.units import SIZES
from dryhouse.words.bases import bases_json
from dryhouse.words.cautions import cautions_json
from dryhouse.words.dates import day_words
from dryhouse.words.figures import figure_json
from dryhouse.words.workings import lines as workings

_FIRST = {1: "first", 2: "second", 3: "third"}


def add(verbs: Any) -> None:
    """The verb and its options."""
    parser = verbs.add_parser(
        "shelf",
        help="what is on the shelf, its status and what to use first",
        epilog="Example: dryhouse shelf --on 2027-08-22",
    )
    parser.add_argument("--on", metavar="DATE", help="as it will be on this day, such as the last day of a trip")
    parser.add_argument("--gone", action="store_true", help="list what was used up or thrown out too")
    add_more(parser, workings=False)
    parser.set_defaults(run=_run, of_a_journal=True)


def _portion(kitchen: Kitchen, line: ShelfLine, shown: Style) -> dict[str, Any] | None:
    """Which of the servings of a dried pot a lot holds, and the sentence of its label."""
    portion = portion_of(kitchen, line.lot, line.mass_left_g)
    if portion is None:
        return None
    said = portion.sentence(shown, forbidden=line.standing == Status.DO_NOT_EAT)
    return {"servings": portion.servings, "of": portion.of, "number": portion.number, "sentence": said}


def _run(args: argparse.Namespace) -> int:
    from dryhouse.kitchen.cautions.cautions import cautions_for

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        day = read_date(kitchen, args.on, "on") if args.on else today(kitchen)
        book = ShelfBook.read(kitchen)
        moment = end_of_day(kitchen, day)
        lines = shelf(kitchen, day, gone=args.gone, book=book)
        shown = style(kitchen)
        said = [(line, cautions_for(book.facts(line.lot, moment))) for line in lines]
        items: list[dict[str, Any]] = []
        for line, cautions in said:
            keeping = book.keeping(line.lot, moment)
            left = line.keep_by - day if line.keep_by is not None else None
            cups = None if line.volume_left_ml is None else line.volume_left_ml / SIZES["cup"]
            measure = None if cups is None else {"value": cups, "low": None, "high": None, "unit": "cup"}
            wet = lot_water(kitchen, line)
            dryness = book.verdict(line.lot)
            may_be_eaten = line.standing != Status.DO_NOT_EAT
            rests_on, worked = (keeping.basis, keeping.workings) if may_be_eaten else ((), ())
            items.append(
                {
                    "lot": line.lot.id,
                    "food": line.lot.food,
                    "name": line.title,
                    "standing": line.standing,
                    "reason": line.reason,
                    "first": line.first,
                    "packed_on": line.lot.packed_on.isoformat(),
                    "keep_by": line.keep_by.isoformat() if line.keep_by else None,
                    "at_least": line.at_least,
                    "days_left": left.days if left is not None else None,
                    "place": line.place,
                    "package": line.lot.package,
                    "verdict": dryness.name if may_be_eaten and dryness.probability is not None else None,
                    "dry_enough_probability": dryness.probability if may_be_eaten else None,
                    "batch": line.lot.batch,
                    "value": line.mass_left_g,
                    "low": None,
                    "high": None,
                    "unit": "g",
                    "measure": measure,
                    "portion": _portion(kitchen, line, shown),
                    "water": None if wet is None else figure_json(wet, shown),
                    "basis": bases_json(rests_on, shown),
                    "workings": list(workings(worked, shown)),
                    "cautions": cautions_json(cautions),
                }
            )
        rows = [(_text(kitchen, line, shown), cautions) for line, cautions in said]
        say_items(items, rows, args, if_none="Nothing is on the shelf yet. Pack a batch to begin.")
    return 0


def _text(kitchen: Kitchen, line: ShelfLine, shown: Style) -> str:
    """A lot in a row, and under it why it stands as it does; of one that is gone only how it went."""
    if line.standing in (Status.USED_UP, Status.THROWN_OUT):
        return f"{line.lot.id:>4}  {line.title}: {line.standing}, packed {day_words(line.lot.packed_on)}"
    portion = _portion(kitchen, line, shown)
    amount = amount_words(line.mass_left_g, line.volume_left_ml, shown) or "amount not known"
    amount = amount if portion is None else portion["sentence"].removeprefix(f"{line.lot.name}: ")
    where = line.place or "place not recorded"
    least = "at least " if line.at_least else ""
    keep_by = f"keep-by {least}{day_words(line.keep_by)}" if line.keep_by else "no keep-by"
    first = f", use {_nth(line.first)}" if line.first else ""
    standing = f"{line.standing}, {keep_by}"
    if line.standing == Status.PAST:
        standing = f"{line.standing}, {keep_by.removeprefix('keep-by ')}"
    head = f"{line.lot.id:>4}  {line.title}: {standing}, {amount}, {where}{first}"
    said = line.reason and line.standing not in (Status.PAST, Status.USE_SOON, Status.KEEPING)
    return "\n".join([head, *([f"        {line.reason}"] if said else [])])


def _nth(rank: int | None) -> str:
    if rank is None:
        return ""
    teen = 10 <= rank % 100 <= 20
    return _FIRST.get(rank) or f"{rank}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(rank % 10, 'th')}"
