"""From a trip back to the shelf and the market: what to draw, what to dry and when, what to buy, what to pack."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from dryhouse.kitchen.calendar import today
from dryhouse.kitchen.foods.catalog import food, food_name
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import DRIED as HOME_DRIED
from dryhouse.kitchen.meals.sheet import meal_parts
from dryhouse.kitchen.meals.shelf_keys import is_staple, part_key
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Batch, Lot, Trip, TripPerson
from dryhouse.kitchen.records.batches import PLANNED
from dryhouse.kitchen.trips.after import noted_before
from dryhouse.kitchen.trips.drying_plan import drying_room, whole_bags
from dryhouse.kitchen.trips.fuel import Fuel, trip_fuel
from dryhouse.kitchen.trips.household import DryingHours, drying_hours
from dryhouse.kitchen.trips.lists import Bag, packing_list
from dryhouse.kitchen.trips.lots import TripLot, lots_for
from dryhouse.kitchen.trips.people import remarks_on
from dryhouse.kitchen.trips.plan_items import Item, item_of, recipe_for
from dryhouse.kitchen.trips.sheet import TripSheet, trip_sheet
from dryhouse.kitchen.trips.shopping import Buy, bought_as, shopping_list
from dryhouse.kitchen.trips.shortfall import NextStep, Shortfall, lacks_of, next_steps, shortfall
from dryhouse.kitchen.trips.trips import meals_of, people_of, trips
from dryhouse.kitchen.yields.knowledge import learn
from dryhouse.science.display import counted
from dryhouse.science.drying_calendar import Calendar
from dryhouse.science.errors import InputProblem
from dryhouse.science.provisioning import Cover, Need, Supply, cover, to_dry
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.values import Caution, gravest_first
from dryhouse.words.shopping import DRIED


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything a trip asks of the kitchen."""

    trip: Trip
    sheet: TripSheet
    cover: Cover
    lots: tuple[TripLot, ...]
    items: tuple[Item, ...]
    calendar: Calendar
    hours: DryingHours
    """The hours it is planned for."""
    shopping: tuple[Buy, ...]
    bags: tuple[Bag, ...]
    people: tuple[TripPerson, ...]
    """Those of whom something is said."""
    fuel: Fuel
    shortfall: Shortfall | None
    """What cannot be met, bag by bag, and what would help; None where every bag can be complete."""
    next_steps: tuple[NextStep, ...]
    """What is still to be recorded."""
    remarks: tuple[str, ...]
    """What is not known and was left out, who does not eat what, what was noted to change; and `lots_left_out`."""
    lots_left_out: tuple[str, ...]
    """Lots that do not serve, with the reason."""
    kwh: float | None

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """Of every bag, and of every food that is still to be dried for it."""
        bags, foods = (bag.cautions for bag in self.bags), (item.cautions for item in self.items)
        return gravest_first(caution for cautions in (*bags, *foods) for caution in cautions)

    def cautions_of(self, food: str) -> tuple[Caution, ...]:
        """Of a food that is dried for it, for the loads of its calendar."""
        return gravest_first(caution for item in self.items if item.food == food for caution in item.cautions)

    @property
    def alternatives(self) -> tuple[str, ...]:
        """What cannot be met and what would help, a sentence each; empty where every bag can be complete."""
        return () if self.shortfall is None else self.shortfall.lines

    @property
    def latest_start(self) -> datetime | None:
        """When the first dryer has to start at the latest."""
        return min((run.latest for run in self.calendar.runs), default=None)


