"""What can go into a meal: home-dried foods, lots on the shelf, bought staples, and things with a label."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from types import MappingProxyType

from dryhouse.handbook.staples import COMPOSITION, Staple, find_staples, staples
from dryhouse.handbook.staples import STAPLE as BOUGHT
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.log import last_batch_of
from dryhouse.kitchen.foods.catalog import find_foods, food, set_figure
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.heat import fuel_per_liter
from dryhouse.kitchen.meals.pieces import Pieces, pieces_of
from dryhouse.kitchen.ports import Done
from dryhouse.kitchen.records import Lot, MealPart, OwnFigure
from dryhouse.kitchen.records.foods import DRIED_CUP
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.shelf import shelf
from dryhouse.kitchen.yields.composition import dried_composition
from dryhouse.kitchen.yields.jar_water import batch_of, takes_up
from dryhouse.kitchen.yields.yields import dried_density
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from dryhouse.science.rehydration import TakesUp
from dryhouse.science.units import SIZES
from dryhouse.science.values import Fact, Figure

DRIED, STAPLE, LABEL = "dried", "staple", "label"
OWN_CUP = "one cup, weighed by you"
_TOLD = {DRIED: "home-dried", STAPLE: "bought", LABEL: "by its own label"}


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing the typed words may mean."""

    kind: str
    """`dried` (a food of the handbook or her own), `staple`, or `label` (only its own label is known)."""
    slug: str
    name: str

    @property
    def label(self) -> str:
        """The name and what it is, for a list."""
        return f"{self.name}, {_TOLD[self.kind]}"


def find_ingredients(kitchen: Kitchen, text: str, limit: int = 8) -> list[Choice]:
    """What the words may mean: staples whose names begin so, then dried foods, each side at most half."""
    bought = [Choice(STAPLE, s.slug, s.name) for s in find_staples(text, limit)]
    home = [Choice(DRIED, f.slug, f.name) for f in find_foods(kitchen, text, limit) if BOUGHT not in f.traits]
    key = text.strip().casefold()
    exact = _exactly(key, (*home, *bought))
    rest = [c for pair in zip(_padded(home, limit), _padded(bought, limit), strict=True) for c in pair if c]
    return list(dict.fromkeys((*exact, *rest)))[:limit]


def _exactly(key: str, choices: Sequence[Choice]) -> list[Choice]:
    """The choices of exactly this name, then those of this slug."""
    named = [c for c in choices if c.name.casefold() == key]
    return [*named, *(c for c in choices if c.slug == key and c not in named)]


def _padded(choices: list[Choice], length: int) -> list[Choice | None]:
    return [*choices[:length], *([None] * (length - len(choices)))]


def identify_ingredient(kitchen: Kitchen, text: str) -> Choice:
    """The one thing meant: an exact name first, else a food as the handbook finds it, else the only staple.

    Raises InputProblem naming what is near.
    """
    if not text.strip():
        raise InputProblem("An ingredient needs a name, such as corn, or potato flakes.", "name")
    near = find_ingredients(kitchen, text)
    key = text.strip().casefold()
    exact = _exactly(key, near)
    bought = [c for c in near if c.kind == STAPLE]
    if exact:
        return exact[0]
    try:
        known = food(kitchen, text)
    except InputProblem:
        if len(bought) == 1:
            return bought[0]
        raise _several(text, near) from None
    called = {name.casefold() for name in (known.name, *known.other_names)}
    begin = [c for c in bought if c.name.casefold().startswith(key)]
    if begin and key not in called:
        if len(begin) > 1:
            raise _several(text, near)
        return begin[0]
    return Choice(STAPLE if BOUGHT in known.traits else DRIED, known.slug, known.name)


