"""A meal worked out: per bag and per serving, what it weighs, what it takes, what it gives, what to mind."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from dryhouse.kitchen.cautions.cautions import Preparation, lot_cautions, meal_cautions
from dryhouse.kitchen.cautions.forbidden import forbidding_words
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.drawn import from_the_shelf
from dryhouse.kitchen.meals.heat import PotHeat, pot_heat
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.lines import PartSheet, line_of
from dryhouse.kitchen.meals.minutes import Minutes
from dryhouse.kitchen.meals.remarks import not_softened, salty, still_to_dry, unknown
from dryhouse.kitchen.meals.water import Published, meal_water
from dryhouse.kitchen.records import Lot, Meal, MealPart
from dryhouse.kitchen.records.meals import COLD_SOAK, NO_POT, REST
from dryhouse.science.display import duration
from dryhouse.science.errors import InputProblem
from dryhouse.science.nutrition import NUTRIENTS, Total, total
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.rehydration import with_cups
from dryhouse.science.values import Basis, Caution, Figure, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step
from dryhouse.words.cooking_ways import weigh_first

_ROUNDING_G = 0.5


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
    lacking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """By the name of a sum the ingredients that it leaves out; where there are some, it is at least so much."""

    def without(self, name: str) -> tuple[str, ...]:
        """The ingredients that a sum leaves out."""
        return self.lacking.get(name, ())


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
    forbidden: str = ""
    """Why it must not be eaten, where a lot that it names must not be; then its water is not said."""
    heat: PotHeat | None = None
    """None where nothing is heated."""
    steam_ml: float = 0.0
    """What boils off."""
    to_dry: tuple[str, ...] = ()
    """The meat, fish and the like that no jar holds yet: until its batch is weighed, its water is a general
    figure."""

    @property
    def needs_pot(self) -> bool:
        """Whether it is cooked or soaked, and not eaten as it is."""
        return self.meal.cooking != NO_POT

    @property
    def unweighed(self) -> tuple[PartSheet, ...]:
        """What is given by measure and would have to be weighed first; then no sum of the meal is known."""
        return tuple(line for line in self.parts if line.ingredient.unweighed)

    @property
    def weigh(self) -> str:
        """`weigh one cup of ground beef`, where that is missing."""
        cups = [line.part.name for line in self.unweighed if line.ingredient.slug]
        return weigh_first(cups, [line.part.name for line in self.unweighed if not line.ingredient.slug])

    @property
    def needs_water(self) -> bool:
        """Whether water goes on it: into the pot, or into a drink."""
        return self.needs_pot or self.bag.water.value > 0


def meal_sheet(
    kitchen: Kitchen,
    meal: int | Meal,
    *,
    servings: float | None = None,
    altitude_m: float | None = None,
    soak_temperature_c: float | None = None,
    pantry: Pantry | None = None,
) -> MealSheet:
    """The sheet of a recorded meal, scaled to `servings` where given. Raises InputProblem."""
    found = kitchen.present(Meal, meal, "meal") if isinstance(meal, int) else meal
    parts = meal_parts(kitchen, found.id)
    return sheet_of(
        kitchen,
        found,
        parts,
        servings=servings,
        altitude_m=altitude_m,
        soak_temperature_c=soak_temperature_c,
        pantry=pantry,
    )


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
    soak_temperature_c: float | None = None,
    pantry: Pantry | None = None,
) -> MealSheet:
    """The sheet of a meal and its parts as they stand, recorded or only typed; its cautions are those of the lots
    that would be drawn today. `soak_temperature_c` is how warm it is where it soaks.

    A `pantry` spares looking the ingredients up again while the records stay as they are. Raises InputProblem.
    """
    count = meal.servings if servings is None else servings
    if count <= 0 or meal.servings <= 0:
        raise InputProblem("A meal serves someone: write servings such as 1, 2 or 4.", "servings")
    factor = count / meal.servings
    pot_meal = replace(meal, servings=count)
    known = pantry or Pantry(kitchen)
    items = [known.ingredient(scaled(part, factor)) for part in parts]
    lines = tuple(line_of(item, dry=meal.cooking == NO_POT) for item in items)
    wet = meal_water(kitchen, pot_meal, items, altitude_m=altitude_m)
    bag = _sums(lines, wet.water)
    heated = meal.cooking not in (COLD_SOAK, NO_POT)
    dry = meal.cooking == NO_POT and wet.water.value <= 0
    made = Preparation(wet.minutes.soak.value, soak_temperature_c, altitude_m, dry)
    cautions = meal_cautions(kitchen, meal, from_the_shelf(known, lines), made)
    to_dry = () if meal.cooking == NO_POT else tuple(_animal_to_dry(known, lines))
    return MealSheet(
        meal=meal,
        servings=count,
        parts=lines,
        bag=bag,
        serving=_share(bag, 1.0 / count),
        minutes=wet.minutes,
        published=wet.published,
        notes_used=wet.notes,
        remarks=(
            *unknown(lines, dry=meal.cooking == NO_POT),
            *still_to_dry(to_dry),
            *not_softened(meal, items),
            *salty(lines, count),
        ),
        cautions=cautions,
        forbidden=_forbidden(kitchen, parts),
        heat=pot_heat(wet.water.value, wet.steam_ml, altitude_m, known.own_fuel) if heated else None,
        steam_ml=wet.steam_ml,
        to_dry=to_dry,
    )


def _animal_to_dry(pantry: Pantry, lines: Sequence[PartSheet]) -> Iterator[str]:
    for line in lines:
        known = line.ingredient.food
        if known is None or not known.animal or line.part.lot is not None or not line.grams:
            continue
        if sum(grams for _, grams in pantry.good_lots(known.slug)) < line.grams - _ROUNDING_G:
            yield line.part.name


def _forbidden(kitchen: Kitchen, parts: Sequence[MealPart]) -> str:
    """The few words of what forbids eating a lot that is named; what is still to be dried forbids nothing yet."""
    lots = [kitchen.journal.get(Lot, part.lot) for part in parts if part.lot is not None]
    return forbidding_words([c for lot in lots if lot is not None for c in lot_cautions(kitchen, lot)])


def _sums(lines: Sequence[PartSheet], water: Figure) -> Sums:
    held = [line.contents for line in lines if line.contents is not None]
    grams = sum(part.grams for part in held)
    weighed = tuple(step(Kind.PART_WEIGHT, (part.grams, "g"), food=part.name) for part in held)
    dry = Figure(
        grams,
        "g",
        basis=merge_bases(*(_weight_basis(line) for line in lines)),
        workings=(*weighed, step(Kind.TOGETHER, (grams, "g"))),
    )
    figures = {name: _figure(total(held, name)) for name in NUTRIENTS}
    lacking = {name: gone for name in NUTRIENTS if (gone := _left_out(lines, name))}
    if "energy" in lacking and all(line.grams is not None for line in lines):
        lacking["energy_per_gram"] = lacking["energy"]
    each_gram = _per_gram(figures["energy"], dry)
    return Sums(dry_mass=dry, water=water, energy_per_gram=each_gram, lacking=lacking, **figures)


def _left_out(lines: Sequence[PartSheet], nutrient: str) -> tuple[str, ...]:
    """The ingredients whose share of a sum is not known; of what holds none of it any amount is none."""
    return tuple(
        dict.fromkeys(
            line.part.name
            for line in lines
            if (line.contents is None or nutrient not in line.contents.amounts) and not _holds_none(line, nutrient)
        )
    )


def _holds_none(line: PartSheet, nutrient: str) -> bool:
    fact = line.ingredient.per_100g.get(nutrient)
    return fact is not None and fact.value == 0


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
    line = step(Kind.ENERGY_PER_GRAM, (value, "kcal/g"), energy=(energy.value, "kcal"), mass=(dry.value, "g"))
    return Figure(value, "kcal/g", basis=energy.basis, workings=(*energy.workings, *dry.workings[-1:], line))


def _share(bag: Sums, share: float) -> Sums:
    def part(figure: Figure | None, kind: Kind = Kind.ONE_SERVING_HOLDS) -> Figure | None:
        if figure is None:
            return None
        line = step(kind, (figure.value * share, figure.unit), share=share)
        low = None if figure.low is None else figure.low * share
        high = None if figure.high is None else figure.high * share
        workings = figure.workings if share == 1.0 else (*figure.workings, line)
        return replace(figure, value=figure.value * share, low=low, high=high, measure=None, workings=workings)

    dry, water = part(bag.dry_mass, Kind.ONE_SERVING), part(bag.water, Kind.ONE_SERVING)
    assert dry is not None
    assert water is not None
    return Sums(
        dry_mass=dry,
        water=with_cups(water),
        energy=part(bag.energy),
        energy_per_gram=bag.energy_per_gram,
        protein=part(bag.protein),
        fat=part(bag.fat),
        carbohydrate=part(bag.carbohydrate),
        fibre=part(bag.fibre),
        sodium=part(bag.sodium),
        lacking=bag.lacking,
    )


_TOO_LONG = frozenset({"soak-two-hours", "soak-one-hour-hot"})
_KEPT_COLD = "kept at 40 °F (4 °C) or colder"
_NO_COLD_SOAK = "Not as a cold soak"
_NOT_UNHEATED = "Not without cooking"


def cooking_line(sheet: MealSheet, cautions: Sequence[Caution] | None = None) -> str:
    """Soak and cook in a line, as the meal is cooked, and never against a stop of its cautions (or of these).

    A soak too long for the warmth says that it is kept cold; what must not be soaked cold says what to do instead.
    """
    minutes, said = sheet.minutes, sheet.cautions if cautions is None else cautions
    stops = [c for c in said if c.severity == "stop"]
    if not sheet.needs_pot:
        cook = _instead(stops, _NOT_UNHEATED, "unheated-")
        return cook or ("Stir into cold water, no cooking" if sheet.needs_water else "Eaten as it is, no cooking")
    cold = any(c.rule in _TOO_LONG for c in stops)
    soak = f"Soak {_time(minutes.soak)}" if minutes.soak.value >= 1 else ""
    if sheet.meal.cooking == COLD_SOAK:
        instead = _instead(stops, _NO_COLD_SOAK, "cold-soak-")
        if instead:
            return instead
        return f"{soak or 'Soak'} in cold water{f' {_KEPT_COLD}' if cold else ''}, no cooking"
    soak += f" {_KEPT_COLD}" if soak and cold else ""
    cook = f"simmer {_time(minutes.cook)}"
    if sheet.meal.cooking == REST:
        cook = f"boil {_time(minutes.flame)}, rest {_time(minutes.cook)} well wrapped"
    return f"{soak}, {cook}" if soak else cook[:1].upper() + cook[1:]


def _time(minutes: Figure) -> str:
    return duration(minutes.value * 60.0)


def _instead(stops: Sequence[Caution], never: str, rules: str) -> str:
    """What stops of these rules say to do instead; empty where none speaks."""
    said = [c.brief.removeprefix(f"{never}: ") for c in stops if c.rule.startswith(rules)]
    return f"{never}. {'. '.join(i[:1].upper() + i[1:] for i in said)}" if said else ""
