"""`meal` and `plan` as a script calls them."""

from __future__ import annotations

import json
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from dryhouse.cli import main
from dryhouse.house import open_kitchen
from dryhouse.kitchen.batches.dryers import save_dryer
from dryhouse.kitchen.meals.meals import draft_part, save_meal
from dryhouse.kitchen.records import Batch, Dryer, Meal, Trip
from dryhouse.kitchen.trips.trips import put_meal, save_trip
from dryhouse.science.quantities import Area, Temperature

COMMON = {"value", "low", "high", "unit", "measure", "basis", "workings", "cautions"}


@pytest.fixture
def journal(tmp_path):
    file = tmp_path / "mine.dryhouse"
    with open_kitchen(file, write=True) as kitchen:
        first = kitchen.local(kitchen.now()).date() + timedelta(days=30)
        parts = [("carrot", "30 g"), ("onion", "5 g"), ("couscous", "90 g"), ("olive oil", "1 tbsp")]
        save_meal(kitchen, Meal("Carrot couscous", 1.0), [draft_part(kitchen, *typed) for typed in parts])
        save_dryer(kitchen, Dryer("shelf dryer", 6, Area(1000.0), 500.0))
        save_trip(kitchen, Trip("lake circuit", first, first + timedelta(days=2), 4, 2500.0, Temperature(20.0)))
        put_meal(kitchen, 1, 1, first)
    return ["--journal", str(file)]


def answer(capsys, *arguments):
    code = main(list(arguments))
    out = capsys.readouterr()
    return code, out.out, out.err


def test_a_meal_answers_with_its_water_and_everything_else(capsys, journal):
    code, out, _ = answer(capsys, *journal, "meal", "carrot", "--json")
    figure = json.loads(out)
    assert code == 0
    assert set(figure) >= COMMON
    assert figure["unit"] == "ml"
    assert figure["measure"]["unit"] == "cup"
    assert figure["measure"]["value"] == pytest.approx(figure["value"] / 236.588, rel=1e-4)
    assert figure["energy"]["unit"] == "kcal"
    assert 400 < figure["serving"]["energy"]["value"] < 700
    assert set(figure["serving"]["energy"]) == COMMON
    assert [line["name"] for line in figure["ingredients"]] == ["carrot", "onion", "couscous", "olive oil"]


def test_a_meal_scales_and_goes_up_the_mountain(capsys, journal):
    one = json.loads(answer(capsys, *journal, "meal", "carrot", "--json")[1])
    four = json.loads(answer(capsys, *journal, "meal", "carrot", "--servings", "4", "--json")[1])
    high = json.loads(answer(capsys, *journal, "meal", "carrot", "--altitude", "8000 ft", "--json")[1])
    assert four["dry_mass"]["value"] == pytest.approx(4 * one["dry_mass"]["value"])
    assert high["cook"]["value"] > one["cook"]["value"]


def test_another_way_is_answered_without_changing_the_meal(capsys, journal):
    short = json.loads(answer(capsys, *journal, "meal", "carrot", "--json")[1])
    rest = json.loads(answer(capsys, *journal, "meal", "carrot", "--cooking", "boil-and-rest", "--json")[1])
    assert (short["cooking"], rest["cooking"]) == ("short soak", "boil and rest")
    assert rest["heat"]["value"] < short["heat"]["value"]
    (offered,) = [way for way in short["other_ways"] if way["cooking"] == "boil and rest"]
    assert (offered["water"]["value"], offered["cook"]["value"]) == (rest["value"], rest["cook"]["value"])
    assert json.loads(answer(capsys, *journal, "meal", "carrot", "--json")[1])["cooking"] == "short soak"
    _, out, _ = answer(capsys, *journal, "meal", "carrot")
    assert len([line for line in out.splitlines() if line.startswith("  or ")]) == 3
    assert "kJ of heat" in out.splitlines()[1]
    assert answer(capsys, *journal, "meal", "carrot", "--cooking", "fry")[0] == 2


def test_a_snack_has_no_water_no_minutes_and_no_fuel(capsys, journal):
    figure = json.loads(answer(capsys, *journal, "meal", "carrot", "--cooking", "no pot", "--json")[1])
    assert [figure[key] for key in ("value", "soak", "cook", "flame", "heat", "fuel")] == [None] * 6
    assert figure["other_ways"] == []
    assert figure["serving"]["energy"]["value"] > 400
    assert (
        ": no pot\n  Eaten as it is, no cooking"
        in answer(capsys, *journal, "meal", "carrot", "--cooking", "no pot")[1]
    )


