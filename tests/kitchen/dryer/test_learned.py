"""One load has one answer: what its weighings taught of the dry matter stays with it once it is off the dryer."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dryhouse.kitchen.batches.dryness import verdicts_of
from dryhouse.kitchen.batches.log import BatchDraft, edit_batch
from dryhouse.kitchen.cards.batch_card import batch_card, draft_card
from dryhouse.kitchen.cards.batch_list import batch_items
from dryhouse.kitchen.dryer.drying import (
    CameOff,
    add_weighing,
    correct_weighing,
    leave_out,
    remove_weighing,
    reopen,
    take_off,
    weighings_of,
)
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.learned import as_taken_off, with_learned
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.ports import BatchQuery, Pending
from dryhouse.kitchen.records import Batch, OwnFigure
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.weighings import PAUSED, TURNED
from dryhouse.science.quantities import Mass
from dryhouse.science.statuses import VerdictName
from tests.kitchen.drying_room import Hands

GRAMS = ((1, 810), (2, 640), (4, 412), (6, 283), (11, 172))
"""A kilogram of apple; the table's dry matter alone leaves 172 g in doubt, the curve does not."""


def weighed() -> Hands:
    """Apple on the dryer, weighed five times."""
    hands = Hands()
    batch, begun = hands.start(), hands.time
    for hour, grams in GRAMS:
        hands.wait(hour - (hands.time - begun).total_seconds() / 3600)
        hands.weigh(batch, grams)
    return hands


@pytest.fixture
def hands() -> Hands:
    return weighed()


def off(hands: Hands, grams: float = 172.0) -> Batch:
    take_off(hands.kitchen, 1, CameOff(Mass(grams, f"{grams:g} g")))
    return batch(hands)


def batch(hands: Hands) -> Batch:
    found = hands.journal.get(Batch, 1)
    assert found is not None
    return found


def curve(hands: Hands) -> tuple[float | None, ...]:
    found = batch(hands)
    return found.curve_low, found.curve_dry, found.curve_high


def test_the_strip_the_form_the_card_the_list_and_the_shelf_say_one_thing(hands) -> None:
    strip = run_of(hands.kitchen, 1)
    assert strip.verdict.name == VerdictName.DRY_ENOUGH
    draft = replace(strip.batch, state=FINISHED, dried_mass=Mass(172.0, "172 g"))
    form = draft_card(hands.kitchen, BatchDraft(as_taken_off(strip, draft)))
    off(hands)
    card = batch_card(hands.kitchen, 1)
    (listed,) = batch_items(hands.kitchen, BatchQuery())
    after = run_of(hands.kitchen, 1)
    shelf, _ = verdicts_of(hands.kitchen, batch(hands))
    said = {found.name for found in (strip.verdict, form.verdict, card.verdict, after.verdict, shelf)}
    assert said == {VerdictName.DRY_ENOUGH} == {listed["verdict"]}
    how_likely = {found.probability for found in (strip.verdict, form.verdict, card.verdict, after.verdict, shelf)}
    assert how_likely == {listed["dry_enough_probability"]}
    water = {(f.low, f.value, f.high) for f in (strip.moisture, card.figures[0].figure, after.moisture)}
    now = listed["moisture"]
    assert water == {(now["low"], now["value"], now["high"])}


def test_a_load_that_was_only_weighed_at_the_end_is_judged_by_its_food(hands) -> None:
    weighings = [w.id for w in weighings_of(hands.kitchen, 1)]
    remove_weighing(hands.kitchen, *weighings[:-2])
    off(hands)
    assert curve(hands) == (None, None, None)
    assert batch_card(hands.kitchen, 1).verdict.name == VerdictName.PROBABLY_DRY


def test_lighter_than_the_last_weighing_it_holds_no_more_dry_matter_than_that(hands) -> None:
    off(other := weighed())
    low, middle, high = curve(other)
    off(hands, 160.0)
    lighter = curve(hands)
    assert lighter[2] < min(high, 160.0 / 1000.0)
    assert lighter[1] < middle
    assert low * 0.9 < lighter[0] < low


def corrected(hands: Hands) -> object:
    third = weighings_of(hands.kitchen, 1)[2]
    return correct_weighing(hands.kitchen, replace(third, gross=Mass(430.0, "430 g")))


def loaded_more(hands: Hands) -> object:
    return edit_batch(hands.kitchen, 1, BatchDraft(replace(batch(hands), prepared_mass=Mass(1020.0, "1020 g"))))


def typed_moisture(hands: Hands) -> object:
    return edit_batch(hands.kitchen, 1, BatchDraft(replace(batch(hands), start_moisture_pct=84.0)))


