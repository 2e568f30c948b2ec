"""`weigh` and `batches`, as a person or a script calls them, on a journal on disk."""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime, timedelta

import pytest

from dryhouse.cli import main
from dryhouse.handbook.reader import handbook
from dryhouse.house import open_kitchen
from dryhouse.kitchen.dryer.drying import CameOff, start_batch, take_off, weighings_of
from dryhouse.kitchen.records import Batch
from dryhouse.science.quantities import Mass

KEYS = {"value", "low", "high", "unit", "measure", "basis", "workings", "cautions"}


@pytest.fixture
def journal(tmp_path):
    return tmp_path / "mine.dryhouse"


@pytest.fixture
def batch(journal):
    """Two pounds of apple slices, put on eight hours ago."""
    with open_kitchen(journal, write=True) as kitchen:
        started = datetime.now(UTC) - timedelta(hours=8)
        draft = Batch(handbook().identify("apple").slug, prepared_mass=Mass(907.18474, "2 lb"), started=started)
        return start_batch(kitchen, draft).record.id


def call(capsys, journal, *arguments):
    code = main(["--journal", str(journal), *map(str, arguments)])
    said = capsys.readouterr()
    return code, said.out, said.err


def test_a_reading_needs_no_quotation_marks(capsys, journal, batch) -> None:
    code, out, _err = call(capsys, journal, "weigh", batch, "1", "lb", "12", "oz")
    assert code == 0
    assert out.startswith("Recorded 1 lb 12 oz for apple, batch 1")


def test_a_weighing_answers_moisture_verdict_and_forecast(capsys, journal, batch) -> None:
    for ago, reading in (("7 h ago", "28 oz"), ("6 h ago", "24.2 oz"), ("5 h ago", "21 oz"), ("3 h ago", "16 oz")):
        code, out, err = call(capsys, journal, "weigh", batch, reading, "--at", ago)
        assert (code, err) == (0, "")
    assert out.startswith("Recorded 16 oz for apple, batch 1")
    assert re.search(r"Load 1 lb at .*\d\d:\d\d, dry at", out)
    assert re.search(r"Now about .*\(.* to .*\), .* % moisture", out)
    assert re.search(r"Still moist by weight: \d+ % moisture \(", out)
    assert "Moisture: " not in out, "the moisture is said once"
    assert "AICc" not in out, "models are named under Curves alone"
    assert "Even odds: between" in out
    assert "Weigh again" in out or "Weigh now" in out


def test_what_came_off_long_ago_is_weighed_only_for_a_moment_of_its_run(capsys, journal) -> None:
    call(
        capsys, journal, "log", "--food", "apple", "--fresh", "2 lb", "--dried", "5 oz",
        "--start", "2026-03-04 18:00", "--hours", "9h30",
    )  # fmt: skip
    code, _, err = call(capsys, journal, "weigh", "1", "6 oz")
    assert code == 2
    assert err.startswith("Apple, batch 1, came off the dryer on Thu 5 Mar 2026. Say with --at")
    code, _, err = call(capsys, journal, "weigh", "1", "20 oz", "--at", "2026-03-04 22:00")
    assert (code, err) == (0, "")


def test_the_json_answer_has_the_keys_of_every_figure(capsys, journal, batch) -> None:
    _, out, _ = call(capsys, journal, "weigh", "apple", "20 oz", "--json")
    said = json.loads(out)
    assert set(said) >= KEYS
    assert said["unit"] == "%"
    assert said["batch"] == batch
    assert said["verdict"] == "still moist"
    assert set(said["finish"]) == {"low80", "low50", "median", "high50", "high80"}


def test_a_tare_is_given_once(capsys, journal, batch) -> None:
    call(capsys, journal, "weigh", batch, "30 oz", "--tare", "10 oz", "--at", "2 h ago")
    call(capsys, journal, "weigh", batch, "26 oz")
    with open_kitchen(journal) as kitchen:
        assert [round(w.net_g / 28.349523125, 6) for w in weighings_of(kitchen, batch)] == [20, 16]


def test_the_sample_tray_is_weighed_by_itself(capsys, journal, batch) -> None:
    call(capsys, journal, "weigh", batch, "250 g", "--sample-tray", "--at", "470 min ago")
    code, out, _ = call(capsys, journal, "weigh", batch, "100 g", "--json")
    assert code == 0
    assert json.loads(out)["scope"] == "sample"
    code, _, err = call(capsys, journal, "weigh", batch, "100 g", "--sample-tray", "--load")
    assert code == 2
    assert "not of both" in err


@pytest.mark.parametrize(
    "arguments",
    [
        ("weigh", "77", "20 oz"),
        ("weigh", "pear", "20 oz"),
        ("weigh", "1", "twenty"),
        ("weigh", "1", "20"),
        ("weigh", "1", "20 oz", "--at", "half past"),
        ("weigh", "1", "20 oz", "--at", "9 h ago"),
        ("weigh", "1", "20 oz", "--tare", "30 oz"),
        ("weigh", "1"),
    ],
)
def test_bad_input_is_one_sentence_and_changes_nothing(capsys, journal, batch, arguments) -> None:
    code, out, err = call(capsys, journal, *arguments)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    with open_kitchen(journal) as kitchen:
        assert weighings_of(kitchen, batch) == ()


