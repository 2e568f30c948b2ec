"""The verbs of the bench, as a person or a script calls them."""

import json
from pathlib import Path

import pytest

from dryhouse.cli import main


@pytest.fixture
def journal(tmp_path):
    return ["--journal", str(tmp_path / "mine.dryhouse")]


def answer(capsys, *arguments):
    code = main(list(arguments))
    out = capsys.readouterr()
    return code, out.out, out.err


LOG = ("log", "--food", "sweet corn", "--fresh", "2 lb 3 oz", "--dried", "8.6 oz", "--start", "2026-11-20 18:00",
       "--hours", "9h30", "--temp", "125 F", "--felt", "brittle")  # fmt: skip


def test_forty_ounces_of_cherries_come_to_seven(capsys, journal):
    ask = (*journal, "target", "sour cherry", "--fresh", "40 oz", "--solids", "14%", "--moisture", "20%")
    code, out, _ = answer(capsys, *ask, "--workings")
    assert code == 0
    assert out.startswith("Target weight: 7 oz")
    out_as_text = out
    _, out, _ = answer(capsys, *ask, "--json")
    figure = json.loads(out)
    assert (round(figure["value"], 9), figure["unit"]) == (7.0, "oz")
    assert figure["workings"][-1] == "Target mass = 5.6 oz ÷ (1 − 20 %) = 7 oz"
    assert all(line in out_as_text for line in figure["workings"])
    assert figure["workings"][0].startswith("sour cherry: 40 oz × (1 − 86 %) = 5.6 oz dry matter")
    assert {b["kind"] for b in figure["basis"]} == {"entered"}


@pytest.mark.parametrize("more", [("--workings",), ("--json",)])
def test_workings_end_in_grams_where_kilograms_were_typed(capsys, journal, more):
    ask = (*journal, "target", "sour cherry", "--fresh", "1 kg", "--solids", "14%", "--moisture", "20%", *more)
    code, out, _ = answer(capsys, *ask)
    assert code == 0
    assert "Target mass = 140 g ÷ (1 − 20 %) = 175 g" in out
    assert " oz" not in out


def test_a_food_nobody_knows_can_still_be_reckoned_when_both_percentages_are_given(capsys, journal):
    code, out, _ = answer(
        capsys, *journal, "target", "moon fruit", "--fresh", "1 kg", "--solids", "14", "--moisture", "20"
    )
    assert code == 0
    assert "0.175" in out or "175" in out


def test_a_logged_batch_answers_with_its_card_and_is_there(capsys, journal):
    code, out, _ = answer(capsys, *journal, *LOG, "--json")
    assert code == 0
    said = json.loads(out)
    assert said["batch"] == 1
    assert set(said["figures"]) >= {"Yield by weight", "Moisture now", "Target weight", "Water to bring it back"}
    assert said["verdict"] == "dry enough"
    assert said["dry_enough_probability"] >= 0.8
    moisture = said["moisture"]
    assert 0 <= moisture["low"] <= moisture["value"] <= moisture["high"] < 20
    assert (moisture["unit"], said["schema"]) == ("%", 2)
    assert moisture["value"] == said["figures"]["Moisture now"]["value"]
    assert said["cautions"]
    _, out, _ = answer(capsys, *journal, "batches", "--json")
    listed = json.loads(out)
    assert [b["id"] for b in listed["items"]] == [1]
    assert listed["items"][0]["moisture"] == moisture
    assert listed["items"][0]["dry_enough_probability"] == said["dry_enough_probability"]
    assert listed["schema"] == 2


def test_reading_a_journal_that_is_not_there_makes_no_file(capsys, journal, tmp_path):
    assert answer(capsys, *journal, "batches")[0] == 2
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (("target", "sour cherry", "--fresh", "lots"), "not a weight"),
        (("target", "sour cherry", "--fresh", "40 oz", "--moisture", "95%"), "not below the starting moisture"),
        (("target", "sour cherry", "--fresh", "40 oz", "--solids", "0"), "no solids"),
        (("target", "sour cherry", "--fresh", "40 oz", "--solids", "140"), "between 0 and 100"),
        (("target", "moon fruit", "--fresh", "40 oz"), "moon fruit"),
        (("target", "sour cherry"), "--fresh"),
        (("water", "corn", "--dried", "-3 oz"), "cannot be negative"),
        (("log", "--food", "corn", "--fresh", "7 oz", "--dried", "2 lb"), "not less than"),
        (("log", "--food", "corn", "--fresh", "2 lb", "--dried", "7 oz", "--hours", "soon"), "length of time"),
        (("polish",), "polish"),
    ],
)
def test_bad_input_is_one_sentence_on_stderr_and_changes_nothing(capsys, journal, tmp_path, ask, says):
    code, out, err = answer(capsys, *journal, *ask)
    assert code == 2
    assert says in err
    assert len(err.strip().splitlines()) == 1
    assert out == ""
    assert list(tmp_path.iterdir()) == []


def test_meat_without_a_precook_temperature_is_recorded_with_its_stop(capsys, journal):
    _, out, _ = answer(
        capsys, *journal, "log", "--food", "ground beef", "--fresh", "1 lb", "--dried", "7 oz", "--hours", "6"
    )
    assert "STOP" in out
    assert "safe to eat" not in out.lower()


def test_water_comes_with_the_published_cups_beside_it(capsys, journal):
    _, out, _ = answer(capsys, *journal, "water", "corn", "--dried", "1 cup", "--json")
    said = json.loads(out)
    assert said["unit"] == "ml"
    assert said["measure"]["unit"] == "cup"
    assert said["low"] < said["value"] < said["high"]
    assert any(abs(p["measure"]["value"] - 2.25) < 1e-6 for p in said["published"])


