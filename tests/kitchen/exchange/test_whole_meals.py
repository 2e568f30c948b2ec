"""A meal goes to another kitchen whole: its card, its parts, its own foods with their figures, and its notes."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.exchange.meal_files import bring_meal, meal_text, read_meal, write_meal
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Record
from dryhouse.kitchen.records import (
    RECORD_KINDS,
    CookingNote,
    CookingNotePart,
    Lot,
    Meal,
    MealPart,
    OwnFigure,
    OwnFood,
)
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.quantities import Mass, Volume
from tests.fakes import FakeJournal
from tests.rows import every_row

DAY = date(2026, 8, 20)
SUPPER = Meal("Späte Suppe", 2.0, "no soak", "soup", 12.0, method="Soak.", id=1)
STEW = OwnFood("stew", "paddlers' stew", "mixed", "the pot", contains="plant", like="apple", id=1)
RELISH = OwnFood("relish", "corn relish", "vegetable", contains="plant", like="corn", id=2)
PARTS = (
    MealPart(1, 0, "paddlers' stew", food="stew", lot=1, mass=Mass(50.0, "50 g"), id=1),
    MealPart(1, 1, "corn relish", food="relish", volume=Volume(60.0, "60 ml"), id=2),
    MealPart(1, 2, "sweet corn", food="corn", mass=Mass(30.0, "30 g"), id=3),
    MealPart(1, 3, "potato flakes", staple="potato-flakes", mass=Mass(20.0, "20 g"), id=4),
    MealPart(1, 4, "powder", portion=Mass(30.0), label_energy_kcal=120.0, mass=Mass(9.0, "9 g"), id=5),
)
FIGURES = (
    OwnFigure("stew", "water", 70.0, "%", "70", "weighed", id=1),
    OwnFigure("stew", "dried_cup", 90.0, "g/cup", id=2),
    OwnFigure("corn", "dried_cup", 120.0, "g/cup", id=3),
    OwnFigure("potato-flakes", "dried_cup", 45.0, "g/cup", id=4),
    OwnFigure("corn", "water", 70.0, "%", id=5),  # hers alone: she believes the handbook elsewhere
    OwnFigure("apple", "dried_cup", 30.0, "g/cup", id=6),  # no part of the meal
)
NOTES = (
    CookingNote(1, DAY, 2.0, Volume(700.0), 10.0, 12.0, None, "right", "more salt", 4, "cold soak", id=1),
    CookingNote(1, date(2026, 8, 21), 1.0, came_back="hard", cooking="no soak", id=2),
)
REMARKS = (
    CookingNotePart(1, "paddlers' stew", "hard", "stew", id=1),
    CookingNotePart(1, "sweet corn", "right", "corn", id=2),
    CookingNotePart(2, "powder", "soupy", id=3),
)


def kitchen(*records: Record) -> Kitchen:
    return Kitchen(FakeJournal(*records), handbook(), lambda: datetime(2026, 9, 1, tzinfo=UTC), UTC)


def here() -> Kitchen:
    return kitchen(SUPPER, STEW, RELISH, Lot("stew", DAY, id=1), *PARTS, *FIGURES, *NOTES, *REMARKS)


def everything(of: Kitchen) -> list[Record]:
    return [record for kind in RECORD_KINDS for record in of.journal.where(kind)]


def test_all_of_a_meal_comes_and_nothing_else() -> None:
    there = kitchen(Meal("soup", id=8))
    done = bring_meal(there, meal_text(here(), 1))
    assert done.what == "Imported the meal Späte Suppe"
    assert done.record == replace(SUPPER, id=9)
    assert everything(there) == [
        STEW,
        RELISH,
        *FIGURES[:4],
        Meal("soup", id=8),
        replace(SUPPER, id=9),
        *(replace(part, meal=9, lot=None) for part in PARTS),
        *(replace(note, meal=9) for note in NOTES),
        *REMARKS,
    ]
    there.write(done.undone().changes)
    assert everything(there) == [Meal("soup", id=8)]


def test_what_is_known_here_stays_and_a_second_one_gets_a_number() -> None:
    mine = OwnFood("relish", "relish of mine", "vegetable", contains="plant", id=1)
    weighed = OwnFigure("corn", "dried_cup", 99.0, "g/cup", id=1)
    there = kitchen(mine, weighed, Meal("Späte Suppe", id=1))
    done = bring_meal(there, meal_text(here(), 1))
    assert done.record == replace(SUPPER, name="Späte Suppe 2", id=2)
    assert there.journal.where(OwnFood) == (mine, replace(STEW, id=2))
    assert there.journal.where(OwnFigure) == (
        weighed,
        *(replace(FIGURES[at], id=id) for at, id in ((0, 2), (1, 3), (3, 4))),
    )


def test_the_file_can_be_read_by_a_person() -> None:
    whole = json.loads(meal_text(here(), 1))
    assert (whole["file"], whole["version"]) == ("dryhouse meal", 1)
    assert not {"id", "meal", "note", "lot"}.intersection(
        *(whole[name][0] for name in ("parts", "foods", "figures", "notes")), whole["notes"][0]["parts"][0]
    )
    text = meal_text(here(), 1)
    assert '\n "meal": {\n  "name": "Späte Suppe",' in text


def test_a_food_nobody_here_knows_is_named_and_no_more() -> None:
    whole = json.loads(meal_text(here(), 1))
    whole["foods"], whole["figures"] = [{**whole["foods"][1], "like": "moon rock"}], []
    whole["parts"][3]["staple"] = "moon flakes"
    there = kitchen()
    bring_meal(there, json.dumps(whole))
    assert [(p.name, p.food, p.staple) for p in there.journal.where(MealPart)] == [
        ("paddlers' stew", "", ""),
        ("corn relish", "relish", ""),
        ("sweet corn", "corn", ""),
        ("potato flakes", "", ""),
        ("powder", "", ""),
    ]
    assert [(p.name, p.food) for p in there.journal.where(CookingNotePart)] == [
        ("paddlers' stew", ""),
        ("sweet corn", "corn"),
        ("powder", ""),
    ]
    assert there.journal.where(OwnFood) == (replace(RELISH, like="", id=1),)


def spoiled(**said: Any) -> Callable[[dict[str, Any]], dict[str, Any]]:
    return lambda whole: {**whole, **said}


@every_row(
    ("spoil", "said"),
    [
        (lambda _whole: [], "camp.meal.json is not a meal file."),
        (spoiled(file="another"), "camp.meal.json is not a meal file."),
        (spoiled(meal=[]), "camp.meal.json is not a meal file."),
        (spoiled(version=2), "camp.meal.json was written by a newer program; this one reads version 1."),
        (spoiled(parts={}), "camp.meal.json: “parts” should be a list of records."),
        (spoiled(foods=[1]), "camp.meal.json: “foods” should be a list of records."),
        (spoiled(figures="none"), "camp.meal.json: “figures” should be a list of records."),
        (spoiled(notes=[[]]), "camp.meal.json: “notes” should be a list of records."),
        (
            spoiled(meal={"name": "\ud800"}),
            "camp.meal.json holds half a character, which cannot be kept; write it whole.",
        ),
        (spoiled(meal={"name": "pot", "lid": 1}), "camp.meal.json has “lid”, which Meal records do not have."),
        (spoiled(meal={"name": " "}), "A meal needs a name."),
    ],
)
def test_what_is_no_meal_is_refused_by_the_name_of_its_file(spoil: Any, said: str, tmp_path: Path) -> None:
    file, there = tmp_path / "camp.meal.json", kitchen()
    file.write_text(json.dumps(spoil(json.loads(meal_text(here(), 1)))), encoding="utf-8")
    with pytest.raises(InputProblem) as caught:
        read_meal(there, file)
    assert caught.value.said == said
    assert everything(there) == []


def test_a_food_of_another_kind_under_the_same_name_is_refused() -> None:
    whole = json.loads(meal_text(here(), 1))
    whole["foods"][1] |= {"contains": "meat", "category": "meat"}
    there = kitchen(RELISH)
    with pytest.raises(InputProblem) as caught:
        bring_meal(there, json.dumps(whole))
    said = "“corn relish” is an animal food where this meal comes from and vegetable here; give yours another name"
    assert (caught.value.said, caught.value.field) == (f"{said} first.", "food")


def test_a_file_that_cannot_be_read_or_written_is_said_with_the_reason(tmp_path: Path) -> None:
    there = here()
    with pytest.raises(WorldProblem) as caught:
        read_meal(there, tmp_path / "gone.meal.json")
    assert caught.value.said == f"{tmp_path}/gone.meal.json could not be read: No such file or directory."
    with pytest.raises(WorldProblem) as caught:
        write_meal(there, 1, tmp_path)
    assert caught.value.said == f"{tmp_path} could not be written: Is a directory."
    picture = tmp_path / "pot.meal.json"
    picture.write_bytes(b"\x89PNG\xff")
    with pytest.raises(InputProblem) as refused:
        read_meal(there, picture)
    assert refused.value.said == "pot.meal.json is not a meal file."
    assert write_meal(there, 1, picture) == picture
    assert picture.read_text(encoding="utf-8") == meal_text(there, 1)
