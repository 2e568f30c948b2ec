"""Workings in lines: each step by the sentence of its kind, in the units the person reads, its sources last."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from dryhouse.science.display import Style
from dryhouse.science.workings import Step, Term
from dryhouse.words.amounts import DIGITS, figures, own, worked
from dryhouse.words.dates import day_words
from dryhouse.words.step_lines import LINES


def lines(workings: Iterable[Step], style: Style) -> tuple[str, ...]:
    """The workings, a line a step."""
    return tuple(line(step, style) for step in workings)


def line(step: Step, style: Style) -> str:
    """One step in a line, such as `Corn: 40 oz × (1 − 76 %) = 9.6 oz dry matter   [a source]`."""
    terms = (*step.terms, *(() if step.result is None else (step.result,)))
    said = LINES[step.kind].format_map({term.name: _Slot(term, style) for term in terms})
    sources = "; ".join(dict.fromkeys(term.source for term in terms if term.source))
    before = f"{step.about}: " if step.about else ""
    return before + said + (f"   [{sources}]" if sources else "")


class _Slot:
    """A term in its place in a line.

    After a colon the line may ask for `own`, the unit as it is whatever the person's system; `bare`, the
    number without its unit; how many digits are known; or what is counted, `one|many`.
    """

    def __init__(self, term: Term, style: Style) -> None:
        self._term, self._style = term, style

    def __format__(self, spec: str) -> str:
        value, style = self._term.value, self._style
        if isinstance(value, date):
            return day_words(value)
        if isinstance(value, str):
            return value
        if "|" in spec:
            one, many = spec.split("|")
            return f"{figures(value, style)} {one if value == 1 else many}"
        if spec == "own":
            return own(value, self._term.unit, style)
        if spec == "bare":
            return figures(value, style)
        return worked(value, self._term.unit, style, int(spec or DIGITS))
