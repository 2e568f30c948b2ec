"""What is in a journal is said in a few lines."""

from __future__ import annotations

from datetime import UTC, datetime

from dryhouse.kitchen.cards.contents import contents_lines
from dryhouse.kitchen.records import Batch, Meal
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.science.quantities import Mass
from tests.builders import a_kitchen


def test_the_kinds_are_counted_and_the_newest_batches_listed() -> None:
    kitchen = a_kitchen(*(Batch("corn", id=n) for n in range(1, 31)), Meal("squash stew", id=1))
    first, *rest = contents_lines(kitchen)
    assert first == "30 batches, 0 lots, 1 meal, 0 trips"
    assert len(rest) == 20
    assert rest[0] == "Sweet corn, batch 30"


def test_a_line_says_the_day_as_the_window_does() -> None:
    started = datetime(2026, 8, 6, 12, tzinfo=UTC)
    batch = Batch("corn", state=DRYING, started=started, prepared_mass=Mass(1000.0, "1 kg"), id=7)
    line = contents_lines(a_kitchen(batch))[1]
    assert line.startswith("6 Aug 2026: sweet corn, batch 7, drying, ")


def test_an_empty_journal_is_one_line() -> None:
    assert contents_lines(a_kitchen()) == ["0 batches, 0 lots, 0 meals, 0 trips"]


def test_a_line_says_the_weights_and_the_verdict_as_far_as_they_are_known() -> None:
    started = datetime(2026, 8, 6, 12, tzinfo=UTC)
    weighed = Batch(
        "corn", started=started, prepared_mass=Mass(1000.0), dried_mass=Mass(250.0), felt="brittle", id=1
    )
    turkey = Batch("turkey", started=started, prepared_mass=Mass(1000.0), dried_mass=Mass(370.0), id=2)
    loaded = Batch("corn", prepared_mass=Mass(1000.0), id=3)
    assert contents_lines(a_kitchen(weighed, turkey, loaded))[1:] == [
        "Sweet corn, batch 3, 2 lb 3.3 oz",
        "6 Aug 2026: turkey, cooked, batch 2, 2 lb 3.3 oz → 13.1 oz, do not eat",
        "6 Aug 2026: sweet corn, batch 1, 2 lb 3.3 oz → 8.8 oz, dry enough",
    ]
