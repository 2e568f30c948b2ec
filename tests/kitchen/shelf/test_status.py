"""What the shelf says of a lot, from the reasons, the looks and the keep-by."""

from datetime import date, timedelta

import pytest

from dryhouse.kitchen.records import Lot, LotCheck
from dryhouse.kitchen.shelf.status import (
    CONDITIONING,
    DRYNESS,
    KEEPING,
    LOOK_FIRST,
    PAST,
    USE_SOON,
    look_first_reasons,
    standing_of,
)
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts

PACKED = date(2026, 1, 1)
LOT = Lot("corn", PACKED, batch=1, id=1)


def after(days):
    return PACKED + timedelta(days=days)


HALF_A_YEAR = after(180)


def standing(on, *, lot=LOT, found=(), checks=(), keep_by=HALF_A_YEAR, missing=""):
    return standing_of(lot, found, checks, keep_by, missing, on)


@pytest.mark.parametrize(
    ("life", "on", "name"),
    [(180, 149, KEEPING), (180, 150, USE_SOON), (180, 180, USE_SOON), (180, 181, PAST),
     (14, 10, KEEPING), (14, 11, USE_SOON), (14, 14, USE_SOON), (14, 15, PAST)],
)  # fmt: skip
def test_the_last_thirty_days_or_the_last_quarter_are_soon(life, on, name):
    assert standing(after(on), keep_by=after(life)).name == name


def test_a_reason_outranks_the_keep_by_and_both_are_said():
    found = (("mould-seen", "Mould seen: throw out (mould was seen)"),)
    assert standing(after(1), found=found).name == LOOK_FIRST
    late = standing(after(200), found=found)
    assert late.reason == "Mould seen: throw out (mould was seen); past its keep-by, 30 Jun 2026"


def test_without_a_keep_by_the_reason_is_what_is_missing():
    found = standing(after(1), keep_by=None, missing="the temperature of pantry is not recorded")
    assert (found.name, found.reason) == (LOOK_FIRST, "the temperature of pantry is not recorded")


def test_a_look_answers_for_an_opened_jar_for_thirty_days():
    opened = Lot("corn", PACKED, batch=1, opened_on=after(10), id=1)
    assert standing(after(9), lot=opened).name == KEEPING
    assert standing(after(10), lot=opened).name == LOOK_FIRST
    dry = [LotCheck(1, after(12), moist=False)]
    assert standing(after(42), lot=opened, checks=dry).name == KEEPING
    assert standing(after(43), lot=opened, checks=dry).name == LOOK_FIRST
    mouldy = [LotCheck(1, after(12), moist=False, mould=True)]
    assert standing(after(13), lot=opened, checks=mouldy).name == LOOK_FIRST


def test_dried_again_wants_a_look_from_that_day_on():
    again = Lot("corn", PACKED, batch=1, redried_on=after(20), id=1)
    assert standing(after(21), lot=again, checks=[LotCheck(1, after(19), moist=False)]).name == LOOK_FIRST
    assert standing(after(21), lot=again, checks=[LotCheck(1, after(20), moist=False)]).name == KEEPING


def test_a_look_that_found_it_dry_answers_for_weights_that_are_missing_and_for_nothing_else():
    found = ((DRYNESS, "Dryness not shown by weight"),)
    dry, moist = [LotCheck(1, after(3), moist=False)], [LotCheck(1, after(3), moist=True)]
    assert standing(after(5), found=found).name == LOOK_FIRST
    assert standing(after(5), found=found, checks=moist).name == LOOK_FIRST
    assert standing(after(2), found=found, checks=dry).name == LOOK_FIRST
    assert standing(after(5), found=found, checks=dry).name == KEEPING
    other = (*found, ("odd-smell", "Odd smell: throw out"))
    assert standing(after(5), found=other, checks=dry).reason == "Odd smell: throw out"


def test_while_it_is_conditioned_the_day_is_said_and_not_that_it_is_due():
    running = Lot("apple", PACKED, batch=1, conditioned_from=PACKED, id=1)
    found = ((CONDITIONING, "Condition 10 days (no conditioning is recorded)"),)
    assert standing(after(2), lot=running, found=found).reason == "conditioning, day 3 of 10"


def test_the_rules_reasons_are_their_short_words_and_why():
    turkey = FoodFacts("turkey", "poultry")
    lot = LotFacts(turkey, BatchFacts(turkey), dry_enough=True, sealed=True)
    found = dict(look_first_reasons(lot))
    assert found["heat-poultry-missing"].startswith("No record of heating to 165 °F")
    assert not look_first_reasons(LotFacts(FoodFacts("corn", "vegetable"), dry_enough=True, sealed=True))
