"""Records judged among others that stand in memory."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.records.around import Around
from dryhouse.kitchen.records.problems import problems
from dryhouse.kitchen.surroundings import Surroundings
from dryhouse.words.messages import problem_sentence

NOW = datetime(2026, 9, 1, 12, tzinfo=UTC)


def among(*records: Any, now: datetime | None = NOW) -> Around:
    """What a record is judged against: these others, and the handbook."""
    around = Surroundings(None, handbook(), lambda moment: moment.astimezone(UTC), now)
    around.coming(records)
    return around


def said(record: Any, *others: Any) -> list[tuple[str, str]]:
    """What is wrong with a record: field and sentence."""
    return [(p.field, problem_sentence(p)) for p in problems(record, among(*others))]


def fields(record: Any, *others: Any) -> list[str]:
    """The fields that are wrong."""
    return [field for field, _ in said(record, *others)]
