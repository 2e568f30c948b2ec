"""Published keeping times, each with its source beside it. Months are read as 365.25 / 12 days."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.handbook.keeping_table import keeping_lines, water_activity_limits
from dryhouse.handbook.reader import handbook
from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.kitchen.cautions.cautions import facts_of_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Lot, LotMove, Place, PlaceTemperature
from dryhouse.kitchen.shelf.shelf import keep_by_figure
from dryhouse.science.display import Style
from dryhouse.science.keeping import life_at
from dryhouse.science.quantities import Temperature
from dryhouse.science.units import to_celsius
from tests.fakes import FakeJournal
from tests.kitchen.shelf_room import shelf_line
from tests.workings import read

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def life(slug: str, fahrenheit: float) -> float:
    food = handbook().food(slug)
    found = life_at(keeping_lines(slug, facts_of_food(food)).lines, to_celsius(fahrenheit))
    assert found is not None
    return found.days


def test_where_georgia_and_utah_differ_on_apricots_the_shorter_life_counts():
    assert life("apricot", 70) < life("apple", 70)
    assert life("apricot", 80) < life("apple", 80)


def test_conditioning_is_ten_days():
    # The careful figure of several; National Center for Home Food Preservation: 7 to 10 days (recalled)
    assert rules_by_id()["condition-fruit"].bound == 10


def test_the_strictest_water_activity_of_jerky():
    # USDA FSIS, IKE Scenario 06-05 (guideline of 2004)
    assert water_activity_limits()["jerky"].value == 0.80


def test_thirty_days_at_80_sixty_at_60_the_rest_at_0_fahrenheit_by_hand_and_by_program():
    """By hand, for dried fruit (12 months at 60 °F, 6 at 80 °F; held at 12 below 60 °F):

    used at 80 °F   30 / 182.625 = 0.16427
    used at 60 °F   60 / 365.25  = 0.16427
    left            1 − 0.32854 = 0.67146, × 365.25 = 245.25 days at 0 °F
    kept until      30 + 60 + 245.25 = 335.25 days after 1 January 2026: 2 December 2026
    """
    start = datetime(2026, 1, 1, tzinfo=UTC)
    journal = FakeJournal(
        Place("pantry", 1),
        Place("cellar", 2),
        Place("freezer", 3),
        PlaceTemperature(1, start, Temperature(to_celsius(80)), id=1),
        PlaceTemperature(2, start, Temperature(to_celsius(60)), id=2),
        PlaceTemperature(3, start, Temperature(to_celsius(0)), id=3),
        Lot("apple", date(2026, 1, 1), id=1),
        LotMove(1, 1, start, 1),
        LotMove(1, 2, start + timedelta(days=30), 2),
        LotMove(1, 3, start + timedelta(days=90), 3),
    )
    kitchen = Kitchen(journal, handbook(), lambda: NOW, UTC)
    assert shelf_line(kitchen, 1).keep_by == date(2026, 12, 2)
    figure = keep_by_figure(kitchen, journal.get(Lot, 1), start)
    assert figure.value == pytest.approx(335.25)
    said = read(figure.workings, Style())
    assert "pantry: At 80 °F 30 days use 30 days ÷ 182.6 days = 0.1643 of the life" in said
    assert "cellar: At 60 °F 60 days use 60 days ÷ 365.2 days = 0.1643 of the life" in said
    assert re.search(r"freezer: At 0 °F \(1 − 0.3285\) × 365.2 days = 245.[23] days left", said)
