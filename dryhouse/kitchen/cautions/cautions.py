"""The cautions that belong to a food, a batch, a lot or a meal: records turned into facts, facts into cautions.

What is not recorded stays None in the facts, and the rules speak of it. The handbook's rules decide; here
nothing is judged.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from dryhouse.handbook.animal_words import animal_words
from dryhouse.handbook.safety_table import safety_rules
from dryhouse.handbook.staples import staples
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryness import NOT_WEIGHED, verdicts_of
from dryhouse.kitchen.batches.log import BatchDraft, parts_of
from dryhouse.kitchen.cautions.stood import UNKNOWN, Stood, stood_in_kitchen, stood_on_shelf
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.foods.shelved import pantry_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart, Lot, LotCheck, LotMove, Meal, MealPart, PlaceTemperature
from dryhouse.kitchen.records.batches import FINISHED, THERMOMETER
from dryhouse.kitchen.records.lots import BOUGHT
from dryhouse.science.dryness import Verdict
from dryhouse.science.errors import InputProblem
from dryhouse.science.safety import BatchFacts, Facts, FoodFacts, LotFacts, MealFacts, evaluate
from dryhouse.science.values import Caution

LABEL = "label"
"""The kind of a bought ingredient of which only the label is known."""
AIRLESS = frozenset({"vacuum bag", "jar with absorber"})
"""The packages that shut air out."""
_NO_ODD_SMELL = frozenset({"", "none", "normal", "fine", "good", "ok", "as it should", "no"})


def cautions_for(facts: Facts) -> tuple[Caution, ...]:
    """Every caution the handbook's rules have for these facts, the gravest first."""
    return evaluate(facts, safety_rules())


def food_cautions(kitchen: Kitchen, food: Food | str) -> tuple[Caution, ...]:
    """What must be known of a food before, while and after it is dried, nothing being recorded yet.

    Raises InputProblem where the name is not known.
    """
    known = find_food(kitchen, food) if isinstance(food, str) else food
    return cautions_for(facts_of_food(known))


def batch_cautions(
    kitchen: Kitchen, batch: Batch | BatchDraft, parts: Sequence[BatchPart] | None = None
) -> tuple[Caution, ...]:
    """The cautions of a batch, or of a form as far as it is filled in. A mix has those of its ingredients."""
    return cautions_for(batch_facts(kitchen, batch, parts))


def lot_cautions(
    kitchen: Kitchen, lot: Lot, moment: datetime | None = None, *, place: int | None = None
) -> tuple[Caution, ...]:
    """The cautions of a lot where it stands at a moment (now, where none is given), or as it would be in a place.

    The lot need not be recorded yet.
    """
    return cautions_for(lot_facts(kitchen, lot, moment, place=place))


@dataclass(frozen=True, slots=True)
class Preparation:
    """How a meal is made: how long it soaks, how warm (°C) and how high (m) that is; what is not known is None.
    `dry` says that no water goes on it, not even to drink."""

    soak_minutes: float | None = None
    soak_temperature_c: float | None = None
    altitude_m: float | None = None
    dry: bool = False


_NOT_KNOWN = Preparation()


def meal_cautions(
    kitchen: Kitchen,
    meal: Meal,
    parts: Sequence[MealPart] | None = None,
    made: Preparation = _NOT_KNOWN,
    *,
    moment: datetime | None = None,
    travels_at: tuple[float | None] | None = None,
) -> tuple[Caution, ...]:
    """The cautions of a meal. A home-dried ingredient whose lot is not named counts as nothing recorded.

    `travels_at` holds how warm (°C) it is where the bag travels, or None where that is not known; without it the
    lots are judged where they stand.
    """
    if parts is None:
        parts = kitchen.journal.where(MealPart, meal=meal.id)
    inside = tuple(_part_facts(kitchen, part, moment) for part in parts)
    if travels_at is not None:
        inside = tuple(replace(f, temperature_c=travels_at[0]) if isinstance(f, LotFacts) else f for f in inside)
    soaked = made.soak_minutes, made.soak_temperature_c
    return cautions_for(MealFacts(inside, meal.cooking, *soaked, made.altitude_m, made.dry))


