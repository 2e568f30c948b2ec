"""The command line says little at once: the answer, every stop, what matters now, and the way to the rest."""

from __future__ import annotations

import argparse
import json
import re

import pytest

from dryhouse.cli import main
from dryhouse.cli.answers import MOST_LINES, say_answer

LOOK_UPS = [
    (verb, food, *more)
    for food in ("carrot", "apple", "basil", "button mushroom", "turkey", "ground venison", "ground beef, cooked")
    for verb, *more in (("yields", "--fresh", "2 lb"), ("target", "--fresh", "2 lb"), ("water", "--dried", "2 oz"))
]
LOG = ("log", "--start", "2026-11-20 18:00", "--hours", "9h30", "--temp", "145 F", "--fresh", "2 lb")
HEATED = ("--precook", "175 F", "--precook-method", "simmered or steamed", "--precook-measured", "thermometer")
BATCHES = [
    (1, (*LOG, "--food", "carrot", "--dried", "3.9 oz", "--felt", "brittle")),
    (3, (*LOG, "--food", "turkey", "--dried", "11 oz", "--felt", "brittle", *HEATED)),
    (3, (*LOG, "--food", "turkey", "--dried", "11 oz", "--felt", "brittle")),
]
_MORE = re.compile(r"and (\d+) more cautions?: add --cautions")


@pytest.fixture
def ask(capsys, tmp_path):
    def ask(*words):
        assert main(["--journal", str(tmp_path / "mine.dryhouse"), *words]) == 0
        return capsys.readouterr().out

    return ask


def weights(out):
    """How many stops, and how many cautions below them, are said in full."""
    lines = [line.strip() for line in out.splitlines()]
    return sum(line.startswith("STOP") for line in lines), sum(line.startswith(("WARN", "NOTE")) for line in lines)


def is_calm(out, most, cautions):
    """Whether no more is said than fits, and everything else is counted."""
    stops, below = weights(out)
    assert stops == sum(c["severity"] == "stop" for c in cautions)
    assert below <= most
    assert len(out.splitlines()) - stops <= MOST_LINES
    folded = sum(int(n) for n in _MORE.findall(out))
    assert stops + below + folded == len(cautions)


@pytest.mark.parametrize("words", LOOK_UPS, ids=" ".join)
def test_a_look_up_says_every_stop_and_two_cautions(ask, words):
    is_calm(ask(*words), 2, json.loads(ask(*words, "--json"))["cautions"])


@pytest.mark.parametrize(("most", "words"), BATCHES)
def test_a_logged_batch_says_every_stop_and_little_else(ask, most, words):
    is_calm(ask(*words), most, json.loads(ask(*words, "--json"))["cautions"])


def test_all_is_said_when_it_is_asked_for(ask):
    words = ("target", "turkey", "--fresh", "2 lb")
    everything = json.loads(ask(*words, "--json"))
    out = ask(*words, "--cautions", "--workings")
    assert all(c["text"] in out and c["source"] in out for c in everything["cautions"])
    assert all(line in out for line in everything["workings"])
    assert all(b["source"] in out for b in everything["basis"])
    assert "add --" not in out


def test_a_batch_that_must_not_be_eaten_promises_nothing(ask):
    words = BATCHES[2][1]
    said = json.loads(ask(*words, "--json"))
    assert said["verdict"] is None
    assert not any(title.startswith(("Keeps", "Water")) for title in said["figures"])
    assert "Do not eat." in said["sentences"][0]
    out = ask(*words)
    assert not re.search("dry enough|Keeps|Water to bring", out)
    heated = json.loads(ask(*BATCHES[1][1], "--json"))
    assert heated["verdict"] == "dry enough"
    assert any(title.startswith("Keeps") for title in heated["figures"])


def test_the_list_of_batches_carries_their_cautions(ask):
    for _, words in BATCHES:
        ask(*words)
    items = {item["id"]: item for item in json.loads(ask("batches", "--json"))["items"]}
    carrot, heated, unheated = items[1], items[2], items[3]
    assert (carrot["verdict"], heated["verdict"]) == ("dry enough", "dry enough")
    assert (unheated["verdict"], unheated["water"], unheated["sentence"]) == (None, None, None)
    assert heated["water"] > 0
    assert {c["rule"] for c in unheated["cautions"]} >= {"heat-poultry-missing", "drying-does-not-kill"}
    assert set(carrot["cautions"][0]) == {"severity", "text", "source", "rule", "reason", "moment"}
    out = ask("batches")
    (row,) = [line for line in out.splitlines() if line.startswith("    3 ")]
    assert row.endswith("do not eat")
    assert weights(out)[0] == sum(c["severity"] == "stop" for item in items.values() for c in item["cautions"])
    every = ask("batches", "--cautions")
    assert all(c["text"] in every for item in items.values() for c in item["cautions"])


def test_the_way_to_the_arithmetic_is_told_only_where_there_is_some(capsys):
    plain = argparse.Namespace(workings=False, cautions=False)
    say_answer(plain, ["the answer"], details=["from the handbook"])
    assert "--workings" not in capsys.readouterr().out
    say_answer(plain, ["the answer"], details=["from the handbook"], workings=["1 + 1 = 2"])
    assert "add --workings" in capsys.readouterr().out
