"""What can be wrong with her own foods, her own figures and her dryers."""

from __future__ import annotations

import re

from dryhouse.handbook.tables import ANIMAL_CATEGORIES, CATEGORIES
from dryhouse.kitchen.records.around import Around
from dryhouse.kitchen.records.batch_problems import unknown_food
from dryhouse.kitchen.records.field_problems import short
from dryhouse.kitchen.records.foods import CONTENTS, FIGURE_UNITS, PLANT, OwnFigure, OwnFood, contents_of
from dryhouse.kitchen.records.kitchen import Dryer
from dryhouse.science.errors import InputProblem

_SLUG = re.compile(r"[\w-]+")
_MOISTURES = ("water", "target_moisture")


def own_food_problems(food: OwnFood, around: Around) -> list[InputProblem]:
    """Of an own food: its kind is one of the list, and it takes the place and the name of no other food."""
    found = []
    if not _SLUG.fullmatch(food.slug):
        found.append(InputProblem(f"“{short(food.slug)}” cannot be the short name of a food.", "slug"))
    elif around.in_handbook(food.slug):
        found.append(
            InputProblem(
                f"“{short(food.name)}” would take the place of a food of the handbook ({food.slug}); "
                "give it another name, or enter figures for that food.",
                "name",
            )
        )
    if food.category not in CATEGORIES:
        kinds = ", ".join(CATEGORIES)
        found.append(
            InputProblem(f"“{short(food.category)}” is no kind of food here; choose one of {kinds}.", "category")
        )
    if food.like and not around.in_handbook(food.like):
        found.append(InputProblem(f"“{short(food.like)}” is not a food of the handbook.", "like"))
    held = contents_of(food)
    if strange := [said for said in held if said not in CONTENTS]:
        said = f"“{short(strange[0])}” is nothing a food contains here; it is one of {', '.join(CONTENTS)}."
        found.append(InputProblem(said, "contains"))
    elif held == (PLANT,):
        found += _of_name(food, around)
    return found


def _of_name(food: OwnFood, around: Around) -> list[InputProblem]:
    """Something that is said to be of plants only may not bear the name or the kind of an animal food."""
    if food.category in ANIMAL_CATEGORIES or (food.like and around.is_animal(food.like)):
        said = f"“{short(food.name)}” is said to be of plants only, but its kind says otherwise; choose one."
        return [InputProblem(said, "contains")]
    for name in (food.name, *food.other_names.split(";")):
        if name.strip() and (animal := around.animal_named(name, exactly=True)):
            said = f"“{short(name.strip())}” is an animal food here ({animal}); say what is in it, or rename it."
            return [InputProblem(said, "contains")]
    return []


def own_figure_problems(figure: OwnFigure, around: Around) -> list[InputProblem]:
    """Of a figure: it is one a food has, in its unit, of a food that is known."""
    found = [] if around.food_known(figure.food) else [unknown_food(figure.food)]
    unit = FIGURE_UNITS.get(figure.name)
    if unit is None:
        said = f"“{short(figure.name)}” is no figure of a food; it is one of {', '.join(FIGURE_UNITS)}."
        return [*found, InputProblem(said, "name")]
    if figure.unit != unit:
        found.append(InputProblem(f"{_what(figure)} is kept in {unit}, not in “{short(figure.unit)}”.", "unit"))
    if unit == "%" and figure.value > 100:
        found.append(InputProblem(f"{_what(figure)} of {figure.value:g} cannot be right.", "value"))
    elif figure.name in _MOISTURES and figure.value >= 100:
        said = "A food that is all water cannot be dried; moisture is below 100 %."
        found.append(InputProblem(said, "value"))
    return found


def _what(figure: OwnFigure) -> str:
    return short(figure.name).replace("_", " ").capitalize()


def dryer_problems(dryer: Dryer, around: Around) -> list[InputProblem]:
    """Of a dryer: its lowest temperature is not above its highest."""
    low, high = dryer.temperature_low, dryer.temperature_high
    if low is not None and high is not None and low.si > high.si:
        return [InputProblem("The lowest temperature is above the highest.", "temperature_low")]
    return []
