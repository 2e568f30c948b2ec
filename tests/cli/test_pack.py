"""`dryhouse pack`."""

from __future__ import annotations

import json

import pytest

from dryhouse.cli import main

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
