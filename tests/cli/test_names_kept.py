"""What is typed on the command line is kept: a name that is not known is asked about, never guessed at."""

import json

import pytest

from dryhouse.cli import main
from dryhouse.house import open_kitchen
from dryhouse.kitchen.records import Batch, OwnFood

CHILI = ["log", "--food", "venison chili", "--fresh", "2 lb", "--dried", "7 oz"]


@pytest.fixture
def say(capsys, tmp_path):
    """Run one command on a journal of its own; answers the exit code, the answer and the refusal."""

    def run(*words):
        code = main(["--journal", str(tmp_path / "own.dryhouse"), *words])
        told = capsys.readouterr()
        return code, told.out, told.err

    return run


@pytest.fixture
def kept(tmp_path):
    def records():
        with open_kitchen(tmp_path / "own.dryhouse") as kitchen:
            return kitchen.journal.where(OwnFood), kitchen.journal.where(Batch)

    return records


def test_a_dish_that_is_not_known_is_asked_about_with_what_is_near(say, kept):
    say("log", "--food", "corn", "--fresh", "2 lb", "--dried", "7 oz")
    code, out, err = say(*CHILI)
    assert (code, out) == (2, "")
    assert "Which food is “venison chili”?" in err
    assert "chili with meat" in err
    assert "--contains plant, meat, poultry, fish, egg, milk or unknown" in err
    assert len(kept()[1]) == 1


def test_the_answer_logs_it_as_her_own_food_with_its_stop(say, kept):
    code, out, _ = say(*CHILI, "--contains", "meat", "--contains", "plant", "--json")
    (own,), (batch,) = kept()
    assert code == 0
    assert (own.name, own.contains) == ("venison chili", "meat;plant")
    assert batch.food == own.slug
    assert any(c["severity"] == "stop" for c in json.loads(out)["cautions"])


def test_logged_again_it_is_known_and_the_same_answer_is_no_contradiction(say, kept):
    say(*CHILI, "--contains", "meat")
    assert say(*CHILI)[0] == 0
    assert say(*CHILI, "--contains", "meat")[0] == 0
    code, _, err = say(*CHILI, "--contains", "plant")
    assert code == 2
    assert "“venison chili” is known here, so what is in it is not asked" in err
    assert len(kept()[0]) == 1


def test_an_animals_name_said_to_be_plants_is_asked_about_once_more(say, kept):
    code, _, err = say(*CHILI, "--contains", "plant")
    assert code == 2
    assert "Is there really no meat, fish, egg or milk in it?" in err
    assert "--really-plant" in err
    code, out, _ = say(*CHILI, "--contains", "plant", "--really-plant")
    assert code == 0
    assert "STOP" not in out
    assert kept()[0][0].contains == "plant"


def test_i_do_not_know_is_an_answer_and_a_stop(say, kept):
    code, out, _ = say(*CHILI, "--contains", "unknown")
    assert code == 0
    assert "STOP" in out


def test_a_batch_that_is_refused_leaves_no_food_behind(say, kept):
    say("log", "--food", "corn", "--fresh", "2 lb", "--dried", "7 oz")
    code, _, _ = say("log", "--food", "lotus root", "--fresh", "2 oz", "--dried", "7 oz", "--contains", "plant")
    assert code == 2
    assert kept()[0] == ()


def test_a_misspelt_name_given_with_an_answer_is_her_own_food(say, kept):
    assert say("log", "--food", "chikken", "--fresh", "2 lb", "--dried", "7 oz", "--contains", "poultry")[0] == 0
    assert kept()[0][0].name == "chikken"


@pytest.mark.parametrize(
    "words",
    [("target", "cherries", "--fresh", "40 oz"), ("yields", "peppers", "--fresh", "1 lb"),
     ("water", "cherries", "--dried", "1 cup"), ("keeps", "peppers", "--temp", "60F"), ("cautions", "cherries")],
)  # fmt: skip
def test_a_name_of_several_foods_is_asked_about_by_every_verb(say, words):
    code, out, err = say(*words)
    assert (code, out) == (2, "")
    assert "Which food is" in err


def test_with_solids_and_moisture_given_no_food_is_needed_and_the_cautions_say_which_is_not_known(say):
    words = ("--fresh", "40 oz", "--solids", "14%", "--moisture", "20%", "--json")
    sure = json.loads(say("target", "sour cherry", *words)[1])
    open_ = json.loads(say("target", "cherries", *words)[1])
    assert round(sure["value"], 2) == round(open_["value"], 2) == 7.0
    assert "treat" not in " ".join(c["text"] for c in open_["cautions"])
    assert {c["text"] for c in sure["cautions"]} < {c["text"] for c in open_["cautions"]}
    assert any("Which food “cherries” is" in c["text"] for c in open_["cautions"])
    nobody = json.loads(say("target", "xyzzy", *words)[1])
    assert any(c["severity"] == "stop" for c in nobody["cautions"])
