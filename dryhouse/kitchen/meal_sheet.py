"""A meal worked out: per bag and per serving, what it weighs, what it takes, what it gives, what to mind."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryhouse.handbook.pot import pot
from dryhouse.kitchen.cautions import cautions_for, meal_cautions
from dryhouse.kitchen.ingredients import Ingredient, Pantry
from dryhouse.kitchen.meal_water import Minutes, Published, meal_water, uptake
from dryhouse.kitchen.records import Meal, MealPart
from dryhouse.kitchen.records.meals import COLD_SOAK, REST
from dryhouse.kitchen.room import Kitchen
from dryhouse.science.errors import InputProblem
from dryhouse.science.nutrition import NUTRIENTS, Contents, Total, contents, total
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.rehydration_pot import in_cups
from dryhouse.science.safety import FoodFacts, LotFacts, MealFacts
from dryhouse.science.values import Basis, Caution, Figure, gravest_first, merge_bases


@dataclass(frozen=True, slots=True)
class PartSheet:
    """One line of the card: the ingredient, its dry mass and measure, its water and its energy."""

    ingredient: Ingredient
    grams: float | None
    ml: float | None
    water: Figure | None
    contents: Contents | None

    @property
    def part(self) -> MealPart:
        """The record behind the line."""
        return self.ingredient.part

    @property
    def energy_kcal(self) -> float | None:
        """Its energy, None where it is not known."""
        return None if self.contents is None else self.contents.amounts.get("energy")


@dataclass(frozen=True, slots=True)
class Sums:
    """The figures of a bag, or of one serving; None where nothing is known."""

    dry_mass: Figure
    water: Figure
    energy: Figure | None
    energy_per_gram: Figure | None
    protein: Figure | None
    fat: Figure | None
    carbohydrate: Figure | None
    fibre: Figure | None
    sodium: Figure | None


@dataclass(frozen=True, slots=True)
class MealSheet:
    """Everything the card of a meal shows, for so many servings cooked in one pot."""

    meal: Meal
    servings: float
    parts: tuple[PartSheet, ...]
    bag: Sums
    serving: Sums
    minutes: Minutes
    published: tuple[Published, ...]
    notes_used: int
    """How many cooking notes of this meal corrected the water."""
    remarks: tuple[str, ...]
    """Plain notes: what is not known, what is salty, what a cold soak will not soften."""
    cautions: tuple[Caution, ...]


def meal_sheet(
    kitchen: Kitchen,
    meal: int | Meal,
    *,
    servings: float | None = None,
    altitude_m: float | None = None,
    pantry: Pantry | None = None,
) -> MealSheet:
    """The sheet of a recorded meal, scaled to `servings` where given. Raises InputProblem."""
    found = kitchen.journal.get(Meal, meal) if isinstance(meal, int) else meal
    if found is None:
        raise InputProblem("That meal is no longer here.")
    parts = meal_parts(kitchen, found.id)
    return sheet_of(kitchen, found, parts, servings=servings, altitude_m=altitude_m, pantry=pantry)


def meal_parts(kitchen: Kitchen, meal: int) -> tuple[MealPart, ...]:
    """The parts of a meal in the order of its card."""
    return tuple(sorted(kitchen.journal.where(MealPart, meal=meal), key=lambda p: (p.position, p.id)))


def scaled(part: MealPart, factor: float) -> MealPart:
    """The part for more or fewer servings; what was typed no longer describes it once it is scaled."""
    if factor == 1.0:
        return part
    mass = None if part.mass is None else Mass(part.mass.si * factor)
    volume = None if part.volume is None else Volume(part.volume.si * factor)
    return replace(part, mass=mass, volume=volume)


def sheet_of(
    kitchen: Kitchen,
    meal: Meal,
    parts: Sequence[MealPart],
    *,
    servings: float | None = None,
    altitude_m: float | None = None,
    pantry: Pantry | None = None,
) -> MealSheet:
    """The sheet of a meal and its parts as they stand, recorded or only typed.

    A `pantry` spares looking the ingredients up again while the records stay as they are.
    """
    count = meal.servings if servings is None else servings
    if count <= 0 or meal.servings <= 0:
        raise InputProblem("A meal serves someone: write servings such as 1, 2 or 4.", "servings")
    factor = count / meal.servings
    pot_meal = replace(meal, servings=count)
    known = pantry or Pantry(kitchen)
    items = [known.ingredient(scaled(part, factor)) for part in parts]
    lines = tuple(_line(item) for item in items)
    wet = meal_water(kitchen, pot_meal, items, altitude_m=altitude_m)
    bag = _sums(lines, wet.water)
    cautions = meal_cautions(kitchen, meal, parts, soak_minutes=wet.minutes.soak.value, altitude_m=altitude_m)
    return MealSheet(
        meal=meal,
        servings=count,
        parts=lines,
        bag=bag,
        serving=_share(bag, 1.0 / count),
        minutes=wet.minutes,
        published=wet.published,
        notes_used=wet.notes,
        remarks=(*_unknown(lines), *_cold(meal, items), *salty(lines, count)),
        cautions=gravest_first((*cautions, *_cold_bought(meal, items))),
    )


def _line(item: Ingredient) -> PartSheet:
    grams = item.grams
    held = None if grams is None else contents(item.part.name, grams, item.per_100g)
    return PartSheet(item, grams, item.ml, uptake(item), held)


def _sums(lines: Sequence[PartSheet], water: Figure) -> Sums:
    held = [line.contents for line in lines if line.contents is not None]
    grams = sum(part.grams for part in held)
    weighed = tuple(f"{part.name}: {part.grams:.1f} g" for part in held)
    dry = Figure(
        grams,
        "g",
        basis=merge_bases(*(_weight_basis(line) for line in lines)),
        workings=(*weighed, f"Together {grams:.1f} g"),
    )
    figures = {name: _figure(total(held, name)) for name in NUTRIENTS}
    return Sums(dry_mass=dry, water=water, energy_per_gram=_per_gram(figures["energy"], dry), **figures)


def _weight_basis(line: PartSheet) -> tuple[Basis, ...]:
    density = line.ingredient.density
    if line.part.mass is not None or density is None:
        return ()
    return density.basis if isinstance(density, Figure) else (density.basis,)


def _figure(found: Total | None) -> Figure | None:
    return None if found is None else found.figure()


def _per_gram(energy: Figure | None, dry: Figure) -> Figure | None:
    if energy is None or dry.value <= 0:
        return None
    value = energy.value / dry.value
    line = f"{energy.value:.0f} kcal ÷ {dry.value:.0f} g = {value:.2f} kcal per g"
    return Figure(value, "kcal/g", basis=energy.basis, workings=(*energy.workings, *dry.workings[-1:], line))


def _share(bag: Sums, share: float) -> Sums:
    def part(figure: Figure | None) -> Figure | None:
        if figure is None:
            return None
        line = f"One serving: × {share:.3g} = {figure.value * share:.1f} {figure.unit}"
        low = None if figure.low is None else figure.low * share
        high = None if figure.high is None else figure.high * share
        workings = figure.workings if share == 1.0 else (*figure.workings, line)
        return replace(figure, value=figure.value * share, low=low, high=high, measure=None, workings=workings)

    dry, water = part(bag.dry_mass), part(bag.water)
    assert dry is not None
    assert water is not None
    return Sums(
        dry_mass=dry,
        water=in_cups(water),
        energy=part(bag.energy),
        energy_per_gram=bag.energy_per_gram,
        protein=part(bag.protein),
        fat=part(bag.fat),
        carbohydrate=part(bag.carbohydrate),
        fibre=part(bag.fibre),
        sodium=part(bag.sodium),
    )


def cooking_line(sheet: MealSheet) -> str:
    """Soak and cook in a line, as the meal is cooked."""
    minutes = sheet.minutes
    soak = f"Soak {minutes.soak.value:.0f} min" if minutes.soak.value >= 1 else ""
    if sheet.meal.cooking == COLD_SOAK:
        return f"{soak or 'Soak'} in cold water, no cooking"
    cook = f"simmer {minutes.cook.value:.0f} min"
    if sheet.meal.cooking == REST:
        cook = f"boil {minutes.flame.value:.0f} min, rest {minutes.cook.value:.0f} min well wrapped"
    return f"{soak}, {cook}" if soak else cook[:1].upper() + cook[1:]


# --- plain notes -----------------------------------------------------------------------------------------


def _unknown(lines: Sequence[PartSheet]) -> list[str]:
    """What keeps a figure from being whole, ingredient by ingredient."""
    said = []
    for line in lines:
        name = line.part.name
        if line.part.mass is None and line.part.volume is None:
            said.append(f"{name}: no amount yet, so it counts for nothing.")
        elif line.grams is None:
            said.append(f"{name}: what a cup of it weighs is not known, so it counts for nothing; give its weight.")
        else:
            if not line.ingredient.per_100g:
                said.append(f"{name}: nothing is known of what it holds; the sums leave it out.")
            if line.water is None and line.ingredient.food is not None:
                said.append(f"{name}: what it lost in drying is not known; no water is reckoned for it.")
    return said


def _cold(meal: Meal, items: Sequence[Ingredient]) -> list[str]:
    """What a cold soak will not soften."""
    if meal.cooking != COLD_SOAK:
        return []
    hard = [i.part.name for i in items if i.staple is not None and not i.staple.cold_soak]
    return (
        [f"A cold soak does not cook {', '.join(hard)}: boil it, or swap it for an instant kind."] if hard else []
    )


def _cold_bought(meal: Meal, items: Sequence[Ingredient]) -> tuple[Caution, ...]:
    """The cold-soak cautions of bought animal staples."""
    if meal.cooking != COLD_SOAK:
        return ()
    bought = [i.staple for i in items if i.staple is not None and i.staple.animal]
    inside = tuple(LotFacts(FoodFacts(s.name, s.animal)) for s in bought)
    return tuple(c for c in cautions_for(MealFacts(inside, COLD_SOAK)) if c.rule.startswith("cold-soak"))


def salty(lines: Sequence[PartSheet], servings: float) -> list[str]:
    """A plain note where one serving passes a day's common limit of sodium, and which ingredients bring it."""
    limit = pot("sodium_day")
    salt = {
        line.part.name: line.contents.amounts["sodium"] / servings
        for line in lines
        if line.contents is not None and "sodium" in line.contents.amounts
    }
    each = sum(salt.values())
    if each <= limit.value:
        return []
    most = max(salt, key=lambda name: salt[name])
    return [
        f"One serving holds {each:.0f} mg of sodium, past a day's common limit of {limit.value:.0f} mg; "
        f"{salt[most]:.0f} mg of it comes with the {most.lower()}. [{limit.source}]"
    ]


# --- swapping --------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Difference:
    """One figure per serving before and after a swap."""

    name: str
    before: Figure | None
    after: Figure | None

    @property
    def change(self) -> float | None:
        """After less before, in the figures' unit; None where either is not known."""
        if self.before is None or self.after is None:
            return None
        return self.after.value - self.before.value


def differences(before: MealSheet, after: MealSheet) -> tuple[Difference, ...]:
    """What a change does to one serving, figure by figure, and to the minutes."""
    names = {
        "dry mass": "dry_mass",
        "water": "water",
        "energy": "energy",
        "energy per gram": "energy_per_gram",
        "protein": "protein",
        "fat": "fat",
        "carbohydrate": "carbohydrate",
        "fibre": "fibre",
        "sodium": "sodium",
    }
    per_serving = [Difference(n, getattr(before.serving, f), getattr(after.serving, f)) for n, f in names.items()]
    return (
        *per_serving,
        Difference("soak", before.minutes.soak, after.minutes.soak),
        Difference("cook", before.minutes.cook, after.minutes.cook),
    )