def test_a_variant_is_kept_under_its_own_name_and_a_cup_is_weighed_once(capsys, journal):
    ask = (*journal, "meal", "carrot", "--change", "onion=", "--change", "carrot=1 cup")
    assert answer(capsys, *ask, "--copy-as", "Thin couscous")[0] == 0
    kept = json.loads(answer(capsys, *journal, "meal", "Thin couscous", "--json")[1])
    assert [line["name"] for line in kept["ingredients"]] == ["carrot", "couscous", "olive oil"]
    beef = (*journal, "meal", "thin", "--change", "olive oil=1 oz")
    assert answer(capsys, *beef, "--change", "salt=1 oz")[0] == 2
    with open_kitchen(Path(journal[1]), write=True) as kitchen:
        save_meal(kitchen, Meal("Beef pot"), [draft_part(kitchen, "ground beef", "1/2 cup")])
    unknown = json.loads(answer(capsys, *journal, "meal", "beef pot", "--json")[1])
    assert (unknown["value"], unknown["to_weigh"]) == (None, ["ground beef, cooked"])
    assert "weigh one cup of ground beef, cooked" in answer(capsys, *journal, "meal", "beef pot")[1]
    assert answer(capsys, *journal, "meal", "beef pot", "--cup", "ground beef=3 oz")[0] == 0
    assert json.loads(answer(capsys, *journal, "meal", "beef pot", "--json")[1])["value"] > 0


def test_a_meal_in_words(capsys, journal):
    code, out, _ = answer(capsys, *journal, "meal", "carrot couscous")
    assert code == 0
    assert out.startswith("Carrot couscous, 1 serving: water for the pot: ")
    assert "each serving: dry weight" in out
    assert ", energy " in out


@pytest.mark.parametrize(
    "arguments", [("meal", "gruel"), ("plan", "nowhere"), ("meal", "carrot", "--servings", "none"), ("meal",)]
)
def test_what_is_not_known_is_one_sentence_and_exit_2(capsys, journal, arguments):
    code, out, err = answer(capsys, *journal, *arguments)
    assert code == 2
    assert not out
    assert len(err.strip().splitlines()) == 1


def test_a_plan_answers_with_its_lists(capsys, journal):
    code, out, _ = answer(capsys, *journal, "plan", "lake", "--json")
    found = json.loads(out)
    assert code == 0
    assert set(found) >= COMMON | {"items", "shopping", "calendar", "packing", "gives"}
    carrot = next(item for item in found["items"] if item["food"] == "carrot")
    assert carrot["value"] == pytest.approx(120.0)
    assert carrot["as_purchased"]["value"] > carrot["prepared"]["value"] > 800
    assert {run["dryer"] for run in found["calendar"]} == {"shelf dryer"}
    assert {load["food"] for run in found["calendar"] for load in run["loads"]} == {"carrot", "onion"}
    for run in found["calendar"]:
        begin, end = (datetime.fromisoformat(run[key]) for key in ("start", "end"))
        assert begin.tzinfo is not None
        assert begin < end
        assert 40 < run["temperature_c"] < 75
    assert all(line["amount"]["value"] > 0 for line in found["shopping"])
    assert found["packing"][0]["servings"] == 4
    assert found["gives"] == []
    assert date.fromisoformat(found["days"][0]["day"]) > date.fromisoformat(found["latest_start"][:10])


def test_planning_writes_batches_only_when_asked(capsys, journal, tmp_path):
    answer(capsys, *journal, "plan", "lake")
    with open_kitchen(tmp_path / "mine.dryhouse") as kitchen:
        assert not kitchen.journal.where(Batch)
    code, out, _ = answer(capsys, *journal, "plan", "lake", "--write")
    assert code == 0
    assert "carrot" in out
    with open_kitchen(tmp_path / "mine.dryhouse") as kitchen:
        assert {b.food for b in kitchen.journal.where(Batch, state="planned")} == {"carrot", "onion"}


@pytest.fixture
def turkey_trip(tmp_path):
    """A soup of turkey that is still to be dried, as a cold soak on a hot trip."""
    file = tmp_path / "turkey.dryhouse"
    with open_kitchen(file, write=True) as kitchen:
        first = kitchen.local(kitchen.now()).date() + timedelta(days=30)
        parts = [draft_part(kitchen, "turkey", "30 g"), draft_part(kitchen, "couscous", "90 g")]
        save_meal(kitchen, Meal("Turkey couscous", 1.0, cooking="cold soak"), parts)
        save_dryer(kitchen, Dryer("shelf dryer", 6, Area(1000.0), 500.0))
        save_trip(kitchen, Trip("hot lakes", first, first + timedelta(days=1), 2, 2500.0, Temperature(36.0)))
        put_meal(kitchen, 1, 1, first)
    return ["--journal", str(file)]


