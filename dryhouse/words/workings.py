"""Workings in lines: each step by the sentence of its kind, in the units the person reads, its sources last."""

from __future__ import annotations

from collections.abc import Iterable

from dryhouse.science.display import Style
from dryhouse.science.workings import Step
from dryhouse.words.slots import Slot
from dryhouse.words.step_lines import LINES


def lines(workings: Iterable[Step], style: Style) -> tuple[str, ...]:
    """The workings, a line a step."""
    return tuple(line(step, style) for step in workings)


def line(step: Step, style: Style) -> str:
    """One step in a line, such as `Corn: 40 oz × (1 − 76 %) = 9.6 oz dry matter   [a source]`."""
    terms = (*step.terms, *(() if step.result is None else (step.result,)))
    said = LINES[step.kind].format_map({term.name: Slot(term, style) for term in terms})
    sources = "; ".join(dict.fromkeys(term.source for term in terms if term.source))
    before = f"{step.about}: " if step.about else ""
    return before + said + (f"   [{sources}]" if sources else "")
