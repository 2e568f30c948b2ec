"""How the command line answers: plain text, or one JSON object with `--json`."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.quantities import parse_amount, unit_typed
from dryhouse.science.units import METRIC_UNITS
from dryhouse.science.values import Caution, Figure, cautions_json
from dryhouse.words.figures import figure_json
from dryhouse.words.workings import lines


def add_json(parser: argparse.ArgumentParser) -> None:
    """The `--json` option, the same on every verb."""
    parser.add_argument("--json", action="store_true", help="answer with one JSON object")


def as_typed(style: Style, typed: str) -> Style:
    """The person's way of showing numbers, in the system of the units that were typed."""
    unit = unit_typed(parse_amount(typed, decimal_comma=style.decimal_comma))
    return replace(style, system=METRIC if unit in METRIC_UNITS else US)


def say_json(answer: Mapping[str, Any]) -> None:
    """One JSON object on standard output."""
    plain = "utf" not in (getattr(sys.stdout, "encoding", None) or "utf-8").lower()
    json.dump(answer, sys.stdout, ensure_ascii=plain, default=str)
    sys.stdout.write("\n")


def say_figure(
    title: str, figure: Figure, style: Style, *, as_json: bool, more: Mapping[str, Any] | None = None
) -> None:
    """A figure with its interval, basis, workings and cautions, or the same as JSON."""
    if as_json:
        say_json({**figure_json(figure, style), **(more or {})})
        return
    between = style.interval(figure)
    print(f"{title}: {style.figure(figure)}" + (f"  (80 %: {between})" if between else ""))
    if figure.measure is not None:
        measure = figure.measure
        print(f"  by measure: {style.amount(measure.value, measure.unit)}")
    for basis in figure.basis:
        print(f"  basis: {basis}")
    for line in lines(figure.workings, style):
        print(f"  {line}")
    say_cautions(figure.cautions)


def say_cautions(cautions: Iterable[Caution]) -> None:
    """Every caution with its source."""
    for caution in cautions_json(cautions):
        print(f"  {caution['severity'].upper()}: {caution['text']} [{caution['source']}]")


def say_items(items: list[dict[str, Any]], rows: Iterable[str], *, as_json: bool) -> None:
    """A list: `{"items": […]}` as JSON, a line each as text."""
    if as_json:
        say_json({"items": items})
        return
    for row in rows:
        print(row)


def cautions_of(cautions: Iterable[Caution]) -> list[dict[str, str]]:
    """Cautions as JSON."""
    return cautions_json(cautions)
