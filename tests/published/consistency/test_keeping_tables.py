"""Published keeping times, each with its source beside it. Months are read as 365.25 / 12 days."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest

from dryhouse.handbook.keeping_table import keeping_lines, keeping_points, rule_of
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.cautions.cautions import facts_of_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.shelf.shelf import keeps
from dryhouse.science.keeping import life_at, life_on_the_way
from dryhouse.science.units import to_celsius
from tests.fakes import FakeJournal
from tests.rows import every_row

MONTH = 365.25 / 12
NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)

PUBLISHED = [
    # food, °F, days, source
    (
        "apple",
        60,
        12 * MONTH,
        "University of Georgia Extension, So Easy to Preserve: dried fruit, 12 months at 60 °F",
    ),
    (
        "apple",
        80,
        6 * MONTH,
        "University of Georgia Extension, So Easy to Preserve: dried fruit, 6 months at 80 °F",
    ),
    ("pear", 60, 12 * MONTH, "University of Georgia Extension, as above"),
    ("carrot", 60, 6 * MONTH, "University of Georgia Extension: vegetables about half of fruit"),
    ("carrot", 80, 3 * MONTH, "University of Georgia Extension: vegetables about half of fruit"),
    ("apricot", 40, 24 * MONTH, "Utah State University Extension: dried apricots, 24 months at 40 °F"),
    ("apricot", 70, 3 * MONTH, "Utah State University Extension: dried apricots, 3 months at 70 °F"),
    ("apricot", 90, 1 * MONTH, "Utah State University Extension: dried apricots, 1 month at 90 °F"),
    ("beef-jerky", 70, 14, "National Center for Home Food Preservation, Jerky: two weeks at room temperature"),
    ("beef-jerky", 40, 90, "University of Wyoming Extension, Making Safe Jerky at Home: 3 months refrigerated"),
    ("beef-jerky", 0, 180, "University of Wisconsin advice on venison jerky: 6 months frozen"),
    ("turkey", 70, 14, "the jerky limit stands in for other dried meat (supposed, and said so)"),
    (
        "avocado",
        70,
        MONTH,
        "Michigan State University Extension: nuts and seeds, shelled or chopped, a month (read)",
    ),
    ("tofu", 70, MONTH, "the limit for nuts and seeds stands in for other fatty plants (supposed, and said so)"),
    ("coconut", 0, 6 * MONTH, "Michigan State University Extension: seeds, six months frozen (read)"),
    ("cod", 38, 14, "Washington State University Extension, smoked or cured fish: 14 days refrigerated"),
]


def life(slug: str, fahrenheit: float) -> float:
    food = handbook().food(slug)
    found = life_at(keeping_lines(slug, facts_of_food(food)).lines, to_celsius(fahrenheit))
    assert found is not None
    return found.days


@every_row(("slug", "fahrenheit", "days", "source"), PUBLISHED)
def test_the_published_point_is_answered(slug, fahrenheit, days, source):
    assert life(slug, fahrenheit) == pytest.approx(days, abs=0.01), source


def test_no_life_is_longer_than_the_published_end_in_the_cold():
    for slug in ("apple", "carrot", "apricot", "beef-jerky"):
        line = keeping_lines(slug, facts_of_food(handbook().food(slug))).lines[0]
        longest = max(p.life.value for p in line.points)
        assert life(slug, -40) == life(slug, line.points[0].temperature_c * 1.8 + 32) == longest


def test_hotter_than_published_is_shorter_never_longer():
    for slug in ("apple", "carrot", "apricot"):
        lives = [life(slug, f) for f in range(-10, 121, 5)]
        assert lives == sorted(lives, reverse=True)
        assert life(slug, 120) < life(slug, 95)


def test_meat_and_fish_have_no_life_hotter_than_the_published_limits():
    for slug, hottest in (("beef-jerky", 70), ("turkey", 70), ("cod", 40), ("salmon", 40)):
        lines = keeping_lines(slug, facts_of_food(handbook().food(slug))).lines
        assert life(slug, hottest) == 14
        assert life_at(lines, to_celsius(hottest + 1)) is None
        assert (life_on_the_way(lines, to_celsius(79)) is None) is (hottest == 40)
        assert life_on_the_way(lines, to_celsius(91)) is None


def test_meat_on_the_way_in_the_heat_loses_at_least_as_fast_as_anything_published():
    """Apricots keep 3 months at 70 °F and 1 month at 90 °F (Utah): a third over 20 °F; no published loss is
    steeper."""
    lines = keeping_lines("turkey", facts_of_food(handbook().food("turkey"))).lines
    for fahrenheit in (71, 75, 79, 85, 90):
        found = life_on_the_way(lines, to_celsius(fahrenheit))
        assert found.days <= 14 * 3 ** (-(fahrenheit - 70) / 20) + 0.01
        assert found.days <= 14 * 0.5 ** ((fahrenheit - 70) / 18)


def test_egg_and_dairy_have_no_published_life():
    for slug in ("egg", "milk", "cheese"):
        assert keeping_lines(slug, facts_of_food(handbook().food(slug))).lines == ()


def test_every_point_names_a_university_extension_and_a_month_its_length():
    assert rule_of("month").value == pytest.approx(MONTH)
    for line in keeping_points().values():
        assert all(re.search("Extension|National Center for Home Food", p.life.source) for p in line.points)


def test_the_bench_answer_carries_basis_workings_and_cautions():
    kitchen = Kitchen(FakeJournal(), handbook(), lambda: NOW, UTC)
    figure = keeps(kitchen, "beef jerky", to_celsius(70))
    assert (round(figure.value), figure.unit) == (14, "day")
    assert figure.basis
    assert figure.workings
    assert figure.cautions[0].severity == "stop"
