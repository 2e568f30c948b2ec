"""What is in the bag: dry matter is conserved, so nothing but water left on the tray.

A gram of dried food holds what its fresh grams held: figure per dried gram = figure per fresh gram × fresh
mass ÷ dried mass. USDA lists foods both raw and dried, which checks it: energy by this rule is within a
few per cent of the dried entry (apples raw 09003 to dehydrated 09009: 349 against 346 kcal).

A nutrient that is not published for one ingredient is missing from the sum, and the sum says so: a total
with a hole is a lower bound, never a total.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from dryhouse.science.values import Basis, Fact, Figure, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import Workings, step

NUTRIENTS: Mapping[str, str] = {
    "energy": "kcal",
    "protein": "g",
    "fat": "g",
    "carbohydrate": "g",
    "fibre": "g",
    "sodium": "mg",
}
"""Every nutrient kept, and the unit its amount is told in."""


@dataclass(frozen=True, slots=True)
class Contents:
    """What so many grams of one ingredient hold, by nutrient; a nutrient that is not known is not there."""

    name: str
    grams: float
    amounts: Mapping[str, float]
    basis: tuple[Basis, ...] = ()
    workings: Workings = field(default=())


def contents(name: str, grams: float, per_100g: Mapping[str, Fact]) -> Contents:
    """The nutrients in `grams` of something whose figures per 100 g are given."""
    known = {key: fact for key, fact in per_100g.items() if key in NUTRIENTS}
    energy = known.get("energy")
    line = (
        ()
        if energy is None
        else (
            step(
                Kind.ENERGY_HELD,
                (grams * energy.value / 100.0, "kcal"),
                food=name,
                mass=(grams, "g"),
                energy=(energy.value / 100.0, "kcal/g", energy.source),
            ),
        )
    )
    return Contents(
        name,
        grams,
        {key: grams * fact.value / 100.0 for key, fact in known.items()},
        merge_bases(fact.basis for fact in known.values()),
        line,
    )


def concentration(fresh_water: float, dried_water: float) -> float:
    """Fresh grams in a dried gram, from two moistures in % wet basis: (1 − M_t)/(1 − M₀)."""
    return (100.0 - dried_water) / (100.0 - fresh_water)


def dried(per_100g: Mapping[str, Fact], fresh_per_dried: float, *, why: str = "") -> dict[str, Fact]:
    """Composition per 100 g dried, from the fresh composition and how many fresh grams one dried gram was.

    `why` says where the factor comes from and is told with each source.
    """
    note = f" × {fresh_per_dried:.2f}" + (f" ({why})" if why else "")
    return {
        key: Fact(
            fact.value * fresh_per_dried,
            fact.unit,
            fact.source + note,
            fact.how if fact.how in ("entered", "recalled", "common practice") else "computed",
        )
        for key, fact in per_100g.items()
        if key in NUTRIENTS
    }


@dataclass(frozen=True, slots=True)
class Total:
    """One nutrient summed over a meal, and the ingredients it is not known for."""

    nutrient: str
    amount: float
    missing: tuple[str, ...]
    basis: tuple[Basis, ...]
    workings: Workings

    def figure(self, share: float = 1.0, what: str = "") -> Figure:
        """The sum as a figure; `share` takes a part of it (one serving of four: 0.25)."""
        unit = NUTRIENTS[self.nutrient]
        part = step(Kind.SHARE_HELD, (self.amount * share, unit), what=what or "Share", share=share)
        each = () if share == 1.0 else (part,)
        hole = (step(Kind.NOT_KNOWN_FOR, foods=", ".join(self.missing)),) if self.missing else ()
        return Figure(
            self.amount * share,
            unit,
            basis=self.basis,
            as_is=unit == "g",
            workings=(*self.workings, step(Kind.NUTRIENT_TOGETHER, (self.amount, unit)), *each, *hole),
        )


def total(parts: Iterable[Contents], nutrient: str) -> Total | None:
    """The sum of one nutrient over the ingredients; None where it is known for none of them."""
    counted = tuple(parts)
    known = [part for part in counted if nutrient in part.amounts]
    if not known:
        return None
    unit = NUTRIENTS[nutrient]
    return Total(
        nutrient,
        sum(part.amounts[nutrient] for part in known),
        tuple(part.name for part in counted if nutrient not in part.amounts),
        merge_bases(*(part.basis for part in known)),
        tuple(
            line
            for part in known
            for line in (
                part.workings
                if nutrient == "energy"
                else (
                    step(
                        Kind.NUTRIENT_HELD,
                        (part.amounts[nutrient], unit),
                        food=part.name,
                        mass=(part.grams, "g"),
                    ),
                )
            )
        ),
    )
