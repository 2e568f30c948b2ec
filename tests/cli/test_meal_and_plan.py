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


def test_every_value_of_a_plan_stands_under_its_name(capsys, journal):
    found = json.loads(answer(capsys, *journal, "plan", "lake", "--json")[1])
    assert (found["value"], found["unit"], found["trip"]) == (pytest.approx(140.0), "g", "lake circuit")
    carrot, onion = found["items"]
    assert (carrot["needed_g"], carrot["shelved_g"], carrot["left_over_g"]) == (pytest.approx(120.0), 0.0, 0.0)
    assert (carrot["conditioning_days"], carrot["name"], onion["food"]) == (0, "carrot", "onion")
    for part in (carrot["prepared"], carrot["as_purchased"], carrot["hours"]):
        assert set(part) == {"value", "low", "high", "unit"}
        assert part["low"] <= part["value"] <= part["high"]
    assert carrot["loads"][0].startswith("shelf dryer: 3 trays, ")
    runs = found["calendar"]
    latest = [datetime.fromisoformat(run["latest_start"]) for run in runs]
    assert datetime.fromisoformat(found["latest_start"]) == min(latest)
    hours = [datetime.fromisoformat(run["end"]) - datetime.fromisoformat(run["start"]) for run in runs]
    assert [run["kwh"] for run in runs] == pytest.approx([0.5 * h.total_seconds() / 3600 for h in hours])
    assert found["kwh"] == pytest.approx(sum(run["kwh"] for run in runs))
    loads = {load["food"]: load for run in runs for load in run["loads"]}
    assert (loads["carrot"]["trays"], loads["carrot"]["dried_g"]) == (3, pytest.approx(120.0))
    assert loads["carrot"]["prepared_g"] == pytest.approx(carrot["prepared"]["value"])
    assert loads["carrot"]["hours"]["high"] == carrot["hours"]["high"]
    bought = {line["name"]: line for line in found["shopping"]}
    assert (bought["carrot"]["for_drying"], bought["couscous"]["for_drying"]) == (True, False)
    assert (bought["carrot"]["form"], bought["carrot"]["ticked"], bought["couscous"]["aisle"]) == (
        "fresh", False, "Dry goods",
    )  # fmt: skip
    assert bought["carrot"]["buy"]["value"] >= bought["carrot"]["amount"]["value"]
    (bag,) = found["packing"]
    assert (bag["slot"], bag["meal"], bag["do_not_eat"]) == ("dinner", "Carrot couscous", False)
    assert [part["grams"] for part in bag["parts"][:3]] == pytest.approx([120.0, 20.0, 360.0])
    assert bag["water"]["value"] > sum(part["water_ml"] or 0.0 for part in bag["parts"]) > 1000
    assert (bag["allergens"], bag["allergens_on_labels"], bag["contents_unknown"]) == (["wheat"], [], [])
    first, second, _ = found["days"]
    assert first["grams_per_person"] == pytest.approx(sum(part["grams"] for part in bag["parts"]) / 4)
    assert first["energy_per_person"] > 500
    assert (second["energy_per_person"], second["sodium_per_person"], second["water_ml"]) == (None, None, 0)
    assert [day["energy_wanted"] for day in found["days"]] == [2500.0] * 3
    assert (first["spare"], first["layover"], first["water_ml"]) == (False, False, bag["water"]["value"])
    fuel = found["fuel"]
    assert (fuel["burnt_kj"], fuel["grams"]) == (pytest.approx(2 * fuel["heat_kj"]), None)
    assert fuel["workings"]
    assert (found["draws"], found["people"], found["shortfall"]) == ([], [], None)
    assert [step["what"] for step in found["next_steps"]] == ["place", "lot"]
    assert found["drying_hours"]["nights"] is True


