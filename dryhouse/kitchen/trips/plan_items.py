"""The foods a trip asks to be dried: how much, from what, how long, on how many trays."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from types import MappingProxyType

from dryhouse.handbook.pot import pot
from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.handbook.sharing import company_of
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.cautions.cautions import facts_of_food, food_cautions
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Dryer
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.trips.raw_amounts import own_cooking
from dryhouse.kitchen.yields.amounts import as_purchased
from dryhouse.kitchen.yields.knowledge import YieldKnowledge
from dryhouse.science.display import Style, counted
from dryhouse.science.drying_calendar import Calendar
from dryhouse.science.drying_runs import PlannedLoad, Run
from dryhouse.science.provisioning import Cover, Need, Recipe, Span, ToDry
from dryhouse.science.values import Caution, Fact, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step

_NEAR_C = 3.0
"""A dial that ends this near a food's temperature reaches it."""


@dataclass(frozen=True, slots=True)
class Item:
    """One food to dry for the trip."""

    food: str
    name: str
    needed: float
    """Dried grams the trip eats."""
    shelved: float
    """Dried grams the shelf gives."""
    dried: Figure
    """What to dry, in dried grams, the margin on top."""
    prepared: Figure | None
    purchased: Figure | None
    hours: Figure | None
    loads: tuple[str, ...]
    """Tray loads by dryer, in words."""
    latest_start: datetime | None
    conditioning_days: int
    left_over: float
    """Dried grams that do not fit before departure."""
    animal: bool = False
    own_cooking: Fact | None = None
    """Grams cooked for a gram raw or dry, where her own batches say."""
    cautions: tuple[Caution, ...] = ()
    """Of the food, nothing being recorded of its batches yet."""


def recipe_for(kitchen: Kitchen, known: YieldKnowledge) -> Recipe:
    """How the food is dried here, from her own batches where there are any, else the handbook."""
    ratio = known.joined
    fresh = None
    if ratio is not None and ratio.value > 0:
        ends = ratio.predictive
        low = max(1.0 / ends.high, 1.0) if ends is not None else 1.0 / ratio.value
        high = 1.0 / ends.low if ends is not None else 1.0 / ratio.value
        fresh = Span(1.0 / ratio.value, low, high)
    refuse = None if known.refuse is None else known.refuse.value / 100.0
    hours = known.hours
    span = None
    if hours is not None:
        low = hours.value if hours.low is None else hours.low
        high = hours.value if hours.high is None else hours.high
        span = Span(hours.value, min(low, hours.value), max(high, hours.value))
    warmth = known.food.fact("drying_temperature")
    return Recipe(
        food=known.food.slug,
        fresh_per_dried=fresh,
        refuse=refuse,
        tray_grams=tray_grams(kitchen, known),
        hours=span,
        conditioning_days=conditioning_days(known),
        company=company_of(known.food),
        temperature_c=None if warmth is None else warmth.value,
    )


def conditioning_days(known: YieldKnowledge) -> int:
    """Days of conditioning after the dryer, as the safety rules ask of fruit; none for other foods."""
    rule = rules_by_id()["condition-fruit"]
    return int(rule.bound) if rule.concerns(facts_of_food(known.food).kinds) else 0


def tray_grams(kitchen: Kitchen, known: YieldKnowledge) -> Mapping[int, float]:
    """Prepared grams a tray takes by dryer: her own loads, else the usual load on the tray's recorded area.

    A dryer that is not hot enough for the food, or not cool enough, is not there.
    """
    found = {load.dryer.id: load.grams for load in known.loads}
    usual = pot("tray_load")
    for dryer in dryers(kitchen):
        if dryer.id not in found and dryer.tray_area is not None:
            found[dryer.id] = usual.value * 1000.0 * dryer.tray_area.si / 10000.0
    heat = known.food.fact("drying_temperature")
    fits = {dryer.id for dryer in dryers(kitchen) if heat is None or _reaches(dryer, heat.value)}
    return MappingProxyType({dryer: grams for dryer, grams in found.items() if dryer in fits})


def _reaches(dryer: Dryer, celsius: float) -> bool:
    low, high = dryer.temperature_low, dryer.temperature_high
    return (low is None or low.si <= celsius + _NEAR_C) and (high is None or high.si >= celsius - _NEAR_C)


def item_of(
    kitchen: Kitchen,
    known: YieldKnowledge,
    batch: ToDry,
    needs: Sequence[Need],
    covered: Cover,
    made: Calendar,
    margin: float,
) -> Item:
    """One line of the plan: what is eaten, what the shelf gives, what is dried from how much, and by when."""
    notation = style(kitchen)
    needed = sum(n.grams for n in needs if n.food == batch.food)
    short = covered.short_of(batch.food)
    shelved = needed - short
    lines = [
        step(Kind.EATEN_ON_TRIP, (needed, "g")),
        step(Kind.FROM_SHELF, (short, "g"), shelved=(shelved, "g")),
    ]
    if margin > 0:
        share = (100.0 * margin, "%")
        lines.append(step(Kind.MARGIN, (batch.dried, "g"), margin=share, short=(short, "g")))
    basis = () if known.joined is None else known.joined.basis
    prepared = None
    if batch.prepared is not None:
        span = batch.prepared
        said = () if known.joined is None else known.joined.workings
        times = span.value / batch.dried
        line = step(Kind.PREPARED_FOR, (span.value, "g"), dried=(batch.dried, "g"), factor=times)
        low, high = (span.low, span.high) if span.high > span.low else (None, None)
        prepared = Figure(span.value, "g", low=low, high=high, basis=basis, workings=(*said, line))
    runs = [(run, load) for run in made.runs for load in run.loads if load.food == batch.food]
    return Item(
        food=batch.food,
        name=known.food.name,
        needed=needed,
        shelved=shelved,
        dried=Figure(batch.dried, "g", basis=basis, workings=tuple(lines)),
        prepared=prepared,
        purchased=None if prepared is None else as_purchased(known, prepared),
        hours=known.hours,
        loads=tuple(_told(notation, known, run, load) for run, load in runs),
        latest_start=min((run.latest for run, _ in runs), default=None),
        conditioning_days=conditioning_days(known),
        left_over=max(0.0, batch.dried - sum(load.dried for _, load in runs)),
        animal=known.food.animal,
        own_cooking=own_cooking(kitchen, known.food),
        cautions=food_cautions(kitchen, known.food),
    )


def _told(notation: Style, known: YieldKnowledge, run: Run, load: PlannedLoad) -> str:
    """A load in words; the usual tray load is named where no own load of this dryer is recorded."""
    own = any(mine.dryer.id == run.machine.id for mine in known.loads)
    usual = pot("tray_load")
    assumed = "" if own else f" (one layer, {usual.value:g} {usual.unit}: {usual.source})"
    return f"{run.machine.name}: {counted(load.trays, 'tray')}, {notation.load(load.prepared)} prepared{assumed}"
