"""A meal as a file for another kitchen: its card, its parts, the own foods it is made of, and what the pot taught;
no lots."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from dryhouse.handbook.staples import staples
from dryhouse.kitchen.exchange.bringing import same_kind
from dryhouse.kitchen.exchange.formats import as_json, from_json, may_hold_halves, refuse_halves
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.cooking import notes_of
from dryhouse.kitchen.meals.meals import check_meal, free_name, the_meal
from dryhouse.kitchen.meals.sheet import meal_parts
from dryhouse.kitchen.meals.water import way_of
from dryhouse.kitchen.ports import Done, Pending, Record
from dryhouse.kitchen.records import CookingNote, CookingNotePart, Meal, MealPart, OwnFigure, OwnFood
from dryhouse.kitchen.records.foods import DRIED_CUP
from dryhouse.kitchen.records.links import LINKS
from dryhouse.science.errors import InputProblem, WorldProblem

MARK, VERSION = "dryhouse meal", 1
ENDING = ".meal.json"


def meal_text(kitchen: Kitchen, id: int) -> str:
    """The meal as the text of a file."""
    meal = the_meal(kitchen, id)
    parts = meal_parts(kitchen, id)
    slugs = tuple(dict.fromkeys(p.food for p in parts if p.food and p.food not in kitchen.handbook.foods))
    foods = kitchen.journal.where(OwnFood, slug=slugs) if slugs else ()
    figures = kitchen.journal.where(OwnFigure, food=slugs) if slugs else ()
    figures += _cups(kitchen, [p.food or p.staple for p in parts if (p.food or p.staple) not in slugs])
    return json.dumps(
        {
            "file": MARK,
            "version": VERSION,
            "meal": _bare(meal),
            "parts": [_bare(part) for part in parts],
            "foods": [_bare(own) for own in foods],
            "figures": [_bare(figure) for figure in figures],
            "notes": [_note(kitchen, note) for note in reversed(notes_of(kitchen, id))],
        },
        ensure_ascii=False,
        indent=1,
    )


def _cups(kitchen: Kitchen, slugs: Sequence[str]) -> tuple[OwnFigure, ...]:
    """What she weighed a cup of these foods at."""
    known = tuple(dict.fromkeys(slug for slug in slugs if slug))
    return kitchen.journal.where(OwnFigure, food=known, name=DRIED_CUP) if known else ()


def _note(kitchen: Kitchen, note: CookingNote) -> dict[str, Any]:
    """A cooking note with how single ingredients came back inside it, and how it was cooked."""
    parts = kitchen.journal.where(CookingNotePart, note=note.id)
    return {**_bare(replace(note, cooking=way_of(kitchen, note))), "parts": [_bare(part) for part in parts]}


def _bare(record: Record) -> dict[str, Any]:
    """A record without the numbers that only mean something in this journal."""
    numbers = {"id", *LINKS.get(type(record), ())}
    return {name: value for name, value in as_json(record).items() if name not in numbers}


def write_meal(kitchen: Kitchen, id: int, file: Path) -> Path:
    """Write the meal to a file. Raises WorldProblem where the disk will not have it."""
    text = meal_text(kitchen, id)
    try:
        file.write_text(text, encoding="utf-8")
    except OSError as problem:
        raise WorldProblem(f"{file} could not be written: {problem.strerror or problem}.") from problem
    return file


def read_meal(kitchen: Kitchen, file: Path) -> Done[Meal]:
    """Bring in a meal another kitchen wrote. Raises InputProblem or WorldProblem, and then nothing changed."""
    try:
        text = file.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        raise InputProblem(f"{file.name} is not a meal file.") from None
    except OSError as problem:
        raise WorldProblem(f"{file} could not be read: {problem.strerror or problem}.") from problem
    return bring_meal(kitchen, text, file.name)


def bring_meal(kitchen: Kitchen, text: str, where: str = "The meal file") -> Done[Meal]:
    """Add the meal of this text; a name already taken gets a number behind it, own foods known here stay."""
    whole = _opened(text, where)
    meal = from_json(Meal, whole["meal"], where)
    meal = replace(meal, name=free_name(kitchen, meal.name), id=kitchen.journal.next_id(Meal))
    check_meal(kitchen, meal)
    pending = Pending()
    pending.add(meal)
    known = _foods(kitchen, whole, where, pending)
    for position, values in enumerate(_listed(whole, "parts", where)):
        part = from_json(MealPart, {**values, "meal": meal.id, "position": position}, where)
        slug = part.food if part.food in known or part.food in kitchen.handbook.foods else ""
        staple = part.staple if part.staple in staples() else ""
        pending.add(replace(part, food=slug, staple=staple, lot=None, id=kitchen.journal.next_id(MealPart)))
    _notes(kitchen, whole, where, pending, meal.id, known)
    return kitchen.commit(f"Imported the meal {meal.name}", pending)


def _opened(text: str, where: str) -> Mapping[str, Any]:
    try:
        whole = json.loads(text)
    except (ValueError, RecursionError):
        raise InputProblem(f"{where} is not a meal file.") from None
    if may_hold_halves(text):
        refuse_halves(whole, where)
    if not isinstance(whole, dict) or whole.get("file") != MARK or not isinstance(whole.get("meal"), dict):
        raise InputProblem(f"{where} is not a meal file.")
    if whole.get("version") != VERSION:
        raise InputProblem(f"{where} was written by a newer program; this one reads version {VERSION}.")
    return whole


def _listed(whole: Mapping[str, Any], name: str, where: str) -> list[dict[str, Any]]:
    entries = whole.get(name, [])
    if not isinstance(entries, list) or not all(isinstance(entry, dict) for entry in entries):
        raise InputProblem(f"{where}: “{name}” should be a list of records.")
    return entries


def _notes(
    kitchen: Kitchen, whole: Mapping[str, Any], where: str, pending: Pending, meal: int, own: set[str]
) -> None:
    """What the pot taught there comes along; a food not known here is named and no more."""
    for values in _listed(whole, "notes", where):
        inside = _listed(values, "parts", where)
        bare = {name: value for name, value in values.items() if name != "parts"}
        note = kitchen.journal.next_id(CookingNote)
        pending.add(from_json(CookingNote, {**bare, "meal": meal, "id": note}, where))
        for part_values in inside:
            number = kitchen.journal.next_id(CookingNotePart)
            part = from_json(CookingNotePart, {**part_values, "note": note, "id": number}, where)
            known = part.food in own or part.food in kitchen.handbook.foods
            pending.add(part if known else replace(part, food=""))


def _foods(kitchen: Kitchen, whole: Mapping[str, Any], where: str, pending: Pending) -> set[str]:
    """Own foods that are not known here are added with their figures, and cups nobody weighed here; answers every
    own slug now known."""
    known = {own.slug for own in kitchen.journal.where(OwnFood)}
    new: set[str] = set()
    for values in _listed(whole, "foods", where):
        own = from_json(OwnFood, values, where)
        if own.slug in known or own.slug in kitchen.handbook.foods:
            same_kind(kitchen, own, "this meal")
        else:
            like = own.like if own.like in kitchen.handbook.foods else ""
            pending.add(replace(own, like=like, id=kitchen.journal.next_id(OwnFood)))
            new.add(own.slug)
    figures = [from_json(OwnFigure, values, where) for values in _listed(whole, "figures", where)]
    weighed = {figure.food for figure in kitchen.journal.where(OwnFigure, name=DRIED_CUP)}
    there = known | set(kitchen.handbook.foods) | set(staples())
    wanted = [
        figure
        for figure in figures
        if figure.food in new or (figure.name == DRIED_CUP and figure.food in there - weighed)
    ]
    pending.add(*(replace(figure, id=kitchen.journal.next_id(OwnFigure)) for figure in wanted))
    return known | new
