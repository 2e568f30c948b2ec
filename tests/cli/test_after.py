"""`after` as a script calls it."""

import json
from datetime import date, timedelta

import pytest

from dryhouse.cli import main
from dryhouse.house import open_kitchen
from dryhouse.kitchen.meals.meals import draft_part, save_meal
from dryhouse.kitchen.records import AfterTrip, Meal, Trip
from dryhouse.kitchen.trips.trips import put_meal, save_trip

DAY = date(2026, 8, 22)


@pytest.fixture
def say(tmp_path, capsys):
    file = tmp_path / "mine.dryhouse"
    with open_kitchen(file, write=True) as kitchen:
        save_meal(kitchen, Meal("Carrot couscous", 1.0), [draft_part(kitchen, "carrot", "30 g")])
        save_trip(kitchen, Trip("lakes 2026", DAY, DAY + timedelta(days=2), 4))
        put_meal(kitchen, 1, 1, DAY)

    def said(*arguments):
        code = main(["--journal", str(file), "after", *arguments])
        out = capsys.readouterr()
        return code, out.out, out.err

    said.file = file
    return said


def test_nothing_is_noted_until_it_is_said(say):
    assert say("lakes", "2026") == (0, "lakes 2026: Nothing is noted yet of how it was.\n", "")


def test_what_is_said_is_kept_and_adds_to_what_was_said_before(say):
    code, out, _ = say("lakes 2026", "--uneaten", "carrot=1", "--change", "carrot couscous=more oil")
    assert code == 0
    assert "Carrot couscous: 1 of 4 servings came back; more oil." in out
    assert "The next one takes Carrot couscous 3 servings a bag in place of 4." in out
    say("lakes 2026", "--short", "carrot=2")
    with open_kitchen(say.file) as kitchen:
        (note,) = kitchen.journal.where(AfterTrip)
    assert (note.uneaten, note.short, note.change) == (1.0, 2.0, "more oil")
    found = json.loads(say("lakes 2026", "--json")[1])
    (item,) = found["items"]
    assert (item["servings"], item["uneaten"], item["short"], item["share_pct"]) == (4.0, 1.0, 2.0, 125.0)
    assert "125 %" in item["workings"][0]
    assert "125 %" in say("lakes 2026", "--workings")[1]


def test_it_is_planned_again(say):
    say("lakes 2026", "--uneaten", "carrot=2")
    code, out, _ = say("lakes 2026", "--again", "2027-08-21")
    assert code == 0
    assert out.endswith("Planned lakes 2027 after lakes 2026, Carrot couscous 2 servings a bag in place of 4.\n")
    with open_kitchen(say.file) as kitchen:
        assert [t.name for t in kitchen.journal.where(Trip)] == ["lakes 2026", "lakes 2027"]


@pytest.mark.parametrize(
    "wrong",
    [
        ["--uneaten", "carrot"],
        ["--uneaten", "carrot=much"],
        ["--uneaten", "carrot=5"],
        ["--short", "haggis=1"],
        ["--again", "someday"],
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence_and_nothing_is_written(say, wrong):
    code, out, err = say("lakes 2026", *wrong)
    assert (code, out) == (2, "")
    assert len(err.splitlines()) == 1
    with open_kitchen(say.file) as kitchen:
        assert kitchen.journal.where(AfterTrip) == ()
        assert len(kitchen.journal.where(Trip)) == 1