def test_batches_are_listed_with_what_is_known(capsys, journal, batch) -> None:
    call(capsys, journal, "weigh", batch, "20 oz")
    log = (
        "--food",
        "sweet corn",
        "--fresh",
        "40 oz",
        "--dried",
        "10 oz",
        "--start",
        "2026-08-01 08:00",
        "--hours",
        "9",
    )
    call(capsys, journal, "log", *log)
    _, out, _ = call(capsys, journal, "batches", "--json")
    items = json.loads(out)["items"]
    by_food = {i["food"]: i for i in items}
    apple, corn = by_food["apple"], by_food["corn"]
    assert (apple["id"], apple["state"], apple["verdict"], apple["weighings"]) == (
        batch,
        "drying",
        "still moist",
        1,
    )
    assert corn["yield"] == pytest.approx(0.25)
    assert corn["hours"] == pytest.approx(9.0)
    assert corn["fresh"] == pytest.approx(1133.98, abs=0.01)
    assert corn["moisture"] is not None
    assert items == sorted(items, key=lambda i: i["started"], reverse=True)
    _, out, _ = call(capsys, journal, "batches")
    assert "sweet corn, 2 lb 8 oz → 10 oz, 9 h" in out


def test_batches_can_be_narrowed(capsys, journal, batch) -> None:
    _, out, _ = call(capsys, journal, "batches", "--state", "finished", "--json")
    assert json.loads(out) == {"items": [], "schema": 2}
    _, out, _ = call(capsys, journal, "batches", "apple", "--newest", "1", "--json")
    assert len(json.loads(out)["items"]) == 1
    year = int(json.loads(out)["items"][0]["started"][:4])
    for asked, found in ((year, 1), (year - 1, 0)):
        _, out, _ = call(capsys, journal, "batches", "apple", str(asked), "--json")
        assert len(json.loads(out)["items"]) == found
    _, out, _ = call(capsys, journal, "batches", "pear")
    assert out == "No batch has these words.\n"


def test_no_batches_yet_says_what_to_do(capsys, tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert main(["batches"]) == 0
    assert "dryhouse log" in capsys.readouterr().out
    assert list(tmp_path.rglob("*.dryhouse")) == []


def test_a_weight_that_can_t_be_true_is_refused_naming_the_way_to_keep_it(capsys, journal, batch) -> None:
    code, out, err = call(capsys, journal, "weigh", batch, "3 oz")
    assert (code, out) == (2, "")
    assert "dry matter" in err
    assert "--keep-anyway" in err
    with open_kitchen(journal) as kitchen:
        assert weighings_of(kitchen, batch) == ()
    code, out, err = call(capsys, journal, "weigh", batch, "3 oz", "--keep-anyway")
    assert (code, err) == (0, "")
    assert "1 weighing left out of the curve." in out
    with open_kitchen(journal) as kitchen:
        assert [w.left_out for w in weighings_of(kitchen, batch)] == [True]


def test_a_second_weight_within_the_minute_takes_the_first_one_s_place_if_she_says_so(
    capsys, journal, batch
) -> None:
    call(capsys, journal, "weigh", batch, "20 oz")
    code, _, err = call(capsys, journal, "weigh", batch, "19 oz")
    assert code == 2
    assert "--replace" in err
    assert call(capsys, journal, "weigh", batch, "19 oz", "--replace")[0] == 0
    with open_kitchen(journal) as kitchen:
        assert [w.gross.typed for w in weighings_of(kitchen, batch)] == ["19 oz"]


def test_one_line_holds_the_time_the_tray_and_the_tare_and_lines_can_be_pasted(capsys, journal, batch) -> None:
    assert call(capsys, journal, "weigh", batch, "2 h ago 28 oz tare 4 oz")[0] == 0
    assert call(capsys, journal, "weigh", batch, "1 h ago 26 oz\n30 min ago 25 oz")[0] == 0
    with open_kitchen(journal) as kitchen:
        found = weighings_of(kitchen, batch)
        assert [w.gross.typed for w in found] == ["28 oz", "26 oz", "25 oz"]
        assert {round(w.gross.si - w.net_g) for w in found} == {113}
        assert timedelta(hours=1.9) < datetime.now(UTC) - found[0].at < timedelta(hours=2.1)


def test_off_the_dryer_it_is_as_dry_as_it_was_said_to_be_on_it(capsys, journal, batch) -> None:
    for ago, reading in (
        ("7 h", "28 oz"),
        ("6 h", "22 oz"),
        ("4 h", "13.6 oz"),
        ("2 h", "8.2 oz"),
        ("1 h", "5.6 oz"),
    ):
        call(capsys, journal, "weigh", batch, reading, "--at", f"{ago} ago")
    said = call(capsys, journal, "batches")[1]
    (on,) = json.loads(call(capsys, journal, "batches", "--json")[1])["items"]
    with open_kitchen(journal, write=True) as kitchen:
        take_off(kitchen, batch, CameOff(weighings_of(kitchen, batch)[-1].gross))
    (off,) = json.loads(call(capsys, journal, "batches", "--json")[1])["items"]
    assert (on["state"], off["state"]) == ("drying", "finished")
    same = ("verdict", "dry_enough_probability", "moisture")
    assert {name: off[name] for name in same} == {name: on[name] for name in same}
    assert f" moisture, {on['verdict']}" in said
    call(capsys, journal, "pack", batch)
    (lot,) = json.loads(call(capsys, journal, "shelf", "--json")[1])["items"]
    assert (lot["verdict"], lot["dry_enough_probability"]) == (on["verdict"], on["dry_enough_probability"])
