"""Life used over a history: monotone, additive, honest about what is missing."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.keeping import (
    LifePoint,
    Line,
    Stretch,
    is_a_least,
    keeping,
    life_at,
    life_on_the_way,
    used_up,
)
from dryhouse.science.messages import MessageKind
from dryhouse.science.values import Fact
from dryhouse.words.messages import message_words
from tests.workings import read, rests_on

START = datetime(2026, 3, 1, tzinfo=UTC)


HALVING = Fact(18.0, "degF", "a rule")


def line(*points: tuple[float, float], **how: object) -> Line:
    return Line(
        "test",
        tuple(LifePoint(c, Fact(days, "day", "a source")) for c, days in points),
        halving=HALVING,
        **how,
    )


FRUIT = line((15.0, 365.0), (27.0, 180.0))
STEPS = line((-18.0, 180.0), (4.5, 90.0), (21.0, 14.0), steps=True)
warmth = st.floats(-30, 50)
spans = st.lists(st.tuples(st.floats(0.1, 400), warmth), min_size=1, max_size=5)


def history(spans, rest):
    made, at = [], START
    for days, celsius in spans:
        made.append(Stretch("a place", at, at + timedelta(days=days), celsius))
        at += timedelta(days=days)
    return (*made, Stretch("the last place", at, None, rest))


def days_at(*rules, celsius):
    """The life in days, none where nothing is published."""
    life = life_at(rules, celsius)
    return 0.0 if life is None else life.days


@given(warmth, st.floats(0, 20))
def test_warmer_never_keeps_longer(celsius, more):
    for rule in (FRUIT, STEPS):
        assert days_at(rule, celsius=celsius + more) <= days_at(rule, celsius=celsius) + 1e-9


@given(warmth)
def test_of_two_rules_the_shorter_counts(celsius):
    assert days_at(FRUIT, STEPS, celsius=celsius) == min(
        days_at(FRUIT, celsius=celsius), days_at(STEPS, celsius=celsius)
    )


@given(warmth, st.floats(0, 300))
def test_moves_between_places_of_one_temperature_change_nothing(celsius, days):
    once, _ = used_up(history([], celsius), [FRUIT])
    moved, _ = used_up(history([(days + 0.1, celsius)], celsius), [FRUIT])
    assert abs((moved - once).total_seconds()) < 1


@given(spans, warmth, st.floats(0, 20), st.integers(0, 4))
def test_a_warmer_stretch_never_lengthens_the_life(spans, rest, more, which):
    which %= len(spans)
    hotter = [(d, c + more if n == which else c) for n, (d, c) in enumerate(spans)]
    before, _ = used_up(history(spans, rest), [FRUIT])
    after, _ = used_up(history(hotter, rest), [FRUIT])
    assert after <= before + timedelta(seconds=1)


@given(spans, warmth)
def test_life_used_at_the_end_of_the_life_is_one(spans, rest):
    until, _ = used_up(history(spans, rest), [FRUIT])
    assert keeping(history(spans, rest), [FRUIT], until).used == pytest.approx(1.0, abs=1e-6)


@given(spans, warmth, st.floats(0, 500))
def test_used_and_left_agree_with_the_day(spans, rest, days):
    moment = START + timedelta(days=days)
    found = keeping(history(spans, rest), [FRUIT], moment)
    assert found.left(moment).value == pytest.approx((found.until - moment).total_seconds() / 86400)
    assert (found.used >= 1 - 1e-9) == (found.until <= moment + timedelta(seconds=1)) or found.until > moment


def test_between_two_points_the_line_of_log_life():
    assert life_at([FRUIT], 21.0).days == pytest.approx((365.0 * 180.0) ** 0.5)


def test_a_step_takes_the_warmer_limit():
    assert life_at([STEPS], 10.0).days == 14.0
    assert life_at([STEPS], 0.0).days == 90.0


def missing(stretches: tuple[Stretch, ...], *lines: Line) -> str:
    """What is missing where no day can be named, as it is read."""
    until, told = used_up(stretches, lines)
    assert until is None
    assert told is not None
    return message_words(told)


def test_beyond_the_last_limit_of_meat_there_is_no_life_and_on_the_way_the_limit_or_less_is_assumed():
    assert life_at([STEPS], 21.1) is None
    assert life_at([FRUIT, STEPS], 21.1) is None, "a mix has no life where its meat has none"
    assert life_on_the_way([STEPS], 21.1) is None
    carried = line((4.5, 90.0), (21.0, 14.0), steps=True, carried_c=32.0)
    assert life_at([carried], 26.0) is None
    on_the_way = life_on_the_way([carried], 26.0)
    assert on_the_way.days < 14.0
    assert on_the_way.assumed is MessageKind.ROOM_LIMIT_IN_HEAT
    assert life_on_the_way([carried], 32.5) is None
    assert missing(history([], 40.0), carried) == (
        "no keeping time is published for it at 104 °F (40 °C): refrigerate or freeze it"
    )


def test_where_no_life_is_published_the_workings_say_so_and_end():
    found = keeping(history([], 40.0), [line((4.5, 90.0), (21.0, 14.0), steps=True)], START)
    assert found.until is None
    assert "no keeping time is published" in read(found.workings).casefold()


def test_what_was_assumed_in_the_heat_stands_in_the_workings_and_the_basis():
    carried = line((4.5, 90.0), (21.0, 14.0), steps=True, carried_c=32.0)
    found = keeping(history([], 26.0), [carried], START)
    said = "nothing is published for the heat: the limit for a room, or less, is used"
    assert f"Assumed: {said}" in read(found.workings)
    assert f"assumption: {said}" in rests_on(found.basis)


def test_a_general_rule_says_nothing_outside_its_points():
    own = line((4.0, 700.0), (32.0, 400.0))
    general = line((15.0, 365.0), (27.0, 180.0), only_between=True)
    assert life_at([own, general], 4.0).days == 700.0
    assert life_at([own, general], 15.0).days == 365.0
    assert life_at([general], 40.0) is None


def test_a_missing_temperature_is_said_and_not_guessed():
    in_the_cellar = (Stretch("the cellar", START, None, None),)
    assert missing(in_the_cellar, FRUIT) == "the temperature of the cellar is not recorded"
    assert missing((), FRUIT) == "no place is recorded"
    assert missing(history([], 20.0)) == "no keeping time is published for this food"
    assert keeping((), [FRUIT], START).left(START) is None


def test_workings_have_a_line_for_each_stretch_and_name_what_was_supposed():
    supposed = Stretch("the cellar", START, START + timedelta(days=20), 15.0, "it was as warm before")
    found = keeping((supposed, Stretch("the pantry", supposed.end, None, 27.0)), [FRUIT], START)
    said = read(found.workings).split("\n")
    assert said[0] == "Assumed: it was as warm before"
    assert said[1].startswith("the cellar: Published life: 365 days at 15 °C")
    assert said[2] == "the cellar: At 15 °C 20 days use 20 days ÷ 365 days = 0.05479 of the life"
    assert said[-1].startswith("the pantry: At 27 °C (1 − 0.05479) × ")
    assert {b.kind for b in found.basis} == {"assumption", "handbook"}


def test_hotter_than_the_hottest_the_halving_rule_is_named_with_its_source():
    warm = life_at([line((20, 100.0))], 30.0)
    assert warm.days == pytest.approx(50.0)
    assert HALVING in warm.facts
    assert "18 °F" in str(warm.how)
    assert "a rule" in str(warm.how)


def test_where_the_points_fall_faster_their_own_line_is_drawn_on_and_the_rule_is_not_named():
    hot = life_at([line((10, 400.0), (20, 100.0))], 30.0)
    assert hot.days == pytest.approx(25.0)
    assert HALVING not in hot.facts


def test_a_limit_of_the_refrigerator_is_no_longer_for_being_colder_there_but_at_least_so_long_when_frozen():
    fish = line((4.5, 14.0), steps=True)
    for celsius, least in ((4.5, False), (3.0, False), (0.5, False), (-5.0, True), (-18.0, True)):
        open_end = history([], celsius)
        assert days_at(fish, celsius=celsius) == 14.0
        assert is_a_least(open_end, [fish]) is least, celsius
    assert is_a_least(history([], 10.0), [FRUIT])
    assert is_a_least(history([], -20.0), [STEPS])
    assert not is_a_least(history([], -17.0), [STEPS])


def test_each_rule_has_its_line_in_the_workings():
    """365 days at 15 °C and 180 at 27 °C; halved for each 18 °F hotter than one point alone."""
    one_point = line((20.0, 100.0))
    said = {c: read((life_at([FRUIT], c).how,)) for c in (14.9, 15.0, 21.0)}
    assert said == {
        14.9: "Colder than the coldest published point: at least the 365 days at 15 °C   [a source]",
        15.0: "Published life: 365 days at 15 °C   [a source]",
        21.0: "Life at 21 °C, on the line of log life between 365 days at 15 °C and 180 days at 27 °C: 256.3 days"
        "   [a source]",
    }
    assert read((life_at([line((10.0, 400.0), (20.0, 100.0))], 30.0).how,)) == (
        "Life at 30 °C, on the line of log life through 400 days at 10 °C and 100 days at 20 °C, extended: 25 days"
        "   [a source]"
    )
    assert read((life_at([one_point], 25.0).how,)) == (
        "Life at 25 °C: 100 days at 20 °C, halved for each 18 °F (10 °C) hotter [a rule], × 0.707 = 70.71 days"
        "   [a source]"
    )
    assert read((life_at([STEPS], 0.0).how,)) == "The next warmer limit is used: 90 days at 4.5 °C   [a source]"
    assert read((life_at([STEPS], 4.5).how,)) == "Published life: 90 days at 4.5 °C   [a source]"


def test_without_a_rule_for_the_heat_a_lone_point_stands():
    alone = Line("test", (LifePoint(20.0, Fact(100.0, "day", "a source")),))
    assert life_at([alone], 30.0).days == 100.0


def test_a_line_between_points_ends_at_its_points_and_a_step_in_the_heat_at_its_border():
    general = line((15.0, 365.0), (27.0, 180.0), only_between=True)
    assert [days_at(general, celsius=c) for c in (14.9, 15.0, 27.0, 27.1)] == [0.0, 365.0, 180.0, 0.0]
    carried = line((4.5, 90.0), (21.0, 14.0), steps=True, carried_c=32.0)
    assert life_on_the_way([carried], 32.0).days == pytest.approx(14.0 * 0.5**1.1)
    assert life_on_the_way([carried], 21.0).assumed is None


def test_the_life_used_counts_each_stretch_up_to_the_moment_that_is_asked_about():
    """73 days of 365 in the cellar are a fifth; 90 of 180 in the pantry a half."""
    pantry = START + timedelta(days=73)
    places = (Stretch("the cellar", START, pantry, 15.0), Stretch("the pantry", pantry, None, 27.0))
    at = {days: keeping(places, [FRUIT], START + timedelta(days=days)).used for days in (-5, 0, 36.5, 73, 163, 400)}
    assert at == pytest.approx({-5: 0.0, 0: 0.0, 36.5: 0.1, 73: 0.2, 163: 0.7, 400: 0.2 + 327 / 180})
    until, _ = used_up(places, [FRUIT])
    assert until == pantry + timedelta(days=144)
    assert keeping(places, [FRUIT], until).left(until - timedelta(days=10)).value == pytest.approx(10.0)
    assert keeping(places, [FRUIT], until).left(until + timedelta(days=10)).value == pytest.approx(-10.0)


def test_a_life_used_up_before_the_food_is_moved_ends_where_it_was():
    moved = START + timedelta(days=365)
    places = (Stretch("the cellar", START, moved, 15.0), Stretch("the pantry", moved, None, 27.0))
    assert used_up(places, [FRUIT])[0] == moved
    assert read(keeping(places, [FRUIT], START).workings).count("\n") == 1
