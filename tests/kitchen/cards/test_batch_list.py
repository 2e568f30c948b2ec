"""The list of batches as the command line answers it."""

from datetime import UTC, datetime, timedelta

import pytest

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.cards import batch_list
from dryhouse.kitchen.cards.batch_list import batch_items, batch_line
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, BatchPart, Dryer, Weighing
from dryhouse.science.display import Style
from dryhouse.science.quantities import Mass
from tests.builders import NOW, a_kitchen
from tests.rows import every_row

START = datetime(2026, 11, 24, 8, tzinfo=UTC)


def done(id=1, food="corn", **more):
    given = {
        "prepared_mass": Mass(1000.0),
        "dried_mass": Mass(262.0),
        "started": START,
        "id": id,
        "felt": "brittle",
    }
    return Batch(food, **{**given, "ended": START + timedelta(hours=9), **more})


def items(*records):
    return batch_items(a_kitchen(*records), BatchQuery(sort="id", descending=False))


def test_a_finished_batch_answers_with_its_weights_moisture_and_verdict():
    (item,) = items(Dryer("shelf dryer", 6, id=1), done(dryer=1))
    assert item["fresh"] == 1000.0
    assert item["dried"] == 262.0
    assert item["yield"] == pytest.approx(0.262)
    assert item["hours"] == 9.0
    assert item["moisture"]["low"] < 100 * (1 - 239.5 / 262) < item["moisture"]["high"]
    assert item["moisture"]["low"] < item["moisture"]["value"] < item["moisture"]["high"]
    assert item["moisture"]["unit"] == "%"
    assert 0.8 <= item["dry_enough_probability"] < 1
    assert (item["verdict"], item["dryer"]) == ("dry enough", "shelf dryer")
    assert item["started"] == "2026-11-24T08:00:00+00:00"


def test_what_is_not_known_is_none_and_nothing_is_made_up():
    (item,) = items(Batch("corn", id=1))
    unknown = (
        "fresh",
        "dried",
        "yield",
        "moisture",
        "dry_enough_probability",
        "verdict",
        "sentence",
        "hours",
        "started",
        "dryer",
    )
    assert {item[name] for name in unknown} == {None}


def test_weights_that_do_not_add_up_have_a_verdict_and_no_moisture():
    (item,) = items(done(dried_mass=Mass(150.0)))
    assert item["verdict"] == "weights don't add up"
    assert item["moisture"] is None
    assert "tare" in item["sentence"]


def test_a_batch_of_a_food_that_is_gone_still_stands_in_the_list():
    (item,) = items(done(food="unheard-of"))
    assert (item["name"], item["fresh"], item["moisture"]) == ("unheard-of", 1000.0, None)


def test_a_batch_on_the_dryer_answers_from_its_last_weighing():
    drying = done(state="drying", dried_mass=None, ended=None)
    (item,) = items(drying, Weighing(1, NOW - timedelta(hours=1), Mass(400.0), id=1))
    assert item["verdict"] == "still moist"
    assert item["moisture"]["value"] == pytest.approx(100 * (1 - 239.5 / 400))
    assert item["dry_enough_probability"] == pytest.approx(0, abs=1e-6)
    assert item["weighings"] == 1


def test_the_newest_few_are_asked_for_by_number():
    kitchen = a_kitchen(*(done(n, started=START + timedelta(hours=n)) for n in range(1, 6)))
    assert [i["id"] for i in batch_items(kitchen, BatchQuery(), newest=2)] == [5, 4]


def test_one_line_a_batch():
    kitchen = a_kitchen(done(title="first ears"))
    (item,) = batch_items(kitchen, BatchQuery())
    line = batch_line(kitchen, item, Style("metric"))
    assert line.startswith("    1  2026-11-24 08:00")
    for said in ("first ears", "1 kg → 262 g", "9 h", "8 % moisture", "dry enough"):
        assert said in line
    assert "no start" in batch_line(kitchen, {**item, "started": None}, Style("metric"))


