"""`dryhouse log`: record a finished tray batch, and say what it comes to."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, cautions_of, say_answer, say_json
from dryhouse.kitchen.records.foods import CONTENTS
from dryhouse.science.errors import InputProblem

if TYPE_CHECKING:
    from dryhouse.kitchen.kitchen import Kitchen

_HOW = ("fresh", "frozen", "canned", "cooked")
_HOW_TO_SAY = (
    "To log it under that name as a food of your own, say what is in it: --contains plant, meat, poultry, fish, "
    "egg, milk or unknown; more than one may be given."
)


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser("log", help="record a finished tray batch")
    parser.add_argument("--food", required=True)
    parser.add_argument(
        "--contains",
        action="append",
        default=[],
        choices=CONTENTS,
        help="log it as a food of your own under that name, and say what is in it; may be given several times",
    )
    parser.add_argument(
        "--really-plant",
        action="store_true",
        help="with “--contains plant”: there is no meat, fish, egg or milk in it, whatever its name says",
    )
    parser.add_argument("--fresh", required=True, metavar="QTY", help="mass loaded, after preparing")
    parser.add_argument("--dried", required=True, metavar="QTY", help="mass when dry")
    parser.add_argument("--start", metavar="WHEN", help="when it went on, such as “2026-11-20 18:00”")
    parser.add_argument("--hours", metavar="H", help="how long it dried, such as 8h30")
    parser.add_argument("--temp", metavar="T", help="dryer temperature, such as “135 F”")
    parser.add_argument("--precook", metavar="T", help="temperature reached in the middle before drying")
    parser.add_argument("--precook-method", default="", metavar="HOW", help="steamed, roasted, boiled …")
    parser.add_argument("--precook-measured", metavar="HOW", help="“thermometer” or “not measured”")
    parser.add_argument("--form", default="", help="the cut: slices, dice, kernels …")
    parser.add_argument("--made-from", default="fresh", choices=_HOW)
    parser.add_argument("--purchased", metavar="QTY", help="mass bought, before preparing")
    parser.add_argument("--fresh-volume", metavar="QTY", help="measure loaded")
    parser.add_argument("--dried-volume", metavar="QTY", help="measure when dry")
    parser.add_argument("--pretreatment", default="")
    parser.add_argument("--dryer", metavar="NAME")
    parser.add_argument("--trays", metavar="N")
    parser.add_argument("--start-moisture", metavar="PCT")
    parser.add_argument("--moisture", metavar="PCT", help="target moisture, wet basis")
    parser.add_argument("--notes", default="")
    add_more(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Record the batch; answer its number and its card."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.batches.log import batch_named, check, log_batch
    from dryhouse.kitchen.batches.typed import TypedBatch, draft_from
    from dryhouse.kitchen.cards.batch_card import batch_card, card_lines
    from dryhouse.kitchen.cautions.cautions import batch_facts
    from dryhouse.kitchen.settings import style
    from dryhouse.science.safety.unfolded import most_for
    from dryhouse.science.statuses import Status
    from dryhouse.words.figures import figure_json
    from dryhouse.words.workings import lines

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        typed = TypedBatch(
            food=args.food,
            fresh=args.fresh,
            dried=args.dried,
            start=args.start or "",
            hours=args.hours or "",
            temp=args.temp or "",
            precook=args.precook or "",
            precook_method=args.precook_method,
            precook_measured=args.precook_measured or "",
            form=args.form,
            made_from=args.made_from,
            purchased=args.purchased or "",
            fresh_volume=args.fresh_volume or "",
            dried_volume=args.dried_volume or "",
            pretreatment=args.pretreatment,
            dryer=args.dryer or "",
            trays=args.trays or "",
            start_moisture=args.start_moisture or "",
            moisture=args.moisture or "",
            notes=args.notes,
        )
        known = _with_own_food(kitchen, args)
        check(known, draft_from(known, typed))
    with open_kitchen(args.journal, sample=args.sample, write=True) as kitchen:
        known = _with_own_food(kitchen, args)
        done = log_batch(known, draft_from(known, typed))
        id = done.record.id
        card = batch_card(kitchen, id)
        manner = style(kitchen)
        if args.json:
            main, forbidden = card.figure("Yield by weight"), card.verdict.name == Status.DO_NOT_EAT
            answer: dict[str, Any] = figure_json(main, manner) if main is not None else {}
            answer |= {
                "batch": id,
                "what": done.what,
                "verdict": None if forbidden else card.verdict.name,
            }
            answer["sentences"] = list(card.sentences)
            answer["figures"] = {title: figure_json(figure, manner) for title, figure in card.figures}
            say_json({**answer, "cautions": cautions_of(card.cautions), "missing": list(card.missing)})
            return 0

        say_answer(
            args,
            [done.what],
            details=card_lines(card, manner),
            workings=[line for _, figure in card.figures for line in lines(figure.workings, manner)],
            cautions=card.cautions,
            most=most_for(batch_facts(kitchen, batch_named(kitchen, str(id))).kinds),
        )
    return 0


def _with_own_food(kitchen: Kitchen, args: argparse.Namespace) -> Kitchen:
    """The kitchen, in which her own food of this name is known where the answers say what is in it.

    A name that is not clear is asked about, with the way to answer.
    """
    from dryhouse.handbook.finder import WhichFood
    from dryhouse.kitchen.foods.catalog import food
    from dryhouse.kitchen.foods.not_yet_written import with_food
    from dryhouse.kitchen.foods.own_foods import ReallyPlant, contents_of_food, new_food

    try:
        known = food(kitchen, args.food, slips=not args.contains)
    except WhichFood as asked:
        if not args.contains:
            raise InputProblem(f"{asked.sentence} {_HOW_TO_SAY}", "food") from None
        try:
            own = new_food(kitchen, args.food, args.contains, really_plant=args.really_plant)
        except ReallyPlant as again:
            raise InputProblem(
                f"{again.sentence} If so, add --really-plant; if not, say with --contains what is in it.",
                "contains",
            ) from None
        return with_food(kitchen, own)
    if args.contains and set(args.contains) != set(contents_of_food(kitchen, known.slug)):
        raise InputProblem(
            f"“{args.food}” is known here as {known.name}, so what is in it is not asked; leave --contains out, or "
            "give your own food another name.",
            "contains",
        )
    return kitchen
