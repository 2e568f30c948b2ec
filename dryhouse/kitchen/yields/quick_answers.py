"""Quick answers at the bench, from what is typed: target weight, and water to bring food back."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from dryhouse.handbook.finder import WhichFood
from dryhouse.handbook.rehydration_table import published_water
from dryhouse.handbook.staples import STAPLE
from dryhouse.handbook.tables import Food
from dryhouse.handbook.yield_spread import water_with_range
from dryhouse.kitchen.batches.loads import dry_already
from dryhouse.kitchen.cautions.cautions import cautions_for, facts_of_food, food_cautions
from dryhouse.kitchen.cautions.forbidden import refuse_what_no_record_lifts
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.counted import amount_typed, bare_amount
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.yields.jar_water import takes_up
from dryhouse.kitchen.yields.knowledge import learn
from dryhouse.kitchen.yields.yields import FRESH, Said, dried_density, grams_of
from dryhouse.science.errors import InputProblem, NotKnown
from dryhouse.science.moisture import Load, LoadPart, load_of, target_mass, typed_moisture
from dryhouse.science.quantities import Mass, Volume, parse_amount, parse_percent, unit_typed
from dryhouse.science.safety import FoodFacts
from dryhouse.science.statuses import Severity
from dryhouse.science.units import SIZES, figure_in
from dryhouse.science.values import Caution, Fact, Figure, Measure, gravest_first, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import Workings, step
from dryhouse.science.yields.belief import Predictive
from dryhouse.words.verdicts import dry_already_sentence


def target(
    kitchen: Kitchen, name: str, fresh: str, *, solids: str | None = None, moisture: str | None = None
) -> Figure:
    """The mass at which a load is dry, in the unit the fresh mass was typed in; of a measure or of so many pieces
    in grams.

    `solids` and `moisture` (percent, as typed) replace the handbook's figures for the food. With both given
    the food need not be one that is known here: the cautions then say so. Raises InputProblem.
    """
    told = _told(kitchen, name, solids, moisture)
    typed = amount_typed(told.food, fresh, decimal_comma=style(kitchen).decimal_comma)
    mass, measured = _weighed(kitchen, told.food, typed)
    if told.goal.value >= told.water.value:
        if told.by_the_handbook:
            raise InputProblem(dry_already(told.food, style(kitchen)))
        raise InputProblem(
            f"The moisture wanted ({told.goal.value:g} %) is not below the starting moisture "
            f"({told.water.value:g} %); nothing would have to be dried."
        )
    figure = target_mass(told.load(mass.si), told.goal)
    if measured is not None:
        figure = _measured(figure, measured)
    return figure_in(figure, unit_typed(mass)).with_cautions(told.cautions)


def dry_already_words(
    kitchen: Kitchen, name: str, *, solids: str | None = None, moisture: str | None = None
) -> str:
    """That such food may be as dry as its target before it is dried, in a sentence; nothing where it is moister."""
    told = _told(kitchen, name, solids, moisture)
    return dry_already_sentence(told.load(100.0), told.goal, style(kitchen))


@dataclass(frozen=True, slots=True)
class _Told:
    """What a target is reckoned from: typed, or the food's own figures."""

    food: Food
    water: Fact
    goal: Fact
    by_the_handbook: bool
    cautions: tuple[Caution, ...]

    def load(self, grams: float) -> Load:
        return load_of([LoadPart(self.food.name, grams, self.water)])


def _told(kitchen: Kitchen, name: str, solids: str | None, moisture: str | None) -> _Told:
    comma = style(kitchen).decimal_comma
    entered_water = None if solids is None else _water_from(solids, comma)
    entered_target = None if moisture is None else _entered_target(moisture, comma)
    try:
        known = food(kitchen, name)
        cautions = food_cautions(kitchen, known)
    except WhichFood as asked:
        if entered_water is None or entered_target is None:
            raise
        known, cautions = Food(name, name, (), "other"), _cautions_of_any(asked)
    water, goal = entered_water or _with_range(known), entered_target or known.fact("target_moisture")
    if water is None:
        raise NotKnown(f"No starting moisture is known for {known.name}; give its solids.", "solids")
    if goal is None:
        raise NotKnown(f"No target moisture is known for {known.name}; give one.", "moisture")
    return _Told(known, water, goal, entered_water is None and entered_target is None, cautions)


def _weighed(kitchen: Kitchen, known: Food, amount: Mass | Volume) -> tuple[Mass, tuple[Predictive, Said] | None]:
    """The weight of what is loaded; of a measure also its spread, its arithmetic and its sources."""
    if isinstance(amount, Mass):
        return amount, None
    found = grams_of(learn(kitchen, known), amount, FRESH)
    return Mass(found[0].value), found


def _measured(figure: Figure, measured: tuple[Predictive, Said]) -> Figure:
    """The target weight of a load that was measured: how far a measure strays is added to the interval."""
    loaded, (workings, basis) = measured

    def end(of_target: float | None, of_load: float, way: int) -> float:
        apart = math.hypot(math.log((of_target or figure.value) / figure.value), math.log(of_load / loaded.value))
        return figure.value * math.exp(way * apart)

    return replace(
        figure,
        low=end(figure.low, loaded.low, -1),
        high=end(figure.high, loaded.high, 1),
        basis=merge_bases(figure.basis, basis),
        workings=(*workings, *figure.workings),
    )