CHANGES = {
    "a weighing is corrected": corrected,
    "a weighing is left out": lambda hands: leave_out(hands.kitchen, weighings_of(hands.kitchen, 1)[1].id),
    "a weighing is removed": lambda hands: remove_weighing(hands.kitchen, weighings_of(hands.kitchen, 1)[1].id),
    "a weighing is added": lambda hands: add_weighing(
        hands.kitchen, 1, Reading(Mass(500.0, "500 g"), at=weighings_of(hands.kitchen, 1)[1].at.replace(hour=15))
    ),
    "a pause is told": lambda hands: add_event(
        hands.kitchen, 1, Happening(PAUSED, at=weighings_of(hands.kitchen, 1)[3].at)
    ),
    "what was loaded": loaded_more,
    "its starting moisture": typed_moisture,
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_what_it_rests_on_changes_it_and_undo_brings_it_back(hands, change) -> None:
    before = off(hands)
    assert before.curve_dry is not None
    done = change(hands)
    assert curve(hands) != (before.curve_low, before.curve_dry, before.curve_high)
    assert batch(hands).curve_mark != before.curve_mark
    again = hands.kitchen.write(done.undone().changes)
    assert batch(hands) == before
    hands.kitchen.write([c.reversed() for c in reversed(again)])
    assert batch(hands).curve_mark != before.curve_mark


def test_what_it_doesnt_rest_on_leaves_it_alone(hands) -> None:
    before = off(hands)
    add_event(hands.kitchen, 1, Happening(TURNED, at=weighings_of(hands.kitchen, 1)[1].at))
    edit_batch(hands.kitchen, 1, BatchDraft(replace(before, notes="the good pan", rating=4, felt="leathery")))
    assert replace(batch(hands), notes="", rating=None, felt="") == before


def test_back_on_the_dryer_it_is_the_strips_again(hands) -> None:
    off(hands)
    reopen(hands.kitchen, 1)
    assert curve(hands) == (None, None, None)
    assert batch(hands).curve_mark is None


def test_with_all_but_two_weighings_left_out_nothing_is_taught(hands) -> None:
    off(hands)
    leave_out(hands.kitchen, *(w.id for w in weighings_of(hands.kitchen, 1)[:3]))
    assert curve(hands) == (None, None, None)


def test_a_level_confirmed_by_hand_is_its_curve_and_counts_once(hands) -> None:
    off(hands)
    edit_batch(hands.kitchen, 1, BatchDraft(replace(batch(hands), felt="brittle", settled=True)))
    assert batch(hands).settled
    assert curve(hands) == (None, None, None)


def test_another_water_of_the_food_is_another_answer_of_every_load_of_it(hands) -> None:
    before = off(hands)
    pending = Pending()
    pending.add(OwnFigure("apple", "water", 80.0, "%", id=1))
    done = hands.kitchen.commit("told", pending)
    assert curve(hands)[1] > before.curve_dry
    hands.kitchen.write(done.undone().changes)
    assert batch(hands).curve_dry == pytest.approx(before.curve_dry)


def test_while_it_is_changed_the_form_says_what_its_card_will(hands) -> None:
    off(hands)
    for change in ({"notes": "the good pan"}, {"start_moisture_pct": 84.0}):
        draft = BatchDraft(replace(batch(hands), **change))
        said = draft_card(hands.kitchen, draft).verdict
        edit_batch(hands.kitchen, 1, draft)
        assert said == batch_card(hands.kitchen, 1).verdict


def test_three_weighings_that_count_teach_and_two_do_not() -> None:
    for taken, learned in ((GRAMS[:2], False), (GRAMS[:3], True)):
        hands = Hands()
        hands.start()
        begun = hands.time
        for hour, grams in taken:
            hands.wait(hour - (hands.time - begun).total_seconds() / 3600)
            hands.weigh(1, grams)
        hands.wait(6)
        off(hands)
        assert (None not in curve(hands)) is learned


def test_what_her_own_figure_of_the_food_changes_is_worked_out_anew_for_batches_that_learned(hands) -> None:
    off(hands)
    other = hands.start()
    hands.wait(9)
    take_off(hands.kitchen, other, CameOff(Mass(172.0)))
    tested = hands.start(test_sample=Mass(20.0), test_dry=Mass(3.4))
    hands.wait(9)
    take_off(hands.kitchen, tested, CameOff(Mass(210.0)))
    before, untaught = curve(hands), hands.journal.get(Batch, other)
    pending = Pending()
    pending.add(OwnFigure("apple", "energy", 52.0, "kcal/100 g", "her own", id=1))
    hands.kitchen.commit("Another figure", pending)
    assert curve(hands) == before
    pending = Pending()
    pending.add(OwnFigure("apple", "water", 84.0, "%", "her own", id=2))
    hands.kitchen.commit("The water", pending)
    assert hands.journal.get(Batch, other) == untaught


def test_only_a_batch_that_is_off_and_was_weighed_dried_keeps_what_its_weighings_taught(hands) -> None:
    done = off(hands)
    assert with_learned(hands.kitchen, done) == done
    for more in ({"state": "drying"}, {"dried_mass": None}, {"settled": True}):
        changed = with_learned(hands.kitchen, replace(done, **more))
        assert (changed.curve_low, changed.curve_dry, changed.curve_high, changed.curve_mark) == (None,) * 4, more
    gone = replace(done, food="moonweed", curve_mark=1)
    assert with_learned(hands.kitchen, gone).curve_dry is None, "a food that is no longer known teaches nothing"
    again = with_learned(hands.kitchen, replace(done, curve_mark=1, curve_dry=0.5))
    assert again == done, "what rests on other records is worked out anew"
