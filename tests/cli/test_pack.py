"""`dryhouse pack`."""

from __future__ import annotations

import json
from datetime import UTC, datetime

import pytest

from dryhouse.cli import main
from dryhouse.house import open_kitchen
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Place, PlaceTemperature
from dryhouse.science.quantities import parse_temperature

POT = ["log", "--food", "bean chili", "--fresh", "2124 g", "--dried", "348 g", "--hours", "10", "--temp", "135 F"]


@pytest.fixture
def say(capsys, tmp_path):
    def run(*words):
        code = main(["--journal", str(tmp_path / "own.dryhouse"), *words])
        told = capsys.readouterr()
        return code, told.out, told.err

    return run


def test_a_pot_is_packed_serving_by_serving(say):
    say(*POT, "--servings", "6", "--part", "kidney bean=900 g", "--part", "tomato=800 g")
    code, out, _ = say("pack", "1", "--servings-each", "1")
    assert code == 0
    assert "Packed bean chili, batch 1 into 6 bags." in out or "into 6 bags." in out
    assert "1 of 6: 2 oz dried, about 1¼ cups of water" in out
    assert "STOP: " in out
    items = json.loads(say("shelf", "--json")[1])["items"]
    assert [item["portion"]["number"] for item in items] == [1, 2, 3, 4, 5, 6]
    assert items[0]["portion"]["sentence"].startswith("1 of 6: 2 oz dried")
    assert say("pack", "1", "--servings-each", "1")[0] == 2


def test_the_servings_may_be_said_when_it_is_packed(say):
    say(*POT)
    code, _, err = say("pack", "1", "--servings-each", "2")
    assert (code, len(err.splitlines())) == (2, 1)
    assert "how many servings" in err
    code, out, _ = say("pack", "1", "--servings-each", "2", "--servings", "6", "--json")
    assert code == 0
    assert [round(item["grams"]) for item in json.loads(out)["items"]] == [116, 116, 116]


def test_any_batch_is_packed_into_so_many(say):
    say("log", "--food", "corn", "--fresh", "2 lb", "--dried", "7 oz")
    code, out, _ = say("pack", "1", "--into", "2", "--package", "jar", "--json")
    assert code == 0
    assert len(json.loads(out)["items"]) == 2
    assert say("pack", "7")[0] == 2
    assert say("pack", "1", "--place", "attic")[0] == 2


def test_what_is_packed_is_not_packed_again(say):
    """No jar without anything in it, and no second cup out of the first."""
    say("log", "--food", "corn", "--fresh", "2 lb", "--dried", "7 oz")
    say("log", "--food", "carrot", "--fresh", "3 cups", "--dried", "1 cup")
    for batch in ("1", "2"):
        assert say("pack", batch, "--into", "2")[0] == 0
        for again in ((), ("--into", "3")):
            code, _, err = say("pack", batch, *again)
            assert code == 2
            assert "is packed already" in err
    items = json.loads(say("shelf", "--json")[1])["items"]
    assert len(items) == 4
    assert sum(item["value"] for item in items if item["food"] == "corn") == pytest.approx(198.4, abs=0.1)
    assert sum(item["measure"]["value"] for item in items if item["food"] == "carrot") == pytest.approx(1.0)


def test_a_batch_may_be_packed_by_its_name(say):
    say("log", "--food", "corn", "--fresh", "2 lb", "--dried", "7 oz")
    say("log", "--food", "carrot", "--fresh", "2 lb", "--dried", "4 oz")
    assert say("pack", "corn")[0] == 0
    code, _, err = say("pack", "corn")
    assert (code, "still to be packed" in err) == (2, True)
    say("log", "--food", "carrot", "--fresh", "2 lb", "--dried", "4 oz")
    code, _, err = say("pack", "carrot")
    assert (code, "(2, 3); give its number" in err) == (2, True)


def test_servings_said_with_a_packing_that_is_refused_are_not_kept(say):
    say(*POT)
    assert say("pack", "1", "--servings", "6", "--into", "999")[0] == 2
    assert say("pack", "1", "--servings-each", "1")[0] == 2, "nothing was recorded"


def test_the_arithmetic_of_keep_by_and_water_is_shown_once_where_it_is_asked_for(say, tmp_path):
    for _ in range(2):
        say("log", "--food", "corn", "--fresh", "2 lb", "--dried", "8 oz", "--felt", "brittle")
    with open_kitchen(tmp_path / "own.dryhouse", write=True) as kitchen:
        known = PlaceTemperature(1, datetime(2020, 1, 1, tzinfo=UTC), parse_temperature("60 F"), id=1)
        kitchen.write([Change(None, Place("pantry", id=1)), Change(None, known)])
    code, out, _ = say("pack", "1", "--into", "2", "--place", "pantry", "--workings")
    assert code == 0
    # 4 oz in each of two jars, dried to 8 of 32 oz: a quarter
    assert out.count("  Fresh it weighed 4 oz ÷ 0.25 = 16 oz\n") == 1
    # corn at 60 °F is published to keep 6 months of 30.44 days
    assert out.count("  pantry: Published life: 182.6 days at 60 °F ") == 1
    code, out, _ = say("pack", "2")
    assert code == 0
    assert "Fresh it weighed" not in out
    assert "--workings" not in out, "it cannot be packed again"


def test_what_must_not_be_eaten_is_packed_without_arithmetic(say):
    say("log", "--food", "turkey", "--fresh", "1 lb", "--dried", "5.4 oz")
    code, out, _ = say("pack", "1", "--workings")
    assert code == 0
    assert "STOP: " in out
    assert "Its own batch" not in out
    assert "Assumed: " not in out
