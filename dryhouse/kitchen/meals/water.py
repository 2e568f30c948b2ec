"""The water and the minutes of a meal: what each ingredient takes up, the pot, and what notes taught."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.handbook.pot import pot
from dryhouse.handbook.rehydration_table import published_water
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import DRIED, Ingredient
from dryhouse.kitchen.records import CookingNote, Meal
from dryhouse.kitchen.records.meals import COLD_SOAK, DRY, REST, SOUP, STEW
from dryhouse.science.boiling import boiling_point, times_as_long
from dryhouse.science.rehydration import Correction, correction, taught_by
from dryhouse.science.rehydration_pot import Pot, Thirst, boil_off, pot_water
from dryhouse.science.units import SIZES
from dryhouse.science.values import Basis, Fact, Figure, merge_bases
from dryhouse.science.workings import Step, step
from dryhouse.science.workings import StepKind as Kind

_STYLE_LIQUID = {STEW: "stew_liquid", SOUP: "soup_liquid"}


@dataclass(frozen=True, slots=True)
class Published:
    """What is published for one dried food, for the amount in this meal."""

    name: str
    sentence: str
    source: str


@dataclass(frozen=True, slots=True)
class Minutes:
    """How long the meal soaks, stands over the flame, and stands in all once it boils."""

    soak: Figure
    cook: Figure
    """Simmering, or standing in the insulated pot; nothing for a cold soak."""
    flame: Figure
    """Minutes of fuel once it boils."""


@dataclass(frozen=True, slots=True)
class Water:
    """The water of the whole bag with its minutes, and what is published beside it."""

    water: Figure
    minutes: Minutes
    published: tuple[Published, ...]
    notes: int
    """How many cooking notes of this meal corrected the water."""


def meal_water(
    kitchen: Kitchen, meal: Meal, ingredients: Sequence[Ingredient], *, altitude_m: float | None = None
) -> Water:
    """Water, minutes and published figures for the ingredients as they stand in the bag."""
    notes = kitchen.journal.where(CookingNote, meal=meal.id) if meal.id else ()
    minutes = meal_minutes(meal, ingredients, notes, altitude_m)
    parts = [Thirst(i.part.name, i.grams, uptake(i)) for i in ingredients if i.grams is not None]
    reckoned = pot_water(parts, _pot(meal, minutes.flame.value))
    taught = _meal_correction(meal, ingredients, parts, notes)
    water = reckoned if taught is None else pot_water(parts, _pot(meal, minutes.flame.value), taught)
    return Water(water, minutes, _published(ingredients), 0 if taught is None else taught.n)


def uptake(item: Ingredient) -> Figure | None:
    """The water one ingredient takes up: its label's, that of a jar of it, or its own figure as a staple."""
    grams, part = item.grams, item.part
    if grams is None:
        return None
    if part.label_water is not None:
        portion = part.portion.si if part.portion is not None else 100.0
        value = part.label_water.si * grams / portion
        each = (part.label_water.si / portion, "ml/g", f"label of {part.name}")
        line = step(Kind.LABEL_WATER, (value, "ml"), mass=(grams, "g"), each=each)
        return Figure(value, "ml", basis=(Basis("entered", f"label of {part.name}"),), workings=(line,))
    if item.kind == DRIED:
        return None if item.takes_up is None else item.takes_up.water(grams)
    fact = None if item.staple is None else item.staple.uptake
    if fact is None:
        return None
    each = (fact.value, "ml/g", fact.source)
    line = step(Kind.STAPLE_WATER, (grams * fact.value, "ml"), mass=(grams, "g"), each=each)
    return Figure(grams * fact.value, "ml", basis=(fact.basis,), workings=(line,))


def _pot(meal: Meal, flame_minutes: float) -> Pot:
    key = _STYLE_LIQUID.get(meal.liquid)
    if meal.boil_off_ml_per_min is not None:
        own = meal.boil_off_ml_per_min
        rate = Figure(own, "ml/min", basis=(Basis("entered", "your own boil-off"),))
    else:
        usual = pot("pot_diameter")
        given = meal.pot_diameter is not None
        across = meal.pot_diameter.si if meal.pot_diameter is not None else usual.value
        assumed = "" if given else usual.note.lower().rstrip(".")
        rate = boil_off(across, pot("boil_off_rate"), assumed)
        rate = replace(rate, basis=(Basis("assumption", "boil-off of a pot with its lid ajar"),))
    return Pot(meal.liquid, None if meal.liquid == DRY or key is None else pot(key), rate, flame_minutes)


# --- minutes ---------------------------------------------------------------------------------------------


