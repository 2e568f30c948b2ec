"""`shelf`, `keeps` and `cautions` on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from dryhouse.cli import main
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import LotDraw
from dryhouse.kitchen.records.lots import THROWN_OUT
from tests.kitchen.shelf_room import FREEZER, ROOM, TODAY, a_batch, packed


@pytest.fixture
def file(tmp_path):
    from dryhouse.handbook.reader import handbook

    path = tmp_path / "journal.dryhouse"
    journal = open_journal(path, write=True)
    journal.write([Change(None, r) for r in (*ROOM, a_batch(), a_batch("turkey", 2))])
    kitchen = Kitchen(journal, handbook())
    packed(kitchen, 1, 2)
    packed(kitchen, 2, FREEZER)
    journal.close()
    return str(path)


def answer(capsys, *arguments):
    assert main(arguments) == 0
    return json.loads(capsys.readouterr().out)


def test_shelf_lists_standing_keep_by_and_what_to_use_first(capsys, file):
    items = answer(capsys, "--journal", file, "shelf", "--on", "2026-11-25", "--json")["items"]
    by_food = {item["food"]: item for item in items}
    corn, turkey = by_food["corn"], by_food["turkey"]
    assert (corn["standing"], corn["first"], corn["place"]) == ("keeping", 1, "cellar")
    assert corn["value"] == 240.0
    assert corn["measure"]["unit"] == "cup"
    assert corn["basis"]
    assert corn["workings"]
    assert (turkey["standing"], turkey["keep_by"], turkey["days_left"]) == ("do not eat", None, None)
    assert (corn["verdict"], turkey["verdict"], turkey["workings"]) == ("dry enough", None, [])
    assert any(c["severity"] == "stop" and "USDA" in c["source"] for c in turkey["cautions"])


def test_shelf_in_words_prints_every_stop(capsys, file):
    assert main(["--journal", file, "shelf", "--on", "2026-11-25"]) == 0
    said = capsys.readouterr().out
    assert "STOP" in said
    assert "do not eat" in said
    items = answer(capsys, "--journal", file, "shelf", "--on", "2026-11-25", "--json")["items"]
    every = [caution for item in items for caution in item["cautions"]]
    assert said.count("STOP: ") == sum(c["severity"] == "stop" for c in every) > 0
    assert f"and {sum(c['severity'] != 'stop' for c in every)} more cautions: add --cautions" in said
    assert main(["--journal", file, "shelf", "--on", "2026-11-25", "--cautions"]) == 0
    in_full = capsys.readouterr().out
    assert all(c["text"] in in_full for c in every)
    assert "use first" in said


def test_an_empty_shelf_says_what_to_do(capsys, tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert main(["shelf"]) == 0
    assert "Pack a batch" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("food", "temp", "days"),
    [
        ("apple", "60F", 365.25),
        ("apple", "80F", 182.625),
        ("beef jerky", "70F", 14),
        ("apricot", "90F", 30.4375),
        ("walnuts", "70F", 30.4375),
        ("peanut butter", "70F", 30.4375),
        ("dried coconut", "0F", 182.625),
    ],
)
def test_keeps_answers_in_days(capsys, tmp_path, food, temp, days):
    found = answer(capsys, "--journal", str(tmp_path / "x"), "keeps", *food.split(), "--temp", temp, "--json")
    assert found["value"] == pytest.approx(days)
    assert found["unit"] == "day"
    assert found["basis"][-1]["kind"] == "handbook"
    assert (found["basis"][0]["kind"] == "assumption") == (food == "dried coconut")
    assert found["low"] is None


def test_cautions_of_a_food_a_batch_and_a_lot(capsys, file):
    for arguments in (["turkey"], ["--batch", "2"], ["--lot", "2"]):
        found = answer(capsys, "--journal", file, "cautions", *arguments, "--json")
        assert found["cautions"][0]["severity"] == "stop"
        assert found["value"] == len(found["cautions"])
    assert main(["--journal", file, "cautions", "turkey"]) == 0
    said = capsys.readouterr().out
    assert "because" in said
    assert "Source" in said


@pytest.mark.parametrize(
    "arguments",
    [
        ["keeps", "apple", "--temp", "hot"],
        ["keeps", "apple", "--temp", "300F"],
        ["keeps", "apple", "--temp", "60F", "--package", "basket"],
        ["keeps", "apple", "--temp", "60F", "--package", "open container"],
        ["keeps", "egg", "--temp", "60F"],
        ["keeps", "zzzqqq", "--temp", "60F"],
        ["cautions"],
        ["cautions", "turkey", "--batch", "1"],
        ["cautions", "--batch", "99"],
        ["cautions", "--lot", "99"],
        ["shelf", "--on", "someday"],
    ],
)
def test_bad_input_is_one_sentence_and_exit_two(capsys, tmp_path, arguments):
    assert main(["--journal", str(tmp_path / "x"), *arguments]) == 2
    err = capsys.readouterr().err.strip()
    assert err
    assert "\n" not in err


@pytest.mark.parametrize(
    ("typed", "meant"), [("vacuum", "vacuum bag"), ("Jar", "jar"), ("absorber", "jar with absorber")]
)
def test_a_package_may_be_named_in_part(capsys, tmp_path, typed, meant):
    code = main(["--journal", str(tmp_path / "a"), "keeps", "apple", "--temp", "70F", "--package", typed, "--json"])
    assert code == 0
    assert json.loads(capsys.readouterr().out)["package"] == meant


@pytest.mark.parametrize("bought", ["olive oil", "table salt", "honey", "dried egg", "dry milk, whole"])
def test_what_no_rule_speaks_of_goes_by_its_package(capsys, tmp_path, bought):
    """Salt and oil are no dried vegetables; and dry milk is not milk dried at home."""
    asked = ["--journal", str(tmp_path / "a"), "keeps", *bought.split(), "--temp", "70F"]
    unknown = answer(capsys, *asked, "--json")
    assert (unknown["value"], unknown["at_least"]) == (None, False)
    assert main(asked) == 0
    said = capsys.readouterr().out
    assert "go by the date on its package" in said
    assert "Do not dry" not in said.splitlines()[0]


def test_fish_keeps_no_more_than_its_limit_in_a_colder_refrigerator(capsys, tmp_path):
    for temp, least in (("38F", False), ("0F", True)):
        found = answer(capsys, "--journal", str(tmp_path / "a"), "keeps", "salmon", "--temp", temp, "--json")
        assert (found["value"], found["at_least"]) == (14, least)


def test_a_jar_that_is_gone_says_how_and_nothing_of_what_is_left(capsys, file):
    journal = open_journal(Path(file), write=True)
    journal.write([Change(None, LotDraw(1, TODAY, THROWN_OUT, id=1))])
    journal.close()
    assert main(["--journal", file, "shelf", "--gone"]) == 0
    (gone,) = [line for line in capsys.readouterr().out.splitlines() if "thrown out" in line]
    assert gone.split(": ")[1].startswith("thrown out, packed ")
    assert "keep-by" not in gone
    assert "0 oz" not in gone


def test_a_row_says_why_a_lot_is_not_to_be_used_and_nothing_more_of_one_that_keeps(capsys, file):
    standing = {}
    for day in ("2026-11-25", "2027-04-01", "2027-05-01"):
        assert main(["--journal", file, "shelf", "--on", day]) == 0
        out = capsys.readouterr().out.splitlines()
        turkey, corn = (next(n for n, line in enumerate(out) if name in line) for name in ("Turkey", "Sweet corn"))
        assert out[turkey + 1].startswith(
            "        No record of heating to 165 °F (74 °C): do not eat (no temperature "
        )
        assert not out[corn + 1].startswith("        ")
        standing[day] = out[corn].split(": ")[1].split(", ")[:3]
    assert standing == {
        "2026-11-25": ["keeping", "keep-by 26 Apr 2027", "8.5 oz · 1¾ cups"],
        "2027-04-01": ["use soon", "keep-by 26 Apr 2027", "8.5 oz · 1¾ cups"],
        "2027-05-01": ["past keep-by", "26 Apr 2027", "8.5 oz · 1¾ cups"],
    }


def test_every_value_of_a_lot_stands_under_its_name(capsys, file):
    turkey, corn = answer(capsys, "--journal", file, "shelf", "--on", "2027-04-01", "--json")["items"]
    assert (corn["lot"], corn["batch"], corn["package"], corn["unit"]) == (1, 1, "jar", "g")
    assert (corn["keep_by"], corn["days_left"], corn["at_least"]) == ("2027-04-26", 25, False)
    assert (corn["reason"], corn["first"], corn["portion"]) == ("keeps until 26 Apr 2027", 1, None)
    assert corn["measure"]["value"] == pytest.approx(1.75, abs=0.05)
    assert corn["dry_enough_probability"] > 0.8
    assert corn["water"]["unit"] == "ml"
    assert (turkey["water"], turkey["dry_enough_probability"], turkey["basis"]) == (None, None, [])
    assert (turkey["first"], turkey["measure"]) == (None, None)


def test_how_long_it_keeps_is_said_in_words(capsys, tmp_path):
    said = {}
    for temp in ("60F", "20F"):
        assert main(["--journal", str(tmp_path / "x"), "keeps", "apple", "--temp", temp]) == 0
        said[temp] = capsys.readouterr().out.splitlines()[0]
    assert said == {"60F": "Keeps: 12 months", "20F": "Keeps at least: 12 months"}
    for temp, code in (("-76F", 0), ("140F", 0), ("-77F", 2), ("141F", 2)):
        assert main(["--journal", str(tmp_path / "x"), "keeps", "apple", "--temp", temp]) == code

    for typed, code in (("", 2), ("jar bag", 2), ("bag", 0), ("bag vacuum", 0), ("with", 0)):
        assert (
            main(["--journal", str(tmp_path / "x"), "keeps", "apple", "--temp", "60F", "--package", typed]) == code
        )
