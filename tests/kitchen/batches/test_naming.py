"""A batch goes by one name on every surface; a planned one by its food's, and its trip is told beside it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.cards.batch_list import batch_items, batch_line
from dryhouse.kitchen.dryer.drying import start_batch, take_off
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, Change
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.trips.provisioning import plan, plan_batches
from dryhouse.science.display import Style
from tests.kitchen.trips.test_provisioning import NOW, bought, small_trip


@pytest.fixture
def planned() -> tuple[Kitchen, Batch]:
    """A kitchen with one planned batch of carrots."""
    kitchen = small_trip(bought(3, "corn", 100.0))
    plan_batches(kitchen, 1)
    (batch,) = kitchen.journal.where(Batch)
    return kitchen, batch


def item(kitchen: Kitchen, batch: Batch) -> dict[str, object]:
    (found,) = batch_items(kitchen, BatchQuery())
    return found


SURFACES: dict[str, Callable[[Kitchen, Batch], str]] = {
    "its name": batch_name,
    "its card": lambda kitchen, batch: batch_card(kitchen, batch.id).title,
    "its run": lambda kitchen, batch: run_of(kitchen, batch.id).title,
    "the list as JSON": lambda kitchen, batch: str(item(kitchen, batch)["name"]),
    "the list": lambda kitchen, batch: batch_line(kitchen, item(kitchen, batch), Style()),
    "its start": lambda kitchen, batch: start_batch(kitchen, batch).what,
}


@pytest.mark.parametrize("surface", SURFACES, ids=str)
def test_a_planned_batch_goes_by_the_name_of_its_food(planned, surface):
    assert "carrot" in SURFACES[surface](*planned)


@pytest.mark.parametrize("surface", SURFACES, ids=str)
def test_a_title_of_its_own_stands_for_the_name_of_the_food(planned, surface):
    kitchen, batch = planned
    titled = Batch("carrot", state="planned", title="roots for the lake", prepared_mass=batch.prepared_mass, id=1)
    kitchen.journal.write([Change(batch, titled)])
    assert "roots for the lake" in SURFACES[surface](kitchen, titled)


def test_a_planned_batch_knows_its_trip_and_when_to_start_and_its_notes_are_hers(planned):
    kitchen, batch = planned
    assert (batch.title, batch.notes, batch.trip) == ("", "", 1)
    (run,) = plan(kitchen, 1).calendar.runs
    assert batch.started == run.start
    assert batch.started > NOW


def test_what_is_dried_goes_by_the_same_name_when_it_comes_off(planned):
    kitchen, batch = planned
    start_batch(kitchen, batch)
    assert kitchen.journal.get(Batch, batch.id).started == NOW
    assert "carrot" in take_off(kitchen, batch.id, at=NOW).what
