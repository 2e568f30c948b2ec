"""What is said of food that a stop says not to eat: why, and nothing that promises anything of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.science.display import Style
from dryhouse.science.dryness import Verdict
from dryhouse.science.errors import InputProblem
from dryhouse.science.statuses import Status
from dryhouse.science.values import Caution
from dryhouse.words.verdicts import verdict_sentence


@dataclass(frozen=True, slots=True)
class Forbidden:
    """What stands in place of a verdict where a stop says not to eat it."""

    sentence: str
    name: Status = Status.DO_NOT_EAT


def forbidding_words(cautions: Sequence[Caution]) -> str:
    """`Do not eat. …` with why, in the few words of a label; empty where nothing forbids it."""
    briefs = dict.fromkeys(c.brief.rstrip(".").removesuffix(": do not eat") for c in cautions if c.forbids_eating)
    return f"Do not eat. {'. '.join(briefs)}." if briefs else ""


def verdict_words(judged: Verdict | Forbidden, style: Style) -> str:
    """The verdict in a sentence, or what stands in its place."""
    return judged.sentence if isinstance(judged, Forbidden) else verdict_sentence(judged, style)


def refuse_what_no_record_lifts(name: str, cautions: Sequence[Caution]) -> None:
    """Raises InputProblem where a stop forbids this food however it was dried and whatever is recorded of it."""
    for caution in cautions:
        rule = rules_by_id().get(caution.rule)
        if caution.forbids_eating and rule is not None and not rule.answered_by and "lot" in rule.said_of:
            raise InputProblem(f"No figure is given for {name}. {caution.text} [{caution.source}]")
