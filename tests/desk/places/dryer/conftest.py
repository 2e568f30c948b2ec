"""Hands at the dryer, and a sitting at the desk before it."""

from __future__ import annotations

from datetime import UTC

import pytest

from dryhouse.handbook.reader import Handbook
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.values import Fact
from tests.desk.places.dryer.sitting import Sitting
from tests.kitchen.drying_room import Hands


@pytest.fixture
def hands() -> Hands:
    return Hands()


@pytest.fixture
def sitting(qtbot, hands) -> Sitting:
    return Sitting(qtbot, hands)


@pytest.fixture
def with_turkey() -> Hands:
    hands = Hands()
    turkey = Food(
        "turkey", "turkey", (), "poultry",
        facts={"water": Fact(74.0, "%", "a test's own figure"), "target_moisture": Fact(8.0, "%", "the same")},
        traits=frozenset({"animal"}),
    )  # fmt: skip
    hands.kitchen = Kitchen(hands.journal, Handbook({"turkey": turkey}), now=lambda: hands.time, zone=UTC)
    return hands
