"""The moisture mass balance: nothing but water leaves a tray.

Symbols as the field uses them: m mass, M moisture wet basis (per unit of total), X moisture dry basis (per
unit of dry matter), S dry matter = m (1 − M). Percentages are wet basis unless the name says otherwise.

Formulas: Utah State University Extension, Testing Foods for Dryness (finished weight = raw weight × raw
solids / finished solids); basis conversions as in any text of unit operations (e.g. Geankoplis, ch. 9).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dryhouse.science.errors import InputProblem
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.statuses import Feel
from dryhouse.science.values import MIDDLE_80_SD, Fact, Figure, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind

if TYPE_CHECKING:
    from dryhouse.science.dry_matter import Belief

TYPED_DOUBT = 0.10
"""Spread of ln solids where a starting moisture was typed and not tested: an assumption, about the width of the
published ranges of ripe produce."""

SCALE_G = 1.0
"""A kitchen scale's step. Masses are not told apart more finely than this (common practice, no source)."""

LEAST_SOLIDS = 0.005
"""No food holds less dry matter than this share (our own border)."""
AS_TOLD = 0.002
"""Spread of ln solids where a figure is taken as it stands: one without any range."""


def wet_to_dry(wet: float) -> float:
    """Moisture dry basis X from wet basis M, both as fractions; M must be below 1. Raises InputProblem."""
    if not 0 <= wet < 1:
        raise InputProblem(message(Told.WET_BASIS_RANGE))
    return wet / (1.0 - wet)


def dry_to_wet(dry: float) -> float:
    """Moisture wet basis M from dry basis X, both as fractions; X must not be negative. Raises InputProblem."""
    if dry < 0:
        raise InputProblem(message(Told.DRY_BASIS_RANGE))
    return dry / (1.0 + dry)


def dry_matter(mass: float, moisture_pct: float) -> float:
    """Dry matter S in the unit of `mass`, from moisture in % wet basis."""
    return mass * (1.0 - moisture_pct / 100.0)


def mass_at(solids: float, moisture_pct: float) -> float:
    """The mass that holds this dry matter at this moisture (% wet basis, below 100). Raises InputProblem."""
    if not 0 <= moisture_pct < 100:
        raise InputProblem(message(Told.TARGET_RANGE))
    return solids / (1.0 - moisture_pct / 100.0)


def moisture_at(mass: float, solids: float) -> float:
    """Moisture in % wet basis of food of this mass and dry matter; negative where the weights don't add up.

    Raises InputProblem.
    """
    if mass <= 0:
        raise InputProblem(message(Told.NO_MASS))
    return 100.0 * (1.0 - solids / mass)


def typed_moisture(moisture_pct: float, source: str, *, tested: bool = False) -> Fact:
    """A starting moisture (% wet basis) that was typed: as it stands where it was tested, else with a doubt that is
    relative to the solids (`TYPED_DOUBT`, an assumption)."""
    if tested or not 0.0 < moisture_pct < 100.0:
        return Fact(moisture_pct, "%", source, "entered")
    solids, factor = 100.0 - moisture_pct, math.exp(MIDDLE_80_SD * TYPED_DOUBT)
    low = max(100.0 - solids * factor, 0.0)
    return Fact(moisture_pct, "%", source, "entered", low=low, high=100.0 - solids / factor)


@dataclass(frozen=True, slots=True)
class LoadPart:
    """One ingredient of a load: its mass in grams and its moisture (% wet basis) as a sourced fact."""

    name: str
    grams: float
    water: Fact


@dataclass(frozen=True, slots=True)
class Load:
    """What went on the trays: total mass and dry matter in grams, with the range the sources allow."""

    grams: float
    solids: float
    solids_low: float
    solids_high: float
    ingredients: tuple[LoadPart, ...]
    workings: Workings
    tested: bool = False
    """Whether a sample of it was dried out, so that nothing better can be known of its dry matter."""

    @property
    def moisture_pct(self) -> float:
        """Moisture of the load as loaded, % wet basis."""
        return moisture_at(self.grams, self.solids)

    @property
    def doubted(self) -> bool:
        """Whether the dry matter has a range."""
        return self.solids_high - self.solids_low > 1e-9

    @property
    def belief(self) -> Belief:
        """What its food says of the dry matter, as a share of the load, before anything of it was weighed."""
        from dryhouse.science.dry_matter import prior_belief

        return prior_belief(100.0 * max(self.solids / self.grams, LEAST_SOLIDS), load_spread(self))


def load_spread(load: Load) -> float:
    """Spread of ln(dry matter) of a load, from its published range; `AS_TOLD` where there is none."""
    if not load.doubted:
        return AS_TOLD
    least = LEAST_SOLIDS * load.grams
    low, high = max(load.solids_low, least), max(load.solids_high, load.solids, 1.001 * least)
    return max(math.log(high / low) / (2.0 * MIDDLE_80_SD), AS_TOLD)


