"""What the shelf says of a lot, from the reasons, the looks and the keep-by."""

from dataclasses import replace
from datetime import date, timedelta

from dryhouse.kitchen.records import Lot, LotCheck
from dryhouse.kitchen.shelf.status import (
    CONDITIONING,
    DRYNESS,
    standing_of,
    status_reasons,
)
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts
from dryhouse.science.statuses import Status
from tests.rows import every_row

KEEPING, PAST, USE_SOON, CHECK_FIRST = Status.KEEPING, Status.PAST, Status.USE_SOON, Status.CHECK_FIRST
PACKED = date(2026, 1, 1)
LOT = Lot("corn", PACKED, batch=1, id=1)


def after(days):
    return PACKED + timedelta(days=days)


HALF_A_YEAR = after(180)


def standing(on, *, lot=LOT, found=(), checks=(), keep_by=HALF_A_YEAR, missing=""):
    return standing_of(lot, found, checks, keep_by, missing, on)


@every_row(
    ("life", "on", "name"),
    [(180, 149, KEEPING), (180, 150, USE_SOON), (180, 180, USE_SOON), (180, 181, PAST),
     (14, 10, KEEPING), (14, 11, USE_SOON), (14, 14, USE_SOON), (14, 15, PAST)],
)  # fmt: skip
def test_the_last_thirty_days_or_the_last_quarter_are_soon(life, on, name):
    assert standing(after(on), keep_by=after(life)).name == name


def test_a_reason_outranks_the_keep_by_and_both_are_said():
    found = (("fish-not-cold", "Fish: keep cold (it stands at 70 °F)"),)
    assert standing(after(1), found=found).name == CHECK_FIRST
    late = standing(after(200), found=found)
    assert late.reason == "Fish: keep cold (it stands at 70 °F); past its keep-by, 30 Jun 2026"


def test_what_must_not_be_eaten_says_so_before_anything_else_is_said_of_it():
    found = (("fish-not-cold", "Fish: keep cold"), ("mould-seen", "Mold seen: throw out (mold was seen)"))
    late = standing(after(200), found=found, lot=Lot("corn", PACKED, batch=1, opened_on=after(10), id=1))
    assert (late.name, late.reason) == (Status.DO_NOT_EAT, "Mold seen: throw out (mold was seen)")
    assert next(iter(Status)) == Status.DO_NOT_EAT


def test_without_a_keep_by_the_reason_is_what_is_missing():
    found = standing(after(1), keep_by=None, missing="the temperature of pantry is not recorded")
    assert (found.name, found.reason) == (CHECK_FIRST, "the temperature of pantry is not recorded")


def test_a_look_answers_for_an_opened_jar_for_thirty_days():
    opened = Lot("corn", PACKED, batch=1, opened_on=after(10), id=1)
    assert standing(after(9), lot=opened).name == KEEPING
    assert standing(after(10), lot=opened).name == CHECK_FIRST
    dry = [LotCheck(1, after(12), moist=False)]
    assert standing(after(42), lot=opened, checks=dry).name == KEEPING
    assert standing(after(43), lot=opened, checks=dry).name == CHECK_FIRST
    mouldy = [LotCheck(1, after(12), moist=False, mould=True)]
    assert standing(after(13), lot=opened, checks=mouldy).name == CHECK_FIRST


def test_dried_again_wants_a_look_from_that_day_on():
    again = Lot("corn", PACKED, batch=1, redried_on=after(20), id=1)
    assert standing(after(21), lot=again, checks=[LotCheck(1, after(19), moist=False)]).name == CHECK_FIRST
    assert standing(after(21), lot=again, checks=[LotCheck(1, after(20), moist=False)]).name == KEEPING


def test_a_look_that_found_it_dry_answers_for_weights_that_are_missing_and_for_nothing_else():
    found = ((DRYNESS, "Dryness not shown by weight"),)
    dry, moist = [LotCheck(1, after(3), moist=False)], [LotCheck(1, after(3), moist=True)]
    assert standing(after(5), found=found).name == CHECK_FIRST
    assert standing(after(5), found=found, checks=moist).name == CHECK_FIRST
    assert standing(after(2), found=found, checks=dry).name == CHECK_FIRST
    assert standing(after(5), found=found, checks=dry).name == KEEPING
    other = (*found, ("fish-not-cold", "Fish: keep cold"))
    assert standing(after(5), found=other, checks=dry).reason == "Fish: keep cold"


def test_while_it_is_conditioned_the_day_is_said_and_not_that_it_is_due():
    running = Lot("apple", PACKED, batch=1, conditioned_from=PACKED, id=1)
    found = ((CONDITIONING, "Condition 10 days (no conditioning is recorded)"),)
    assert standing(after(2), lot=running, found=found).reason == "conditioning, day 3 of 10"


def test_the_rules_reasons_are_their_short_words_and_why():
    turkey = FoodFacts("turkey", "poultry")
    lot = LotFacts(turkey, BatchFacts(turkey), dry_enough=True, sealed=True)
    found = dict(status_reasons(lot))
    assert found["heat-poultry-missing"].startswith("No record of heating to 165 °F")
    assert not status_reasons(LotFacts(FoodFacts("corn", "vegetable"), dry_enough=True, sealed=True))


@every_row(
    ("more", "on", "reason"),
    [
        ({"sealed": False}, 5, "not sealed"),
        ({"package": "open container"}, 5, "not sealed"),
        ({"opened_on": after(10)}, 9, ""),
        ({"opened_on": after(10)}, 10, "opened on 11 Jan 2026 and not looked at since"),
        ({"redried_on": after(10)}, 9, ""),
        ({"redried_on": after(10)}, 10, "dried again on 11 Jan 2026 and not looked at since"),
        ({"conditioned_from": after(3)}, 2, ""),
        ({"conditioned_from": after(3)}, 3, "conditioning, day 1 of 10"),
        ({"conditioned_from": after(3), "conditioned_to": after(9)}, 5, ""),
    ],
)
def test_what_was_done_with_a_package_asks_for_a_look_from_that_day_on(more, on, reason):
    found = standing(after(on), lot=replace(LOT, **more))
    assert (found.name, found.reason) == ((CHECK_FIRST, reason) if reason else (KEEPING, ""))


@every_row(
    ("looked", "on", "name"),
    [(-1, 5, CHECK_FIRST), (0, 5, KEEPING), (5, 35, KEEPING), (5, 36, CHECK_FIRST), (6, 5, CHECK_FIRST)],
)
def test_a_look_answers_for_a_package_that_is_not_sealed_for_thirty_days(looked, on, name):
    loose = replace(LOT, sealed=False)
    assert standing(after(on), lot=loose, checks=[LotCheck(1, after(looked), moist=False)]).name == name


def test_past_its_keep_by_says_until_when_it_kept_or_that_it_keeps_at_least_so_long():
    assert standing(after(180)).name == USE_SOON
    late = standing(after(181))
    assert (late.name, late.reason) == (PAST, "kept until 30 Jun 2026")
    cool = standing_of(LOT, (), (), HALF_A_YEAR, "", after(181), at_least=True)
    assert cool.reason.startswith("keeps at least until 30 Jun 2026; nothing is published beyond")
    assert standing(after(170)).reason == "keeps until 30 Jun 2026"
    assert standing(after(1), keep_by=None).reason == "its keep-by is not known"


def test_a_reason_on_the_last_day_says_nothing_of_a_keep_by_that_is_past():
    loose = replace(LOT, sealed=False)
    assert standing(after(180), lot=loose).reason == "not sealed"
    assert standing(after(181), lot=loose).reason == "not sealed; past its keep-by, 30 Jun 2026"
