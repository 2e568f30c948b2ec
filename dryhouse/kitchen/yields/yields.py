"""How much dried a fresh amount gives, and how much fresh a dried amount takes.

`learn` gathers what is known of a food, `answer` answers one amount from it. The value is joined from the
handbook and her own batches; both stand beside it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from dryhouse.handbook.staples import STAPLE
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.loads import dry_already
from dryhouse.kitchen.cautions.cautions import food_cautions
from dryhouse.kitchen.cautions.forbidden import refuse_what_no_record_lifts
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.yields.amounts import Trays, as_purchased, trays_for
from dryhouse.kitchen.yields.knowledge import YieldKnowledge, density_of, learn, sound
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume, unit_typed
from dryhouse.science.units import SIZES, figure_in
from dryhouse.science.values import Basis, Caution, Figure, Measure, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.yields.belief import Predictive
from dryhouse.science.yields.measure import Density
from dryhouse.science.yields.ratio import Ratio

Direction = Literal["fresh", "dried"]
FRESH: Direction = "fresh"
"""A fresh, prepared amount was typed; the dried amount is asked for."""
DRIED: Direction = "dried"
"""A dried amount was typed; the fresh amount is asked for."""


@dataclass(frozen=True, slots=True)
class YieldAnswer:
    """One answer. `joined` is the answer; `handbook` and `own` are the same amount by each alone."""

    knowledge: YieldKnowledge
    direction: Direction
    asked: Mass | Volume
    joined: Figure
    handbook: Figure | None
    own: Figure | None
    prepared: Figure
    """The prepared fresh amount, g: what was typed, or what the dried amount takes."""
    as_purchased: Figure | None
    """The same before peeling, coring and husking, g; None where no refuse figure is known."""
    trays: tuple[Trays, ...]
    hours: Figure | None

    @property
    def n_own(self) -> int:
        """How many own batches the answer rests on."""
        return len(self.knowledge.dots)

    @property
    def left_out(self) -> int:
        """How many own batches were left out because their weights don't add up."""
        return len(self.knowledge.left_out)


def yields(
    kitchen: Kitchen,
    name: str,
    amount: Mass | Volume,
    direction: Direction = FRESH,
    *,
    form: str = "",
    pretreatment: str = "",
) -> YieldAnswer:
    """The answer for a food by name, cautions and all. Raises InputProblem."""
    known = find_food(kitchen, name)
    return answer(learn(kitchen, known, form, pretreatment), amount, direction, food_cautions(kitchen, known))


def answer(
    knowledge: YieldKnowledge, amount: Mass | Volume, direction: Direction, cautions: Sequence[Caution] = ()
) -> YieldAnswer:
    """The answer from what was gathered. Nothing is read; raises InputProblem where nothing can be said, or where a
    stop that no record lifts forbids the food: a yield of it would be a recipe."""
    if STAPLE not in knowledge.food.traits:
        refuse_what_no_record_lifts(knowledge.food.name, cautions)
    if knowledge.joined is None and (why := dry_already(knowledge.food, Style())):
        raise InputProblem(why, "food")
    if knowledge.joined is None:
        raise InputProblem(
            f"Nothing is known of the yield of {knowledge.food.name} yet: enter its {knowledge.lacks} (%), "
            "or log a batch with its prepared and its dried weight.",
            "food",
        )
    start, first = grams_of(knowledge, amount, direction)
    unit = unit_typed(amount) if isinstance(amount, Mass) else "g"
    target_density = knowledge.dried if direction == FRESH else knowledge.fresh
    measure_unit = unit_typed(amount) if isinstance(amount, Volume) else "cup"

    def by(ratio: Ratio | None) -> Figure | None:
        if ratio is None:
            return None
        figure = _figure(start, ratio, direction, first, target_density, measure_unit)
        return figure_in(_said(figure, knowledge), unit)

    joined = by(knowledge.joined)
    assert joined is not None
    grams = Figure(start.value, "g", *_ends(start), workings=first[0], basis=first[1])
    prepared = grams if direction == FRESH else figure_in(joined, "g")
    return YieldAnswer(
        knowledge,
        direction,
        amount,
        joined.with_cautions(cautions),
        by(knowledge.handbook.ratio if knowledge.handbook is not None else None),
        by(knowledge.own),
        prepared,
        as_purchased(knowledge, prepared),
        trays_for(knowledge, prepared),
        knowledge.hours,
    )


Said = tuple[Workings, tuple[Basis, ...]]


