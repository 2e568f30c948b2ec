"""Whatever is worked out, its workings stand in the units the person reads, to the last line."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from dryhouse.house import open_kitchen
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.records import Batch, Lot, Meal, Trip
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.shelf import keeps
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.yields.quick_answers import target, water
from dryhouse.kitchen.yields.yields import DRIED, FRESH, yields
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import parse_amount
from dryhouse.science.values import Figure
from dryhouse.science.workings import Step, StepKind
from dryhouse.words.workings import line

NUTRIENTS = {
    StepKind.NUTRIENT_HELD,
    StepKind.NUTRIENT_TOGETHER,
    StepKind.SHARE_HELD,
    StepKind.ONE_SERVING_HOLDS,
}
"""Labels give these in grams everywhere."""
FOREIGN = {
    "us": re.compile(r"\d (?:g|kg|ml|l|cm|cm²|m)\b|°C|g/|ml/"),
    "metric": re.compile(r"\d (?:oz|lb|cups?|in|ft|sq ft)\b|°F|oz/|cups?/"),
}
FOODS = ("corn", "apple", "carrot", "onion", "tomato", "green beans")


def figures() -> Iterator[Figure | None]:
    """Figures of every room, from the sample."""
    with open_kitchen(None, sample=True) as kitchen:
        for food in FOODS:
            yield target(kitchen, food, "2 lb")
            yield yields(kitchen, food, parse_amount("3 cups"), FRESH).joined
            answer = yields(kitchen, food, parse_amount("8 oz"), DRIED)
            yield from (answer.joined, answer.as_purchased, answer.hours, *(t.trays for t in answer.trays))
            figure, published = water(kitchen, food, "1/2 cup")
            yield from (figure, *published)
        yield from (keeps(kitchen, food, celsius) for food in ("apple", "carrot") for celsius in (10.0, 21.1, 35.0))
        for batch in kitchen.journal.where(Batch, state="finished")[::6]:
            yield from (shown.figure for shown in batch_card(kitchen, batch.id).figures)
        for batch in kitchen.journal.where(Batch, state="drying"):
            run = run_of(kitchen, batch.id)
            expected = run.expected
            yield from (run.moisture, run.moisture_dry_basis, run.moisture_ratio, run.target_mass)
            yield from (expected.equilibrium, expected.water_activity)
            yield expected.forecast.figure() if expected.forecast else None
        for meal in kitchen.journal.where(Meal):
            sheet = meal_sheet(kitchen, meal.id, altitude_m=1500.0)
            for sums in (sheet.bag, sheet.serving):
                yield from (getattr(sums, name) for name in sums.__dataclass_fields__ if name != "lacking")
            yield from (sheet.minutes.soak, sheet.minutes.cook, sheet.minutes.flame)
        for trip in kitchen.journal.where(Trip):
            worked = plan(kitchen, trip.id)
            yield from (f for i in worked.items for f in (i.dried, i.prepared, i.purchased))
            yield from (worked.sheet.food_mass, worked.sheet.water, worked.sheet.energy_per_person_day)
        book = ShelfBook.read(kitchen)
        for lot in kitchen.journal.where(Lot)[::5]:
            yield Figure(0.0, "day", workings=book.keeping(lot, kitchen.now()).workings)


@pytest.fixture(scope="module")
def steps() -> dict[StepKind, Step]:
    """A step of each kind that comes up."""
    return {step.kind: step for figure in figures() if figure is not None for step in figure.workings}


def said(step: Step, style: Style) -> str:
    """The line without its sources, which say their own units, and without what was typed or published as words."""
    text = line(step, style).partition("   [")[0]
    for term in step.terms:
        text = text.replace(term.value, "") if isinstance(term.value, str) and term.value else text
    return text


@pytest.mark.parametrize("system", ["us", METRIC])
def test_no_line_speaks_in_the_units_of_the_other_system(steps, system):
    style = Style(system)
    foreign = {
        kind: said(step, style)
        for kind, step in steps.items()
        if kind not in NUTRIENTS and FOREIGN[system].search(said(step, style))
    }
    assert foreign == {}


def test_most_kinds_of_steps_come_up_in_the_sample(steps):
    assert len(steps) > 0.6 * len(StepKind)


def test_a_decimal_comma_leaves_no_point_between_digits(steps):
    style = Style(METRIC, decimal_comma=True)
    assert {kind for kind, step in steps.items() if re.search(r"\d\.\d", said(step, style))} == set()
