"""`dryhouse meal`: the water of a meal, its minutes, and what it gives, for the bag and for each serving."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, basis_lines, basis_words, cautions_of, say_answer, say_figure
from dryhouse.science.safety.unfolded import OF_ANIMAL_FOOD

if TYPE_CHECKING:
    from dryhouse.kitchen.meals.lines import PartSheet
    from dryhouse.kitchen.meals.sheet import MealSheet, Sums
    from dryhouse.science.display import Style

SUMS = ("dry_mass", "energy", "energy_per_gram", "protein", "fat", "carbohydrate", "fibre", "sodium")


NO_WATER: dict[str, Any] = {"value": None, "low": None, "high": None, "measure": None, "workings": []}
"""What stands in the place of the water of a meal that must not be eaten."""


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "meal", help="water, minutes, energy and salt of a meal", epilog="Example: dryhouse meal bean chili"
    )
    parser.add_argument("name", nargs="+", metavar="NAME", help="the meal, by name or by number")
    parser.add_argument("--servings", metavar="N", help="for so many, instead of as it is written")
    parser.add_argument("--altitude", metavar="LENGTH", help="where it is cooked, such as “5000 ft” or “1500 m”")
    add_more(parser)
    parser.set_defaults(run=run, of_a_journal=True)


def run(args: argparse.Namespace) -> int:
    """Answer with the water of the whole bag in ml, and everything else beside it."""
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.meals.meals import find_meal
    from dryhouse.kitchen.meals.sheet import meal_sheet
    from dryhouse.kitchen.settings import style
    from dryhouse.science.quantities import parse_length, parse_number

    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        notation = style(kitchen)
        comma = notation.decimal_comma
        servings = (
            None if args.servings is None else parse_number(args.servings, decimal_comma=comma, what="number")
        )
        height = None if args.altitude is None else parse_length(args.altitude, decimal_comma=comma).si / 1000.0
        sheet = meal_sheet(kitchen, find_meal(kitchen, " ".join(args.name)), servings=servings, altitude_m=height)
        water = sheet.bag.water.with_cautions(sheet.cautions)
        if args.json:
            more = _more(sheet, notation) | (NO_WATER if sheet.forbidden else {})
            say_figure("", water, notation, args, more=more)
        else:
            _say(sheet, notation, args)
    return 0


def _more(sheet: MealSheet, notation: Style) -> dict[str, Any]:
    from dryhouse.words.figures import figure_json

    return {
        "meal": sheet.meal.name,
        "servings": sheet.servings,
        "cooking": sheet.meal.cooking,
        "liquid": sheet.meal.liquid,
        "soak": figure_json(sheet.minutes.soak, notation),
        "cook": figure_json(sheet.minutes.cook, notation),
        "flame": figure_json(sheet.minutes.flame, notation),
        **sums_json(sheet.bag, notation),
        "serving": {
            "water": None if sheet.forbidden else figure_json(sheet.serving.water, notation),
            **sums_json(sheet.serving, notation),
        },
        "do_not_eat": bool(sheet.forbidden),
        "ingredients": [
            {
                "name": line.part.name,
                "lot": line.part.lot,
                "grams": line.grams,
                "ml": line.ml,
                "water_ml": None if line.water is None or sheet.forbidden else line.water.value,
                "energy_kcal": line.energy_kcal,
            }
            for line in sheet.parts
        ],
        "published": [{"name": p.name, "text": p.sentence, "source": p.source} for p in sheet.published],
        "notes_used": sheet.notes_used,
        "remarks": list(sheet.remarks),
        "cautions": cautions_of(sheet.cautions),
    }


def sums_json(sums: Sums, notation: Style) -> dict[str, Any]:
    """The figures of a bag or a serving under their names; what is not known is null."""
    from dryhouse.words.figures import figure_json

    figures = {name: getattr(sums, name) for name in SUMS}
    return {name: None if figure is None else figure_json(figure, notation) for name, figure in figures.items()}


def _say(sheet: MealSheet, notation: Style, args: argparse.Namespace) -> None:
    from dryhouse.kitchen.meals.sheet import cooking_line
    from dryhouse.words.workings import lines

    people = "serving" if sheet.servings == 1 else "servings"
    water = sheet.bag.water
    between = notation.interval(water)
    meal = f"{sheet.meal.name}, {notation.number(sheet.servings)} {people}"
    title = f"{meal}: water for the pot: {notation.figure(water)}" + (f"  (80 %: {between})" if between else "")
    answer = [f"{meal}: {sheet.forbidden}"] if sheet.forbidden else [title, f"  {cooking_line(sheet)}"]
    say_answer(
        args,
        [*answer, f"  {_each(sheet, notation)}"],
        rows=[_row(line, notation) for line in sheet.parts],
        details=(*sheet.remarks, *basis_words(water.basis, notation)),
        workings=(
            *basis_lines(water.basis, notation),
            *(() if sheet.forbidden else lines(water.workings, notation)),
            *(f"published, {p.name}: {p.sentence} [{p.source}]" for p in sheet.published),
        ),
        cautions=sheet.cautions,
        most=OF_ANIMAL_FOOD,
        moment="pot",
    )


def _each(sheet: MealSheet, notation: Style) -> str:
    """What one serving weighs and gives, in a line."""
    said = []
    for name in SUMS:
        figure = getattr(sheet.serving, name)
        said.append(f"{name.replace('_', ' ')} {'not known' if figure is None else notation.figure(figure)}")
    return f"each serving: {', '.join(said)}"


def _row(line: PartSheet, notation: Style) -> str:
    grams = "no weight known" if line.grams is None else notation.mass(line.grams)
    return f"  {line.part.name}: {grams}" + ("" if line.ml is None else f", {notation.volume(line.ml)}")