def _several(text: str, near: Sequence[Choice]) -> InputProblem:
    names = "; ".join(c.label for c in near) or "none; give its label figures to add it as it is"
    return InputProblem(f"Which food is “{text.strip()}”? Near: {names}.", "name")


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One part of a meal with everything known of it, per gram as it stands in the bag."""

    part: MealPart
    food: Food | None
    staple: Staple | None
    lot: Lot | None
    per_100g: Mapping[str, Fact]
    takes_up: TakesUp | None
    """For home-dried food: what is known of the water it takes up."""
    density: Figure | Fact | None
    """Grams per millilitre, as it stands in the bag."""
    pieces: Pieces | None = None
    """Of home-dried food: how large its pieces are."""

    @property
    def kind(self) -> str:
        """`dried`, `staple` or `label`."""
        return DRIED if self.food is not None else STAPLE if self.staple is not None else LABEL

    @property
    def grams(self) -> float | None:
        """Its dry mass in the meal; None where only a measure is given and no bulk density is known."""
        if self.part.mass is not None:
            return self.part.mass.si
        if self.part.volume is not None and self.density is not None:
            return self.part.volume.si * self.density.value
        return None

    @property
    def unweighed(self) -> bool:
        """Whether it is given by measure, what a cup of it weighs is not known, and something hangs on its weight:
        of what neither handbook nor label says anything, nothing does."""
        known = bool(self.slug or self.per_100g or self.part.label_water is not None)
        return known and self.part.volume is not None and self.grams is None

    @property
    def slug(self) -> str:
        """What its own figures are kept under; empty for what only its label knows."""
        return self.part.food or self.part.staple

    @property
    def ml(self) -> float | None:
        """Its dry volume in the meal; None where only a mass is given and no bulk density is known."""
        if self.part.volume is not None:
            return self.part.volume.si
        if self.part.mass is not None and self.density is not None:
            return self.part.mass.si / self.density.value
        return None


def ingredient(kitchen: Kitchen, part: MealPart) -> Ingredient:
    """Everything known of one part: label figures first, then the lot's own batch, then the handbook."""
    if part.staple:
        staple = staples().get(part.staple)
        per_100g = dict(staple.facts) if staple is not None else {}
        density = None if staple is None else staple_density(kitchen, staple)
        return Ingredient(part, None, staple, None, MappingProxyType(per_100g | label_facts(part)), None, density)
    if not part.food:
        return Ingredient(part, None, None, None, MappingProxyType(label_facts(part)), None, None)
    known = food(kitchen, part.food)
    lot = kitchen.journal.get(Lot, part.lot) if part.lot is not None else None
    batch = batch_of(kitchen, lot)
    wet = takes_up(kitchen, known, batch)
    per_100g = dict(dried_composition(kitchen, known, batch, wet.ratio)) | label_facts(part)
    density_now = lot_density(lot) or dried_density(kitchen, known)
    pieces = pieces_of(batch or last_batch_of(kitchen, known.slug))
    return Ingredient(part, known, None, lot, MappingProxyType(per_100g), wet, density_now, pieces)


def staple_density(kitchen: Kitchen, staple: Staple) -> Fact | None:
    """Grams in a milliliter of a staple; None where nobody says what a cup of it weighs."""
    cup = staple.cup or _own_cup(kitchen, staple.slug)
    return None if cup is None else replace(cup, value=cup.value / SIZES["cup"], unit="g/ml")


def _own_cup(kitchen: Kitchen, slug: str) -> Fact | None:
    """What she weighed a cup of a staple at."""
    found = kitchen.journal.where(OwnFigure, food=slug, name=DRIED_CUP)
    return None if not found else Fact(found[0].value, "g", OWN_CUP, "entered")


def keep_cup(kitchen: Kitchen, slug: str, weight: Mass) -> Done[OwnFigure]:
    """Keep what one cup of a food or a staple weighed as her own figure. Raises InputProblem."""
    if weight.si <= 0:
        raise InputProblem("Weigh one full cup of it, and write what it weighs, such as 3.1 oz.", "cup")
    return set_figure(kitchen, slug, DRIED_CUP, weight.si, typed=weight.typed, note=OWN_CUP)


@dataclass
class Pantry:
    """Ingredients looked up once, so that a card can answer at every letter and a trip reads each food once.

    What is kept here holds as long as the records do: make another after any act.
    """

    kitchen: Kitchen
    _known: dict[MealPart, Ingredient] = field(default_factory=dict)
    _good: dict[str, tuple[tuple[int, float], ...]] = field(default_factory=dict)

    def ingredient(self, part: MealPart) -> Ingredient:
        """Everything known of one part."""
        bare = replace(part, meal=0, position=0, id=0, mass=None, volume=None)
        if bare not in self._known:
            self._known[bare] = ingredient(self.kitchen, bare)
        return replace(self._known[bare], part=part)

    @cached_property
    def own_fuel(self) -> float | None:
        """Her grams of fuel for a liter boiled, where she weighed them."""
        return fuel_per_liter(self.kitchen)

    def good_lots(self, food: str) -> tuple[tuple[int, float], ...]:
        """The lots of a food in good standing today and the grams left in each, in the order to use them."""
        if food not in self._good:
            lines = shelf(self.kitchen, book=ShelfBook.read(self.kitchen, food=food))
            good = sorted((line for line in lines if line.first is not None), key=lambda line: line.first or 0)
            held = ((line.lot.id, line.mass_left_g) for line in good)
            self._good[food] = tuple((lot, grams) for lot, grams in held if grams is not None)
        return self._good[food]


def lot_density(lot: Lot | None) -> Fact | None:
    """Grams per millilitre of a lot of which both mass and volume are recorded."""
    if lot is None or lot.mass is None or lot.volume is None or lot.volume.si <= 0:
        return None
    return Fact(lot.mass.si / lot.volume.si, "g/ml", f"lot {lot.id}, its own mass and volume", "entered")


def label_facts(part: MealPart) -> dict[str, Fact]:
    """The label's figures per 100 g, as entered; only what the label gives."""
    portion = part.portion.si if part.portion is not None else 100.0
    given = {
        "energy": part.label_energy_kcal,
        "protein": part.label_protein_g,
        "fat": part.label_fat_g,
        "carbohydrate": part.label_carbohydrate_g,
        "sodium": part.label_sodium_mg,
    }
    return {
        name: Fact(value * 100.0 / portion, COMPOSITION[name], f"label of {part.name}", "entered")
        for name, value in given.items()
        if value is not None
    }
