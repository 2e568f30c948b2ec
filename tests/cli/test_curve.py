"""`dryhouse curve FILE.csv`, as a person or a script calls it."""

from __future__ import annotations

import json
import re

import numpy as np
import pytest

from dryhouse.cli import main

KEYS = {"value", "low", "high", "unit", "measure", "basis", "workings", "cautions", "models", "chosen", "finish"}
HOURS = np.arange(0, 5.1, 0.5)
GRAMS = np.round(77 + 423 * np.exp(-0.24 * HOURS**1.15))


@pytest.fixture
def curve(capsys, tmp_path):
    def ask(text, *arguments, as_json=True):
        file = tmp_path / "run.csv"
        file.write_bytes(text if isinstance(text, bytes) else text.encode())
        more = ["--json"] if as_json else []
        code = main(["--journal", str(tmp_path / "mine.dryhouse"), "curve", str(file), *arguments, *more])
        said = capsys.readouterr()
        return code, json.loads(said.out) if as_json and code == 0 else said.out, said.err

    return ask


def sheet(header="hours,grams", mark=",", comma=False):
    lines = [header, *(f"{h}{mark}{g}" for h, g in zip(HOURS, GRAMS, strict=True))]
    text = "\n".join(lines)
    return text.replace(".", ",") if comma else text


MOISTURES = ("--start-moisture", "85", "--until-moisture", "15")


def test_finish_models_and_the_keys_of_every_answer(curve):
    code, answer, _ = curve(sheet(), *MOISTURES)
    assert code == 0
    assert set(answer) >= KEYS
    assert answer["unit"] == "h"
    finish = answer["finish"]
    assert list(finish) == ["low80", "low50", "median", "high50", "high80"]
    assert list(finish.values()) == sorted(finish.values())
    assert (answer["value"], answer["low"], answer["high"]) == (finish["median"], finish["low80"], finish["high80"])
    truth = (-np.log((75 / 0.85 - 77) / 423) / 0.24) ** (1 / 1.15)
    assert finish["low80"] < truth < finish["high80"]
    assert [m["name"] for m in answer["models"]] == [
        "Lewis", "Page", "Henderson–Pabis", "logarithmic", "Midilli–Kucuk", "two-term",
    ]  # fmt: skip
    page = answer["models"][1]
    assert set(page) >= {"parameters", "sse", "rmse", "r2", "aicc"}
    assert page["parameters"]["n"]["standard_error"] > 0
    assert answer["chosen"] in [m["name"] for m in answer["models"]]
    assert {b["kind"] for b in answer["basis"]} == {"entered", "assumption"}


@pytest.mark.parametrize(
    "text",
    [
        "\ufeff" + sheet(),
        sheet("Hours;Grams", ";", comma=True),
        sheet("HOURS , GRAMS"),
        sheet().replace("\n", "\r\n"),
        "\n" + sheet().replace("\n1.0,", "\n\n1.0,") + "\n\n",
        sheet("minutes,grams").replace("hours", "minutes"),
    ],
    ids=["mark", "semicolons and decimal commas", "capitals", "windows", "blank lines", "minutes"],
)
def test_files_as_people_keep_them(curve, text):
    _, plain, _ = curve(sheet(), *MOISTURES)
    code, answer, _ = curve(text, *MOISTURES)
    assert code == 0
    factor = 1 / 60 if "minutes" in text else 1.0
    assert answer["value"] == pytest.approx(plain["value"] * factor, rel=0.02)


def test_unsorted_and_repeated_times_are_put_right_and_said(curve):
    lines = sheet().split("\n")
    mixed = "\n".join([lines[0], *reversed(lines[1:]), lines[-1]])
    code, answer, _ = curve(mixed, *MOISTURES)
    assert code == 0
    assert any("put in order" in line for line in answer["workings"])
    assert any("more than once" in line for line in answer["workings"])
    assert answer["value"] == pytest.approx(curve(sheet(), *MOISTURES)[1]["value"], rel=0.02)