def plan(kitchen: Kitchen, trip: int, hours: DryingHours | None = None, begin: date | None = None) -> Plan:
    """The plan of a trip as the shelf stands today, in the hours she keeps (else in `hours`), spread from now or
    from a day (`begin`). Raises InputProblem where the trip is gone."""
    sheet = trip_sheet(kitchen, trip)
    found, kept = sheet.trip, hours or drying_hours(kitchen)
    margin = found.spoilage_margin_pct / 100.0
    needs, unknown = _needs(sheet)
    foods = tuple(dict.fromkeys(need.food for need in needs))
    lots = lots_for(kitchen, found, foods)
    shelf = [Supply(t.number, t.food, t.grams, t.last_day) for t in lots if t.grams is not None]
    covered = cover(needs, shelf, margin)
    short = {slug: food(kitchen, slug) for slug in covered.short_foods if not is_staple(slug)}
    bought = {
        slug: covered.short_of(slug) / (1 - margin) for slug in short if bought_as(kitchen, short[slug]) == DRIED
    }
    known = {slug: learn(kitchen, short[slug]) for slug in short if slug not in bought}
    recipes = {slug: recipe_for(kitchen, known[slug]) for slug in known}
    last = {slug: max(need.day for need in covered.short if need.food == slug) for slug in known}
    room = drying_room(kitchen, found, last, recipes, known, kept, begin or found.dry_from)
    lacks = lacks_of(covered, bought, [eaten for day in sheet.days for eaten in day.meals])
    made, whole, _ = whole_bags(room, lacks)
    batches = [to_dry(covered.short_of(slug), recipes[slug], margin) for slug in known]
    items = tuple(item_of(kitchen, known[b.food], b, needs, covered, made, margin) for b in batches)
    bags = packing_list(kitchen, sheet, covered, lots, bought)
    people = people_of(kitchen, trip)
    kwh = [run.kwh for run in made.runs]
    left_out = tuple(f"{t.name}: {t.why}" for t in lots if t.why)
    return Plan(
        trip=found,
        sheet=sheet,
        cover=covered,
        lots=lots,
        items=items,
        calendar=made,
        hours=kept,
        shopping=shopping_list(kitchen, sheet, items, covered, bought),
        bags=bags,
        shortfall=shortfall(kitchen, sheet, room, lacks, whole, kept),
        next_steps=next_steps(kitchen, room, bool(items), not kitchen.journal.where(Lot)),
        people=people,
        fuel=trip_fuel(kitchen, sheet),
        remarks=(
            *remarks_on(kitchen, sheet, people, bags),
            *noted_before(kitchen, found, [bag.meal for bag in bags]),
            *unknown,
            *_earlier(kitchen, found, tuple(slug for slug in foods if not is_staple(slug))),
            *left_out,
        ),
        lots_left_out=left_out,
        kwh=sum(k for k in kwh if k is not None) if kwh and all(k is not None for k in kwh) else None,
    )


def plan_batches(
    kitchen: Kitchen, trip: int, hours: DryingHours | None = None, begin: date | None = None
) -> Done[Batch]:
    """Put the plan's loads among the planned batches, in place of those an earlier plan left waiting.

    Raises InputProblem.
    """
    worked = plan(kitchen, trip, hours, begin)
    pending = Pending()
    pending.remove(*kitchen.journal.where(Batch, trip=trip, state=PLANNED))
    count = 0
    for run in worked.calendar.runs:
        for load in run.loads:
            known = food(kitchen, load.food)
            warmth = known.fact("drying_temperature")
            item = next(i for i in worked.items if i.food == load.food)
            share = load.dried / item.dried.value
            bought = None if item.purchased is None else Mass(item.purchased.value * share)
            pending.add(
                Batch(
                    food=load.food,
                    state=PLANNED,
                    purchased_mass=bought,
                    prepared_mass=Mass(load.prepared),
                    dryer=run.machine.id,
                    trays=load.trays,
                    set_temperature=None if warmth is None else Temperature(warmth.value),
                    started=run.start,
                    trip=trip,
                    id=kitchen.journal.next_id(Batch),
                )
            )
            count += 1
    if not count:
        if pending.changes:
            return kitchen.commit(f"{worked.trip.name} needs no drying; its planned batches are gone", pending)
        raise InputProblem(
            f"There is no load to plan for {worked.trip.name}."
            + (f" {worked.alternatives[0]}" if worked.alternatives else " The shelf covers it.")
        )
    return kitchen.commit(f"Planned {counted(count, 'batch', 'batches')} for {worked.trip.name}", pending)


# --- what is eaten ---------------------------------------------------------------------------------------


def _needs(sheet: TripSheet) -> tuple[list[Need], list[str]]:
    needs: list[Need] = []
    unknown: list[str] = []
    for day in sheet.days:
        for eaten in day.meals:
            for line in eaten.sheet.parts:
                key, name = part_key(line.part), eaten.sheet.meal.name
                if line.grams:
                    if key:
                        needs.append(Need(day.day, key, line.grams, name, line.part.lot, eaten.placed.id))
                elif line.grams is None and line.ingredient.kind == HOME_DRIED:
                    unknown.append(f"{line.part.name} in {name}: its weight is not known.")
    return needs, list(dict.fromkeys(unknown))


def _earlier(kitchen: Kitchen, trip: Trip, foods: tuple[str, ...]) -> list[str]:
    """Trips still to come that leave before this one and eat the same foods: their draws are not taken off here."""
    said = []
    for other in trips(kitchen):
        if other.id == trip.id or other.ends_on < today(kitchen) or other.starts_on >= trip.starts_on:
            continue
        meals = {placed.meal for placed in meals_of(kitchen, other.id)}
        eaten = {part.food for meal in meals for part in meal_parts(kitchen, meal)}
        shared = [food_name(kitchen, slug) for slug in foods if slug in eaten]
        if shared:
            said.append(
                f"{other.name} leaves before this and eats of the same shelf ({', '.join(shared)}); "
                "what it takes is not yet taken off here."
            )
    return said