def _part_facts(kitchen: Kitchen, part: MealPart, moment: datetime | None) -> FoodFacts | LotFacts:
    """One ingredient: its lot, its dried food, or what was bought. A thing known by its own label only is what
    its name says where that names an animal food, and otherwise unknown but for its label."""
    lot = kitchen.journal.get(Lot, part.lot) if part.lot is not None else None
    if lot is not None:
        return lot_facts(kitchen, lot, moment)
    if part.food:
        return food_facts(kitchen, part.food)
    staple = staples().get(part.staple)
    if staple is not None:
        return LotFacts(FoodFacts(staple.name, staple.animal or "staple"), bought=True)
    named = kitchen.handbook.animal_named(part.name)
    if named is not None:
        return LotFacts(facts_of_food(named))
    kinds = {"dairy" if kind == "milk" else kind for kind in animal_words(part.name).values()}
    return LotFacts(FoodFacts(part.name, LABEL, frozenset(kinds | {"animal"} if kinds else ())))


# --- records into facts ----------------------------------------------------------------------------------


def facts_of_food(known: Food) -> FoodFacts:
    """The facts of a food of the handbook or of her own."""
    return FoodFacts(known.name, known.category, known.traits)


def food_facts(kitchen: Kitchen, slug: str) -> FoodFacts:
    """The facts of the food of this slug; a food that is no longer known has none, and the rules say so."""
    try:
        return facts_of_food(find_food(kitchen, slug))
    except InputProblem:
        return FoodFacts(slug)


def batch_facts(
    kitchen: Kitchen, batch: Batch | BatchDraft, parts: Sequence[BatchPart] | None = None
) -> BatchFacts:
    """What is recorded of a batch and its ingredients (read from the journal where they are not given)."""
    record, inside = (batch.batch, batch.parts) if isinstance(batch, BatchDraft) else (batch, parts)
    if inside is None:
        inside = parts_of(kitchen, record.id) if record.id else ()
    facts = facts_of_batch(record, inside, lambda slug: food_facts(kitchen, slug))
    if record.state != FINISHED or "animal" not in facts.kinds:
        return facts
    if record.id and kitchen.journal.where(Lot, batch=record.id):
        return facts
    warm, hot = stood_in_kitchen(record.ended, kitchen.now(), _room(record))
    _, dryness = verdicts_of(kitchen, record, inside)
    return replace(
        facts,
        off_dryer=True,
        dry_enough=dryness.dry,
        dry_doubted=dryness.in_doubt,
        warm_min=warm,
        hot_min=hot,
    )


def facts_of_batch(batch: Batch, parts: Sequence[BatchPart], food_of: Callable[[str], FoodFacts]) -> BatchFacts:
    """The facts of a batch from its records alone."""
    whole = food_of(batch.food)
    inside = tuple(food_of(p.food) for p in parts) or None
    measured = batch.precook_measured.strip().casefold()
    return BatchFacts(
        food=FoodFacts(whole.name, whole.category, whole.traits, inside),
        made_from=batch.made_from or None,
        pretreatment=batch.pretreatment or None,
        precook_method=batch.precook_method or None,
        precook_temperature_c=batch.precook_temperature.si if batch.precook_temperature else None,
        precook_measured=measured == THERMOMETER if measured else None,
        precook_held_min=batch.precook_held.si / 60 if batch.precook_held else None,
        finish_temperature_c=batch.finish_temperature.si if batch.finish_temperature else None,
        finish_min=batch.finish_held.si / 60 if batch.finish_held else None,
        identified=batch.identified.strip() or None,
        set_temperature_c=batch.set_temperature.si if batch.set_temperature else None,
        thickness_mm=batch.thickness.si if batch.thickness else None,
    )


def _room(batch: Batch) -> float | None:
    return batch.kitchen_temperature.si if batch.kitchen_temperature else None


def is_bought(lot: Lot) -> bool:
    """As recorded when it was shelved; a lot dried at home stays so, whatever becomes of its batch."""
    return lot.origin == BOUGHT


def goes_by_its_date(lot: Lot) -> bool:
    """Bought, with a date on its package, and still closed. Once the package is opened the printed date is only
    the outer limit, and it keeps as food dried at home does from that day (assumption)."""
    return is_bought(lot) and lot.bought_keep_by is not None and lot.opened_on is None


