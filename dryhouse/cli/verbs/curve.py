"""`dryhouse curve FILE.csv`: the drying curves of a run and when it is done."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, basis_lines, basis_words, say_answer, say_json
from dryhouse.words.bases import bases_json
from dryhouse.words.cautions import cautions_json
from dryhouse.words.messages import message_words

if TYPE_CHECKING:
    from dryhouse.kitchen.dryer.curve_file import RunAnswer


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "curve",
        help="the drying curves of a run, and when it is done",
        epilog="Example: dryhouse curve run.csv --food apple --until-moisture 15",
    )
    parser.add_argument("file", type=Path, metavar="FILE.csv", help="columns: hours (or moments), grams")
    parser.add_argument("--food", metavar="FOOD", help="take starting and target moisture from this food")
    parser.add_argument("--until-moisture", metavar="PCT", help="target moisture, %%")
    parser.add_argument("--start-moisture", metavar="PCT", help="moisture at the first weighing, %%")
    parser.add_argument(
        "--start-moisture-tested", action="store_true", help="it was measured by drying a sample, not looked up"
    )
    add_more(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Answer with the finish in hours from the first row, and every model the weighings carry."""
    from dryhouse.kitchen.dryer.curve_file import answer_json, lines_of, model_lines, read_run, said
    from dryhouse.kitchen.dryer.curve_points import read_points
    from dryhouse.science.display import METRIC, Style
    from dryhouse.science.quantities import parse_percent
    from dryhouse.science.values import Figure
    from dryhouse.words.figures import figure_json

    def percent(text: str | None, what: str) -> float | None:
        return None if text is None else parse_percent(text, what=what)

    grams = Style(METRIC)  # as the file has them
    points = read_points(args.file)
    start = percent(args.start_moisture, "starting moisture")
    until = percent(args.until_moisture, "target moisture")

    def answer_with_food() -> RunAnswer:
        from dryhouse.house import open_kitchen
        from dryhouse.kitchen.foods.catalog import food

        with open_kitchen(args.journal, sample=args.sample) as kitchen:
            known = food(kitchen, args.food)
            return read_run(
                points,
                kitchen=kitchen,
                food=known,
                start_moisture_pct=start,
                target_moisture_pct=until,
                start_moisture_tested=args.start_moisture_tested,
            )

    if args.food:
        answer = answer_with_food()
    else:
        tested = args.start_moisture_tested
        answer = read_run(points, start_moisture_pct=start, target_moisture_pct=until, start_moisture_tested=tested)
    answer = _with_options(answer)
    if args.json:
        found = answer.forecast
        figure = found.figure() if found else None
        known = {} if figure else {"value": None}
        say_json(
            {
                **figure_json(figure or Figure(0.0, "h"), grams),
                **known,
                "basis": bases_json(answer.basis, grams),
                "workings": list(lines_of(answer, grams)),
                "cautions": cautions_json(answer.cautions),
                **answer_json(answer),
            }
        )
        return 0
    doubts = [message_words(warning, grams) for fit in answer.curves.fits for warning in fit.warnings]
    say_answer(
        args,
        said(answer),
        rows=model_lines(answer),
        details=basis_words(answer.basis, grams, args),
        workings=(*basis_lines(answer.basis, grams), *doubts, *lines_of(answer, grams)),
        cautions=answer.cautions,
    )
    return 0


def _with_options(answer: RunAnswer) -> RunAnswer:
    """The answer; where something is not known, with the options that say it."""
    if not answer.missing:
        return answer
    options = " and ".join(f"--{one.replace('_', '-')}" for one in answer.missing)
    return replace(answer, doubt=f"{answer.doubt} Give {options}, or name a food with --food.")
