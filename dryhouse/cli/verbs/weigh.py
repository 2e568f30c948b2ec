"""`dryhouse weigh`: record one reading of the scale, and say where the batch stands."""

from __future__ import annotations

import argparse
from typing import Any

from dryhouse.cli.answers import add_more, say_answer, say_json


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser("weigh", help="record a weighing of a running batch")
    parser.add_argument("batch", metavar="BATCH", help="its number, or the name of the one running batch of a food")
    parser.add_argument("reading", metavar="QTY", help="what the scale shows, such as “412 g” or “1 lb 3 oz”")
    parser.add_argument("--at", metavar="WHEN", help="when, such as “14:30”, “yesterday 9:10” or “20 min ago”")
    parser.add_argument(
        "--tare", metavar="QTY", help="the empty tray; remembered from the last weighing (0 g: none)"
    )
    parser.add_argument("--sample-tray", action="store_true", help="the reading is of the one sample tray")
    parser.add_argument("--load", action="store_true", help="the reading is of the whole load")
    parser.add_argument("--dryer-temp", metavar="T", help="temperature in the dryer, such as “135 F”")
    add_more(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Record the weighing; answer moisture, verdict and forecast."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.cautions.cautions import batch_facts
    from dryhouse.kitchen.dryer.drying import add_weighing, running_batch_named
    from dryhouse.kitchen.dryer.run_words import run_json, run_lines
    from dryhouse.kitchen.dryer.runs import run_of
    from dryhouse.kitchen.records.batches import LOAD, SAMPLE
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.typed_moments import read_moment
    from dryhouse.science.errors import InputProblem
    from dryhouse.science.quantities import parse_mass, parse_temperature
    from dryhouse.science.safety.unfolded import most_for

    if args.sample_tray and args.load:
        raise InputProblem("A weighing is of the sample tray or of the whole load, not of both.")
    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        comma = style(kitchen).decimal_comma
        number = running_batch_named(kitchen, args.batch).id
        reading = parse_mass(args.reading, decimal_comma=comma)
        tare = parse_mass(args.tare, allow_zero=True, decimal_comma=comma) if args.tare else None
        heat = parse_temperature(args.dryer_temp, decimal_comma=comma) if args.dryer_temp else None
        at = read_moment(kitchen, args.at, field="at") if args.at else None
    scope = SAMPLE if args.sample_tray else LOAD if args.load else None
    with open_kitchen(args.journal, sample=args.sample, write=True) as kitchen:
        done = kitchen.do(add_weighing, number, reading, tare=tare, scope=scope, at=at, dryer_temperature=heat)
        answer = run_of(kitchen, number)
        if args.json:
            say_json({"batch": number, "what": done.what, **run_json(kitchen, answer)})
            return 0
        say_answer(
            args,
            [f"{done.what}, batch {number}"],
            details=run_lines(kitchen, answer, style(kitchen)),
            cautions=answer.cautions,
            most=most_for(batch_facts(kitchen, answer.batch).kinds),
        )
    return 0
