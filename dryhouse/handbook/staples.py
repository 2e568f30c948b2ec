"""Bought staples: what a pantry lends a meal, with the label figures of USDA's own entries.

Every row is one dry article with its composition per 100 g, the entry it was read from, and, where USDA
also lists it cooked, the water content it reaches in the pot. The uptake follows from the two by mass
balance: dry matter stays, so a gram at moisture M₁ that comes to M₂ takes up (1 − M₁)/(1 − M₂) − 1 grams.
Where neither a cooked entry nor a practice stands in the row, no water is reckoned for the staple.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from dryhouse.handbook.reading import Row, read
from dryhouse.handbook.tables import Food
from dryhouse.science.errors import InputProblem
from dryhouse.science.values import Fact

KINDS = frozenset(
    ("starch", "legume", "vegetable", "fruit", "nut", "fat", "dairy", "egg", "meat", "bread", "seasoning", "other")
)
COMPOSITION: Mapping[str, str] = MappingProxyType(
    {
        "energy": "kcal per 100 g",
        "protein": "g per 100 g",
        "fat": "g per 100 g",
        "carbohydrate": "g per 100 g",
        "fibre": "g per 100 g",
        "sodium": "mg per 100 g",
    }
)
_COLUMNS = (
    *("slug", "name", "other_names", "kind", "ndb", "water", *COMPOSITION, "cooked_ndb", "cooked_water", "uptake"),
    *("cup_grams", "cup_form", "piece_grams", "piece", "cook_minutes", "cold_soak", "animal"),
    *("source", "how", "note"),
)


@dataclass(frozen=True, slots=True)
class Staple:
    """One bought staple, as it stands in the cupboard."""

    slug: str
    name: str
    other_names: tuple[str, ...]
    kind: str
    facts: Mapping[str, Fact]
    """`water` (% wet basis) and the composition per 100 g; what is not published is not there."""
    cooked_water: Fact | None
    """Water content in the pot when done, % wet basis."""
    uptake: Fact | None
    """Millilitres of water a gram takes up, from the two water contents or from practice."""
    cup: Fact | None
    """Grams in a US cup, and of what form (`note`)."""
    piece: Fact | None
    """Grams of one piece, and what a piece is (`note`)."""
    cook_minutes: Fact
    cold_soak: bool
    """Whether it softens in cold water without boiling."""
    animal: str
    """The animal food it is or holds (`dairy`, `egg`, `meat`); empty for none."""
    note: str


@cache
def staples() -> Mapping[str, Staple]:
    """Every staple by slug, in the order of the table."""
    return MappingProxyType({row.text("slug"): _staple(row) for row in read("staples", _COLUMNS, key=("slug",))})


_CATEGORY = {"starch": "grain", "bread": "grain", "legume": "legume", "vegetable": "vegetable", "fruit": "fruit"}
STAPLE = "staple"
"""The trait of a food that is bought dry."""
UNDATED = "no published life"
"""The trait of a staple that no rule of dried fruit, vegetables, nuts or meat speaks of: oil, salt, sugar."""
_UNDATED = frozenset({"fat", "seasoning", "other"})
_FATTY_PCT = 25.0
"""Nuts, seeds and coconut hold more fat than this, and nothing else that is bought dry does."""


@cache
def staple_foods() -> tuple[Food, ...]:
    """The staples as foods that can be shelved and asked about. They were never fresh here, so that none of the
    figures of fresh food are given."""
    return tuple(
        Food(
            s.slug,
            s.name,
            s.other_names,
            s.animal or _CATEGORY.get(s.kind, "other"),
            traits=_traits(s),
        )
        for s in staples().values()
    )


def _traits(staple: Staple) -> frozenset[str]:
    if staple.animal:
        starch = {"cooked_starch"} if staple.kind == "starch" else set()
        return frozenset({STAPLE, staple.animal, "animal", *starch})
    fat = staple.facts.get("fat")
    if staple.kind in _UNDATED:
        return frozenset({STAPLE, UNDATED})
    return frozenset({STAPLE, "fatty"} if fat is not None and fat.value >= _FATTY_PCT else {STAPLE})


def find_staples(text: str, limit: int = 8) -> list[Staple]:
    """Staples each of whose typed words begins a word of the name or the other names; best names first."""
    words = text.casefold().replace(",", " ").split()

    def fits(staple: Staple) -> bool:
        known = " ".join((staple.name, *staple.other_names)).casefold().replace(",", " ").split()
        return all(any(k.startswith(w) for k in known) for w in words)

    found = [s for s in staples().values() if fits(s)]
    return sorted(found, key=lambda s: not s.name.casefold().startswith(text.strip().casefold()))[:limit]


def staple(slug: str) -> Staple:
    """The staple of this slug. `InputProblem` where there is none."""
    try:
        return staples()[slug]
    except KeyError:
        raise InputProblem(f"There is no staple “{slug}” in the handbook.", "staple") from None


def _staple(row: Row) -> Staple:
    if row.text("kind") not in KINDS:
        raise row.fault(f"kind “{row.text('kind')}” is none of {', '.join(sorted(KINDS))}")
    citation, how, ndb = row.source().citation, row.how(), row.text("ndb")

    def entry(column: str, unit: str, where: str = ndb) -> Fact | None:
        number = row.number(column)
        return None if number is None else Fact(number, unit, f"{citation}, entry {where}", how)

    facts = {"water": entry("water", "% wet basis"), **{n: entry(n, unit) for n, unit in COMPOSITION.items()}}
    cooked = entry("cooked_water", "% wet basis", row.text("cooked_ndb"))
    if (cooked is None) != (not row.text("cooked_ndb")):
        raise row.fault("a cooked water content and its entry number come together")
    return Staple(
        slug=row.text("slug"),
        name=row.text("name"),
        other_names=row.names("other_names"),
        kind=row.text("kind"),
        facts=MappingProxyType({name: fact for name, fact in facts.items() if fact is not None}),
        cooked_water=cooked,
        uptake=_uptake(row, cooked, citation),
        cup=_measure(row, "cup_grams", "cup_form", citation),
        piece=_measure(row, "piece_grams", "piece", citation),
        cook_minutes=Fact(row.required("cook_minutes"), "min", "kitchen practice, no source", "common practice"),
        cold_soak=row.text("cold_soak") == "yes",
        animal=row.text("animal"),
        note=row.text("note"),
    )


def _uptake(row: Row, cooked: Fact | None, citation: str) -> Fact | None:
    if cooked is not None:
        taken = (100.0 - row.required("water")) / (100.0 - cooked.value) - 1.0
        where = f"{citation}, water contents of entries {row.text('ndb')} and {row.text('cooked_ndb')}"
        return Fact(taken, "ml per g", where, "recalled" if row.how() == "recalled" else "computed")
    practice = row.number("uptake")
    return None if practice is None else Fact(practice, "ml per g", citation, "common practice")


def _measure(row: Row, grams: str, what: str, citation: str) -> Fact | None:
    number = row.number(grams)
    if number is None:
        return None
    return Fact(number, "g", f"{citation}, entry {row.text('ndb')}", row.how(), note=row.text(what))
