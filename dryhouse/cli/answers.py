"""How the command line answers: plain text, or one JSON object with `--json`."""

from __future__ import annotations

import argparse
import json
import re
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.safety.unfolded import AT_A_LOOK_UP, unfolded
from dryhouse.science.units import MASS, METRIC_UNITS, VOLUME, written_as
from dryhouse.science.values import Basis, Caution, Figure, Moment, gravest_first
from dryhouse.words.bases import basis_text
from dryhouse.words.cautions import cautions_json
from dryhouse.words.figures import figure_json
from dryhouse.words.workings import lines

MOST_LINES = 12
"""How long a plain answer is at most; stops and the rows of lists are not counted."""


def add_json(parser: argparse.ArgumentParser) -> None:
    """The `--json` option, the same on every verb."""
    parser.add_argument("--json", action="store_true", help="answer with one JSON object")


def add_more(parser: argparse.ArgumentParser, *, workings: bool = True) -> None:
    """The options of a verb that answers with cautions: all of it as JSON, all cautions, all the arithmetic."""
    add_json(parser)
    parser.add_argument("--cautions", action="store_true", help="show every caution in full")
    if workings:
        parser.add_argument("--workings", action="store_true", help="show the arithmetic, with its sources")


def as_typed(style: Style, *typed: str) -> Style:
    """The person's way of showing numbers, in the system of the last unit that was typed; her own without any."""
    known = written_as((MASS, VOLUME))
    said = [known[word] for word in re.findall(r"#|[^\W\d_]+", " ".join(typed).casefold()) if word in known]
    return replace(style, system=METRIC if said[-1].name in METRIC_UNITS else US) if said else style


SCHEMA = 2
"""The version of the answers' keys: from 2 on, the moisture of a batch has its interval."""


def say_json(answer: Mapping[str, Any]) -> None:
    """One JSON object on standard output, with the version of its keys."""
    plain = "utf" not in (getattr(sys.stdout, "encoding", None) or "utf-8").lower()
    json.dump({**answer, "schema": SCHEMA}, sys.stdout, ensure_ascii=plain, default=str)
    sys.stdout.write("\n")


def say_figure(
    title: str,
    figure: Figure,
    style: Style,
    args: argparse.Namespace,
    *,
    more: Mapping[str, Any] | None = None,
    details: Iterable[str] = (),
    workings: Iterable[str] = (),
) -> None:
    """A figure with its interval, what it rests on and its cautions, or all of it as JSON.

    `details` and `workings` are lines beside it: the first are said while there is room, the second when asked for.
    """
    if args.json:
        say_json({**figure_json(figure, style), **(more or {})})
        return
    between = style.interval(figure)
    head = [f"{title}: {style.figure(figure)}" + (f"  (80 %: {between})" if between else "")]
    if figure.measure is not None and figure.unit != "ml":
        by_measure = style.amount(figure.measure.value, figure.measure.unit)
        head += [f"  by measure: {by_measure}"] if by_measure != style.figure(figure) else []
    say_answer(
        args,
        head,
        details=(*basis_words(figure.basis, style, args), *details),
        workings=(*basis_lines(figure.basis, style), *lines(figure.workings, style), *workings),
        cautions=figure.cautions,
    )


def basis_lines(bases: Iterable[Basis], style: Style) -> list[str]:
    """Everything a figure rests on, a line each."""
    return [f"basis: {basis_text(basis, style)}" for basis in bases]


def basis_words(basis: Sequence[Basis], style: Style, args: argparse.Namespace) -> list[str]:
    """What a figure rests on, in a line: the first of it, and how many more there are. Nothing beside the
    arithmetic, which has all of it."""
    if not basis or args.workings:
        return []
    return [f"basis: {basis_text(basis[0], style)}" + (f", and {len(basis) - 1} more" if len(basis) > 1 else "")]


def say_answer(  # noqa: PLR0913 - each part of an answer by its name, most of them left out by most verbs
    args: argparse.Namespace,
    head: Iterable[str],
    *,
    rows: Iterable[str] = (),
    details: Iterable[str] = (),
    workings: Iterable[str] = (),
    cautions: Iterable[Caution] = (),
    most: int = AT_A_LOOK_UP,
    moment: Moment = "now",
) -> None:
    """The answer, the rows of its lists, details while there is room, every stop, what matters now, and the way to
    the rest. Without `--workings` or `--cautions` that is at most `MOST_LINES`, stops and rows not counted."""
    every, answer = gravest_first(cautions), list(head)
    shown, rest = (every, ()) if args.cautions else unfolded(every, most, moment)
    beside = list(details)
    arithmetic = [line for line in dict.fromkeys(workings) if line not in (*answer, *beside)]
    room = MOST_LINES - len(answer) - sum(c.severity != "stop" for c in shown) - 1
    said = beside if args.workings else beside[: max(room, 0)]
    for line in answer:
        print(line)
    for line in (*rows, *(f"  {line}" for line in said)):
        print(line)
    if args.workings:
        for line in arithmetic:
            print(f"  {line}")
    say_cautions(shown)
    hidden = not args.workings and bool(arithmetic or len(said) < len(beside))
    ways = [more_cautions(len(rest))] if rest else []
    ways += ["the arithmetic: add --workings"] if hidden else []
    if ways:
        print(f"  {'; '.join(ways)}")


def more_cautions(count: int) -> str:
    """How many cautions were left out, and the way to them."""
    return f"and {count} more {'caution' if count == 1 else 'cautions'}: add --cautions"


def say_cautions(cautions: Iterable[Caution], indent: str = "  ") -> None:
    """Each of these cautions in full, with its source."""
    for line in caution_lines(cautions, indent):
        print(line)


def caution_lines(cautions: Iterable[Caution], indent: str = "  ") -> list[str]:
    """Each of these cautions as a line: its weight, its text, its source."""
    return [f"{indent}{c.severity.upper()}: {c.text} [{c.source}]" for c in gravest_first(cautions)]


def say_items(
    items: list[dict[str, Any]],
    rows: Iterable[tuple[str, Sequence[Caution]]],
    args: argparse.Namespace,
    *,
    if_none: str,
) -> None:
    """A list: `{"items": […]}` as JSON; as text a row each with its stops in full, then how much more is said."""
    if args.json:
        say_json({"items": items})
        return
    rest = 0
    for row, cautions in rows:
        print(row)
        shown = cautions if args.cautions else [c for c in cautions if c.severity == "stop"]
        rest += len(gravest_first(cautions)) - len(gravest_first(shown))
        say_cautions(shown, "        ")
    if not items:
        print(if_none)
    if rest:
        print(more_cautions(rest))


def cautions_of(cautions: Iterable[Caution]) -> list[dict[str, str]]:
    """Cautions as JSON."""
    return cautions_json(cautions)
