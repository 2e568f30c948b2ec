"""`dryhouse meal`: the water of a meal, its minutes, and what it gives, for the bag and for each serving."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from dryhouse.cli.answers import add_more, basis_lines, basis_words, cautions_of, say_answer, say_figure
from dryhouse.science.safety.unfolded import OF_ANIMAL_FOOD

if TYPE_CHECKING:
    from collections.abc import Sequence

    from dryhouse.kitchen.meals.heat import PotHeat
    from dryhouse.kitchen.meals.lines import PartSheet
    from dryhouse.kitchen.meals.minutes import Minutes
    from dryhouse.kitchen.meals.sheet import MealSheet, Sums
    from dryhouse.kitchen.meals.ways import Way
    from dryhouse.science.display import Style

_CALLED = {"dry_mass": "dry weight", "fibre": "fiber"}
SUMS = ("dry_mass", "energy", "energy_per_gram", "protein", "fat", "carbohydrate", "fibre", "sodium")


NO_WATER: dict[str, Any] = {"value": None, "low": None, "high": None, "measure": None, "workings": []}
"""What stands in the place of the water of a meal that must not be eaten."""


def add(verbs: Any) -> None:
    """The parser of the verb."""
    parser = verbs.add_parser(
        "meal", help="water, minutes, energy and salt of a meal", epilog="Example: dryhouse meal bean chili"
    )
    parser.add_argument("name", nargs="+", metavar="NAME", help="the meal, by name or by number")
    parser.add_argument("--servings", metavar="N", help="for this many servings")
    parser.add_argument(
        "--cooking",
        metavar="WAY",
        help="another way to cook: “no soak”, “short soak”, “boil and rest”, “cold soak”",
    )
    parser.add_argument(
        "--change",
        action="append",
        default=[],
        metavar="INGREDIENT=AMOUNT",
        help="with another amount, such as “beef crumbles=0.5 oz”; “onion=” leaves it out",
    )
    parser.add_argument("--copy-as", metavar="NAME", help="save it with these changes as a new meal of this name")
    parser.add_argument(
        "--cup",
        action="append",
        default=[],
        metavar="INGREDIENT=WEIGHT",
        help="what one cup of it weighs, such as “ground beef=3.1 oz”; remembered",
    )
    parser.add_argument("--altitude", metavar="LENGTH", help="where it is cooked, such as “5000 ft” or “1500 m”")
    add_more(parser)
    parser.set_defaults(run=run, of_a_journal=True)


def run(args: argparse.Namespace) -> int:
    """Answer with the water of the whole bag in ml, and everything else beside it."""
    from dataclasses import replace

    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.meals.ingredients import keep_cup
    from dryhouse.kitchen.meals.meals import cooked_by, cup_of, find_meal, save_as_new, varied
    from dryhouse.kitchen.meals.sheet import meal_parts, sheet_of
    from dryhouse.kitchen.meals.ways import other_ways
    from dryhouse.kitchen.settings import style
    from dryhouse.science.quantities import parse_length, parse_number

    writes = args.copy_as is not None or bool(args.cup)
    with open_kitchen(args.journal, sample=args.sample, write=writes, begin=False) as kitchen:
        notation = style(kitchen)
        comma = notation.decimal_comma
        servings = (
            None if args.servings is None else parse_number(args.servings, decimal_comma=comma, what="number")
        )
        height = None if args.altitude is None else parse_length(args.altitude, decimal_comma=comma).si / 1000.0
        meal = find_meal(kitchen, " ".join(args.name))
        parts = varied(kitchen, meal_parts(kitchen, meal.id), args.change)
        if args.cooking is not None:
            meal = cooked_by(meal, args.cooking)
        for said in args.cup:
            name, weight = cup_of(kitchen, parts, said)
            keep_cup(kitchen, name, weight)
        if args.copy_as is not None:
            meal = save_as_new(kitchen, replace(meal, name=args.copy_as), parts).record
            parts = list(meal_parts(kitchen, meal.id))
        sheet = sheet_of(kitchen, meal, parts, servings=servings, altitude_m=height)
        ways = other_ways(kitchen, sheet, altitude_m=height)
        water = sheet.bag.water.with_cautions(sheet.cautions)
        if args.json:
            no_water = NO_WATER if sheet.forbidden or sheet.unweighed or not sheet.needs_water else {}
            say_figure("", water, notation, args, more=_more(sheet, ways, notation) | no_water)
        else:
            _say(sheet, ways, notation, args)
    return 0


def _more(sheet: MealSheet, ways: Sequence[Way], notation: Style) -> dict[str, Any]:
    from dryhouse.words.figures import figure_json

    served = figure_json(sheet.serving.water, notation)
    return {
        "meal": sheet.meal.name,
        "servings": sheet.servings,
        "cooking": sheet.meal.cooking,
        "liquid": sheet.meal.liquid,
        **_minutes(sheet.minutes if sheet.needs_pot else None, notation),
        **_heat(None if sheet.unweighed else sheet.heat, notation),
        "to_dry": list(sheet.to_dry),
        "to_weigh": [line.part.name for line in sheet.unweighed],
        "other_ways": [
            {
                "cooking": way.cooking,
                "text": way.sentence(notation),
                "never": way.never or None,
                "water": None if way.never else figure_json(way.water, notation),
                **_minutes(None if way.never else way, notation),
                **_heat(None if way.never else way.heat, notation),
            }
            for way in ways
        ],
        **sums_json(sheet.bag, notation),
        "serving": {
            "water": None if sheet.forbidden or sheet.unweighed or not sheet.needs_water else served,
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


def _minutes(of: Minutes | Way | None, notation: Style) -> dict[str, Any]:
    """Soak, cook and flame; nothing where there is no pot."""
    from dryhouse.words.figures import figure_json

    return {n: None if of is None else figure_json(getattr(of, n), notation) for n in ("soak", "cook", "flame")}


def _heat(heat: PotHeat | None, notation: Style) -> dict[str, Any]:
    """The heat and the fuel of a pot; nothing where it is not heated."""
    from dryhouse.words.figures import figure_json

    grams = None if heat is None else heat.grams
    return {
        "heat": None if heat is None else figure_json(heat.heat, notation),
        "fuel": None if grams is None else figure_json(grams, notation),
    }


def sums_json(sums: Sums, notation: Style) -> dict[str, Any]:
    """The figures of a bag or a serving under their names; what is not known is null."""
    from dryhouse.words.figures import figure_json

    figures = {name: getattr(sums, name) for name in SUMS}
    return {name: None if figure is None else figure_json(figure, notation) for name, figure in figures.items()}


def _say(sheet: MealSheet, ways: Sequence[Way], notation: Style, args: argparse.Namespace) -> None:
    from dryhouse.kitchen.meals.sheet import cooking_line
    from dryhouse.kitchen.meals.ways import fuel_of
    from dryhouse.words.cooking_ways import about_if
    from dryhouse.words.workings import lines

    people = "serving" if sheet.servings == 1 else "servings"
    water = sheet.bag.water
    between = notation.interval(water)
    meal = f"{sheet.meal.name}, {notation.number(sheet.servings)} {people}"
    title = f"{meal}: water for the pot: {about_if(notation.figure(water), bool(sheet.to_dry))}" + (
        f"  (80 %: {between})" if between else ""
    )
    how = cooking_line(sheet)
    if not sheet.needs_pot:
        drink = f"; {notation.figure(water)} of water" if sheet.needs_water else ""
        title, how = f"{meal}: no pot{drink}", f"{how}"
    elif sheet.heat is not None and not sheet.unweighed:
        how = f"{how}; {fuel_of(sheet.heat, notation)}"
    if sheet.unweighed:
        title = f"{meal}: {sheet.weigh}: --cup “INGREDIENT=WEIGHT”, or --change “INGREDIENT=WEIGHT”"
    answer = [f"{meal}: {sheet.forbidden}"] if sheet.forbidden else [title, f"  {how}"]
    minutes = sheet.minutes
    figures = [("soak", minutes.soak), ("boil", minutes.flame), ("cook", minutes.cook)] if sheet.needs_pot else []
    if sheet.heat is not None and not sheet.unweighed:
        figures.append(("fuel", sheet.heat.grams or sheet.heat.burnt))
    say_answer(
        args,
        answer if sheet.unweighed else [*answer, f"  {_each(sheet, notation)}"],
        rows=[
            *(_row(line, notation) for line in sheet.parts),
            *(f"  or {way.sentence(notation)}" for way in ways),
        ],
        details=(*sheet.remarks, *basis_words(water.basis, notation, args)),
        workings=(
            *basis_lines(water.basis, notation),
            *(() if sheet.forbidden or sheet.unweighed else lines(water.workings, notation)),
            *(f"{name}: {line}" for name, figure in figures for line in lines(figure.workings, notation)),
            *(f"published, {p.name}: {p.sentence} [{p.source}]" for p in sheet.published),
        ),
        cautions=sheet.cautions,
        most=OF_ANIMAL_FOOD,
        moment="pot",
    )


def _each(sheet: MealSheet, notation: Style) -> str:
    """What one serving weighs and gives, in a line."""
    from dryhouse.words.sums import at_least, bracketed

    said: list[str] = []
    named: tuple[str, ...] = ()
    for name in SUMS:
        figure, gone = getattr(sheet.serving, name), sheet.serving.without(name)
        called = _CALLED.get(name, name.replace("_", " "))
        if figure is None:
            said.append(f"{called} not known")
            continue
        told = "" if gone == named else bracketed(gone)
        named = gone or named
        said.append(f"{called} {at_least(notation.figure(figure), gone)}{told}")
    return f"each serving: {', '.join(said)}"


def _row(line: PartSheet, notation: Style) -> str:
    grams = "no weight known" if line.grams is None else notation.mass(line.grams)
    return f"  {line.part.name}: {grams}" + ("" if line.ml is None else f", {notation.volume(line.ml)}")