def stops_in(cautions):
    return {c["rule"] for c in cautions if c["severity"] == "stop"}


def test_a_plan_says_the_stops_of_its_bags_its_shopping_and_its_loads(capsys, turkey_trip):
    said = json.loads(answer(capsys, *turkey_trip, "plan", "hot lakes", "--json")[1])
    unheated = "heat-poultry-missing"
    (bag,), (item,) = said["packing"], said["items"]
    (fresh,) = [line for line in said["shopping"] if line["for_drying"]]
    (load,) = [load for run in said["calendar"] for load in run["loads"]]
    assert stops_in(bag["cautions"]) >= {unheated, "cold-soak-animal", "soak-one-hour-hot"}
    assert all(unheated in stops_in(part["cautions"]) for part in (item, fresh, load))
    every = {c["rule"] for part in (bag, item) for c in part["cautions"]}
    assert {c["rule"] for c in said["cautions"]} == every


def test_a_plan_in_words_names_stops_in_its_rows_and_says_each_in_full_below(capsys, turkey_trip):
    said = json.loads(answer(capsys, *turkey_trip, "plan", "hot lakes", "--json")[1])
    out = answer(capsys, *turkey_trip, "plan", "hot lakes")[1]
    for caution in said["cautions"]:
        assert caution["severity"] != "stop" or caution["text"] in out
    rows = [
        line for line in out.splitlines() if "  STOP: " in line and "turkey" in line.partition("STOP")[0].lower()
    ]
    assert len(rows) == 3
    assert any(" for 2, do not eat  STOP: " in row for row in rows)
    assert [bag["water"] for bag in said["packing"]] == [None]
    assert "more cautions: add --cautions" in out
    every = answer(capsys, *turkey_trip, "plan", "hot lakes", "--cautions")[1]
    assert all(caution["text"] in every for caution in said["cautions"])


def test_a_meal_in_words_says_its_stops_in_full_and_counts_the_rest(capsys, turkey_trip):
    said = json.loads(answer(capsys, *turkey_trip, "meal", "turkey", "--json")[1])
    assert stops_in(said["cautions"]) >= {"heat-poultry-missing", "cold-soak-animal"}
    out = answer(capsys, *turkey_trip, "meal", "turkey")[1]
    shown = [c for c in said["cautions"] if c["text"] in out]
    assert {c["rule"] for c in shown} >= stops_in(said["cautions"])
    assert f"and {len(said['cautions']) - len(shown)} more cautions" in out


def test_hours_forms_and_fuel_are_options_and_what_is_remembered_is_said(capsys, journal):
    weekends = json.loads(
        answer(capsys, *journal, "plan", "lake", "--days", "Sat Sun", "--nights", "no", "--json")[1]
    )
    assert weekends["drying_hours"] == {
        "awake": "7:00-22:00", "away": "8:00-17:30", "days": "weekends", "nights": False, "assumed": False,
    }  # fmt: skip
    for run in weekends["calendar"]:
        begin, end = (datetime.fromisoformat(run[key]) for key in ("start", "end"))
        assert begin.weekday() >= 5
        assert begin.date() == end.date()
    assert json.loads(answer(capsys, *journal, "plan", "lake", "--json")[1])["drying_hours"]["assumed"]
    answer(capsys, *journal, "plan", "lake", "--days", "weekends", "--keep-hours", "--buy", "carrot=frozen")
    kept = json.loads(answer(capsys, *journal, "plan", "lake", "--fuel", "9 g", "--json")[1])
    assert kept["drying_hours"]["days"] == "weekends"
    assert next(line["form"] for line in kept["shopping"] if line["name"] == "carrot") == "frozen"
    assert kept["fuel"]["grams"]["value"] == pytest.approx(kept["fuel"]["heat_kj"] / 377.1 * 9)
    for wrong in (("--days", "never"), ("--awake", "late"), ("--buy", "carrot=pickled"), ("--from", "someday")):
        code, out, err = answer(capsys, *journal, "plan", "lake", *wrong)
        assert (code, out, len(err.strip().splitlines())) == (2, "", 1)


def test_the_calendar_of_a_plan_is_written_for_other_calendars(capsys, journal, tmp_path):
    file = tmp_path / "lakes.ics"
    assert answer(capsys, *journal, "plan", "lake", "--ics", str(file))[0] == 0
    assert file.read_bytes().count(b"BEGIN:VEVENT") == 2