def test_hours_count_from_the_first_row(curve):
    later = "hours,grams\n" + "\n".join(f"{h + 3},{g}" for h, g in zip(HOURS, GRAMS, strict=True))
    assert curve(later, *MOISTURES)[1]["value"] == pytest.approx(curve(sheet(), *MOISTURES)[1]["value"])


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("hours,grams\n0,500\n1,heavy\n", "Line 3: “heavy”"),
        ("hours,grams\n0,500\n1,\n", "Line 3: the weight is missing"),
        ("hours,grams\n0,500\n,400\n", "Line 3: the time is missing"),
        ("hours,grams\n0,500\n1,-400\n", "Line 3: “-400” cannot be negative"),
        ("hours,grams\n0,500\n1,0\n", "Line 3: the weight must be above 0"),
        ("hours,grams\n0,500\nnan,400\n", "Line 3: “nan”"),
        ("hours,grams\n0,500\n1,inf\n", "Line 3: “inf”"),
        ("when it was,how it felt\n0,500\n1,400\n", "hours and grams"),
        ("hours,grams\n", "no weighings"),
        ("", "no weighings"),
        (b"hours,grams\n\x00\x01", "text file"),
    ],
)
def test_a_bad_line_is_named_and_nothing_is_answered(curve, text, word):
    code, out, err = curve(text, *MOISTURES)
    assert (code, out) == (2, "")
    assert word in err
    assert len(err.strip().splitlines()) == 1


@pytest.mark.parametrize(
    ("options", "word"),
    [
        (("--start-moisture", "110", "--until-moisture", "15"), "between 0 and 100"),
        (("--start-moisture", "-5", "--until-moisture", "15"), "moisture"),
        (("--start-moisture", "10", "--until-moisture", "15"), "not below"),
        (("--start-moisture", "100", "--until-moisture", "15"), "between 0 and 100"),
        (("--food", "moon rock"), "moon rock"),
    ],
)
def test_moistures_and_foods_that_cannot_be(curve, options, word):
    code, _, err = curve(sheet(), *options)
    assert code == 2
    assert word in err


def test_a_file_that_is_not_there(capsys, tmp_path):
    assert main(["curve", str(tmp_path / "none.csv")]) == 2
    assert "no file" in capsys.readouterr().err


def test_masses_alone_are_fitted_and_what_is_missing_is_said(curve):
    code, answer, _ = curve(sheet())
    assert code == 0
    assert answer["finish"] is None
    assert answer["value"] is None
    assert len(answer["models"]) == 6
    assert "--start-moisture" in answer["sentence"]
    assert "--until-moisture" in answer["sentence"]


def test_a_food_brings_its_moistures_and_its_cautions(curve):
    code, answer, _ = curve(sheet(), "--food", "apple")
    assert code == 0
    assert answer["finish"]["median"] > HOURS[-1]
    turkey = curve(sheet(), "--food", "turkey")[1]
    assert any(c["severity"] in ("stop", "warn") for c in turkey["cautions"])
    assert any(b["kind"] == "handbook" for b in answer["basis"])


def test_few_flat_and_rising_weighings_get_a_sentence_and_no_curve(curve):
    few = curve("hours,grams\n0,500\n1,430\n", *MOISTURES)[1]
    flat = curve("hours,grams\n" + "\n".join(f"{h},500" for h in range(6)), *MOISTURES)[1]
    rising = curve("hours,grams\n0,500\n1,520\n2,540\n3,560\n", *MOISTURES)[1]
    assert few["models"] == flat["models"] == rising["models"] == []
    assert few["chosen"] is None
    assert few["finish"] is not None
    assert flat["value"] is None
    assert flat["finish"] is None
    assert rising["finish"] is None
    assert any("hardly moved" in line for line in flat["workings"])
    assert any("weighs more" in line for line in rising["workings"])


def test_a_run_that_is_done_says_when(curve):
    done = "hours,grams\n" + "\n".join(f"{h},{77 + 423 * np.exp(-0.24 * h**1.15):.0f}" for h in range(16))
    answer = curve(done, *MOISTURES)[1]
    assert answer["reached"] == pytest.approx(10.6, abs=1.0)
    assert answer["finish"]["low80"] <= answer["value"] <= answer["finish"]["high80"]


