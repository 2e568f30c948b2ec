"""Weights that can't be true: met where they are typed, and asked about with the likeliest reason.

A reading that is doubted is not refused: it may be kept as it stands, left out of the curve until it is taken in.
What is looked at, the likeliest first: another unit, raw weight for cooked food, lighter than the dry matter,
heavier than what was loaded or than before, twice in a minute.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from enum import StrEnum

from dryhouse.kitchen.batches.loads import load_for, loaded_grams
from dryhouse.kitchen.batches.log import parts_of
from dryhouse.kitchen.dryer.whole_load import Aside, aside_of
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.weighings import LOAD
from dryhouse.kitchen.settings import style
from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.dryness import least_dry_matter
from dryhouse.science.errors import InputProblem
from dryhouse.science.moisture import Load, scale_step
from dryhouse.science.quantities import unit_typed
from dryhouse.science.units import METRIC_UNITS, SIZES
from dryhouse.words.dates import clock
from dryhouse.words.verdicts import is_cooked, too_light, too_light_sentence

TWICE_WITHIN = timedelta(minutes=1)
RISE = 0.01
"""A rise of this share of the first weight is the scale's own unsteadiness and is not asked about (our own
choice)."""
MEANT = ("g", "kg", "oz", "lb")
"""The units a bare number may have been meant in."""


class DoubtKind(StrEnum):
    """Why a weight can't be true."""

    UNIT = "another unit"
    RAW = "raw weight for cooked food"
    BELOW_DRY_MATTER = "below the dry matter"
    ABOVE_LOAD = "more than was loaded"
    HEAVIER = "heavier than before"
    LIGHTER = "lighter than after"
    TWICE = "twice in a minute"


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a reading is doubted, the question that is asked, and the weighing it may be meant to replace."""

    kind: DoubtKind
    question: str
    replaces: int = 0


class DoubtfulWeight(InputProblem):
    """A reading that is asked about. Nothing was written; it may be kept, left out of the curve."""

    def __init__(self, doubt: Doubt) -> None:
        super().__init__(doubt.question, "gross")
        self.doubt = doubt


@dataclass(frozen=True, slots=True)
class Neighbours:
    """What is known around a reading: the load it belongs to, and the readings before and after it, in grams."""

    load: Load | None
    before: Weighing | None
    after: Weighing | None
    first_g: float | None
    """The first net weight of what is weighed."""
    aside: Aside
    """What of the load is off the dryer, and so not on the scale."""

    @property
    def most(self) -> float | None:
        """More than this cannot be on the scale."""
        return self.whole(self.before) if self.before is not None else self.first_g

    def whole(self, weighing: Weighing) -> float:
        """Grams of the reading with what is off the dryer then."""
        return weighing.net_g + self.aside.grams(weighing.at)


def doubt_of(kitchen: Kitchen, batch: Batch, weighing: Weighing, others: Sequence[Weighing]) -> Doubt | None:
    """What makes this reading unlikely beside the other weighings of its batch; None where nothing does. The
    question is in the units that she typed in: a scale of grams is asked about in grams."""
    around = neighbours(kitchen, batch, weighing, others)
    metric = unit_typed(weighing.gross) in METRIC_UNITS
    notation = replace(style(kitchen), system=METRIC if metric else US)
    twice = _twice(kitchen, weighing, around, notation)
    if weighing.scope != LOAD and around.before is None and around.after is None:
        return None
    return twice or _impossible(weighing, around, notation) or _out_of_order(kitchen, weighing, around, notation)


def without_doubtful(
    kitchen: Kitchen, batch: Batch, earlier: Sequence[Weighing], fresh: Sequence[Weighing]
) -> list[Weighing]:
    """Many readings of one scale at once, in order of time: those that can't be true are left out of the curve.
    Each is compared with the last one before it that counts."""
    if not fresh:
        return []
    around = neighbours(kitchen, batch, fresh[0], [*earlier, *(w for w in fresh if w.scope != LOAD)])
    notation, found = style(kitchen), []
    counted = [w for w in earlier if not w.left_out and w.scope == fresh[0].scope and w.vessel == fresh[0].vessel]
    before = [w for w in sorted(counted, key=lambda w: (w.at, w.id)) if w.at <= fresh[0].at]
    last = before[-1] if before else None
    for weighing in fresh:
        here = replace(around, before=last, after=None, first_g=around.first_g or weighing.net_g)
        doubted = _impossible(weighing, here, notation) or _out_of_order(kitchen, weighing, here, notation)
        found.append(replace(weighing, left_out=True) if doubted is not None else weighing)
        last = weighing if doubted is None else last
    return found


def neighbours(kitchen: Kitchen, batch: Batch, weighing: Weighing, others: Sequence[Weighing]) -> Neighbours:
    """The readings of the same thing, those that count, before and after this one; and the load it is of."""
    same = [
        w for w in others
        if w.scope == weighing.scope and not w.left_out and (w.scope == LOAD or w.vessel == weighing.vessel)
    ]  # fmt: skip
    same.sort(key=lambda w: (w.at, w.id))
    before = [w for w in same if w.at <= weighing.at]
    after = [w for w in same if w.at > weighing.at]
    food = find_food(kitchen, batch.food)
    parts = parts_of(kitchen, batch.id)
    loaded = loaded_grams(food, batch) or (sum(p.mass.si for p in parts) or None)
    first = loaded if weighing.scope == LOAD and loaded is not None else same[0].net_g if same else None
    load = load_for(kitchen, batch, parts, grams=first, food=food) if first is not None else None
    aside = Aside()
    if weighing.scope == LOAD:
        aside = aside_of(batch, others, kitchen.journal.where(BatchEvent, batch=batch.id))
    return Neighbours(load, before[-1] if before else None, after[0] if after else None, first, aside)


def _twice(kitchen: Kitchen, weighing: Weighing, around: Neighbours, notation: Style) -> Doubt | None:
    for other in (around.before, around.after):
        if other is not None and abs(other.at - weighing.at) < TWICE_WITHIN and other.gross.si != weighing.gross.si:
            was, at = notation.mass(other.gross.si), clock(kitchen.local(other.at))
            return Doubt(
                DoubtKind.TWICE,
                f"{said(weighing)} comes within a minute of {was} ({at}). Should it take that one's place?",
                other.id,
            )
    return None


def _impossible(weighing: Weighing, around: Neighbours, notation: Style) -> Doubt | None:
    """Below the dry matter, or above what was loaded."""
    load, net = around.load, around.whole(weighing)
    if load is None:
        return None
    step, now, least = scale_step(load), notation.mass(net), least_dry_matter(load)
    below, above = net < least - step, net > load.grams * (1.0 + RISE) + step
    if not below and not above:
        return None
    most = around.most or load.grams
    if meant := other_unit(weighing, least, most):
        typed = said(weighing)
        what = f"{typed} is {now}" if _bare(typed) != _bare(now) else f"This reading is {now}"
        return Doubt(DoubtKind.UNIT, f"{what}, and {_last(around, most, notation)}. Did you mean {meant}?")
    if above:
        return Doubt(
            DoubtKind.ABOVE_LOAD,
            f"{now} is more than the {notation.mass(load.grams)} that was loaded. Was a tray or jar weighed along? "
            f"That would be a tare of {notation.mass(net - load.grams)}.",
        )
    if is_cooked(load) and weighing.scope == LOAD:
        return Doubt(DoubtKind.RAW, too_light_sentence(load, net, notation))
    holds = too_light(load, net, notation)
    which = "another tray" if weighing.scope != LOAD else "only one tray"
    return Doubt(DoubtKind.BELOW_DRY_MATTER, f"{holds}. Was {which} on the scale, or was the tare taken off twice?")


def _out_of_order(kitchen: Kitchen, weighing: Weighing, around: Neighbours, notation: Style) -> Doubt | None:
    """Heavier than the reading before it, or lighter than the one after: food on a dryer only loses weight."""
    allowed = RISE * (around.first_g or weighing.net_g) + 1.0
    now, before, after = around.whole(weighing), around.before, around.after
    if before is not None and now > around.whole(before) + allowed:
        was, at = notation.mass(before.net_g), clock(kitchen.local(before.at))
        if meant := other_unit(weighing, 0.5 * before.net_g, before.net_g):
            question = f"{said(weighing)} is more than the {was} at {at}. Did you mean {meant}?"
            return Doubt(DoubtKind.UNIT, question)
        return Doubt(
            DoubtKind.HEAVIER,
            f"{notation.mass(weighing.net_g)} is more than the {was} at {at}, and drying food gets lighter. Was "
            "something else on the scale, or was food added?",
        )
    if after is not None and now < around.whole(after) - allowed:
        later, at = notation.mass(after.net_g), clock(kitchen.local(after.at))
        return Doubt(
            DoubtKind.LIGHTER,
            f"{notation.mass(weighing.net_g)} is less than the {later} weighed later, at {at}. Is the time right?",
        )
    return None


def other_unit(weighing: Weighing, least_g: float, most_g: float) -> str:
    """`860 g`, where the number in another unit would lie between these; empty where none would."""
    typed = unit_typed(weighing.gross)
    tare = weighing.gross.si - weighing.net_g
    number = weighing.gross.si / SIZES[typed]
    for unit in MEANT:
        net = number * SIZES[unit] - tare
        if unit != typed and least_g <= net <= most_g * (1.0 + RISE):
            return f"{number:.6g} {unit}"
    return ""


def _last(around: Neighbours, most_g: float, notation: Style) -> str:
    if around.before is not None:
        return f"the last weight was {notation.mass(around.before.net_g)}"
    return f"{notation.mass(most_g)} was loaded"


def _bare(amount: str) -> str:
    return amount.casefold().replace(" ", "")


def said(weighing: Weighing) -> str:
    """The reading as it was typed."""
    return weighing.gross.typed or f"{weighing.gross.si:.0f} g"
