"""What is asked while a batch dries, and what an answer makes of it: did the dryer stop, and is it brittle by now?

An answer is an act like any other: remembered for that stretch or that batch, not asked again, and undone
with undo.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.dryer.run_moments import by_the_clock, clock_words, moment_of
from dryhouse.kitchen.dryer.runs import DryingRun, run_of
from dryhouse.kitchen.dryer.scale_style import scale_style
from dryhouse.kitchen.foods.settled import settled
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import Batch, BatchEvent
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.records.weighings import PAUSED, RAN, RESUMED
from dryhouse.science.display import Style
from dryhouse.science.dryness import Verdict
from dryhouse.science.errors import InputProblem
from dryhouse.science.statuses import Feel
from dryhouse.words.forecasts import stop_sentences
from dryhouse.words.verdicts import HARDLY_OPEN


class Asked(StrEnum):
    """What a question is about."""

    STOP = "stop"
    LEVEL = "level"


@dataclass(frozen=True, slots=True)
class Question:
    """One question, its two answers as buttons say them, and as they are typed at the scale."""

    about: Asked
    text: str
    yes: str
    no: str
    typed_yes: str
    typed_no: str
    begin: datetime
    end: datetime

    @property
    def with_answers(self) -> str:
        """The question with the way to answer it by typing."""
        return f"{self.text} Answer in place of a weight: “{self.typed_yes}” or “{self.typed_no}”."


def questions_of(kitchen: Kitchen, run: DryingRun, style: Style) -> tuple[Question, ...]:
    """What is asked of a batch on the dryer now."""
    return (*_stops(kitchen, run), *_level(kitchen, run, style)) if run.batch.state == DRYING else ()


def _stops(kitchen: Kitchen, run: DryingRun) -> Iterator[Question]:
    found = run.expected.forecast
    if found is None:
        return
    for (begin, end), said in zip(found.stops, stop_sentences(found, by_the_clock(kitchen, run)), strict=True):
        from_, until = moment_of(kitchen, run, begin), moment_of(kitchen, run, end)
        yield Question(Asked.STOP, said, "It was off", "It was running", "was off", "was running", from_, until)


def _level(kitchen: Kitchen, run: DryingRun, style: Style) -> Iterator[Question]:
    if run.batch.settled is not None or not isinstance(run.verdict, Verdict):
        return
    likely = run.verdict.probability
    if likely is None or likely < HARDLY_OPEN:
        return
    found = settled(kitchen, run.batch, [p.weighing for p in run.points if p.weighing is not None], run.events)
    if found is not None:
        mass, since = scale_style(run, style).mass(found.grams), clock_words(kitchen, found.since)
        text = (
            f"The weight has stayed at {mass} since {since}. Is a cooled piece brittle right through? If so, it "
            f"shows how much dry matter your {run.food.name} holds."
        )
        yield Question(
            Asked.LEVEL, text, "Yes, brittle", "Not yet", "brittle", "not brittle", found.since, found.until
        )


def answer(kitchen: Kitchen, batch: int, about: Asked, yes: bool, *, at: datetime | None = None) -> Done[Record]:
    """Write an answer down. Without a moment every such question of the batch is answered. Raises InputProblem
    where nothing of the sort is asked."""
    if about == Asked.LEVEL:
        return _answer_level(kitchen, batch, yes)
    run = run_of(kitchen, batch)
    found = [q for q in _stops(kitchen, run) if at is None or q.begin <= at <= q.end]
    if not found:
        raise InputProblem(
            "It lost weight all along, so nothing is asked about the dryer; note a pause with “paused” and "
            "“resumed”, each with its time.",
            "kind",
        )
    first, pending = kitchen.journal.next_id(BatchEvent), Pending()
    events: list[tuple[datetime, str]] = []
    for asked in found:
        events += [(asked.begin, PAUSED), (asked.end, RESUMED)] if yes else [(asked.end, RAN)]
    pending.add(*(BatchEvent(batch, when, kind, id=first + n) for n, (when, kind) in enumerate(events)))
    what = "the dryer was off" if yes else "the dryer kept running"
    return kitchen.commit(f"Noted for {batch_name(kitchen, run.batch)}: {what}", pending)


def _answer_level(kitchen: Kitchen, number: int, yes: bool) -> Done[Record]:
    batch = kitchen.present(Batch, number, "batch", "batch")
    name, pending = batch_name(kitchen, batch), Pending()
    if not yes:
        pending.edit(batch, replace(batch, settled=False))
        return kitchen.commit(f"Noted for {name}: not brittle yet", pending)
    if settled(kitchen, batch) is None:
        raise InputProblem(
            "Its weight is still falling: how a piece feels counts once three weighings over two hours are the "
            "same. When it comes off the dryer you are asked how it feels anyway.",
            "kind",
        )
    pending.edit(batch, replace(batch, settled=True, felt=Feel.BRITTLE.value))
    return kitchen.commit(f"Noted for {name}: brittle, and its weight stayed the same", pending)
