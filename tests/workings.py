"""Workings as they are read, for tests that look at their words."""

from collections.abc import Iterable

from dryhouse.science.display import METRIC, Style
from dryhouse.science.workings import Step
from dryhouse.words.workings import lines

GRAMS = Style(METRIC)


def read(workings: Iterable[Step], style: Style = GRAMS) -> str:
    """The lines of the workings, in grams unless another style is asked for."""
    return "\n".join(lines(workings, style))
