"""Weights that can't be true are asked about with the likeliest reason, and kept only if she says so."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.batches.loads import load_for
from dryhouse.kitchen.dryer.doubts import (
    DoubtfulWeight,
    DoubtKind,
    doubt_of,
    other_unit,
    said,
    without_doubtful,
)
from dryhouse.kitchen.dryer.drying import (
    add_weighing,
    correct_weighing,
    leave_out,
    start_batch,
    weighings_of,
)
from dryhouse.kitchen.dryer.run_words import finish_words, run_lines
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.records import Batch, BatchPart, Weighing
from dryhouse.kitchen.records.weighings import SAMPLE
from dryhouse.science.display import METRIC, Style
from dryhouse.science.dryness import least_dry_matter
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, parse_mass
from tests.builders import TURKEY
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row


def asked(hands: Hands, batch: int, typed: str, **more: object) -> DoubtfulWeight:
    before = weighings_of(hands.kitchen, batch)
    with pytest.raises(DoubtfulWeight) as raised:
        add_weighing(hands.kitchen, batch, Reading(parse_mass(typed), **more))
    assert weighings_of(hands.kitchen, batch) == before, "what is asked about was written"
    return raised.value


def drying(grams: float = 1000.0) -> tuple[Hands, int]:
    hands = Hands()
    batch = hands.start(grams)
    for hour, weight in ((1, 800), (2, 640), (3, 520)):
        hands.time = NOON + timedelta(hours=hour)
        hands.weigh(batch, weight)
    hands.wait(1)
    return hands, batch


def test_a_weight_below_the_dry_matter_is_asked_about_with_what_may_have_happened() -> None:
    hands, batch = drying()
    doubt = asked(hands, batch, "90 g")
    assert doubt.doubt.kind is DoubtKind.BELOW_DRY_MATTER
    assert doubt.field == "gross"
    for words in ("90 g", "dry matter", "tray", "tare"):
        assert words in doubt.doubt.question


def test_a_weight_heavier_than_before_is_asked_about_and_the_scale_s_own_step_is_not() -> None:
    hands, batch = drying()
    assert asked(hands, batch, "600 g").doubt.kind is DoubtKind.HEAVIER
    assert (
        asked(hands, batch, "531.5 g").doubt.kind is DoubtKind.HEAVIER
    )  # a hundredth of the first kilogram, and 1 g
    assert hands.weigh(batch, 530.5)


def test_a_weight_of_the_past_lighter_than_a_later_one_asks_about_the_time() -> None:
    hands, batch = drying()
    doubt = asked(hands, batch, "500 g", at=NOON + timedelta(hours=1.5))
    assert doubt.doubt.kind is DoubtKind.LIGHTER
    assert "time" in doubt.doubt.question


def test_more_than_was_loaded_asks_for_the_tray_that_was_weighed_along() -> None:
    hands, batch = drying()
    doubt = asked(hands, batch, "1400 g")
    assert doubt.doubt.kind is DoubtKind.ABOVE_LOAD
    assert "tare of 400 g" in doubt.doubt.question


def test_a_kilogram_among_grams_and_ounces_among_grams_name_what_was_meant() -> None:
    hands, batch = drying()
    meant = asked(hands, batch, "0.5 g")
    assert meant.doubt.kind is DoubtKind.UNIT
    assert "0.5 kg" in meant.doubt.question
    ounces = asked(hands, batch, "18 g")
    assert ounces.doubt.kind is DoubtKind.UNIT
    assert "18 oz" in ounces.doubt.question
    assert ounces.doubt.question.startswith("This reading is 18 g, and the last weight was "), "nothing said twice"
    assert "500 g" in asked(hands, batch, "500 oz").doubt.question
    pounds = asked(hands, batch, "0.8 kg")
    assert pounds.doubt.kind is DoubtKind.UNIT
    assert "0.8 lb" in pounds.doubt.question


def test_a_second_weight_within_the_minute_offers_to_take_the_first_one_s_place() -> None:
    hands, batch = drying()
    first = hands.weigh(batch, 500)
    hands.wait(0.01)
    doubt = asked(hands, batch, "450 g").doubt
    assert (doubt.kind, doubt.replaces) == (DoubtKind.TWICE, first)
    add_weighing(hands.kitchen, batch, Reading(parse_mass("450 g")), replacing=first)
    assert [w.net_g for w in weighings_of(hands.kitchen, batch)] == [800, 640, 520, 450]


def test_raw_weight_typed_for_cooked_food_is_asked_first() -> None:
    hands = Hands()
    hands.kitchen.handbook.foods["turkey"] = TURKEY
    batch = start_batch(hands.kitchen, Batch("turkey", prepared_mass=parse_mass("1000 g"))).record.id
    hands.wait(4)
    doubt = asked(hands, batch, "240 g")
    assert doubt.doubt.kind is DoubtKind.RAW
    assert "before cooking" in doubt.doubt.question


def test_what_is_kept_anyway_counts_nowhere_until_it_is_taken_in_and_undo_goes_all_the_way() -> None:
    hands, batch = drying()
    plain = run_of(hands.kitchen, batch)
    done = add_weighing(hands.kitchen, batch, Reading(parse_mass("90 g")), keep=True)
    assert done.record.left_out
    kept = run_of(hands.kitchen, batch)
    assert kept.points == plain.points
    assert kept.verdict == plain.verdict
    assert [p.net_g for p in kept.left_out] == [90]
    assert kept.expected.forecast.finish.median == plain.expected.forecast.finish.median
    assert "1 weighing left out of the curve." in list(run_lines(hands.kitchen, kept, Style(METRIC)))
    taken = leave_out(hands.kitchen, done.record.id, out=False)
    assert run_of(hands.kitchen, batch).net_g == 90
    hands.journal.write(taken.undone().changes)
    assert run_of(hands.kitchen, batch).net_g == 520


def test_a_reading_that_is_sound_and_kept_anyway_counts() -> None:
    hands, batch = drying()
    assert not add_weighing(hands.kitchen, batch, Reading(parse_mass("480 g")), keep=True).record.left_out


def test_a_weighing_is_left_out_without_being_removed_and_only_once() -> None:
    hands, batch = drying()
    middle = weighings_of(hands.kitchen, batch)[1]
    leave_out(hands.kitchen, middle.id)
    assert [p.net_g for p in run_of(hands.kitchen, batch).points] == [1000, 800, 520]
    with pytest.raises(InputProblem, match="no such weighing"):
        leave_out(hands.kitchen, middle.id)


def test_correcting_a_weighing_that_was_left_out_judges_it_anew() -> None:
    hands, batch = drying()
    number = add_weighing(hands.kitchen, batch, Reading(parse_mass("90 g")), keep=True).record.id
    wrong = hands.journal.get(Weighing, number)
    correct_weighing(hands.kitchen, replace(wrong, gross=parse_mass("490 g")))
    assert run_of(hands.kitchen, batch).net_g == 490
    with pytest.raises(DoubtfulWeight):
        correct_weighing(hands.kitchen, replace(hands.journal.get(Weighing, number), gross=parse_mass("95 g")))
    noted = replace(hands.journal.get(Weighing, number), note="by lamplight")
    assert correct_weighing(hands.kitchen, noted).record.note == "by lamplight"


def test_a_reading_left_out_is_nothing_the_next_one_is_compared_with() -> None:
    hands, batch = drying()
    add_weighing(hands.kitchen, batch, Reading(parse_mass("90 g")), keep=True)
    hands.wait(0.5)
    assert hands.weigh(batch, 470)


def test_the_first_reading_of_a_sample_tray_is_compared_with_nothing() -> None:
    hands, batch = drying()
    hands.weigh(batch, 130, scope=SAMPLE)
    hands.wait(1)
    assert asked(hands, batch, "160 g", scope=SAMPLE).doubt.kind in (DoubtKind.ABOVE_LOAD, DoubtKind.HEAVIER)


def test_no_finish_is_named_while_the_weights_do_not_add_up() -> None:
    hands, batch = drying()
    hands.insist(batch, 90)
    run = run_of(hands.kitchen, batch)
    assert finish_words(hands.kitchen, run) == "No forecast while the weights don't add up."


def test_lines_of_a_file_that_can_t_be_true_are_brought_in_and_left_out() -> None:
    from dryhouse.kitchen.dryer.weighing_files import import_weighings, read_weighings
    from dryhouse.kitchen.dryer.weighing_sheets import guess, read_sheet

    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(6)
    sheet = read_sheet("hours,grams\n1,800\n2,90\n3,640\n4,900\n5,520\n")
    done = import_weighings(hands.kitchen, batch, read_weighings(hands.kitchen, batch, sheet, guess(sheet)))
    assert "2 of them left out" in done.what
    kept = [(w.net_g, w.left_out) for w in weighings_of(hands.kitchen, batch)]
    assert kept == [(800, False), (90, True), (640, False), (900, True), (520, False)]
    assert [p.net_g for p in run_of(hands.kitchen, batch).points] == [1000, 800, 640, 520]


def test_a_load_with_less_dry_matter_than_most_is_asked_about_only_where_hardly_any_holds_so_little() -> None:
    """One load in ten holds less than the low end of the middle 80 %: that is no reason to doubt the scale."""
    hands, batch = drying()
    load = load_for(hands.kitchen, hands.kitchen.present(Batch, batch, "batch"), grams=1000.0)
    assert load is not None
    for share in (0.99, 0.95):
        assert hands.weigh(batch, round(share * load.solids_low))
        hands.wait(1)
    least = least_dry_matter(load)
    assert least < 0.94 * load.solids_low
    told = asked(hands, batch, f"{least - 5:.0f} g")
    assert told.doubt.kind is DoubtKind.BELOW_DRY_MATTER
    assert f"at least {least:.0f} g" in told.doubt.question


def weighing(grams: float, typed: str = "", hours: float = 1.0, **more: object) -> Weighing:
    return Weighing(1, NOON + timedelta(hours=hours), Mass(grams, typed), **more)


@every_row(
    ("typed", "tare", "least", "most", "meant"),
    [
        ("18 g", 0.0, 140.0, 520.0, "18 oz"),
        ("18 g", 0.0, 140.0, 500.0, ""),  # 510 g: more than a hundredth above
        ("18 g", 0.0, 140.0, 506.0, "18 oz"),
        ("18 g", 300.0, 140.0, 520.0, "18 oz"),
        ("18 g", 400.0, 140.0, 520.0, ""),
        ("0.5 g", 0.0, 140.0, 520.0, "0.5 kg"),
        ("0.5 kg", 0.0, 140.0, 250.0, "0.5 lb"),
        ("860 oz", 0.0, 140.0, 1000.0, "860 g"),
        ("510 g", 0.0, 140.0, 520.0, ""),
    ],
)
def test_the_unit_that_may_have_been_meant_gives_a_weight_that_can_be(typed, tare, least, most, meant) -> None:
    mass = parse_mass(typed)
    assert other_unit(weighing(mass.si, typed, tare=Mass(tare) if tare else None), least, most) == meant


def test_a_reading_is_said_as_it_was_typed_or_in_grams() -> None:
    assert said(weighing(510.29, "18 oz")) == "18 oz"
    assert said(weighing(510.29)) == "510 g"


@every_row(
    ("seconds", "grams", "asked_about"),
    [(30, 510.0, True), (59, 510.0, True), (60, 510.0, False), (30, 500.0, False)],
)
def test_another_weight_within_a_minute_is_asked_about_and_the_same_one_is_not(seconds, grams, asked_about) -> None:
    hands, batch = drying()
    hands.weigh(batch, 500)
    found = weighings_of(hands.kitchen, batch)
    again = replace(
        found[-1], at=found[-1].at + timedelta(seconds=seconds), gross=Mass(grams, f"{grams:g} g"), id=0
    )
    doubt = doubt_of(hands.kitchen, hands.kitchen.present(Batch, batch, "batch"), again, found)
    assert (doubt is not None and doubt.kind is DoubtKind.TWICE) is asked_about


def test_the_question_is_in_the_units_of_the_scale() -> None:
    hands, batch = drying()
    assert "of 400 g" in asked(hands, batch, "1400 g").doubt.question
    assert "of 1 lb 1.7 oz" in asked(hands, batch, "3 lb 5 oz").doubt.question


def test_a_tray_among_trays_is_asked_whether_it_was_another_tray() -> None:
    hands, batch = drying()
    hands.weigh(batch, 250, scope=SAMPLE)
    hands.wait(1)
    assert "Was another tray on the scale" in asked(hands, batch, "20.5 g", scope=SAMPLE).doubt.question
    assert "Was only one tray on the scale" in asked(hands, batch, "90 g", scope="load").doubt.question


def test_a_file_s_lines_are_compared_with_the_last_one_that_counts() -> None:
    hands, batch = drying()
    record = hands.kitchen.present(Batch, batch, "batch")
    earlier = weighings_of(hands.kitchen, batch)
    fresh = [weighing(g, hours=h) for h, g in ((4, 600.0), (5, 450.0), (6, 470.0), (7, 400.0), (8, 410.0))]
    kept = without_doubtful(hands.kitchen, record, earlier, fresh)
    assert [w.left_out for w in kept] == [True, False, True, False, False]
    assert without_doubtful(hands.kitchen, record, earlier, []) == []


def test_a_mix_that_was_not_weighed_as_a_whole_is_held_against_its_ingredients() -> None:
    hands = Hands()
    parts = (BatchPart(0, 0, "apple", Mass(500.0)), BatchPart(0, 1, "apple", Mass(300.0)))
    batch = start_batch(hands.kitchen, Batch("apple"), parts).record.id
    hands.wait(1)
    doubt = asked(hands, batch, "1100 g").doubt
    assert doubt.kind is DoubtKind.ABOVE_LOAD
    assert "more than the 800 g that was loaded" in doubt.question
    assert hands.weigh(batch, 700)


def test_what_may_have_been_meant_is_no_heavier_than_the_last_weight() -> None:
    hands, batch = drying()  # 520 g at last, of a kilogram
    assert "Did you mean 0.7 lb?" in asked(hands, batch, "0.7 g").doubt.question
    assert "Did you mean 0.5 kg?" in asked(hands, batch, "0.5 g").doubt.question
    first = Hands()
    begun = first.start(1000.0)
    told = asked(first, begun, "0.7 g", at=NOON).doubt.question
    assert told == "This reading is 0.7 g, and 1 kg was loaded. Did you mean 0.7 kg?"
    told = asked(first, begun, "0.2 lb", at=NOON).doubt.question
    assert told == "0.2 lb is 3.2 oz, and 2 lb 3.3 oz was loaded. Did you mean 0.2 kg?"


@every_row(
    ("hours", "grams", "kind"),
    [
        # 520 g at three hours; a hundredth of the kilogram, and a gram, is the scale's own
        (4, 531.0, None),
        (4, 531.5, DoubtKind.HEAVIER),
        (2.5, 509.0, None),
        (2.5, 508.5, DoubtKind.LIGHTER),
        (2.5, 651.0, None),
        (2.5, 651.5, DoubtKind.HEAVIER),
        (4, 1011.5, DoubtKind.ABOVE_LOAD),
        (0.5, 1011.0, None),
    ],
)
def test_a_reading_is_held_against_those_before_and_after_it_in_whatever_order_they_are_given(hours, grams, kind):
    hands, batch = drying()
    found = weighings_of(hands.kitchen, batch)
    record = hands.kitchen.present(Batch, batch, "batch")
    for others in (found, found[::-1], (found[1], found[2], found[0])):
        doubt = doubt_of(hands.kitchen, record, weighing(grams, hours=hours), others)
        assert (None if doubt is None else doubt.kind) is kind
