"""Every command says exactly the cautions that the rules have for what it shows: none missing, none extra.

One walk over the commands and the foods, as text and as JSON: a food for each set of rules that speak of it, and
in a long run (`tests/often.py`) every food there is. What is expected comes from the rules; what is said comes from
the command line over a real journal.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from dryhouse.cli import main
from dryhouse.handbook.reader import handbook
from dryhouse.house import open_kitchen
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.cautions.cautions import batch_cautions, food_cautions, lot_cautions
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import (
    Batch,
    Lot,
    LotMove,
    Meal,
    MealPart,
    OwnFood,
    Place,
    PlaceTemperature,
    Trip,
    TripMeal,
)
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.trips.bag_cautions import bag_cautions
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.values import Caution
from tests.fakes import FakeJournal
from tests.often import often

ANIMALS = tuple(sorted(slug for slug, food in handbook().foods.items() if food.animal))
PLANTS = ("apple", "basil", "button-mushroom", "carrot", "corn", "elderberry", "kidney-bean", "rice")


def walked(foods: Iterable[str]) -> tuple[str, ...]:
    """The first food of those of which the same rules speak; every one of them in a long run."""
    if often(1) > 1:
        return tuple(foods)
    kitchen = Kitchen(FakeJournal(), handbook())
    first: dict[tuple[str, ...], str] = {}
    for slug in foods:
        first.setdefault(tuple(c.rule for c in food_cautions(kitchen, slug)), slug)
    return tuple(first.values())


FOODS = walked((*ANIMALS, *(slug for slug in PLANTS if slug in handbook().foods)))
DISHES = {
    "venison chili": "meat", "duck eggs": "egg", "chicken curry": "poultry", "fish soup": "fish",
    "cheese sauce": "milk", "lasagna bolognese": "meat;milk;plant", "quiche": "egg;milk;plant",
    "bean chili": "plant", "köttbullar": "unknown", "Hühnersuppe": "",
}  # fmt: skip
"""Dishes of her own, and what she said is in them: every answer there is, two and three at once, and none."""
NOT_EATEN = "not to be eaten"
_MORE = re.compile(r"(\d+) more caution")


def records() -> Iterator[Any]:
    """A finished batch, a running one, a jar and a pot of every food and of each dish of her own."""
    long_ago, ended = datetime.now(UTC) - timedelta(days=900), datetime.now(UTC) - timedelta(days=30)
    dishes = [
        OwnFood(f"dish-{i}", name, "mixed", contains=said, id=i)
        for i, (name, said) in enumerate(DISHES.items(), start=1)
    ]
    yield Place("pantry", 1)
    yield PlaceTemperature(1, long_ago, Temperature(21.1, "70 F"), id=1)
    yield from dishes
    for n, slug in enumerate((*FOODS, *(d.slug for d in dishes)), start=1):
        loaded = {"prepared_mass": Mass(1000.0, "1 kg")}
        began = datetime.now(UTC) - timedelta(hours=2)
        yield Batch(
            slug, dried_mass=Mass(200.0, "200 g"), started=ended - timedelta(hours=9), ended=ended, id=n, **loaded
        )
        yield Batch(slug, state=DRYING, started=began, id=1000 + n, **loaded)
        yield Lot(slug, ended.date(), batch=n, mass=Mass(200.0, "200 g"), id=n)
        yield LotMove(n, 1, ended, id=n)
        yield Meal(f"pot {n}", id=n)
        yield MealPart(n, 1, slug, slug, mass=Mass(50.0, "50 g"), id=n)
    leaving = datetime.now(UTC).date() + timedelta(days=20)
    yield Trip("lake", leaving, leaving + timedelta(days=2), id=1)
    for n in range(1, 6):
        yield TripMeal(1, n, leaving, "dinner", id=n)


@pytest.fixture(scope="module")
def journal(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of all of it."""
    file = tmp_path_factory.mktemp("walk") / "walk.dryhouse"
    with open_kitchen(file, write=True) as kitchen:
        kitchen.journal.write(Change(None, record) for record in records())
    return file


@pytest.fixture(scope="module")
def kitchen(journal: Path) -> Iterator[Kitchen]:
    with open_kitchen(journal) as kitchen:
        yield kitchen


@dataclass(frozen=True)
class Said:
    """One command, and the cautions the rules have for what it shows."""

    words: tuple[str, ...]
    cautions: tuple[Caution, ...]


def of_foods(kitchen: Kitchen) -> Iterator[Said]:
    for slug in FOODS:
        cautions = food_cautions(kitchen, slug)
        yield Said(("cautions", slug), cautions)
        for words in (("yields", slug, "--fresh", "2 lb"), ("target", slug, "--fresh", "2 lb"),
                      ("water", slug, "--dried", "2 oz"), ("water", slug, "--dried", "1/4 cup"),
                      ("keeps", slug, "--temp", "70 F")):  # fmt: skip
            yield Said(words, cautions)


def of_batches(kitchen: Kitchen) -> Iterator[Said]:
    for batch in kitchen.journal.where(Batch):
        cautions = batch_cautions(kitchen, batch)
        yield Said(("cautions", "--batch", str(batch.id)), cautions)
        if batch.state == DRYING:
            yield Said(("weigh", str(batch.id), "800 g"), cautions)


def of_lots(kitchen: Kitchen) -> Iterator[Said]:
    for lot in kitchen.journal.where(Lot):
        yield Said(("cautions", "--lot", str(lot.id)), lot_cautions(kitchen, lot))


def of_meals(kitchen: Kitchen) -> Iterator[Said]:
    for meal in kitchen.journal.where(Meal):
        yield Said(("meal", str(meal.id)), meal_sheet(kitchen, meal.id).cautions)


