"""The water of a meal: what each ingredient takes up, the pot, and what notes taught."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryhouse.handbook.pot import pot
from dryhouse.handbook.rehydration_table import published_water
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import DRIED, Ingredient
from dryhouse.kitchen.meals.minutes import Minutes, meal_minutes
from dryhouse.kitchen.records import CookingNote, Meal
from dryhouse.kitchen.records.meals import NO_POT, SOUP, STEW
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.yields.jar_water import staple_water
from dryhouse.science.display import Style, duration
from dryhouse.science.rehydration import Correction, correction, taught_by, with_cups
from dryhouse.science.rehydration_pot import Pot, Thirst, boil_off, pot_water
from dryhouse.science.values import Basis, Figure, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import about, step

_STYLE_LIQUID = {STEW: "stew_liquid", SOUP: "soup_liquid"}


@dataclass(frozen=True, slots=True)
class Published:
    """What is published for one dried food, for the amount in this meal."""

    name: str
    sentence: str
    source: str


@dataclass(frozen=True, slots=True)
class Water:
    """The water of the whole bag with its minutes, and what is published beside it."""

    water: Figure
    minutes: Minutes
    published: tuple[Published, ...]
    notes: int
    """How many cooking notes of this meal corrected the water."""
    steam_ml: float = 0.0
    """What boils off, in the water."""


def meal_water(
    kitchen: Kitchen, meal: Meal, ingredients: Sequence[Ingredient], *, altitude_m: float | None = None
) -> Water:
    """Water, minutes and published figures for the ingredients as they stand in the bag."""
    notes = kitchen.journal.where(CookingNote, meal=meal.id) if meal.id else ()
    noted = [(note, way_of(kitchen, note)) for note in notes]
    minutes = meal_minutes(meal, ingredients, [n for n, way in noted if way == meal.cooking], altitude_m)
    if meal.cooking == NO_POT:
        return Water(drink_water(ingredients), minutes, (), 0)
    parts = [Thirst(i.part.name, i.grams, uptake(i)) for i in ingredients if i.grams is not None]
    pot_used = _pot(meal, minutes.flame.value)
    taught = _meal_correction(meal, ingredients, parts, [(n, way) for n, way in noted if way != NO_POT])
    water = pot_water(parts, pot_used, taught)
    steam = pot_used.boil_off.value * pot_used.flame_minutes
    return Water(water, minutes, _published(ingredients, style(kitchen)), 0 if taught is None else taught.n, steam)


def way_of(kitchen: Kitchen, note: CookingNote) -> str:
    """How a noted meal was cooked: as the note says, else as the meal was recorded."""
    meal = kitchen.journal.get(Meal, note.meal)
    return note.cooking or (meal.cooking if meal is not None else "")


def drink_water(ingredients: Sequence[Ingredient]) -> Figure:
    """The cold water stirred in where there is no pot: what labels ask for, and nothing else."""
    asked = [
        (i, figure) for i in ingredients if i.part.label_water is not None and (figure := uptake(i)) is not None
    ]
    value = sum(figure.value for _, figure in asked)
    lines = [line for item, figure in asked for line in about(item.part.name, figure.workings)]
    if len(asked) > 1:
        lines.append(step(Kind.WATER_TOGETHER, (value, "ml")))
    bases = merge_bases(*(figure.basis for _, figure in asked))
    return with_cups(Figure(value, "ml", basis=bases, workings=tuple(lines)))


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
    return None if item.staple is None else staple_water(item.staple, grams)


def _pot(meal: Meal, flame_minutes: float) -> Pot:
    key = _STYLE_LIQUID.get(meal.liquid)
    if meal.boil_off_ml_per_min is not None:
        own = meal.boil_off_ml_per_min
        rate = Figure(own, "ml/min", basis=(Basis("entered", "your own boil-off"),))
    else:
        usual, own_pot = pot("pot_diameter"), meal.pot_diameter
        across, assumed = usual.value, usual.note.lower().rstrip(".")
        if own_pot is not None:
            across, assumed = own_pot.si, ""
        rate = boil_off(across, pot("boil_off_rate"), assumed)
        rate = replace(rate, basis=(Basis("assumption", "boil-off of a pot with its lid ajar"),))
    return Pot(meal.liquid, None if key is None else pot(key), rate, flame_minutes)


# --- what notes taught -----------------------------------------------------------------------------------


def _meal_correction(
    meal: Meal, ingredients: Sequence[Ingredient], parts: Sequence[Thirst], notes: Sequence[tuple[CookingNote, str]]
) -> Correction | None:
    """Every note of this meal that says how it came back, against what was reckoned for its servings."""
    taught = []
    for note, way in notes:
        altitude = None if note.altitude is None else note.altitude.si / 1000.0
        cooked = meal if way == meal.cooking else replace(meal, cooking=way, cook_minutes=None)
        flame = meal_minutes(cooked, ingredients, (), altitude).flame.value
        scale = note.servings / meal.servings
        scaled = [replace(p, grams=p.grams * scale, water=_scaled(p.water, scale)) for p in parts]
        reckoned = pot_water(scaled, _pot(meal, note.cook_minutes if note.cook_minutes is not None else flame))
        used = None if note.water is None else note.water.si
        taught.append(taught_by(note.came_back, used, reckoned.value, pot("note_step").value))
    return correction([t for t in taught if t is not None], pot("note_prior").value)


def _scaled(figure: Figure | None, scale: float) -> Figure | None:
    """The figure for another number of servings; notes are held against its middle, not its ends."""
    return None if figure is None else replace(figure, value=figure.value * scale, low=None, high=None)


def _published(ingredients: Sequence[Ingredient], ours: Style) -> tuple[Published, ...]:
    """The published cups of water and soak hours for each dried food, for its amount in the bag."""
    found = []
    for item in ingredients:
        if item.food is None or item.ml is None:
            continue
        for row in published_water(item.food.slug):
            soak = "" if not row.soak_hours_low else f", soak at least {duration(row.soak_hours_low * 3600.0)}"
            water, dried = ours.volume(row.cups_per_cup * item.ml), ours.volume(item.ml)
            sentence = f"{water} of {row.liquid} water for {dried} dried{soak}"
            found.append(Published(item.part.name, sentence, row.basis.source))
    return tuple(found)