def test_a_plan_in_words_is_its_three_lists(capsys, journal):
    out = answer(capsys, *journal, "plan", "lake")[1].splitlines()
    heads = [n for n, line in enumerate(out) if line.startswith("To ")]
    assert [out[n].split(" ")[1].rstrip(":") for n in heads] == ["dry", "buy", "pack"]
    assert out[0].startswith("lake circuit: ")
    assert out[0].endswith(", 4 people")
    assert "(assumed: up 7:00 to 22:00" in out[heads[0]]
    assert any(line.startswith("  Dry goods: couscous ") for line in out)
    assert any(": Carrot couscous for 4, " in line for line in out)
    assert any(line.startswith("  each carries ") and "MJ of fuel" in line for line in out)
    full = answer(capsys, *journal, "plan", "lake", "--full")[1].splitlines()
    assert set(out) <= set(full)
    kept = answer(capsys, *journal, "plan", "lake", "--days", "weekends")[1]
    assert "assumed" not in kept.partition("To buy")[0]


def test_what_needs_nothing_and_what_is_over_says_so(capsys, journal):
    with open_kitchen(Path(journal[1]), write=True) as kitchen:
        today = kitchen.local(kitchen.now()).date()
        save_trip(kitchen, Trip("gone lakes", today - timedelta(days=3), today - timedelta(days=1), 1))
        save_trip(kitchen, Trip("today's lakes", today - timedelta(days=1), today, 1))
    gone = answer(capsys, *journal, "plan", "gone lakes")[1].splitlines()
    assert gone[0].endswith(", 1 person")
    assert gone[1:] == [
        "This trip is over; what follows is what it would take today.",
        "To dry: nothing; the shelf covers it.",
        "To buy: nothing.",
        "To pack: no meal is on any day yet.",
    ]
    assert "is over" not in answer(capsys, *journal, "plan", "today's lakes")[1]


def test_every_value_of_a_meal_stands_under_its_name(capsys, journal):
    found = json.loads(answer(capsys, *journal, "meal", "carrot", "--servings", "2", "--json")[1])
    assert (found["meal"], found["servings"], found["liquid"]) == ("Carrot couscous", 2.0, "stew")
    assert found["do_not_eat"] is False
    assert (found["to_dry"], found["to_weigh"], found["notes_used"]) == ([], [], 0)
    assert [found[name]["unit"] for name in ("soak", "cook", "flame")] == ["min"] * 3
    assert (found["heat"]["unit"], found["fuel"]) == ("kJ", None)
    carrot = found["ingredients"][0]
    assert (carrot["lot"], carrot["grams"]) == (None, pytest.approx(60.0))
    assert carrot["ml"] > 100
    assert carrot["water_ml"] > 100
    assert carrot["energy_kcal"] > 100
    assert found["dry_mass"]["value"] == pytest.approx(sum(part["grams"] for part in found["ingredients"]))
    serving = found["serving"]
    assert serving["dry_mass"]["value"] == pytest.approx(found["dry_mass"]["value"] / 2)
    assert serving["water"]["value"] == pytest.approx(found["value"] / 2)
    ways = {way["cooking"]: way for way in found["other_ways"]}
    assert set(ways) == {"no soak", "boil and rest", "cold soak"}
    cold = ways["cold soak"]
    assert (cold["never"], cold["heat"], cold["fuel"]) == (None, None, None)
    assert ways["no soak"]["water"]["value"] > cold["water"]["value"]
    assert ways["no soak"]["cook"]["value"] == 15.0


def test_a_meal_says_each_ingredient_each_way_and_its_arithmetic(capsys, journal):
    out = answer(capsys, *journal, "meal", "carrot")[1].splitlines()
    assert out[1].startswith("  Soak 20 min, simmer 8 min; ")
    assert out[2].startswith("  each serving: dry weight ")
    assert [line.partition(":")[0].strip() for line in out[3:7]] == ["carrot", "onion", "couscous", "olive oil"]
    assert all(line.count(",") >= 1 for line in out[3:7])
    assert out[7].startswith("  or no soak: simmer 15 min; ")
    worked = answer(capsys, *journal, "meal", "carrot", "--workings")[1].splitlines()
    for name in ("soak", "cook", "fuel"):
        assert any(line.startswith(f"  {name}: ") for line in worked)
    assert any(line.startswith("  published, ") for line in worked)
    two = answer(capsys, *journal, "meal", "carrot", "--servings", "2")[1]
    assert two.startswith("Carrot couscous, 2 servings: water for the pot: ")
