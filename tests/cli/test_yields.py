"""`dryhouse yields`, as a script would call it."""

import json

import pytest

from dryhouse.cli import main


@pytest.fixture
def run(tmp_path, capsys):
    """Run the verb on a journal that does not exist yet; answer its exit code, its output and its complaint."""

    def run(*arguments):
        code = main(["--journal", str(tmp_path / "journal.dryhouse"), "yields", *arguments])
        said = capsys.readouterr()
        return code, said.out, said.err

    return run


def test_a_cup_of_fresh_corn(run):
    code, out, _ = run("sweet corn", "--fresh", "1 cup", "--json")
    answer = json.loads(out)
    assert code == 0
    assert answer["unit"] == "g"
    assert answer["low"] < answer["value"] < answer["high"]
    assert answer["measure"]["unit"] == "cup"
    assert answer["n_own"] == 0
    assert {"kind", "n", "source"} == set(answer["basis"][0])
    assert any("145 g" in line for line in answer["workings"])


def test_dried_wanted_says_what_to_buy_and_how_long(run):
    _, out, _ = run("onion", "--dried", "8 oz", "--form", "chopped", "--json")
    answer = json.loads(out)
    assert answer["unit"] == "oz"
    assert 40 < answer["value"] < 100
    assert answer["as_purchased"]["value"] > answer["prepared"]["value"]
    assert answer["hours"]["unit"] == "h"
    assert answer["trays"] == []


def test_plain_text_says_the_answer_its_interval_and_what_to_buy(run):
    code, out, _ = run("onion", "--fresh", "2 lb")
    assert code == 0
    assert out.startswith("Dried from 2 lb of onion: ")
    assert "80 %" in out
    assert "as purchased: " in out


def test_animal_food_carries_its_cautions(run):
    _, out, _ = run("turkey, cooked", "--fresh", "1 lb", "--json")
    assert any(c["severity"] == "stop" for c in json.loads(out)["cautions"])


@pytest.mark.parametrize(
    "arguments",
    [
        ("sweet corn", "--fresh", "−1 cup"),
        ("sweet corn", "--fresh", "much"),
        ("sweet corn", "--fresh", "3 h"),
        ("qqqqq", "--fresh", "1 cup"),
        ("sweet corn",),
        ("sweet corn", "--fresh", "1 cup", "--dried", "1 cup"),
    ],
)
def test_what_cannot_be_used_is_refused_in_one_sentence(run, arguments):
    code, out, err = run(*arguments)
    assert code == 2
    assert out == ""
    assert len(err.strip().splitlines()) == 1


def test_a_cut_that_nothing_is_known_of_is_said_to_be(run):
    _, said, _ = run("sweet corn", "--fresh", "1 cup", "--form", "ribbons")
    assert "Nothing is known of sweet corn as “ribbons”: this is for any cut." in said
    _, said, _ = run("onion", "--fresh", "1 cup", "--form", "chopped")
    assert "Nothing is known" not in said
