"""`dryhouse keeps FOOD --temp T [--package P]`: how many days a dried food keeps at one temperature."""

from __future__ import annotations

import argparse
from typing import Any

from dryhouse.cli.answers import add_more, say_answer, say_figure, say_json
from dryhouse.house import open_kitchen
from dryhouse.kitchen.records.lots import PACKAGES
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.shelf.shelf import NothingPublished, keeps
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import parse_temperature
from dryhouse.science.workings import StepKind
from dryhouse.words.cautions import cautions_json
from dryhouse.words.messages import problem_sentence


def add(verbs: Any) -> None:
    """The verb and its options."""
    parser = verbs.add_parser(
        "keeps",
        help="how long a dried food keeps at a temperature",
        epilog="Example: dryhouse keeps apple --temp 60F",
    )
    parser.add_argument("food", nargs="+", metavar="FOOD", help="the food, by its everyday name")
    parser.add_argument("--temp", required=True, metavar="T", help="temperature of the place, such as 60F or 16C")
    parser.add_argument("--package", default="jar", metavar="P", help=f"one of: {', '.join(PACKAGES)}")
    add_more(parser)
    parser.set_defaults(run=_run)


def _run(args: argparse.Namespace) -> int:
    package = _package(args.package)
    if package is None:
        raise InputProblem(f"“{args.package}” is no package here; choose one of {', '.join(PACKAGES)}.", "package")
    celsius = parse_temperature(args.temp).si
    if not -60 <= celsius <= 60:
        raise InputProblem(f"{args.temp} is no temperature to keep food at; write it like 60F or 16C.", "temp")
    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        try:
            figure = keeps(kitchen, " ".join(args.food), celsius, package)
        except NothingPublished as unknown_life:
            _say_nothing(unknown_life, package, args)
            return 0
        at_least = any(done.kind == StepKind.LIFE_COLDEST for done in figure.workings)
        more = {"package": package, "at_least": at_least}
        say_figure("Keeps at least" if at_least else "Keeps", figure, style(kitchen), args, more=more)
    return 0


def _say_nothing(unknown_life: NothingPublished, package: str, args: argparse.Namespace) -> None:
    if args.json:
        unknown = dict.fromkeys(("value", "low", "high", "measure"))
        rest: dict[str, Any] = {
            "unit": "day",
            "basis": [],
            "workings": [problem_sentence(unknown_life)],
            "package": package,
        }
        rest["at_least"] = False
        say_json({**unknown, **rest, "cautions": cautions_json(unknown_life.cautions)})
        return
    say_answer(args, [problem_sentence(unknown_life)], cautions=unknown_life.cautions)


def _package(typed: str) -> str | None:
    """The package of this name, or the only one with all its words (`vacuum`)."""
    said = typed.casefold().split()
    meant = [p for p in PACKAGES if p.split() == said] or [
        p for p in PACKAGES if said and set(said) <= set(p.split())
    ]
    return meant[0] if len(meant) == 1 else None
