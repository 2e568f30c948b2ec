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


def lines(run, *arguments):
    code, out, _ = run(*arguments)
    assert code == 0
    return [line for line in out.splitlines() if not line.strip().startswith(("WARN", "NOTE", "STOP"))]


def test_what_to_buy_and_how_long_stand_below_the_answer(run):
    fresh = lines(run, "corn", "--fresh", "2 lb")
    assert fresh[0].startswith("Dried from 2 lb of sweet corn: 8.5 oz  (80 %: ")
    assert fresh[1] == "  by measure: 1¾ cups"
    assert fresh[2].startswith("  basis: handbook: ")
    assert fresh[3].startswith("  as purchased: 5 lb ")
    assert fresh[4].endswith(": 8 h")
    dried = lines(run, "corn", "--dried", "8 oz")
    assert dried[0].startswith("Fresh sweet corn, prepared, for 8 oz dried: 1 lb 14.1 oz  (80 %: ")
    counted = lines(run, "corn", "--fresh", "6 ears")
    assert counted[0].startswith("Dried from 1 lb 5.6 oz of sweet corn: ")
    assert any(line.startswith("  6 ears: 1 lb 5.6 oz   [USDA ") for line in counted)
    cut = lines(run, "corn", "--fresh", "2 lb", "--form", "spirals")
    assert cut[3] == "  Nothing is known of sweet corn as “spirals”: this is for any cut."
    known = lines(run, "onion", "--fresh", "2 lb", "--form", "spirals")
    assert any(" Known cuts: " in line for line in known)
    # the table has a cup of carrot “strips or slices” beside one of “slices”
    carrot = "\n".join(lines(run, "carrot", "--fresh", "2 lb", "--form", "spirals"))
    assert " Known cuts: chopped, grated, slices, strips.\n" in carrot
    assert not any("for any cut" in line for line in fresh)


def test_the_arithmetic_of_what_to_buy_and_of_the_hours_is_there_when_asked_for(run):
    worked = "\n".join(lines(run, "corn", "--fresh", "2 lb", "--workings"))
    for said in (
        "Mass balance: 23.95 % ÷ 90 % = 0.2661",
        "As purchased: 32 oz ÷ (1 − 64 % refuse) = 88.89 oz",
        "Hours: 8 h",
    ):
        assert f"\n  {said}" in worked
    answer = json.loads(run("corn", "--fresh", "2 lb", "--json")[1])
    assert (answer["n_own"], answer["left_out"], answer["own"], answer["sentence"]) == (0, 0, None, None)
    assert set(answer["handbook"]) == set(answer["hours"]) == {"value", "low", "high", "unit"}
    assert answer["as_purchased"]["value"] == pytest.approx(907.18474 / 0.36)
    assert answer["prepared"]["value"] == pytest.approx(907.18474)