def grams_of(knowledge: YieldKnowledge, amount: Mass | Volume, state: Direction) -> tuple[Predictive, Said]:
    """What was typed as grams, with the uncertainty of a measure; its lines and basis. Raises InputProblem."""
    if isinstance(amount, Mass):
        return Predictive(1.0, math.log(amount.si), 0.0), ((), ())
    density = knowledge.fresh if state == FRESH else knowledge.dried
    if density is None:
        raise InputProblem(
            f"What a cup of {state} {knowledge.food.name} weighs is not known; give its weight, such as 8 oz.",
            "amount",
        )
    grams = density.predictive.times(amount.si)
    line = step(
        Kind.BY_MEASURE_TYPED if amount.typed else Kind.BY_MEASURE,
        (grams.value, "g"),
        typed=amount.typed,
        volume=(amount.si, "ml"),
        state=state,
        density=(density.predictive.value, "g/ml"),
    )
    return grams, ((*density.workings, line), density.basis)


def _figure(
    start: Predictive, ratio: Ratio, direction: Direction, first: Said, target: Density | None, unit: str
) -> Figure:
    factor = ratio.predictive or Predictive(1.0, math.log(ratio.value), 0.0)
    whole = start.and_(factor if direction == FRESH else factor.inverse())
    low, high = _ends(whole) if ratio.predictive is not None else (None, None)
    low, high = _no_heavier(start, low, high, direction)
    line = _converted(direction, start.value, ratio.value, whole.value, low, high)
    workings, basis = (*ratio.workings, *first[0], line), merge_bases(ratio.basis, first[1])
    if target is None:
        return Figure(whole.value, "g", low, high, None, basis, workings)
    volume = whole.and_(target.predictive.inverse()).times(1 / SIZES[unit])
    ends = _ends(volume) if ratio.predictive is not None else (None, None)
    measure = Measure(volume.value, unit, *ends)
    packed = (target.predictive.value, "g/ml")
    last = step(Kind.VOLUME_OF, (volume.value, unit), mass=(whole.value, "g"), density=packed)
    return Figure(
        whole.value,
        "g",
        low,
        high,
        measure,
        merge_bases(basis, target.basis),
        (*workings, *target.workings, last),
    )


def _converted(
    direction: Direction, start: float, ratio: float, whole: float, low: float | None, high: float | None
) -> Step:
    """The step from one weight to the other, with the range where there is one."""
    result, grams = (whole, "g"), (start, "g")
    if low is None or high is None:
        kind = Kind.DRIED_FROM if direction == FRESH else Kind.FRESH_FOR
        return step(kind, result, start=grams, ratio=ratio)
    kind = Kind.DRIED_FROM_RANGE if direction == FRESH else Kind.FRESH_FOR_RANGE
    return step(kind, result, start=grams, ratio=ratio, low=(low, "g"), high=(high, "g"))


def _no_heavier(
    start: Predictive, low: float | None, high: float | None, direction: Direction
) -> tuple[float | None, float | None]:
    """Dried food weighs no more than it did fresh: the range ends there."""
    if low is None or high is None:
        return low, high
    return (low, min(high, max(start.high, low))) if direction == FRESH else (max(low, min(start.low, high)), high)


def _ends(known: Predictive) -> tuple[float | None, float | None]:
    return (None, None) if known.spread == 0 else (known.low, known.high)


def _said(figure: Figure, knowledge: YieldKnowledge) -> Figure:
    """The figure with a line on what was left out and on what is not known."""
    lines = list(knowledge.missing)
    if n := len(knowledge.left_out):
        numbers = ", ".join(str(b) for b in knowledge.left_out[:8]) + (" …" if n > 8 else "")
        lines.append(step(Kind.LEFT_OUT, n=n, numbers=numbers))
    return replace(figure, workings=(*figure.workings, *lines))


def dried_from(kitchen: Kitchen, batch: Batch) -> Figure | None:
    """What the load of a batch is expected to come to, dried; None where the load or the yield is not known."""
    if batch.prepared_mass is None:
        return None
    try:
        known = learn(kitchen, find_food(kitchen, batch.food), batch.form, batch.pretreatment)
        return answer(known, batch.prepared_mass, FRESH).joined
    except InputProblem:
        return None


def yield_ratio(kitchen: Kitchen, food: Food) -> Figure:
    """Dried ÷ prepared by mass, joined, as a fraction. Raises InputProblem where nothing is known."""
    known = learn(kitchen, food).joined
    if known is None:
        raise InputProblem(
            f"Nothing is known of the yield of {food.name} yet; enter its water content or log a batch."
        )
    ends = _ends(known.predictive) if known.predictive is not None else (None, None)
    ends = _no_heavier(Predictive(1.0, 0.0, 0.0), *ends, FRESH)
    return Figure(known.value, "", *ends, basis=known.basis, workings=known.workings)


def dried_density(kitchen: Kitchen, food: Food) -> Figure | None:
    """Grams per millilitre of the dried food, her own measured volumes first; None where neither is known."""
    kept, _ = sound(kitchen, food, kitchen.journal.yield_pairs(food.slug))
    known = density_of(food, "dried", "", [p.dried_g / p.dried_ml for p in kept if p.dried_ml])
    if known is None:
        return None
    return Figure(
        known.predictive.value, "g/ml", *_ends(known.predictive), basis=known.basis, workings=known.workings
    )
