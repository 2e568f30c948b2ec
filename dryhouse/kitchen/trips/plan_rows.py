"""The rows of a trip's plan, the same for the window, for paper and for the command line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.trips.lists import Bag
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.kitchen.trips.shopping import Buy
from dryhouse.science.display import Style
from dryhouse.science.drying_runs import PlannedLoad, Run
from dryhouse.science.values import Caution, gravest_first
from dryhouse.words import trip_plans as words
from dryhouse.words.shopping import in_shop


@dataclass(frozen=True, slots=True)
class LoadRow:
    """One food of a run, in words."""

    food: str
    name: str
    amount: str
    takes: str
    after: str
    """What is done with it once it is dry; empty where nothing is."""
    cautions: tuple[Caution, ...]
    ready: date | None = None
    """When it is conditioned, where it has to be."""

    @property
    def line(self) -> str:
        """`carrot 3 lb 2 oz on 4 trays`."""
        return f"{self.name} {self.amount}"


@dataclass(frozen=True, slots=True)
class RunRow:
    """One run, in words, with its moments on her own clock."""

    start: datetime
    end: datetime
    latest: datetime
    dryer: str
    heat: str
    loads: tuple[LoadRow, ...]
    begins: datetime
    """`start` in UTC."""
    ends: datetime

    @property
    def when(self) -> str:
        """`Fri 6 Aug 18:00 to Sat 07:00`."""
        return words.from_to(self.start, self.end)

    @property
    def where(self) -> str:
        """`box dryer at 140 °F`."""
        return f"{self.dryer} at {self.heat}" if self.heat else self.dryer

    @property
    def line(self) -> str:
        """The run in a line."""
        return f"{self.when}, {self.where}: {', '.join(load.line for load in self.loads)}"


@dataclass(frozen=True, slots=True)
class BuyRow:
    """One thing to buy, in words."""

    buy: Buy
    name: str
    """What it is called in the shop."""
    amount: str
    """Rounded to what shops sell."""
    needs: str
    """What the trip needs of it."""
    note: str

    @property
    def line(self) -> str:
        """`carrot 4 lb`."""
        return f"{self.name} {self.amount}"


@dataclass(frozen=True, slots=True)
class MealRow:
    """Bags of one meal that are packed and cooked alike."""

    name: str
    days: str
    bag: Bag
    line: str
    cautions: tuple[Caution, ...]


def run_rows(kitchen: Kitchen, plan: Plan, style: Style) -> tuple[RunRow, ...]:
    """The drying calendar, soonest first."""
    return tuple(_run(kitchen, plan, style, run) for run in plan.calendar.runs)


def _run(kitchen: Kitchen, plan: Plan, style: Style, run: Run) -> RunRow:
    heat = "" if run.temperature_c is None else style.temperature(run.temperature_c)
    loads = tuple(_load(kitchen, plan, style, run, load) for load in run.loads)
    start, end, latest = (kitchen.local(moment) for moment in (run.start, run.end, run.latest))
    return RunRow(start, end, latest, run.machine.name, heat, loads, run.start, run.end)


def _load(kitchen: Kitchen, plan: Plan, style: Style, run: Run, load: PlannedLoad) -> LoadRow:
    item = next(item for item in plan.items if item.food == load.food)
    hours = item.hours
    lasts = "" if hours is None else words.takes(hours.value, hours.low, hours.high)
    after: list[str] = []
    ready: date | None = None
    if load.conditioning_days:
        ready = (kitchen.local(run.end) + timedelta(days=load.conditioning_days)).date()
        after.append(words.conditioned(load.conditioning_days, ready))
    if item.animal:
        after.append(words.INTO_FREEZER)
    elif run.early:
        after.append(words.KEEP_COLD)
    amount = words.on_trays(style.load(load.prepared), load.trays)
    return LoadRow(load.food, item.name, amount, lasts, "; ".join(after), item.cautions, ready)


def buy_rows(plan: Plan, style: Style) -> Iterator[tuple[str, tuple[BuyRow, ...]]]:
    """The shopping list aisle by aisle, what is to be dried first in each."""
    in_aisles: dict[str, list[BuyRow]] = {}
    for buy in plan.shopping:
        amount = "amount not known" if buy.to_buy is None else style.figure(buy.to_buy)
        needs = "" if buy.amount is None else style.load_of(buy.amount)
        note = ", ".join(filter(None, (buy.pieces, buy.note)))
        name = in_shop(buy.name, buy.form, buy.animal)
        in_aisles.setdefault(buy.aisle, []).append(BuyRow(buy, name, amount, needs, note))
    for aisle, rows in in_aisles.items():
        yield aisle, tuple(rows)


def meal_rows(plan: Plan, style: Style) -> Iterator[MealRow]:
    """The bags, those of one meal together where they are packed and cooked alike."""

    def alike(bag: Bag) -> tuple[object, ...]:
        water = None if bag.water is None else round(bag.water.value)
        return (bag.slot, bag.meal, bag.name, bag.servings, water, bag.cooking, tuple(c.rule for c in bag.cautions))

    order = {key: n for n, key in reversed(list(enumerate(alike(bag) for bag in plan.bags)))}
    for _, group in groupby(sorted(plan.bags, key=lambda bag: order[alike(bag)]), key=alike):
        bags = list(group)
        first, days = bags[0], words.days_of_bags([bag.day for bag in bags])
        line = f"{days}, {first.slot}: {first.name} for {style.number(first.servings)}, {first.pot(style)}"
        yield MealRow(first.name, days, first, line, gravest_first(c for bag in bags for c in bag.cautions))