@pytest.mark.parametrize(
    ("verb", "shown"),
    [
        (("target", "apple", "--fresh", "1 kg"), "Target weight: 180 g"),
        (("target", "apple", "--fresh", "40 oz"), "Target weight: 7.2 oz"),
        (("yields", "apple", "--fresh", "1 kg"), "Dried from 1 kg of apple: 18"),
        (("water", "apple", "--dried", "50 g"), "Water: 170 ml"),
    ],
)
def test_text_answers_in_the_system_that_was_typed(capsys, journal, verb, shown):
    code, out, _ = answer(capsys, *journal, *verb)
    assert code == 0
    assert out.startswith(shown)
    assert (" oz" in out.splitlines()[0]) == (" oz" in shown)


@pytest.mark.parametrize("verb", [("target", "--moisture", "10", "--fresh", "1 lb"), ("yields", "--fresh", "1 lb"),
                                  ("water", "--dried", "1 oz")])  # fmt: skip
def test_a_food_of_several_words_needs_no_quotes(capsys, journal, verb):
    word, *options = verb
    code, out, _ = answer(capsys, *journal, word, "sweet", "corn", *options, "--json")
    assert code == 0
    assert json.loads(out)["value"] > 0


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (("target", "", "--fresh", "1 lb", "--solids", "14", "--moisture", "20"), "Name a food"),
        (("target", "apple", "--fresh", "1 lb", "--solids", "0.14"), "write percent, such as 14 %"),
        (("yields", "apple", "--fresh", "-3oz"), "cannot be negative"),
        (("log", "--food", "apple", "--fresh", "1 lb", "--dried", "3 oz", "--start", "0001-01-01 0:00"), "too far"),
        (("restore", "nosuch.dryhouse"), "There is no file"),
    ],
)
def test_odd_input_is_one_sentence_and_makes_no_journal(capsys, journal, given, says):
    code, out, told = answer(capsys, *journal, *given)
    assert (code, out) == (2, "")
    assert says in told
    assert told.count("\n") == 1
    assert not Path(journal[1]).exists()


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (("weigh", "9" * 25, "8 oz"), f"There is no batch “{'9' * 25}”; “dryhouse batches” lists their numbers."),
        (("weigh", "²", "8 oz"), "No running batch is called “²”; “dryhouse batches” lists their numbers."),
        (("cautions", "--lot", "9" * 25), f"There is no lot “{'9' * 25}”; “dryhouse shelf” lists their numbers."),
    ],
)
def test_without_a_journal_named_an_empty_home_has_no_such_batch(capsys, tmp_path, monkeypatch, given, says):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert answer(capsys, *given) == (2, "", f"{says}\n")
    assert not list(tmp_path.rglob("*.dryhouse"))


def test_a_day_that_the_calendar_does_not_reach_is_one_sentence(capsys):
    code, out, told = answer(capsys, "--sample", "shelf", "--on", "9999-12-31")
    assert (code, out) == (2, "")
    assert "is not a day" in told
    assert told.count("\n") == 1


def test_what_a_target_hangs_on_and_is_not_known_is_asked_for_by_its_option(capsys, journal):
    answer(
        capsys, *journal, "log", "--food", "moon fruit", "--fresh", "1 lb", "--dried", "3 oz", "--contains", "plant"
    )
    ask = (*journal, "target", "moon fruit", "--fresh", "1 lb")
    assert answer(capsys, *ask)[2].endswith("give its solids, such as --solids 14%.\n")
    assert answer(capsys, *ask, "--solids", "14")[2].endswith("give one, such as --moisture 10%.\n")


def test_a_batch_whose_weights_do_not_add_up_shows_no_moisture(capsys, journal):
    log = ("log", "--food", "sweet corn", "--fresh", "1 lb", "--dried", "0.5 oz", "--keep-anyway", "--json")
    _, out, _ = answer(capsys, *journal, *log)
    logged = json.loads(out)
    assert logged["verdict"] == "weights don't add up"
    assert "Moisture now" not in logged["figures"]
    assert (round(logged["value"], 2), logged["unit"]) == (3.12, "%")
    _, out, _ = answer(capsys, *journal, "batches", "--json")
    assert json.loads(out)["items"][0]["moisture"] is None


def test_no_batch_in_a_state_is_not_called_an_empty_journal(capsys, journal):
    answer(capsys, *journal, *LOG)
    assert answer(capsys, *journal, "batches", "--state", "drying")[1] == "There is no drying batch.\n"


@pytest.mark.parametrize(("typed", "ounces"), [("6 ears", 21.59), ("two cobs", 7.2), ("2#", 32)])
def test_a_target_may_be_asked_for_by_the_piece(capsys, journal, typed, ounces):
    _, weighed, _ = answer(capsys, *journal, "target", "corn", "--fresh", f"{ounces} oz")
    code, counted, _ = answer(capsys, *journal, "target", "corn", "--fresh", typed)
    assert code == 0
    assert counted.split("(")[0] == weighed.split("(")[0]


def test_a_target_may_be_asked_for_by_the_cup(capsys, journal):
    _, weighed, _ = answer(capsys, *journal, "target", "corn", "--fresh", "435 g", "--json")  # 145 g a cup: USDA
    code, measured, _ = answer(capsys, *journal, "target", "corn", "--fresh", "3 cups", "--json")
    assert code == 0
    weighed, measured = json.loads(weighed), json.loads(measured)
    assert measured["value"] == pytest.approx(weighed["value"], rel=1e-4)
    assert measured["low"] < weighed["low"]
    assert measured["high"] > weighed["high"]
