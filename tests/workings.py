"""Workings, and what a figure rests on, as they are read; for tests that look at their words."""

from collections.abc import Iterable

from dryhouse.science.display import METRIC, Style
from dryhouse.science.values import Basis
from dryhouse.science.workings import Step
from dryhouse.words.bases import basis_text
from dryhouse.words.workings import lines

GRAMS = Style(METRIC)


def read(workings: Iterable[Step], style: Style = GRAMS) -> str:
    """The lines of the workings, in grams unless another style is asked for."""
    return "\n".join(lines(workings, style))


def rests_on(bases: Iterable[Basis]) -> list[str]:
    """What a figure rests on, a line each."""
    return [basis_text(each, GRAMS) for each in bases]