def of_what_is_logged(kitchen: Kitchen) -> Iterator[Said]:
    for slug in FOODS:
        weights = (
            "--fresh",
            "1 kg",
            "--dried",
            "200 g",
            "--keep-anyway",
            "--hours",
            "9",
            "--start",
            "2026-10-01 8:00",
        )
        yield Said(("log", "--food", slug, *weights), batch_cautions(kitchen, BatchDraft(Batch(slug))))


def of_runs_in_files(kitchen: Kitchen) -> Iterator[Said]:
    file = Path(kitchen.journal.path).with_name("run.csv")
    file.write_text("hours,grams\n0,1000\n2,700\n4,450\n6,330\n8,290\n", encoding="utf-8")
    for slug in FOODS:
        words = ("curve", str(file), "--food", slug, "--start-moisture", "80")
        yield Said(words, food_cautions(kitchen, slug))


SURFACES: tuple[Callable[[Kitchen], Iterator[Said]], ...] = (
    of_foods,
    of_batches,
    of_lots,
    of_meals,
    of_what_is_logged,
    of_runs_in_files,
)


@pytest.fixture
def ask(journal: Path, capsys: pytest.CaptureFixture[str]) -> Callable[..., str]:
    """What a command says on standard output; empty where it refuses."""

    def ask(*words: str) -> str:
        code = main(["--journal", str(journal), *words])
        said = capsys.readouterr()
        assert code in (0, 2), said.err
        return said.out

    return ask


def wrong_in_json(words: Iterable[str], answer: str, cautions: tuple[Caution, ...]) -> str:
    """What is missing from an answer in JSON, what is extra, or in another order."""
    said = [(c["rule"], c["severity"], c["text"]) for c in json.loads(answer)["cautions"]]
    asked = list(dict.fromkeys((c.rule, c.severity, c.text) for c in cautions))
    return "" if said == asked else f"{' '.join(words)}: said {said}, the rules say {asked}"


def wrong_in_text(words: Iterable[str], answer: str, cautions: tuple[Caution, ...]) -> str:
    """What is wrong with an answer in text: every stop stands in full, the rest is shown or counted."""
    shown = [c for c in cautions if c.text in answer]
    folded = sum(int(n) for n in _MORE.findall(answer))
    lost = [c.rule for c in cautions if c.severity == "stop" and c not in shown]
    if lost or len(shown) + folded != len(cautions):
        return f"{' '.join(words)}: stops lost {lost}, {len(shown)} shown and {folded} counted of {len(cautions)}"
    return ""


@pytest.mark.parametrize("surface", SURFACES, ids=lambda s: s.__name__)
def test_every_command_says_what_the_rules_say(surface, kitchen, ask):
    wrong, answered = [], 0
    for said in surface(kitchen):
        if answer := ask(*said.words, "--json"):
            answered += 1
            wrong += filter(None, [wrong_in_json(said.words, answer, said.cautions)])
        if answer := ask(*said.words):
            wrong += filter(None, [wrong_in_text(said.words, answer, said.cautions)])
    assert not wrong, "\n".join(wrong[:20])
    assert answered


def test_every_batch_of_the_list_says_its_own(kitchen, ask):
    items = {item["id"]: item for item in json.loads(ask("batches", "--json"))["items"]}
    text = ask("batches")
    wrong = []
    for batch in kitchen.journal.where(Batch):
        cautions = batch_cautions(kitchen, batch)
        wrong += filter(None, [wrong_in_json((f"batch {batch.id}",), json.dumps(items[batch.id]), cautions)])
        if any(c.severity == "stop" and c.effect == NOT_EATEN for c in cautions):
            assert items[batch.id]["verdict"] is None
    wrong += [c.rule for b in kitchen.journal.where(Batch) for c in batch_cautions(kitchen, b) if lost(c, text)]
    assert not wrong, "\n".join(wrong[:20])


def test_every_lot_of_the_shelf_says_its_own(kitchen, ask):
    items = {item["lot"]: item for item in json.loads(ask("shelf", "--json"))["items"]}
    text = ask("shelf")
    wrong = []
    for lot in kitchen.journal.where(Lot):
        cautions = lot_cautions(kitchen, lot)
        wrong += filter(None, [wrong_in_json((f"lot {lot.id}",), json.dumps(items[lot.id]), cautions)])
        wrong += [f"lot {lot.id}: {c.rule}" for c in cautions if lost(c, text)]
        if any(c.severity == "stop" and c.effect == NOT_EATEN for c in cautions):
            assert (items[lot.id]["standing"], items[lot.id]["keep_by"]) == ("do not eat", None)
    assert not wrong, "\n".join(wrong[:20])


def lost(caution: Caution, text: str) -> bool:
    """Whether a stop is missing from a text."""
    return caution.severity == "stop" and caution.text not in text


def test_a_trip_says_what_its_bags_and_foods_do(kitchen, ask):
    worked = plan(kitchen, 1)
    meals = [eaten for day in worked.sheet.days for eaten in day.meals]
    bags = [bag_cautions(kitchen, worked.trip, worked.cover, eaten) for eaten in meals]
    foods = [food_cautions(kitchen, item.food) for item in worked.items]
    answer = json.loads(ask("plan", "1", "--json"))
    said = {c["rule"] for c in answer["cautions"]}
    assert said == {c.rule for cautions in (*bags, *foods) for c in cautions}
    for shown, cautions in zip(answer["packing"], bags, strict=True):
        assert not wrong_in_json((shown["meal"],), json.dumps(shown), cautions)
    text = ask("plan", "1")
    assert not {c.rule for cautions in bags for c in cautions if lost(c, text)}
