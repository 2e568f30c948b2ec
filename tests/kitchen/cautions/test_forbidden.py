"""What must not be eaten is promised nothing: no verdict, no keep-by, no water."""

from __future__ import annotations

from datetime import timedelta

import pytest

from dryhouse.kitchen.cautions.cautions import food_cautions
from dryhouse.kitchen.cautions.forbidden import Forbidden, forbidding_words, refuse_what_no_record_lifts
from dryhouse.kitchen.dryer.due_now import reminders_due
from dryhouse.kitchen.dryer.run_words import run_json, run_lines
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.shelf.shelf import keeps
from dryhouse.kitchen.yields.quick_answers import water
from dryhouse.kitchen.yields.yields import yields
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Caution
from dryhouse.words.messages import problem_sentence
from tests.kitchen.shelf_room import HEATED, NOW, a_shelf
from tests.rows import every_row


def a_dry_load(**more):
    """Turkey on the dryer, weighed down to its target."""
    began = NOW - timedelta(hours=8)
    weights = ((1, 800.0), (3, 560.0), (6, 380.0), (8, 330.0))
    weighings = (Weighing(1, began + timedelta(hours=h), Mass(g), id=n) for n, (h, g) in enumerate(weights, 1))
    return a_shelf(
        Batch("turkey", state=DRYING, prepared_mass=Mass(1000.0, "1 kg"), started=began, id=1, **more), *weighings
    )


def test_a_running_load_that_was_not_heated_is_never_called_dry_enough():
    kitchen = a_dry_load()
    run = run_of(kitchen, 1)
    assert isinstance(run.verdict, Forbidden)
    said = " ".join(run_lines(kitchen, run, Style())).casefold()
    assert "do not eat. no record of heating to 165 °f" in said
    assert "dry enough" not in said
    assert "probably dry" not in said
    assert run_json(kitchen, run)["verdict"] is None
    heated = a_dry_load(**HEATED)
    assert run_of(heated, 1).verdict.name == "probably dry"
    assert run_json(heated, run_of(heated, 1))["verdict"] == "probably dry"


def test_a_reminder_says_the_stops_of_its_batch():
    found = reminders_due(a_dry_load())
    assert found
    for due in found:
        assert "Stop: No record of heating to 165 °F" in due.sentence
        assert due.cautions == run_of(a_dry_load(), 1).cautions
    assert not any("Stop:" in due.sentence for due in reminders_due(a_dry_load(**HEATED)))


@pytest.mark.parametrize("food", ["egg", "cheese"])
def test_what_no_record_lifts_has_no_keeping_time_and_no_water(food):
    kitchen = a_shelf()
    with pytest.raises(InputProblem, match="No figure is given for"):
        keeps(kitchen, food, 4.0)
    with pytest.raises(InputProblem, match="No figure is given for"):
        water(kitchen, food, "2 oz")
    with pytest.raises(InputProblem, match="No figure is given for"):
        yields(kitchen, food, Mass(1000.0, "1 kg"))


def test_dry_milk_from_a_shop_is_no_milk_dried_at_home():
    """Its cautions are said; what it is told is not the sentence about milk on trays."""
    kitchen = a_shelf()
    for act, amount in ((water, "2 oz"), (keeps, 4.0)):
        with pytest.raises(InputProblem) as told:
            act(kitchen, "dry milk, whole", amount)
        assert "No figure is given" not in problem_sentence(told.value)


@every_row("food", ["turkey", "carrot", "button-mushroom", "ground-beef"])
def test_what_a_record_can_answer_is_answered_with_its_stops(food):
    kitchen = a_shelf()
    refuse_what_no_record_lifts(food, food_cautions(kitchen, food))
    assert water(kitchen, food, "2 oz")[0].cautions == food_cautions(kitchen, food)


def test_every_reason_not_to_eat_it_is_said_once_and_nothing_where_there_is_none():
    stop = Caution("stop", "Mould was seen.", "s", effect="not to be eaten", short="Mould seen: throw out")
    cold = Caution("stop", "Keep it cold.", "s", effect="limits storage", short="Keep cold")
    assert forbidding_words((cold, stop, stop)) == "Do not eat. Mould seen: throw out."
    assert forbidding_words((cold,)) == ""


def test_what_is_not_to_be_eaten_is_said_so_once_and_not_again_with_the_reason():
    unheated = Caution("stop", "…", "s", effect="not to be eaten", short="No record of heating: do not eat")
    assert forbidding_words((unheated,)) == "Do not eat. No record of heating."