def meal_minutes(
    meal: Meal, ingredients: Sequence[Ingredient], notes: Sequence[CookingNote], altitude_m: float | None
) -> Minutes:
    """Soak, cook and flame minutes, the slowest ingredient ruling, longer where water boils cooler."""
    soak, soak_basis, soak_line = _slowest([_soak(i) for i in ingredients])
    cook, cook_basis, cook_line = _slowest([_cook(i) for i in ingredients])
    lines = [cook_line] if cook_line else []
    bases = [cook_basis] if cook_basis else []
    if meal.cook_minutes is not None:
        cook = meal.cook_minutes
        lines, bases = [step(Kind.MINUTES_SET, (cook, "min"))], [Basis("entered", "minutes set for this meal")]
    cook, taught = _taught_minutes(cook, notes)
    lines += taught
    longer = 1.0
    if altitude_m is not None and altitude_m > 0:
        boils, rule = boiling_point(altitude_m, boiling_tables()), pot("slower_per_10c")
        longer = times_as_long(boils.value, rule.value)
        lines += [*boils.workings, step(Kind.SIMMER_LONGER, factor=(longer, "", rule.source))]
        bases += [*boils.basis, rule.basis]
    soak_lines = [soak_line] if soak_line else []
    if meal.cooking == COLD_SOAK:
        factor = pot("cold_factor")
        soak = max(soak, cook) * factor.value
        times = (factor.value, "", factor.source)
        soak_lines.append(step(Kind.COLD_SOAK, (soak, "min"), factor=times))
        no_minutes = Figure(0.0, "min", workings=(step(Kind.NOTHING_COOKED),))
        return Minutes(_minutes(soak, soak_basis, soak_lines), no_minutes, no_minutes)
    cook *= longer
    flame = cook
    if meal.cooking == REST:
        boil, rest = pot("rest_boil_minutes"), pot("rest_factor")
        flame = boil.value * longer if cook > 0 else 0.0
        cook *= rest.value
        times = (rest.value, "", rest.source)
        lines.append(step(Kind.BOIL_AND_REST, flame=(flame, "min"), factor=times))
        bases.append(Basis("assumption", "how long an insulated pot takes"))
    lines.append(step(Kind.MINUTES, (cook, "min")))
    figure = Figure(cook, "min", basis=merge_bases(bases), workings=tuple(lines))
    return Minutes(_minutes(soak, soak_basis, soak_lines), figure, replace(figure, value=flame))


def _minutes(value: float, basis: Basis | None, lines: Sequence[Step]) -> Figure:
    return Figure(value, "min", basis=() if basis is None else (basis,), workings=tuple(lines))


def _slowest(found: Sequence[tuple[float, Fact | Basis, str] | None]) -> tuple[float, Basis | None, Step | None]:
    known = [f for f in found if f is not None]
    if not known:
        return 0.0, None, None
    value, where, name = max(known, key=lambda f: f[0])
    basis = where if isinstance(where, Basis) else where.basis
    return value, basis, step(Kind.SLOWEST, (value, "min", basis.source), food=name)


def _soak(item: Ingredient) -> tuple[float, Fact | Basis, str] | None:
    if item.kind != DRIED or item.food is None:
        return None
    rows = [r for r in published_water(item.food.slug) if r.soak_hours_low is not None]
    if rows:
        row = max(rows, key=lambda r: r.soak_hours_low or 0.0)
        return (row.soak_hours_low or 0.0) * 60.0, row.basis, item.part.name
    return pot("dried_soak").value, pot("dried_soak"), item.part.name


def _cook(item: Ingredient) -> tuple[float, Fact | Basis, str] | None:
    if item.part.label_minutes is not None:
        return item.part.label_minutes, Basis("entered", f"label of {item.part.name}"), item.part.name
    if item.kind == DRIED:
        return pot("dried_simmer").value, pot("dried_simmer"), item.part.name
    if item.staple is None:
        return None
    return item.staple.cook_minutes.value, item.staple.cook_minutes, item.part.name


def _taught_minutes(cook: float, notes: Sequence[CookingNote]) -> tuple[float, list[Step]]:
    """The latest note with minutes decides: as noted where it came back right, longer where hard."""
    timed = [n for n in notes if n.cook_minutes is not None and n.came_back in ("right", "hard")]
    if not timed:
        return cook, []
    last = max(timed, key=lambda n: (n.on, n.id))
    noted = last.cook_minutes or 0.0
    if last.altitude is not None and last.altitude.si > 0:
        boils = boiling_point(last.altitude.si / 1000.0, boiling_tables())
        noted /= times_as_long(boils.value, pot("slower_per_10c").value)
    if last.came_back == "right":
        return noted, [step(Kind.CAME_BACK_RIGHT, (noted, "min"), day=last.on)]
    longer = max(cook, noted * (1.0 + pot("note_step").value / 100.0))
    return longer, [step(Kind.CAME_BACK_HARD, (longer, "min"), noted=(noted, "min"), day=last.on)]


# --- what notes taught -----------------------------------------------------------------------------------


def _meal_correction(
    meal: Meal, ingredients: Sequence[Ingredient], parts: Sequence[Thirst], notes: Sequence[CookingNote]
) -> Correction | None:
    """Every note of this meal that says how it came back, against what was reckoned for its servings."""
    taught = []
    for note in notes:
        altitude = None if note.altitude is None else note.altitude.si / 1000.0
        flame = meal_minutes(meal, ingredients, (), altitude).flame.value
        scale = note.servings / meal.servings
        scaled = [replace(p, grams=p.grams * scale, water=_scaled(p.water, scale)) for p in parts]
        reckoned = pot_water(scaled, _pot(meal, note.cook_minutes if note.cook_minutes is not None else flame))
        used = None if note.water is None else note.water.si
        taught.append(taught_by(note.came_back, used, reckoned.value, pot("note_step").value))
    return correction([t for t in taught if t is not None], pot("note_prior").value)


def _scaled(figure: Figure | None, scale: float) -> Figure | None:
    if figure is None:
        return None
    low = None if figure.low is None else figure.low * scale
    high = None if figure.high is None else figure.high * scale
    return replace(figure, value=figure.value * scale, low=low, high=high)


def _published(ingredients: Sequence[Ingredient]) -> tuple[Published, ...]:
    """The published cups of water and soak hours for each dried food, for its amount in the bag."""
    found = []
    for item in ingredients:
        if item.food is None or item.ml is None:
            continue
        cups = item.ml / SIZES["cup"]
        for row in published_water(item.food.slug):
            soak = f", soak at least {row.soak_hours_low:g} h" if row.soak_hours_low is not None else ""
            sentence = f"{row.cups_per_cup * cups:.2g} cups of {row.liquid} water for {cups:.2g} cups dried{soak}"
            found.append(Published(item.part.name, sentence, row.basis.source))
    return tuple(found)
