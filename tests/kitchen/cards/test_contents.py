"""What is in a journal is said in a few lines."""

from __future__ import annotations

from dryhouse.kitchen.cards.contents import NEWEST, contents_lines
from dryhouse.kitchen.records import Batch, Meal
from tests.builders import a_kitchen


def test_the_kinds_are_counted_and_the_newest_batches_listed() -> None:
    kitchen = a_kitchen(*(Batch("corn", id=n) for n in range(1, 31)), Meal("squash stew", id=1))
    first, *rest = contents_lines(kitchen)
    assert first == "30 batches, 0 lots, 1 meal, 0 trips"
    assert len(rest) == NEWEST
    assert rest[0].startswith("30 ")
    assert "corn" in rest[0]


def test_an_empty_journal_is_one_line() -> None:
    assert contents_lines(a_kitchen()) == ["0 batches, 0 lots, 0 meals, 0 trips"]
