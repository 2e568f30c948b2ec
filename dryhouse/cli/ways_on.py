"""A refusal on the command line, with the command that leads on."""

from __future__ import annotations

import shlex
from pathlib import Path

from dryhouse.science.errors import InputProblem, NotKnown, WorldProblem

_WAYS_ON = {
    "batch": "; “dryhouse batches” lists their numbers.",
    "lot": "; “dryhouse shelf” lists their numbers.",
    "solids": ", such as --solids 14%.",
    "moisture": ", such as --moisture 10%.",
}
"""Where the command line lists or takes what was not known, by its field."""
_RESTORED_FROM = ("damaged", "foreign", "emptied", "log_alone")
"""Kinds of messages after which a backup is the way on."""


def with_way_on(problem: InputProblem) -> str:
    """The sentence; of what was not known also where it is listed."""
    way_on = _WAYS_ON.get(problem.field) if isinstance(problem, NotKnown) else None
    return sentence_of(problem) if way_on is None else sentence_of(problem).removesuffix(".") + way_on


def sentence_of(problem: InputProblem | WorldProblem) -> str:
    """On one line, also where what was typed had several."""
    from dryhouse.words.messages import problem_sentence

    return " ".join(problem_sentence(problem).splitlines())


def with_way_back(problem: WorldProblem) -> str:
    """The sentence; of a journal that is damaged also the command that restores its newest backup."""
    sentence = sentence_of(problem)
    if isinstance(problem.said, str) or problem.said.kind not in _RESTORED_FROM:
        return sentence
    path = next(Path(str(term.value)) for term in problem.said.terms if term.name == "path")
    back = restoring(path)
    return f"{sentence} To go back to the newest: {back}" if back else sentence


def restoring(journal: Path) -> str:
    """The command that restores the newest backup that is whole; empty where there is none."""
    from dryhouse.house import newest_whole_backup

    backup = newest_whole_backup(journal)
    return "" if backup is None else command(journal, f"restore {shlex.quote(str(backup))}")


def command(journal: Path, verb: str) -> str:
    """A command about this journal, as it is typed."""
    from dryhouse.house import default_journal

    which = "" if journal.resolve() == default_journal().resolve() else f"--journal {shlex.quote(str(journal))} "
    return f"dryhouse {which}{verb}"