def load_of(ingredients: Sequence[LoadPart]) -> Load:
    """A load from its ingredients: solids add up. A single food is a load of one.

    The range takes each ingredient's published low and high water together (the cautious way), or its
    value where the source gives no range. Raises InputProblem.
    """
    if not ingredients:
        raise InputProblem(message(Told.EMPTY_LOAD))
    workings: list[Step] = []
    solids = low = high = 0.0
    for item in ingredients:
        water = item.water
        part = dry_matter(item.grams, water.value)
        solids += part
        low += dry_matter(item.grams, water.high if water.high is not None else water.value)
        high += dry_matter(item.grams, water.low if water.low is not None else water.value)
        workings.append(step(Kind.DRY_MATTER, (part, "g"), food=item.name, loaded=(item.grams, "g"), water=water))
    total = sum(i.grams for i in ingredients)
    if len(ingredients) > 1:
        workings.append(step(Kind.LOADED_TOGETHER, (solids, "g"), loaded=(total, "g")))
    return Load(total, solids, low, high, tuple(ingredients), tuple(workings))


def target_mass(load: Load, target: Fact, belief: Belief | None = None) -> Figure:
    """The mass (g) at which the load holds its target moisture (`target`, % wet basis).

    m_t = S / (1 − M_t), with S as it is believed to be: by the food's figure, or by `belief` once the load showed
    more. The interval is the middle 80 % of that, widened by the published range of the target. Drying makes
    nothing heavier: neither lies above the load, which is where one stays that is as dry as its target already.
    """
    found = belief or load.belief
    solids = found.middle * load.grams if belief is not None and load.doubted else load.solids
    reckoned = mass_at(solids, target.value)
    value = min(reckoned, load.grams)
    driest = found.target(target.low if target.low is not None else target.value).low * load.grams
    wettest = found.target(target.high if target.high is not None else target.value).high * load.grams
    known = load.doubted or wettest - driest > 1e-2 * value
    return Figure(
        value,
        "g",
        low=min(driest, value) if known else None,
        high=max(min(wettest, load.grams), value) if known else None,
        basis=merge_bases((i.water.basis for i in load.ingredients), [target.basis]),
        workings=(
            *load.workings,
            *_learned(load, belief, solids),
            step(Kind.TARGET_MOISTURE, target=target),
            step(Kind.TARGET_MASS, (reckoned, "g"), solids=(solids, "g"), target=(target.value, "%")),
            *((step(Kind.DRY_AS_LOADED, (value, "g")),) if reckoned > value else ()),
        ),
    )


def dry_as_loaded(load: Load, target: Fact) -> float:
    """Probability that the load is at its target (% wet basis) or below before anything is dried off."""
    if not load.doubted:
        return float(load.moisture_pct <= target.value + 1e-9)
    return load.belief.dry_probability(1.0, target.value)


def believed(load: Load, grams: float, learned: Belief | None = None, feel: Feel | None = None) -> Belief:
    """What is thought of the dry matter, as a share of the load, once it weighs `grams` and a cooled piece felt so.

    `learned` is what the run's curve taught; without it, what the food's figure says, and that no load is lighter
    than its dry matter.
    """
    share = grams / load.grams
    found = learned or load.belief.weighed(share, scale_step(load) / load.grams)
    return found if feel is None else found.felt(feel, share)


def moisture_now(load: Load, grams: float, learned: Belief | None = None, feel: Feel | None = None) -> Figure:
    """Moisture (% wet basis) of the load when it weighs `grams`: M = 1 − S/m, with S as it is believed to be.

    Never negative, and inside its interval, the middle 80 %. A load without any doubt keeps its own figure.
    """
    found = believed(load, grams, learned, feel)
    now = found.moisture(grams / load.grams)
    value = now.value if load.doubted else max(moisture_at(grams, load.solids), 0.0)
    solids = (1.0 - value / 100.0) * grams
    return Figure(
        value,
        "%",
        low=now.low if load.doubted else None,
        high=now.high if load.doubted else None,
        basis=merge_bases(i.water.basis for i in load.ingredients),
        workings=(
            *load.workings,
            *_learned(load, found, solids),
            step(Kind.MOISTURE_NOW, (value, "%"), solids=(solids, "g"), mass=(grams, "g")),
        ),
    )


def _learned(load: Load, found: Belief | None, solids: float) -> tuple[Step, ...]:
    """The step from the table's dry matter to the one that the weights allow; none where they are the same."""
    if found is None or abs(solids / load.solids - 1.0) < 1e-3:
        return ()
    low, high = (q * load.grams for q in found.quantiles((0.10, 0.90)))
    return (step(Kind.DRY_MATTER_LEARNED, (solids, "g"), low=(low, "g"), high=(high, "g")),)


def scale_step(load: Load) -> float:
    """Grams below which two weights of this load are not told apart."""
    return min(SCALE_G, 0.01 * load.grams)
