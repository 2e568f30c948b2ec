"""Food that no weight and no hand shows dry is said to be so, in the jar and off the dryer."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.batches.dryness import verdicts_of
from dryhouse.kitchen.batches.log import BatchDraft, edit_batch
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.cautions.cautions import (
    batch_cautions,
    lot_cautions,
)
from dryhouse.kitchen.foods.catalog import set_figure
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.shelf.lots import Found, check_lot, open_lot, redry
from dryhouse.kitchen.shelf.packing import Package
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from dryhouse.science.statuses import FigureId
from tests.kitchen.nothing_softens.caution_room import not_to_be_eaten, rules
from tests.kitchen.shelf_room import FREEZER, HEATED, NOW, PANTRY, a_batch, a_shelf, packed, shelf_line
from tests.rows import every_row

# --- weights and looks -------------------------------------------------------------------------------------


def test_a_jar_that_no_weight_shows_dry_is_looked_at_first():
    kitchen = a_shelf(a_batch("corn", dried_mass=None))
    lot = packed(kitchen)
    line = shelf_line(kitchen, lot.id)
    assert (line.standing, "Dryness not shown" in line.reason) == ("check first", True)
    check_lot(kitchen, lot.id, Found(moist=False))
    assert shelf_line(kitchen, lot.id).standing in ("keeping", "use soon")
    assert "dryness-unknown" in rules(lot_cautions(kitchen, lot), "warn")


def test_weights_that_do_not_add_up_show_nothing_dry():
    kitchen = a_shelf(a_batch("corn", dried_mass=Mass(90.0)))
    assert shelf_line(kitchen, packed(kitchen).id).standing == "check first"


def test_a_moister_target_of_her_own_does_not_make_food_keep():
    moist = a_batch("corn", dried_mass=Mass(360.0), target_moisture_pct=45.0, felt="")
    kitchen = a_shelf(moist)
    card = batch_card(kitchen, 1)
    assert card.verdict.name == "dry enough"
    assert card.figure(FigureId.KEEPS) is None
    assert any("your own target" in sentence for sentence in card.sentences)
    assert "Not dry enough" in shelf_line(kitchen, packed(kitchen).id).reason
    set_figure(kitchen, "corn", "target_moisture", 45.0)
    edit_batch(kitchen, 1, BatchDraft(a_batch("corn", dried_mass=Mass(360.0), felt="")))
    assert shelf_line(kitchen, 1).standing == "check first"


def test_a_doubt_says_what_is_missing_and_lifts_nothing():
    doubted = a_batch("turkey", felt="", dried_mass=Mass(345.0), **HEATED)
    unpacked = a_shelf(doubted)
    batch = unpacked.journal.get(Batch, 1)
    assert verdicts_of(unpacked, batch)[1].in_doubt
    assert "animal-dryness-in-doubt" in rules(batch_cautions(unpacked, batch), "warn")
    assert batch_card(unpacked, 1).figure(FigureId.KEEPS) is None
    kitchen = a_shelf(doubted)
    lot = packed(kitchen, place=FREEZER)
    assert "dryness-in-doubt" in rules(lot_cautions(kitchen, lot), "warn")
    assert shelf_line(kitchen, lot.id).standing != "check first"
    sticky = a_shelf(a_batch("turkey", felt="sticky", dried_mass=Mass(345.0), **HEATED))
    assert "not-dry-thrown-out" in rules(lot_cautions(sticky, packed(sticky)))


@pytest.mark.parametrize("package", ["vacuum bag", "jar with absorber"])
def test_shut_away_from_air_a_doubt_is_a_stop_until_a_hand_or_a_look_answers_it(package):
    kitchen = a_shelf(a_batch("corn", felt="", dried_mass=Mass(255.0)))
    lot = packed(kitchen, package=Package(package, place=PANTRY))
    assert "airless-dryness-in-doubt" in rules(lot_cautions(kitchen, lot))
    assert shelf_line(kitchen, lot.id).standing == "check first"
    check_lot(kitchen, lot.id, Found(moist=False))
    assert "airless-dryness-in-doubt" not in rules(lot_cautions(kitchen, lot))
    felt = a_shelf(a_batch("corn", dried_mass=Mass(255.0)))
    lot = packed(felt, package=Package(package, place=PANTRY))
    assert not rules(lot_cautions(felt, lot)) & {"airless-dryness-in-doubt", "airless-dryness-unknown"}
    sticky = a_shelf(a_batch("corn", felt="sticky", dried_mass=Mass(255.0)))
    lot = packed(sticky, package=Package(package, place=PANTRY))
    assert shelf_line(sticky, lot.id).standing == "do not eat"


def test_a_drier_target_of_her_own_is_held_to():
    kitchen = a_shelf(a_batch("corn", dried_mass=Mass(262.0), target_moisture_pct=4.0))
    assert shelf_line(kitchen, packed(kitchen).id).standing == "check first"


def test_a_lot_to_check_says_that_it_is_past_its_keep_by_too():
    kitchen = a_shelf(a_batch("turkey", **HEATED), now=NOW + timedelta(days=60))
    lot = packed(kitchen)
    open_lot(kitchen, lot.id)
    assert "past its keep-by" in shelf_line(kitchen, lot.id).reason


# --- off the dryer and not dry -----------------------------------------------------------------------------


WET = {"dried_mass": Mass(700.0)}


@pytest.mark.parametrize("kind", ["jar", "vacuum bag", "jar with absorber"])
@pytest.mark.parametrize("slug", ["turkey", "corn"])
def test_wet_food_that_stood_in_the_pantry_for_a_month(slug, kind):
    kitchen = a_shelf(a_batch(slug, **WET, **(HEATED if slug == "turkey" else {})))
    lot = packed(kitchen, package=Package(kind, place=PANTRY))
    said = lot_cautions(kitchen, lot)
    thrown_out = {"airless-not-dry"} if kind != "jar" else {"not-dry-thrown-out"} if slug == "turkey" else set()
    assert not_to_be_eaten(said) == thrown_out
    assert ("not-dry-enough" in rules(said)) is (not thrown_out)
    if thrown_out:
        assert not any("ack in the dryer" in c.text or "dry the food to its target" in c.text for c in said)


@pytest.mark.parametrize(("minutes", "rule"), [(60, "airless-not-dry-yet"), (150, "airless-not-dry")])
def test_a_wet_bag_sealed_just_now_is_opened_and_one_sealed_this_morning_thrown_out(minutes, rule):
    kitchen = a_shelf(a_batch(ended=NOW - timedelta(minutes=minutes), **WET))
    then = replace(kitchen, now=lambda: NOW - timedelta(minutes=minutes - 10))
    lot = packed(then, package=Package("vacuum bag", place=PANTRY))
    assert rule in rules(lot_cautions(kitchen, lot))


def test_wet_meat_put_in_the_freezer_at_once_may_be_dried_on():
    kitchen = a_shelf(a_batch("turkey", **WET, **HEATED))
    then = replace(kitchen, now=lambda: NOW - timedelta(days=30) + timedelta(minutes=20))
    lot = packed(then, place=FREEZER)
    assert not not_to_be_eaten(lot_cautions(kitchen, lot))
    assert "not-dry-enough" in rules(lot_cautions(kitchen, lot))


@every_row(("minutes", "thrown_out"), [(30, False), (180, True), (None, True)])
def test_a_wet_batch_of_meat_off_the_dryer_is_thrown_out_after_two_hours(minutes, thrown_out):
    ended = None if minutes is None else NOW - timedelta(minutes=minutes)
    batch = replace(a_batch("turkey", **WET, **HEATED), ended=ended)
    assert ("left-moist" in rules(batch_cautions(a_shelf(batch), batch))) is thrown_out
    drying = replace(batch, state="drying", ended=None)
    assert "left-moist" not in rules(batch_cautions(a_shelf(drying), drying))


def test_a_later_dry_look_does_not_cancel_that_it_was_found_moist():
    kitchen = a_shelf(a_batch("corn"))
    lot = packed(kitchen)
    check_lot(kitchen, lot.id, Found(moist=True))
    check_lot(kitchen, lot.id, Found(moist=False))
    assert "found-moist" in rules(lot_cautions(kitchen, lot))
    redry(kitchen, lot.id)
    assert "found-moist" not in rules(lot_cautions(kitchen, kitchen.journal.get(type(lot), lot.id)))


def test_meat_found_moist_is_thrown_out_and_drying_again_does_not_bring_it_back():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen)
    check_lot(kitchen, lot.id, Found(moist=True))
    assert "found-moist-thrown-out" in not_to_be_eaten(lot_cautions(kitchen, lot))
    with suppress(InputProblem):
        redry(kitchen, lot.id)
    lot = kitchen.journal.get(type(lot), lot.id)
    assert "found-moist-thrown-out" in not_to_be_eaten(lot_cautions(kitchen, lot))
    assert shelf_line(kitchen, lot.id).standing == "do not eat"


def test_without_air_and_without_a_weight_it_is_not_eaten_until_that_is_answered():
    kitchen = a_shelf(a_batch("corn", dried_mass=None))
    lot = packed(kitchen, package=Package("vacuum bag", Mass(200.0), place=PANTRY))
    assert "airless-dryness-unknown" in not_to_be_eaten(lot_cautions(kitchen, lot))
    check_lot(kitchen, lot.id, Found(moist=False))
    assert "airless-dryness-unknown" not in rules(lot_cautions(kitchen, lot))