def lot_facts(kitchen: Kitchen, lot: Lot, moment: datetime | None = None, *, place: int | None = None) -> LotFacts:
    """What is recorded of a lot up to a moment, and of the batch it came from; `place` as if it stood there."""
    at = moment or kitchen.now()
    batch = kitchen.journal.get(Batch, lot.batch) if lot.batch is not None else None
    bought = pantry_food(kitchen, lot)
    own = food_facts(kitchen, lot.food) if bought is None else facts_of_food(bought)
    from_batch = batch_facts(kitchen, batch) if batch else None if is_bought(lot) else BatchFacts(own)
    dryness = verdicts_of(kitchen, batch)[1] if batch else NOT_WEIGHED
    checks = [c for c in kitchen.journal.where(LotCheck, lot=lot.id) if c.on <= kitchen.local(at).date()]
    moves = sorted(
        (m for m in kitchen.journal.where(LotMove, lot=lot.id) if m.at <= at), key=lambda m: (m.at, m.id)
    )
    stood = UNKNOWN
    if batch is not None and asks_how_long(dryness, checks):
        places = {m.place for m in moves}
        readings = {
            place: sorted(kitchen.journal.where(PlaceTemperature, place=place), key=lambda t: (t.since, t.id))
            for place in places
        }
        stood = stood_on_shelf(batch.ended, moves, readings, at, _room(batch))
    warmth = (
        place_temperature(kitchen, lot, at)
        if place is None
        else warmth_of(kitchen.journal.where(PlaceTemperature, place=place), at)
    )
    return facts_of_lot(lot, own, from_batch, dryness, checks, warmth, stood)


def asks_how_long(dryness: Verdict, checks: Sequence[LotCheck]) -> bool:
    """Whether it matters how long a lot stood warm: it is not dry, or was found moist."""
    return dryness.dry is False or any(c.moist for c in checks)


def facts_of_lot(
    lot: Lot,
    own: FoodFacts,
    batch: BatchFacts | None,
    dryness: Verdict,
    checks: Sequence[LotCheck],
    temperature_c: float | None,
    stood: Stood = UNKNOWN,
) -> LotFacts:
    """The facts of a lot from its records alone. A mix is what its batch says it is.

    What was found moist stays so until it is dried again, whatever a later look finds.
    """
    looks = [c for c in checks if c.moist is not None]
    since = [c.moist for c in looks if lot.redried_on is None or c.on > lot.redried_on]
    days = None
    if lot.conditioned_from is not None and lot.conditioned_to is not None:
        days = (lot.conditioned_to - lot.conditioned_from).days
    return LotFacts(
        food=batch.food if batch is not None and batch.food.parts else own,
        batch=batch,
        bought=is_bought(lot),
        package=lot.package,
        airless=lot.package in AIRLESS,
        in_oil=lot.in_oil,
        sealed=lot.sealed,
        opened=lot.opened_on is not None,
        dry_enough=dryness.dry,
        dry_doubted=dryness.in_doubt,
        conditioned_days=days,
        pasteurised=bool(lot.pasteurised),
        temperature_c=temperature_c,
        checked=bool(checks),
        moist=any(since) if since else None,
        ever_moist=any(c.moist for c in looks),
        warm_min=stood[0],
        hot_min=stood[1],
        mould=any(c.mould for c in checks) or None,
        smell=any(c.smell.strip().casefold() not in _NO_ODD_SMELL for c in checks) or None,
    )


def place_temperature(kitchen: Kitchen, lot: Lot, moment: datetime) -> float | None:
    """The temperature (°C) of the place the lot is in at a moment, or None where it is not known."""
    place = place_of(kitchen.journal.where(LotMove, lot=lot.id), moment)
    return None if place is None else warmth_of(kitchen.journal.where(PlaceTemperature, place=place), moment)


def place_of(moves: Sequence[LotMove], moment: datetime) -> int | None:
    """The place a lot with these moves is in at a moment; None before the first."""
    made = [m for m in moves if m.at <= moment]
    return max(made, key=lambda m: (m.at, m.id)).place if made else None


def warmth_of(readings: Sequence[PlaceTemperature], moment: datetime) -> float | None:
    """How warm (°C) a place with these readings is at a moment; None before the first."""
    taken = [t for t in readings if t.since <= moment]
    return max(taken, key=lambda t: (t.since, t.id)).temperature.si if taken else None
