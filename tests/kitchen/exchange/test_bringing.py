"""What an import lets in: what could have been typed, and nothing else. Whatever is refused changes nothing."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.cautions.cautions import lot_cautions
from dryhouse.kitchen.dryer.learned import learned_anew
from dryhouse.kitchen.exchange import bring_in, read_records, write_records
from dryhouse.kitchen.exchange.bringing import same_kind
from dryhouse.kitchen.exchange.meal_files import bring_meal, meal_text
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Pending
from dryhouse.kitchen.records import Batch, Dryer, Lot, Meal, MealPart, OwnFigure, OwnFood, Trip, Weighing
from dryhouse.kitchen.records.learned import forgotten
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.words.messages import problem_sentence
from tests.fakes import FakeJournal
from tests.rows import every_row

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
BATCH = Batch(
    "corn",
    prepared_mass=Mass(907.18474, "2 lb"),
    dried_mass=Mass(226.796185, "8 oz"),
    started=NOON,
    ended=NOON + timedelta(hours=9),
    rating=4,
    id=1,
)


def kitchen(*records: Any) -> Kitchen:
    return Kitchen(FakeJournal(*records), handbook(), lambda: NOON + timedelta(days=60), UTC)


def refused(records: list[Any], *there: Any) -> str:
    """The sentence of the refusal; nothing may have changed."""
    into = kitchen(*there)
    before = {kind: dict(rows) for kind, rows in into.journal.kept.items()}  # type: ignore[attr-defined]
    with pytest.raises(InputProblem) as caught:
        bring_in(into, records)
    assert into.journal.kept == before  # type: ignore[attr-defined]
    return problem_sentence(caught.value)


def test_a_batch_that_could_not_have_been_logged_is_refused_with_all_its_sentences() -> None:
    bad = replace(
        BATCH,
        food="no such food",
        prepared_mass=Mass(-5.0, "2 lb"),
        ended=datetime(2020, 1, 1, tzinfo=UTC),
        trays=-3,
        rating=99,
        set_temperature=Temperature(900.0, "900 C"),
    )
    said = refused([bad])
    assert said.startswith("Batch 1: ")
    for words in (
        "“Weight loaded” is 2 lb",
        "at least one tray",
        "900 C is no temperature for drying food",
        "A rating is 1 to 5.",
        "No food called “no such food” is known",
        "ends before it starts",
    ):
        assert words in said
    assert said.endswith("And 1 more of the kind.")


def test_words_that_contradict_their_value_are_refused() -> None:
    assert "was typed “2 lb”" in refused([replace(BATCH, prepared_mass=Mass(1000.0, "2 lb"))])


@every_row(
    ("food", "words"),
    [
        (OwnFood("turkey", "Turkey", "vegetable", id=1), "take the place of a food of the handbook"),
        (OwnFood("strips", "Beef strips", "plant", id=1), "no kind of food"),
        (OwnFood("strips", "Beef strips", "MEAT", id=1), "no kind of food"),
        (OwnFood("strips", "Beef strips", "", id=1), "Kind"),
        (OwnFood("strips", "ground beef", "vegetable", contains="plant", id=1), "is an animal food here"),
    ],
)
def test_no_own_food_takes_a_stop_from_a_jar_on_the_shelf(food: OwnFood, words: str) -> None:
    turkey = replace(BATCH, food="turkey")
    lot = Lot("turkey", NOON.date() + timedelta(days=1), batch=1, id=1)
    into = kitchen(turkey, lot)
    before = {c.rule for c in lot_cautions(into, lot) if c.severity == "stop"}
    with pytest.raises(InputProblem, match=words):
        bring_in(into, [food])
    assert {c.rule for c in lot_cautions(into, lot) if c.severity == "stop"} == before != set()


def test_another_kitchens_meat_is_not_taken_for_this_kitchens_plant_of_the_same_name() -> None:
    mine = OwnFood("relish", "relish", "vegetable", contains="plant", id=1)
    theirs = OwnFood("relish", "relish", "meat", contains="meat", id=4)
    told = replace(theirs, category="other")
    for animal in (theirs, replace(theirs, contains=""), told, replace(told, contains="", like="turkey")):
        assert "give yours another name first" in refused([animal], mine)
    same_kind(kitchen(mine), replace(told, contains=""), "this meal")


def test_a_figure_that_differs_from_hers_is_kept_out_and_said() -> None:
    into = kitchen(OwnFigure("corn", "water", 76.0, "%", id=1))
    done = bring_in(into, [OwnFigure("corn", "water", 70.0, "%", id=1), BATCH])
    assert "1 record of yours kept, where the file says otherwise" in done.what
    assert "already" not in done.what
    assert into.journal.where(OwnFigure)[0].value == 76.0


def test_a_lot_stays_home_dried_whatever_becomes_of_its_batch() -> None:
    from dryhouse.kitchen.batches.log import delete_batch

    lot = Lot("turkey", NOON.date() + timedelta(days=1), batch=1, bought_keep_by=NOON.date() + timedelta(900), id=1)
    into = kitchen(replace(BATCH, food="turkey"), lot)
    delete_batch(into, 1)
    left = into.journal.get(Lot, 1)
    assert left is not None
    assert (left.batch, left.origin) == (None, "home")
    assert [c for c in lot_cautions(into, left) if c.severity == "stop"]


# --- files changed by hand -----------------------------------------------------------------------------------

Spoil = Callable[[dict[str, Any]], Any]


def first(content: dict[str, Any], kind: str) -> dict[str, Any]:
    found: dict[str, Any] = content["records"][kind][0]
    return found


@pytest.mark.parametrize(
    "spoil",
    [
        lambda c: first(c, "Batch").update(rating=2**70),
        lambda c: first(c, "Batch").update(id=2**70),
        lambda c: first(c, "Batch").update(rating=99),
        lambda c: first(c, "Batch").update(trays=-4),
        lambda c: first(c, "Batch").update(start_moisture_pct=140),
        lambda c: first(c, "Batch").update(start_moisture_pct=10**400),
        lambda c: first(c, "Batch").update(prepared_mass={"g": 10**400, "typed": ""}),
        lambda c: first(c, "Batch").update(prepared_mass={"g": 1e308, "typed": ""}),
        lambda c: first(c, "Batch").update(prepared_mass={"g": -5.0, "typed": ""}),
        lambda c: first(c, "Batch").update(prepared_mass={"g": 1000.0, "typed": "2 lb"}),
        lambda c: first(c, "Batch").update(notes="\ud800"),
        lambda c: first(c, "Batch").update({"\ud800": 1}),
        lambda c: first(c, "Batch").update(food="\ud800"),
        lambda c: first(c, "Batch").update(food="moon rock"),
        lambda c: first(c, "Batch").update(started="0001-01-01T00:00:00+14:00"),
        lambda c: first(c, "Batch").update(started="9999-12-31T23:00:00-14:00"),
        lambda c: first(c, "Batch").update(ended="2020-01-01T00:00:00+00:00"),
        lambda c: first(c, "Batch").update(food=[[[]]]),
        lambda c: first(c, "Meal").update(servings=-1),
        lambda c: first(c, "Trip").update(people=0),
        lambda c: first(c, "Trip").update(ends_on="9998-01-01"),
        lambda c: first(c, "Weighing").update(gross={"g": 0.0, "typed": ""}),
    ],
)
def test_a_record_spoiled_by_hand_is_refused_in_a_sentence(tmp_path: Path, spoil: Spoil) -> None:
    day = NOON.date()
    file = tmp_path / "whole.json"
    everything = [BATCH, Weighing(1, NOON, Mass(900.0), id=1), Meal("pot", id=1), Trip("lake", day, day, id=1)]
    write_records(everything, file)
    content = json.loads(file.read_text(encoding="utf-8"))
    spoil(content)
    broken = tmp_path / "broken.json"
    broken.write_text(json.dumps(content), encoding="utf-8")
    into = kitchen(Dryer("box dryer", 10, id=1))
    with pytest.raises(InputProblem) as caught:
        bring_in(into, read_records(broken))
    problem_sentence(caught.value).encode("utf-8")
    assert len(problem_sentence(caught.value)) < 1000
    assert not into.journal.where(Batch)


def test_a_number_of_five_thousand_digits_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "whole.json"
    write_records([BATCH], file)
    text = file.read_text(encoding="utf-8").replace('"rating": 4', f'"rating": {"9" * 5000}')
    file.write_text(text, encoding="utf-8")
    with pytest.raises(InputProblem):
        read_records(file)


def test_an_escaped_character_that_is_whole_is_read(tmp_path: Path) -> None:
    file = tmp_path / "whole.json"
    write_records([replace(BATCH, notes="\N{EAR OF MAIZE} \\ud800")], file)
    content = json.loads(file.read_text(encoding="utf-8"))
    file.write_text(json.dumps(content), encoding="ascii")
    (batch,) = read_records(file)
    assert isinstance(batch, Batch)
    assert batch.notes == "\N{EAR OF MAIZE} \\ud800"


# --- meal files ------------------------------------------------------------------------------------------------


def meal_file() -> dict[str, Any]:
    there = kitchen(Meal("supper", id=1), MealPart(1, 0, "sweet corn", food="corn", mass=Mass(50.0), id=1))
    found: dict[str, Any] = json.loads(meal_text(there, 1))
    return found


@every_row(
    "text",
    [
        "[" * 100_000,
        json.dumps({**meal_file(), "meal": {**meal_file()["meal"], "name": "\ud800"}}),
        json.dumps({**meal_file(), "meal": {**meal_file()["meal"], "\ud800": 1}}),
        json.dumps({**meal_file(), "meal": {**meal_file()["meal"], "servings": 10**400}}),
        json.dumps({**meal_file(), "meal": {**meal_file()["meal"], "servings": -1}}),
        json.dumps({**meal_file(), "parts": [{"name": "Beef jerky", "food": "corn", "staple": ""}]}),
        json.dumps({**meal_file(), "parts": [{"name": "Beef jerky", "food": "", "staple": "potato-flakes"}]}),
        json.dumps(
            {
                **meal_file(),
                "foods": [{"slug": "s", "name": "ground beef", "category": "herb", "contains": "plant"}],
            }
        ),
        json.dumps({**meal_file(), "foods": [{"slug": "s", "name": "strips", "category": "MEAT"}]}),
    ],
)
def test_a_meal_file_that_cannot_be_right_is_refused(text: str) -> None:
    into = kitchen()
    with pytest.raises(InputProblem) as caught:
        bring_meal(into, text)
    problem_sentence(caught.value).encode("utf-8")
    assert not into.journal.where(Meal)


def test_an_own_food_nobody_answered_for_comes_in_unanswered() -> None:
    into = kitchen()
    bring_meal(
        into,
        json.dumps({**meal_file(), "foods": [{"slug": "strips", "name": "beef strips", "category": "vegetable"}]}),
    )
    assert into.journal.where(OwnFood)[0].contains == ""


APPLE_G = ((1, 810), (2, 640), (4, 412), (6, 283), (11, 172))


def weighed_dry() -> list[Any]:
    """Apple that was weighed to the end, with what its weighings taught, and its weighings."""
    hands = replace(kitchen(), follow=learned_anew)
    batch = replace(
        BATCH,
        food="apple",
        prepared_mass=Mass(1000.0, "1000 g"),
        dried_mass=Mass(172.0, "172 g"),
        ended=NOON + timedelta(hours=11),
    )
    weighings = [
        Weighing(1, NOON + timedelta(hours=h), Mass(float(g), f"{g} g"), id=n)
        for n, (h, g) in enumerate(APPLE_G, 1)
    ]
    pending = Pending()
    pending.add(batch, *weighings)
    hands.commit("logged", pending)
    return [*hands.journal.where(Batch), *weighings]


@pytest.mark.parametrize("name", ["all.json", "folder"])
def test_what_weighings_taught_comes_along_with_them(tmp_path: Path, name: str) -> None:
    batch, *weighings = weighed_dry()
    assert batch.curve_dry is not None
    write_records([batch, *weighings], tmp_path / name)
    into = kitchen()
    bring_in(into, list(read_records(tmp_path / name)))
    assert into.journal.where(Batch) == (batch,)


@pytest.mark.parametrize("lost", [0, 2])
def test_what_other_weighings_taught_does_not_come_along(lost: int) -> None:
    batch, *weighings = weighed_dry()
    weighings[lost] = replace(weighings[lost], gross=Mass(500.0, "500 g"))
    into = kitchen(replace(BATCH, id=7))
    done = bring_in(into, [batch, *weighings])
    (came,) = into.journal.where(Batch, food="apple")
    assert came == replace(forgotten(batch), id=came.id)
    into.write(done.undone().changes)
    assert not into.journal.where(Batch, food="apple")


def test_weighings_that_come_for_a_batch_of_hers_end_what_the_others_taught() -> None:
    batch, *weighings = weighed_dry()
    into = kitchen(batch, *weighings)
    late = Weighing(1, NOON + timedelta(hours=9), Mass(190.0, "190 g"), id=6)
    done = bring_in(into, [batch, *weighings, late])
    assert into.journal.where(Batch) == (forgotten(batch),)
    into.write(done.undone().changes)
    assert into.journal.where(Batch) == (batch,)
    bring_in(into, [forgotten(batch), *weighings])
    assert into.journal.where(Batch) == (batch,), "an older export takes nothing away"
