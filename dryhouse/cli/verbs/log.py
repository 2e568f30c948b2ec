"""`dryhouse log`: record a finished tray batch, and say what it comes to."""

from __future__ import annotations

import argparse
import re
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, as_typed, cautions_of, say_answer, say_json
from dryhouse.kitchen.records.foods import CONTENTS
from dryhouse.kitchen.records.shapes import Shape
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Duration, Length, Mass, Temperature, Volume, parse_amount
from dryhouse.words.messages import problem_sentence

if TYPE_CHECKING:
    from dryhouse.kitchen.batches.log import BatchDraft
    from dryhouse.kitchen.batches.typed import TypedBatch
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.ports import Done
    from dryhouse.kitchen.records import Batch

_LOADED, _DRY = ("fresh", "fresh_volume", "cooked_out"), ("dried", "dried_volume")
_MEASURED = {"fresh": "fresh_volume", "dried": "dried_volume"}
"""Where a measure belongs that was typed for a weight."""
_METAVARS: dict[type, str] = {
    Mass: "QTY",
    Volume: "QTY",
    Temperature: "T",
    Duration: "TIME",
    Length: "LENGTH",
    str: "WORDS",
}
_HOW_TO_SAY = (
    "To log it under that name as a food of your own, say what is in it: --contains plant, meat, poultry, fish, "
    "egg, milk or unknown; more than one may be given."
)


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "log",
        help="record a finished tray batch",
        epilog="Example: dryhouse log --food corn --fresh 2 lb --dried 7 oz --hours 9h30 --temp 125 F",
    )
    parser.add_argument("--food", metavar="FOOD", help="the food, by its everyday name")
    parser.add_argument(
        "--like",
        metavar="BATCH",
        help="the same again: food, cut, dryer, heat and ingredients as in that batch, unless you give others",
    )
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
    parser.add_argument("--start", metavar="WHEN", help="when it went on, such as “2026-11-20 18:00”")
    parser.add_argument("--hours", metavar="H", help="how long it dried, such as 8h30")
    parser.add_argument("--end", metavar="WHEN", help="when it came off, in place of its start")
    from dryhouse.kitchen.batches.typed import ENTRIES

    for entry, shape in ENTRIES.items():
        _add_option(parser, entry, shape)
    parser.add_argument(
        "--dry-matter-test",
        default="",
        metavar="QTY, QTY",
        help="both weights of a dry-matter test in one: a sample, fresh or dried, and the sample once it loses no "
        "more weight, such as “20 g, 1.9 g”",
    )
    parser.add_argument(
        "--part",
        action="append",
        default=[],
        metavar="FOOD=QTY",
        help="an ingredient of a mix and its weight, such as “turkey=8 oz”; may be given several times",
    )
    parser.add_argument(
        "--keep-anyway", action="store_true", help="keep weights that can't be true as they were typed"
    )
    add_more(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Record the batch; answer its number and its card. Raises InputProblem."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.batches.doubted import doubted_weights
    from dryhouse.kitchen.batches.log import batch_named, check_draft
    from dryhouse.kitchen.cards.batch_card import batch_card, card_lines
    from dryhouse.kitchen.cards.heating import heating_lines
    from dryhouse.kitchen.cautions.cautions import batch_facts
    from dryhouse.kitchen.settings import style
    from dryhouse.science.dryness import Verdict
    from dryhouse.science.safety.unfolded import most_for
    from dryhouse.science.statuses import FigureId, Status
    from dryhouse.words.figures import figure_json, moisture_json
    from dryhouse.words.workings import lines

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        _take_food(kitchen, args)
        typed = _typed(kitchen, args)
        known = _with_own_food(kitchen, args)
        draft = _draft(known, args, typed)
        check_draft(known, draft)
        notation = as_typed(style(kitchen), args.fresh, args.dried)
        if not args.keep_anyway and (question := doubted_weights(known, draft, notation)):
            raise InputProblem(f"{question} Nothing was recorded; --keep-anyway keeps it as typed.", "dried")
    with open_kitchen(args.journal, sample=args.sample, write=True) as kitchen:
        done = kitchen.do(_log, args, typed)
        id = done.record.id
        logged = batch_named(kitchen, str(id))
        notation = as_typed(style(kitchen), args.fresh, args.dried)
        card = batch_card(kitchen, id, notation)
        if args.json:
            main, forbidden = card.figure(FigureId.YIELD_BY_WEIGHT), card.verdict.name == Status.DO_NOT_EAT
            answer: dict[str, Any] = figure_json(main, notation) if main is not None else {}
            answer |= {
                "batch": id,
                "what": done.what,
                "verdict": None if forbidden else card.verdict.name,
                "moisture": moisture_json(card.figure(FigureId.MOISTURE_NOW)),
                "dry_enough_probability": card.verdict.probability if isinstance(card.verdict, Verdict) else None,
            }
            answer["sentences"] = [*heating_lines(logged), *card.said(notation)]
            answer["figures"] = {f.caption: figure_json(f.figure, notation) for f in card.figures}
            say_json({**answer, "cautions": cautions_of(card.cautions), "missing": list(card.missing)})
            return 0

        say_answer(
            args,
            [done.what, *heating_lines(logged)],
            details=card_lines(card, notation),
            workings=[line for f in card.figures for line in lines(f.figure.workings, notation)],
            cautions=card.cautions,
            most=most_for(batch_facts(kitchen, logged).kinds),
        )
    return 0


def _log(kitchen: Kitchen, args: argparse.Namespace, typed: TypedBatch) -> Done[Batch]:
    from dryhouse.kitchen.batches.log import log_batch

    known = _with_own_food(kitchen, args)
    return log_batch(known, _draft(known, args, typed))


def _draft(kitchen: Kitchen, args: argparse.Namespace, typed: TypedBatch) -> BatchDraft:
    """What was typed; what it leaves open as in the batch that it is like."""
    from dryhouse.kitchen.batches.log import batch_named, draft_like, filled_like
    from dryhouse.kitchen.batches.typed import draft_from

    draft = draft_from(kitchen, typed)
    return filled_like(draft, draft_like(kitchen, batch_named(kitchen, args.like))) if args.like else draft


def _take_food(kitchen: Kitchen, args: argparse.Namespace) -> None:
    """The food of the batch that this one is like, where none is named."""
    from dryhouse.kitchen.batches.log import batch_named
    from dryhouse.kitchen.foods.catalog import food_name

    if args.like and not args.food:
        args.food = food_name(kitchen, batch_named(kitchen, args.like).food)
    if not args.food:
        raise InputProblem("Which food was it? Name it with --food, or a batch it is like with --like.", "food")


def _add_option(parser: argparse.ArgumentParser, entry: str, shape: Shape) -> None:
    """The option of one field of a batch, as the field describes itself."""
    from dryhouse.kitchen.batches.typed import YES

    about = shape.about
    said = (about.help or about.label[:1].lower() + about.label[1:]).replace("%", "%%")
    listed = f": {', '.join(about.choices)}" if about.choices else ""
    if shape.holds is bool:
        parser.add_argument(f"--{entry.replace('_', '-')}", action="store_const", const=YES, default="", help=said)
        return
    parser.add_argument(
        f"--{entry.replace('_', '-')}",
        default="",
        metavar="NAME" if entry == "dryer" else _METAVARS.get(shape.holds, _number(shape)),
        help=said + listed,
    )


def _number(shape: Shape) -> str:
    return "PCT" if shape.name.endswith("_pct") else "N"


def _typed(kitchen: Kitchen, args: argparse.Namespace) -> TypedBatch:
    """What was typed, entry by entry."""
    from dryhouse.kitchen.batches.log import batch_named, parts_of
    from dryhouse.kitchen.batches.typed import APART, ENTRIES, typed_batch

    mixed = bool(args.like) and bool(parts_of(kitchen, batch_named(kitchen, args.like).id))
    if not args.part and not mixed and not any(getattr(args, name) for name in _LOADED):
        raise InputProblem("What was loaded? Say its weight, such as --fresh “2 lb”, or --part for a mix.", "fresh")
    if not any(getattr(args, name) for name in _DRY):
        raise InputProblem("What did it weigh dry? Say it with --dried, such as “7 oz”.", "dried")
    parts = []
    for part in args.part:
        name, equals, amount = part.partition("=")
        if not equals or not name.strip() or not amount.strip():
            raise InputProblem(f"“{part}” is no ingredient with its weight; write it like “turkey=8 oz”.", "parts")
        parts.append((name.strip(), amount.strip()))
    given = {name: getattr(args, name) or "" for name in (*APART, *ENTRIES)}
    for weighed, measured in _MEASURED.items():
        if given[weighed] and not given[measured] and _is_measure(given[weighed]):
            given[measured], given[weighed] = given[weighed], ""
    return typed_batch(tuple(parts), **{**given, **_test_typed(args)})


def _is_measure(text: str) -> bool:
    """Whether an amount is so many cups and no weight."""
    try:
        return isinstance(parse_amount(text), Volume)
    except InputProblem:
        return False


def _test_typed(args: argparse.Namespace) -> dict[str, str]:
    """The two weights of a dry-matter test that were typed in one."""
    if not args.dry_matter_test.strip():
        return {}
    if args.test_sample or args.test_dry:
        raise InputProblem(
            "The dry-matter test is given twice; leave --dry-matter-test or the other two out.", "test"
        )
    weights = [w.strip() for w in re.split(r";|,\s|\bto\b|→", args.dry_matter_test) if w.strip()]
    if len(weights) != 2:
        raise InputProblem(
            f"“{args.dry_matter_test}” is not a dry-matter test: write what the sample weighed and what it weighed "
            "dried out, such as “20 g, 1.9 g”.",
            "test",
        )
    return {"test_sample": weights[0], "test_dry": weights[1]}


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
            raise InputProblem(f"{problem_sentence(asked)} {_HOW_TO_SAY}", "food") from None
        try:
            own = new_food(kitchen, args.food, args.contains, really_plant=args.really_plant)
        except ReallyPlant as again:
            raise InputProblem(
                f"{problem_sentence(again)} If so, add --really-plant; if not, say with --contains what is in it.",
                "contains",
            ) from None
        return with_food(kitchen, own)
    if args.contains and set(args.contains) != set(contents_of_food(kitchen, known.slug)):
        as_what = "" if known.name.casefold() == args.food.strip().casefold() else f" as {known.name}"
        raise InputProblem(
            f"“{args.food}” is known here{as_what}, so what is in it is not asked; leave --contains out, or give "
            "your own food another name.",
            "contains",
        )
    return kitchen
