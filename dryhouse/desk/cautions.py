"""What a surface says of its cautions: every stop in full, then what matters now, then how many more there are."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from dryhouse.science.safety.unfolded import unfolded
from dryhouse.science.values import Caution, Moment, gravest_first

SAID = {"stop": "Stop", "warn": "Caution", "note": "Note"}
"""The word each severity is said with."""


def more_words(number: int, shown: int) -> str:
    """`7 more cautions`, or `1 caution` where none is shown."""
    return f"{number}{' more' if shown else ''} {'caution' if number == 1 else 'cautions'}"


def said(caution: Caution) -> str:
    """The caution as it is read: its word, then its text."""
    return f"{SAID[caution.severity]}: {caution.text}"


def stops_of(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """The stops among them, each once."""
    return tuple(c for c in gravest_first(cautions) if c.severity == "stop")


def stops_in_brief(cautions: Iterable[Caution]) -> str:
    """Every stop in the few words of a label, one after another, for where the full text stands beside."""
    briefs = dict.fromkeys(c.brief.rstrip(".") for c in stops_of(cautions))
    return " ".join(f"{SAID['stop']}: {brief}." for brief in briefs)


def came_and_went(
    before: Iterable[Caution], after: Iterable[Caution]
) -> tuple[tuple[Caution, ...], tuple[Caution, ...]]:
    """Which cautions are new and which are gone, whatever their reasons."""
    old, new = gravest_first(before), gravest_first(after)
    was, now = ({(c.rule, c.text) for c in every} for every in (old, new))
    return (
        tuple(c for c in new if (c.rule, c.text) not in was),
        tuple(c for c in old if (c.rule, c.text) not in now),
    )


def cautions_html(
    cautions: Iterable[Caution], most: int | None = None, where: str = "in Dryhouse", moment: Moment = "now"
) -> str:
    """Cautions on paper, each with its source; of more than `most` beside the stops, how many there are and where
    they stand."""
    every = gravest_first(cautions)
    shown, rest = (every, ()) if most is None else unfolded(every, most, moment)
    lines = [
        f"<p><b>{SAID[c.severity]}:</b> {escape(c.text)} <span class='small'>[{escape(c.source)}]</span></p>"
        for c in shown
    ]
    if rest:
        lines.append(f"<p class='small'>{more_words(len(rest), len(shown))} {escape(where)}.</p>")
    return "".join(lines)