def test_plain_text_says_the_same(curve):
    code, out, _ = curve(sheet(), *MOISTURES, as_json=False)
    assert code == 0
    assert "Dry after about" in out
    assert "* " in out
    assert "basis: entered" in out


def test_times_in_hours_and_minutes_old_line_ends_and_wide_text_read_the_same(curve):
    plain = curve(sheet(), *MOISTURES)[1]["finish"]
    clock = "hours,grams\n" + "".join(
        f"{int(h)}:{round(h % 1 * 60):02d},{g:g}\n" for h, g in zip(HOURS, GRAMS, strict=True)
    )
    for same in (clock, clock.replace(":", "h"), sheet().replace("\n", "\r"), sheet().encode("utf-16")):
        assert curve(same, *MOISTURES)[1]["finish"] == plain


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("hours,grams\n0,5,850,2\n1,5,720,1\n2,5,610,3\n", "Line 2 has more cells"),
        ("hours,grams\n0,850\n1000000,720\n", "more than a year of drying"),
    ],
)
def test_a_file_that_would_be_misread_is_refused_in_one_sentence(curve, text, says):
    code, out, told = curve(text, *MOISTURES)
    assert (code, out) == (2, "")
    assert says in told
    assert told.count("\n") == 1


def test_a_starting_moisture_that_the_weights_contradict_says_so(curve):
    answer = curve(sheet(), "--start-moisture", "30", "--until-moisture", "10")[1]
    assert "Weights don't add up" in answer["sentence"]
    started_too_dry = curve(
        "hours,grams\n0,500\n1,300\n2,250\n", "--start-moisture", "20", "--until-moisture", "5"
    )[1]
    assert started_too_dry["models"]
    assert "Weights don't add up" in started_too_dry["sentence"]


def test_a_logger_that_weighed_every_second_is_read_whole(curve):
    hours = np.linspace(0, 5, 20_000)
    grams = 77 + 423 * np.exp(-0.24 * hours**1.15)
    text = "hours,grams\n" + "".join(f"{h:.5f},{g:.2f}\n" for h, g in zip(hours, grams, strict=True))
    answer = curve(text, *MOISTURES)[1]
    assert {m["n"] for m in answer["models"]} == {20_000}
    page = next(m["parameters"] for m in answer["models"] if m["name"] == "Page")
    assert page["n"]["value"] == pytest.approx(1.15, abs=0.01)


def test_the_next_weighing_is_told_as_a_span_of_time(capsys, tmp_path):
    file = tmp_path / "run.csv"
    file.write_text("hours,grams\n0,500\n", encoding="utf-8")
    assert main(["curve", str(file), "--food", "carrot"]) == 0
    said = capsys.readouterr().out
    again = re.search(r"Weigh again (\d+) min after the first weighing\.", said)
    assert again is not None
    assert int(again[1]) >= 30


@pytest.mark.parametrize("more", [(), ("--until-moisture", "3")])
def test_a_starting_moisture_that_cannot_be_is_said_and_no_curve_is_reckoned_from_it(capsys, tmp_path, more):
    file = tmp_path / "run.csv"
    rows = "".join(f"{hour},{1000 * 0.8**hour:.1f}\n" for hour in range(10))
    file.write_text("hours,grams\n" + rows, encoding="utf-8")
    assert main(["curve", str(file), "--start-moisture", "5", *more, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert "Weights don't add up" in answer["sentence"]
    assert answer["finish"] is None
    assert all(model["r2"] > 0.9 for model in answer["models"])


def test_a_rise_in_a_file_is_told_with_the_finish_it_moves(capsys, tmp_path):
    file = tmp_path / "run.csv"
    for readings, told in (((430, 480), True), ((430, 433), False)):
        rows = enumerate((1000, 720, 540, *readings, 360))
        file.write_text("hours,grams\n" + "".join(f"{2 * n},{grams}\n" for n, grams in rows))
        assert main(["curve", str(file), *MOISTURES]) == 0
        said = capsys.readouterr().out
        assert ("The weight rises 1 time, most between 6 h and 8 h" in said) == told
        assert ("leave that line out" in said) == told
