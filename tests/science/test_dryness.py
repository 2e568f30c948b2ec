"""The verdict is a probability in a word: of the weight, of the food's own range, and of how a piece feels."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.dry_matter import Belief
from dryhouse.science.dryness import BORDERS, adds_up, verdict
from dryhouse.science.moisture import LoadPart, load_of
from dryhouse.science.statuses import Feel, VerdictName
from dryhouse.science.values import Fact
from tests.rows import every_row

CORN = Fact(76.05, "%", "a source", low=74.0, high=78.0)
TOLD = Fact(76.05, "%", "tested")
TARGET = Fact(10.0, "%", "another source")


def one(mass=1000.0, water=CORN):
    return load_of([LoadPart("corn", mass, water)])


@every_row(
    ("mass", "feel", "name"),
    [
        (225.0, None, "dry enough"),
        (250.0, None, "probably dry"),
        (266.0, None, "nearly"),
        (310.0, None, "still moist"),
        (500.0, None, "still moist"),
        (250.0, Feel.BRITTLE, "dry enough"),
        (266.0, Feel.BRITTLE, "probably dry"),
        (250.0, Feel.LEATHERY, "nearly"),
        (250.0, Feel.PLIABLE, "still moist"),
        (250.0, Feel.STICKY, "still moist"),
        (500.0, Feel.BRITTLE, "still moist"),
        (150.0, None, "weights don't add up"),
        (1100.0, None, "weights don't add up"),
        (150.0, Feel.BRITTLE, "weights don't add up"),
    ],
)
def test_the_word_goes_by_the_weight_and_by_the_hand(mass, feel, name):
    assert verdict(one(), mass, TARGET, feel=feel).name == name


def test_a_moisture_that_is_known_leaves_little_doubt():
    at_target = 239.5 / 0.9
    assert verdict(one(water=TOLD), at_target, TARGET).name == VerdictName.DRY_ENOUGH
    assert verdict(one(water=TOLD), 1.03 * at_target, TARGET).name == VerdictName.STILL_MOIST


@given(
    st.floats(20, 98), st.floats(0.01, 0.4), st.floats(0.02, 1.0), st.sampled_from([None, *Feel]), st.floats(3, 25)
)
def test_no_word_is_said_with_less_behind_it_than_its_border(water, doubt, share, feel, target):
    solids = 100.0 - water
    water_fact = Fact(water, "%", "s", low=100 - min(solids * (1 + doubt), 99.0), high=100 - solids / (1 + doubt))
    found = verdict(one(water=water_fact), 1000.0 * share, Fact(target, "%", "t"), feel=feel)
    if found.name == VerdictName.MISMATCH:
        assert (found.probability, found.now, found.dry, found.in_doubt) == (None, None, None, False)
        return
    assert found.probability >= dict(BORDERS)[found.name]
    assert all(found.probability < least for name, least in BORDERS if least > dict(BORDERS)[found.name])
    assert found.now.low <= found.now.value <= found.now.high
    assert found.to_go_g >= 0.0
    assert found.dry is not True or found.probability >= 0.5


@every_row(
    ("mass", "feel", "dry", "doubt"),
    [
        (225.0, None, True, False),
        (250.0, None, None, True),
        (266.0, None, None, True),  # by the table it is dry: the doubt alone is wide
        (275.0, None, False, False),
        (400.0, None, False, False),
        (266.0, Feel.BRITTLE, True, False),
        (250.0, Feel.LEATHERY, False, False),
        (215.0, Feel.PLIABLE, False, False),  # probably dry by weight, and the hand says otherwise
        (150.0, None, None, False),
    ],
)
def test_wide_doubt_alone_makes_nothing_moist_and_nothing_dry(mass, feel, dry, doubt):
    found = verdict(one(), mass, TARGET, feel=feel)
    assert (found.dry, found.in_doubt) == (dry, doubt)


def test_a_wide_range_never_makes_moist_what_is_dry_by_the_table():
    wide = Fact(76.05, "%", "a source", low=60.0, high=86.0)
    found = verdict(one(water=wide), 266.0, TARGET)
    assert found.probability < 0.35
    assert (found.dry, found.in_doubt) == (None, True)


def test_weights_add_up_from_the_least_dry_matter_to_what_was_loaded():
    assert [adds_up(one(), grams) for grams in (190, 215, 240, 1000, 1001, 1010)] == [
        False, True, True, True, True, False,
    ]  # fmt: skip
    assert not adds_up(one(), 0.0)
    assert not adds_up(one(water=TOLD), 236.0)


def test_the_sentence_and_the_word_share_one_moisture():
    found = verdict(one(), 250.0, TARGET)
    assert found.moisture_pct == found.now.value
    assert found.to_go_g == pytest.approx(max(250.0 - 250.0 * (1 - found.moisture_pct / 100) / 0.9, 0.0))


def test_a_verdict_says_all_it_rests_on():
    """239.5 g of dry matter in 300 g are 20.17 % of water, and weigh 266.1 g at 10 %: 33.9 g are still to go."""
    load = one(water=TOLD)
    found = verdict(load, 300.0, TARGET, feel=Feel.LEATHERY)
    assert (found.name, found.grams, found.load, found.target_pct) == (VerdictName.STILL_MOIST, 300.0, load, 10.0)
    assert (found.probability, found.feel, found.hand_agrees) == (0.0, Feel.LEATHERY, True)
    assert (found.of_sample, found.on_dryer, found.lacks) == (False, False, ())
    assert found.moisture_pct == pytest.approx(100 * (1 - 239.5 / 300))
    assert found.to_go_g == pytest.approx(300 - 239.5 / 0.9)
    assert verdict(load, 260.0, TARGET).to_go_g == 0.0
    lost = verdict(load, 100.0, TARGET)
    assert (lost.name, lost.grams, lost.load, lost.target_pct) == (VerdictName.MISMATCH, 100.0, load, 10.0)
    assert (lost.moisture_pct, lost.to_go_g, lost.feel, lost.hand_agrees) == (0.0, 0.0, None, False)


def test_a_hand_agrees_where_it_makes_dryness_likelier_and_not_where_it_makes_it_rarer():
    said = {feel: verdict(one(), 250.0, TARGET, feel=feel) for feel in (None, *Feel)}
    assert {feel: found.hand_agrees for feel, found in said.items()} == {
        None: False, Feel.BRITTLE: True, Feel.LEATHERY: False, Feel.PLIABLE: False, Feel.STICKY: False,
        Feel.WET: False,
    }  # fmt: skip
    assert all(found.feel is feel for feel, found in said.items())


def test_the_probability_is_read_a_step_of_the_scale_lighter():
    """Three loads of dry matter 200, 230 and 260 g: at 10 % they weigh 222.2, 255.6 and 288.9 g. The scale reads to
    the gram, so that 256.5 g may be 255.5: then the lighter half of the middle one is at its target."""
    taught = Belief(np.array([0.20, 0.23, 0.26]), np.array([0.25, 0.5, 0.25]))
    assert verdict(one(), 230 / 0.9 + 1.0, TARGET, taught).probability == pytest.approx(0.5)
    half_way = verdict(one(), 215 / 0.9 + 1.0, TARGET, taught)
    assert (half_way.probability, half_way.name) == (pytest.approx(1 - 0.3125), VerdictName.PROBABLY_DRY)
    assert half_way.moisture_pct == pytest.approx(100 * (1 - 230 / (215 / 0.9 + 1.0)))
