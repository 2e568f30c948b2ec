"""`dryhouse yields`: how much dried a fresh amount gives, and how much fresh a dried amount takes."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, as_typed, say_figure
from dryhouse.kitchen.records.field_problems import short

if TYPE_CHECKING:
    from dryhouse.kitchen.yields.yields import YieldAnswer
    from dryhouse.science.display import Style
    from dryhouse.science.quantities import Mass
    from dryhouse.science.values import Fact, Figure


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "yields",
        help="how much dried from fresh, and how much fresh for dried",
        epilog="Example: dryhouse yields corn --fresh 2 cups",
    )
    parser.add_argument("food", nargs="+", metavar="FOOD", help="the food, by its everyday name")
    amount = parser.add_mutually_exclusive_group(required=True)
    amount.add_argument("--fresh", metavar="QTY", help="prepared fresh food, such as “1 cup” or “3 lb”")
    amount.add_argument("--dried", metavar="QTY", help="dried food wanted, such as “2 cups” or “8 oz”")
    parser.add_argument("--form", default="", metavar="FORM", help="the cut: slices, dice, kernels …")
    add_more(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Answer in the unit that was typed; a measure is answered in grams, and in that measure beside it."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.batches.loads import dry_already
    from dryhouse.kitchen.foods.catalog import food
    from dryhouse.kitchen.foods.counted import bare_amount, counted_mass
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.yields.yields import DRIED, FRESH, yields
    from dryhouse.science.quantities import parse_amount

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        notation = style(kitchen)
        direction = FRESH if args.fresh is not None else DRIED
        typed = args.fresh if args.fresh is not None else args.dried
        known = food(kitchen, " ".join(args.food))
        counted = counted_mass(known, typed) if direction == FRESH else None
        plain = bare_amount(known, typed)
        amount = counted[0] if counted else parse_amount(plain, decimal_comma=notation.decimal_comma)
        answer = yields(kitchen, " ".join(args.food), amount, direction, form=args.form)
        name, dry = answer.knowledge.food.name, dry_already(answer.knowledge.food, notation)
        said = plain if counted is None else notation.mass(amount.si)
        title = (
            f"Dried from {said} of {name}" if direction == FRESH else f"Fresh {name}, prepared, for {plain} dried"
        )
        shown = as_typed(notation, typed)
        say_figure(
            title,
            answer.joined,
            shown,
            args,
            more={**_more(answer), "sentence": dry or None},
            details=[
                *filter(None, [dry, _any_cut(answer)]),
                *_counted(typed, counted, notation),
                *_details(answer, shown),
            ],
            workings=_beside(answer, shown),
        )
    return 0


def _any_cut(answer: YieldAnswer) -> str:
    """What is said where nothing is known of the cut that was asked for."""
    known = answer.knowledge
    if known.form_known:
        return ""
    each = sorted({cut for form in known.forms for cut in form.split(" or ")}, key=str.casefold)
    cuts = f" Known cuts: {', '.join(each)}." if each else ""
    return f"Nothing is known of {known.food.name} as “{short(known.form)}”: this is for any cut.{cuts}"


def _counted(typed: str, counted: tuple[Mass, Fact] | None, notation: Style) -> list[str]:
    """What the pieces weigh together, and by which table."""
    return [] if counted is None else [f"{typed}: {notation.mass(counted[0].si)}   [{counted[1].basis.source}]"]


def _more(answer: YieldAnswer) -> dict[str, Any]:
    return {
        "n_own": answer.n_own,
        "form_known": answer.knowledge.form_known,
        "left_out": answer.left_out,
        "handbook": _short(answer.handbook),
        "own": _short(answer.own),
        "prepared": _short(answer.prepared),
        "as_purchased": _short(answer.as_purchased),
        "trays": [
            {"dryer": t.dryer.name, **(_short(t.trays) or {}), "batches": t.batches, "batches_high": t.batches_high}
            for t in answer.trays
        ],
        "hours": _short(answer.hours),
    }


def _short(figure: Figure | None) -> dict[str, Any] | None:
    if figure is None:
        return None
    return {"value": figure.value, "low": figure.low, "high": figure.high, "unit": figure.unit}


def _details(answer: YieldAnswer, notation: Style) -> list[str]:
    """What else is asked in the same breath: what to buy, trays, hours."""
    bought = answer.as_purchased
    said = [] if bought is None else [f"as purchased: {notation.load_of(bought)}"]
    said += [f"trays of {t.dryer.name}: {notation.number(t.trays.value, 1)}" for t in answer.trays]
    return said + ([] if answer.hours is None else [f"drying time: {notation.figure(answer.hours)}"])


def _beside(answer: YieldAnswer, notation: Style) -> list[str]:
    from dryhouse.words.workings import lines

    figures = [answer.as_purchased, *(t.trays for t in answer.trays), answer.hours]
    return [line for figure in figures if figure is not None for line in lines(figure.workings, notation)]