def test_a_mix_weighs_what_its_ingredients_weigh_together():
    mix = done(prepared_mass=None, dried_mass=Mass(250.0))
    parts = (BatchPart(1, 0, "corn", Mass(600.0), id=1), BatchPart(1, 1, "apple", Mass(400.0), id=2))
    (item,) = items(mix, *parts)
    assert (item["fresh"], item["yield"], item["water"]) == (1000.0, 0.25, 750.0)
    assert "2 lb 3.3 oz → 8.8 oz" in batch_line(a_kitchen(), item, Style())
    (by_the_cup,) = items(done(prepared_mass=None))
    assert "9.2 oz dried" in batch_line(a_kitchen(), by_the_cup, Style())


def test_without_a_target_the_moisture_is_told_and_no_verdict():
    kitchen = a_kitchen(done(food="sorrel", start_moisture_pct=80.0, start_moisture_tested=True))
    kitchen.handbook.foods["sorrel"] = Food("sorrel", "sorrel", (), "herb")
    (item,) = batch_items(kitchen, BatchQuery())
    assert item["verdict"] is None
    assert item["moisture"]["value"] == pytest.approx(100 * (1 - 200 / 262))
    line = batch_line(kitchen, item, Style("metric"))
    assert line.endswith(" moisture")


def test_of_what_must_not_be_eaten_no_verdict_and_no_water_is_told():
    kitchen = a_kitchen(done(food="turkey", dried_mass=Mass(370.0)), done(2))
    forbidden, allowed = sorted(batch_items(kitchen, BatchQuery()), key=lambda item: item["id"])
    assert (forbidden["do_not_eat"], allowed["do_not_eat"]) == (True, False)
    for name in ("verdict", "sentence", "dry_enough_probability", "water"):
        assert forbidden[name] is None, name
        assert allowed[name] is not None, name
    assert batch_line(kitchen, forbidden, Style("metric")).endswith(", do not eat")


@every_row(
    ("fresh", "dried", "water", "shared"),
    [
        (1000.0, 262.0, 738.0, 0.262),
        (1000.0, None, None, None),
        (None, 262.0, None, None),
        (262.0, 262.0, None, 1.0),
    ],
)
def test_what_it_lost_is_told_where_it_got_lighter(fresh, dried, water, shared):
    weights = {"prepared_mass": Mass(fresh) if fresh else None, "dried_mass": Mass(dried) if dried else None}
    (item,) = items(done(**weights))
    assert (item["water"], item["yield"]) == (water, shared)


def test_page_after_page_of_batches_is_listed_whole_with_its_ingredients(monkeypatch):
    monkeypatch.setattr(batch_list, "PAGE", 2)
    mixes = [done(n, prepared_mass=None) for n in range(1, 6)]
    parts = [BatchPart(n, 0, "corn", Mass(100.0 * n), id=n) for n in range(1, 6)]
    assert [(i["id"], i["fresh"]) for i in items(*mixes, *parts)] == [(n, 100.0 * n) for n in range(1, 6)]


def test_every_key_of_a_batch_that_is_off_the_dryer():
    (item,) = items(Dryer("shelf dryer", 6, id=1), done(dryer=1, title="first ears"))
    told = item.pop("cautions"), item.pop("moisture"), item.pop("dry_enough_probability"), item.pop("sentence")
    assert all(told)
    assert item == {
        "id": 1, "food": "corn", "name": "first ears", "state": "finished",
        "started": "2026-11-24T08:00:00+00:00", "ended": "2026-11-24T17:00:00+00:00", "hours": 9.0,
        "dryer": "shelf dryer", "fresh": 1000.0, "dried": 262.0, "unit": "g", "yield": 0.262,
        "verdict": "dry enough", "weighings": 0, "water": 738.0, "do_not_eat": False,
    }  # fmt: skip


def test_what_came_out_of_the_pot_is_what_was_loaded_and_one_time_alone_has_no_hours():
    (item,) = items(done(prepared_mass=None, cooked_mass_out=Mass(800.0), ended=None))
    assert (item["fresh"], item["yield"], item["hours"], item["ended"]) == (800.0, 262 / 800, None, None)
    (planned,) = items(done(state="planned", dried_mass=None, started=None, ended=None))
    assert (planned["verdict"], planned["moisture"], planned["started"]) == (None, None, None)


def test_of_a_batch_whose_load_is_not_known_no_verdict_is_told():
    (item,) = items(done(prepared_mass=None))
    assert (item["verdict"], item["sentence"], item["dry_enough_probability"], item["moisture"]) == (None,) * 4