def _with_range(known: Food) -> Fact | None:
    water = known.fact("water")
    return None if water is None else water_with_range(known, water)


def _cautions_of_any(asked: WhichFood) -> tuple[Caution, ...]:
    """Which food it is was not asked for the figure's sake; the cautions are those of every kind of it together,
    or, where no food is called so, of food of which nobody knows what is in it."""
    facts = [facts_of_food(kind) for kind in asked.kinds] or [FoodFacts(asked.typed)]
    said = {caution.rule: caution for each in facts for caution in cautions_for(each)}
    kinds = ", ".join(kind.name for kind in asked.kinds)
    why = f"the cautions are those of {kinds}" if kinds else "no food here is called that"
    text = f"Which food “{asked.typed}” is isn't known here. Give the name of one food to see what belongs to it."
    note = Caution(Severity.NOTE, text, "our own rule", "food-not-named", (why,), "now")
    return gravest_first([*said.values(), note])


def _water_from(solids: str, comma: bool) -> Fact:
    value = parse_percent(solids, decimal_comma=comma, what="solids percentage")
    if value == 0:
        raise InputProblem("Food with no solids leaves nothing; solids are above 0 %, such as 14 %.")
    if value < 1:
        raise InputProblem(f"Solids of {value:g} % are less than any food holds; write percent, such as 14 %.")
    return typed_moisture(100.0 - value, f"solids of {value:g} % as entered")


def _entered_target(moisture: str, comma: bool) -> Fact:
    value = parse_percent(moisture, decimal_comma=comma, what="moisture")
    if value >= 100:
        raise InputProblem("A target moisture is below 100 %, such as 10 %.")
    return Fact(value, "%", "target moisture as entered", "entered")


def water(kitchen: Kitchen, name: str, dried: str, batch: Batch | None = None) -> tuple[Figure, tuple[Figure, ...]]:
    """Water that brings a dried amount back, and what is published for the same amount beside it; of a jar of
    `batch`, by what that batch weighed out.

    A measure is turned into mass by the dried bulk density (own, else handbook). Without one the published
    cups answer alone; without those either, a mass has to be given. Raises InputProblem.
    """
    known = food(kitchen, name)
    cautions = food_cautions(kitchen, known)
    if STAPLE not in known.traits:
        refuse_what_no_record_lifts(known.name, cautions)
    amount = parse_amount(bare_amount(known, dried), decimal_comma=style(kitchen).decimal_comma)
    density = dried_density(kitchen, known)
    if density is None and not isinstance(amount, Mass) and (published := _published(known, amount.si)):
        why = step(Kind.NO_MASS_BALANCE, food=known.name)
        only = replace(published[0], workings=(*published[0].workings, why))
        return only.with_cautions(cautions), published
    workings: Workings = ()
    grams = amount.si
    if not isinstance(amount, Mass):
        if density is None:
            raise InputProblem(
                f"What a cup of dried {known.name} weighs is not known here; give the weight instead, such as 40 g."
            )
        grams = amount.si * density.value
        volume = (amount.si, "ml")
        workings = (step(Kind.DRIED_BY_MEASURE, (grams, "g"), typed=amount.typed, volume=volume, density=density),)
    found = takes_up(kitchen, known, batch).water(grams)
    if found is None:
        raise InputProblem(
            f"How much water {known.name} takes up is not known here; enter its water content or log a batch."
        )
    figure = found
    bases = (
        figure.basis if density is None or isinstance(amount, Mass) else merge_bases(figure.basis, density.basis)
    )
    figure = replace(figure, workings=(*workings, *figure.workings), basis=bases)
    if not isinstance(amount, Mass):
        return figure.with_cautions(cautions), _published(known, amount.si)
    ml = None if density is None else amount.si / density.value
    return figure.with_cautions(cautions), _published(known, ml, weighed=True)


def _published(known: Food, dried_ml: float | None, *, weighed: bool = False) -> tuple[Figure, ...]:
    """The published cups of water per cup dried, for this many milliliters of dried food.

    What a packed cup weighs is not known: its rows say nothing of food that was `weighed`.
    """
    if dried_ml is None:
        return ()
    cups = dried_ml / SIZES["cup"]
    answers = []
    for row in published_water(known.slug):
        if row.packed and weighed:
            continue
        value = row.cups_per_cup * cups
        soak = row.soak_hours_low
        line = step(
            Kind.PUBLISHED_WATER if soak is None else Kind.PUBLISHED_WATER_SOAK,
            (value, "cup"),
            each=row.cups_per_cup,
            warmth=row.liquid,
            dried=(cups, "cup"),
            soak=(soak or 0.0, "h"),
        )
        answers.append(
            Figure(value * SIZES["cup"], "ml", measure=Measure(value, "cup"), basis=(row.basis,), workings=(line,))
        )
    return tuple(answers)
