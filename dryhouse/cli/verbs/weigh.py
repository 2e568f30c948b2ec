"""`dryhouse weigh`: record one reading of the scale, and say where the batch stands."""

from __future__ import annotations

import argparse
from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, say_answer, say_json

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from dryhouse.kitchen.dryer.runs import DryingRun
    from dryhouse.kitchen.dryer.typed_readings import Reading
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.ports import Done, Record
    from dryhouse.kitchen.records import Batch, Weighing
    from dryhouse.science.display import Style

_COOLING = timedelta(hours=12)
"""So long after a batch came off it may still be weighed: cooled, or the next morning."""


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "weigh", help="record a weighing of a running batch", epilog="Example: dryhouse weigh 12 860g"
    )
    parser.add_argument("batch", metavar="BATCH", help="its number, or the name of the one running batch of a food")
    parser.add_argument(
        "reading",
        nargs="+",
        metavar="QTY",
        help="what the scale shows, such as “412 g” or “13:00 1 lb 3 oz tray 2”, or what happened: “turned”; or an "
        "answer: “was running”, “brittle”",
    )
    parser.add_argument("--at", metavar="WHEN", help="when, such as “14:30”, “yesterday 9:10” or “20 min ago”")
    parser.add_argument(
        "--tare", metavar="QTY", help="the empty tray; remembered from the last weighing (0 g: none)"
    )
    parser.add_argument("--sample-tray", action="store_true", help="the reading is of the one sample tray")
    parser.add_argument("--load", action="store_true", help="the reading is of the whole load")
    parser.add_argument(
        "--keep-anyway",
        action="store_true",
        help="keep a reading that can't be true; it is left out of the curve until you take it in",
    )
    parser.add_argument("--replace", action="store_true", help="replace the reading made within the same minute")
    parser.add_argument("--dryer-temp", metavar="T", help="temperature in the dryer, such as “135 F”")
    add_more(parser)
    parser.set_defaults(run=run, of_a_journal=True)


def run(args: argparse.Namespace) -> int:
    """Record the weighing; answer moisture, verdict and forecast. Raises InputProblem."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.cautions.cautions import batch_facts
    from dryhouse.kitchen.dryer.drying import running_batch_named
    from dryhouse.kitchen.dryer.run_words import run_json, run_lines
    from dryhouse.kitchen.dryer.runs import run_of
    from dryhouse.kitchen.dryer.typed_happenings import Happening
    from dryhouse.kitchen.dryer.typed_readings import Notation
    from dryhouse.kitchen.dryer.weigh_in import note_happening, read_line
    from dryhouse.kitchen.records.weighings import LOAD, SAMPLE

    typed = " ".join(args.reading)
    from dryhouse.kitchen.settings import style
    from dryhouse.kitchen.typed_moments import read_moment
    from dryhouse.science.errors import InputProblem
    from dryhouse.science.quantities import parse_mass, parse_temperature
    from dryhouse.science.safety.unfolded import most_for

    if args.sample_tray and args.load:
        raise InputProblem("A weighing is of the sample tray or of the whole load, not of both.")
    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        comma = style(kitchen).decimal_comma
        running = running_batch_named(kitchen, args.batch)
        line = read_line(kitchen, typed, Notation("", comma), started=running.started)
        tare = parse_mass(args.tare, allow_zero=True, decimal_comma=comma) if args.tare else None
        heat = parse_temperature(args.dryer_temp, decimal_comma=comma) if args.dryer_temp else None
        at = read_moment(kitchen, args.at, field="at") if args.at else None
        if not isinstance(line, Happening):
            _refuse_long_off(kitchen, running, [at or reading.at or kitchen.now() for reading in line])
    scope, number = SAMPLE if args.sample_tray else LOAD if args.load else None, running.id
    named = {"tare": tare, "scope": scope, "at": at, "heat": heat}
    asked: dict[str, Any] = {name: value for name, value in named.items() if value is not None}
    with open_kitchen(args.journal, sample=args.sample, write=True) as kitchen:
        done: Done[Weighing] | Done[Record]
        if isinstance(line, Happening):
            done = kitchen.do(note_happening, number, replace(line, at=at or line.at))
        else:
            done = _recorded(args, kitchen, number, [replace(reading, **asked) for reading in line])
        answer = run_of(kitchen, number)
        if args.json:
            say_json({"batch": number, "what": done.what, **run_json(kitchen, answer)})
            return 0
        say_answer(
            args,
            [f"{done.what}, batch {number}"],
            details=run_lines(kitchen, answer, style(kitchen)),
            workings=_workings(answer, style(kitchen)),
            cautions=answer.cautions,
            most=most_for(batch_facts(kitchen, answer.batch).kinds),
        )
    return 0


def _workings(run: DryingRun, notation: Style) -> list[str]:
    """How moisture and target weight were come by, where they are known."""
    from dryhouse.cli.answers import basis_lines
    from dryhouse.words.workings import lines

    figures = [figure for figure in (run.moisture, run.target_mass) if figure is not None]
    rests_on = [line for figure in figures for line in basis_lines(figure.basis, notation)]
    return [*rests_on, *(line for figure in figures for line in lines(figure.workings, notation))]


def _refuse_long_off(kitchen: Kitchen, batch: Batch, moments: Sequence[datetime]) -> None:
    """What came off the dryer long ago is not weighed into its curve. Raises InputProblem."""
    from dryhouse.kitchen.batches.naming import batch_name
    from dryhouse.science.errors import InputProblem
    from dryhouse.words.dates import full_day

    if batch.ended is not None and max(moments) - batch.ended > _COOLING:
        off = full_day(kitchen.local(batch.ended).date())
        name = batch_name(kitchen, batch)
        raise InputProblem(
            f"{name[:1].upper()}{name[1:]}, batch {batch.id}, came off the dryer on {off}. Say with --at when it "
            "was weighed, or name a batch that is running.",
            "batch",
        )


def _recorded(
    args: argparse.Namespace, kitchen: Kitchen, batch: int, readings: Sequence[Reading]
) -> Done[Weighing]:
    """The readings as they are written. One that can't be true is refused with the way to keep it."""
    from dryhouse.kitchen.dryer.doubts import DoubtfulWeight
    from dryhouse.kitchen.dryer.weigh_in import record_readings
    from dryhouse.science.errors import InputProblem

    try:
        return kitchen.do(record_readings, batch, readings, keep=args.keep_anyway)
    except DoubtfulWeight as doubtful:
        other = doubtful.doubt.replaces
        if args.replace and other:
            return kitchen.do(record_readings, batch, readings, replacing=other)
        instead = " --replace puts it in that one's place;" if other else ""
        way_on = f"Nothing was recorded.{instead} --keep-anyway keeps it, left out of the curve."
        raise InputProblem(f"{doubtful.doubt.question} {way_on}", "gross") from None
