"""The moisture mass balance: nothing but water leaves a tray.

Symbols as the field uses them: m mass, M moisture wet basis (per unit of total), X moisture dry basis (per
unit of dry matter), S dry matter = m (1 − M). Percentages are wet basis unless the name says otherwise.

Formulas: Utah State University Extension, Testing Foods for Dryness (finished weight = raw weight × raw
solids / finished solids); basis conversions as in any text of unit operations (e.g. Geankoplis, ch. 9).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.errors import InputProblem
from dryhouse.science.statuses import VerdictName
from dryhouse.science.values import Fact, Figure, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind

MISMATCH = VerdictName.MISMATCH

SCALE_G = 1.0
"""A kitchen scale's step. Masses are not told apart more finely than this (common practice, no source)."""

NEARLY = 0.15
"""A load this share above its target mass is *nearly* dry: our own choice."""


def wet_to_dry(wet: float) -> float:
    """Moisture dry basis X from wet basis M, both as fractions; M must be below 1."""
    if not 0 <= wet < 1:
        raise InputProblem("Moisture wet basis lies between 0 and below 100 %.")
    return wet / (1.0 - wet)


def dry_to_wet(dry: float) -> float:
    """Moisture wet basis M from dry basis X, both as fractions; X must not be negative."""
    if dry < 0:
        raise InputProblem("Moisture dry basis cannot be negative.")
    return dry / (1.0 + dry)


def dry_matter(mass: float, moisture_pct: float) -> float:
    """Dry matter S in the unit of `mass`, from moisture in % wet basis."""
    return mass * (1.0 - moisture_pct / 100.0)


def mass_at(solids: float, moisture_pct: float) -> float:
    """The mass that holds this dry matter at this moisture (% wet basis, below 100)."""
    if not 0 <= moisture_pct < 100:
        raise InputProblem("A target moisture lies between 0 and below 100 % wet basis.")
    return solids / (1.0 - moisture_pct / 100.0)


def moisture_at(mass: float, solids: float) -> float:
    """Moisture in % wet basis of food of this mass and dry matter; negative where the weights don't add up."""
    if mass <= 0:
        raise InputProblem("A mass must be more than nothing.")
    return 100.0 * (1.0 - solids / mass)


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

    @property
    def moisture_pct(self) -> float:
        """Moisture of the load as loaded, % wet basis."""
        return moisture_at(self.grams, self.solids)


def load_of(ingredients: Sequence[LoadPart]) -> Load:
    """A load from its ingredients: solids add up. A single food is a load of one.

    The range takes each ingredient's published low and high water together (the cautious way), or its
    value where the source gives no range.
    """
    if not ingredients:
        raise InputProblem("A load needs at least one ingredient with a mass.")
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


def target_mass(load: Load, target: Fact) -> Figure:
    """The mass (g) at which the load holds its target moisture (`target`, % wet basis).

    m_t = S / (1 − M_t). The interval runs over the published range of water and of the target.
    """
    value = mass_at(load.solids, target.value)
    driest = mass_at(load.solids_low, target.low if target.low is not None else target.value)
    wettest = mass_at(load.solids_high, target.high if target.high is not None else target.value)
    known = wettest - driest > 1e-9
    return Figure(
        value,
        "g",
        low=driest if known else None,
        high=wettest if known else None,
        basis=merge_bases((i.water.basis for i in load.ingredients), [target.basis]),
        workings=(
            *load.workings,
            step(Kind.TARGET_MOISTURE, target=target),
            step(Kind.TARGET_MASS, (value, "g"), solids=(load.solids, "g"), target=(target.value, "%")),
        ),
    )


def moisture_now(load: Load, grams: float) -> Figure:
    """Moisture (% wet basis) of the load when it weighs `grams`: M = 1 − S/m.

    Negative where the weights don't add up.
    """
    value = moisture_at(grams, load.solids)
    low, high = moisture_at(grams, load.solids_high), moisture_at(grams, load.solids_low)
    spread = high - low > 1e-9
    return Figure(
        value,
        "%",
        low=max(low, 0.0) if spread else None,
        high=max(high, 0.0) if spread else None,
        basis=merge_bases(i.water.basis for i in load.ingredients),
        workings=(
            *load.workings,
            step(Kind.MOISTURE_NOW, (value, "%"), solids=(load.solids, "g"), mass=(grams, "g")),
        ),
    )


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a load is dry enough, by weight alone: the word, and the weights (g) and target (%) it rests on."""

    name: VerdictName
    grams: float = 0.0
    load: Load | None = None
    target_pct: float = 0.0
    of_sample: bool = False
    """Of the one sample tray that stands for the load."""

    @property
    def moisture_pct(self) -> float:
        """Moisture by weight, % wet basis; negative where it is lighter than its usual dry matter."""
        return 0.0 if self.load is None else moisture_at(self.grams, self.load.solids)

    @property
    def to_go_g(self) -> float:
        """Water still to go, in grams; none where the target is reached."""
        return 0.0 if self.load is None else max(self.grams - mass_at(self.load.solids, self.target_pct), 0.0)

    @property
    def lean(self) -> bool:
        """Lighter than the usual dry matter, beyond the scale's step, and still within the published range."""
        return self.load is not None and self.grams < self.load.solids - scale_step(self.load)


def scale_step(load: Load) -> float:
    """Grams below which two weights of this load are not told apart."""
    return min(SCALE_G, 0.01 * load.grams)


def verdict(load: Load, grams: float, target: Fact) -> Verdict:
    """The dryness verdict by weight. It speaks of dryness only, never of safety.

    *dry enough*: at or below the target mass (within the scale's step). *nearly*: no more than 15 % heavier
    than that (our own choice for the last stretch). *weights don't add up*: lighter than the dry matter can
    be, or heavier than what was loaded.
    """
    goal, step = mass_at(load.solids, target.value), scale_step(load)
    if grams < load.solids_low - step or grams > load.grams + step:
        name = VerdictName.MISMATCH
    elif grams <= goal + step:
        name = VerdictName.DRY_ENOUGH
    elif grams - goal <= NEARLY * goal:
        name = VerdictName.NEARLY
    else:
        name = VerdictName.STILL_MOIST
    return Verdict(name, grams, load, target.value)
