"""A dry-matter test of a sample, by hand: what it says of the load, and of the next one."""

import math

import pytest

from dryhouse.science.dry_matter_test import TABLE_WORTH, TESTED_SD, sd_of_test, share_of_test, taught


def test_a_sample_of_the_load_shows_its_own_share():
    assert share_of_test(20.0, 1.9, 1000.0, 105.0, 0.09) == pytest.approx(0.095)


def test_a_sample_of_the_dried_food_shows_what_the_dried_mass_holds():
    # 20 g of the 105 g dried out to 17.1 g: 85.5 % of 105 g is 89.8 g of dry matter in 1000 g
    assert share_of_test(20.0, 17.1, 1000.0, 105.0, 0.09) == pytest.approx(0.855 * 0.105)


def test_without_the_masses_or_a_table_the_sample_is_of_the_load():
    assert share_of_test(20.0, 17.1, None, 105.0, 0.09) == pytest.approx(0.855)
    assert share_of_test(20.0, 17.1, 1000.0, 105.0, None) == pytest.approx(0.855)


def test_a_coarse_scale_makes_a_weak_test():
    assert sd_of_test(17.1, 0.1) == pytest.approx(TESTED_SD, rel=0.01)
    assert sd_of_test(2.0, 1.0) > 0.14


def test_the_table_counts_as_a_few_tests():
    middle, spread = taught(0.10, 0.12, [0.14] * int(TABLE_WORTH), 0.06)
    assert middle == pytest.approx(math.sqrt(0.10 * 0.14))
    assert 0.06 < spread < 0.12
    assert taught(0.10, 0.12, [0.14] * 300, 0.06)[0] == pytest.approx(0.14, rel=0.01)
    assert taught(0.10, 0.12, [], 0.06) == (pytest.approx(0.10), pytest.approx(0.12))


def test_the_next_purchase_is_another_one_whatever_was_tested():
    assert taught(0.10, 0.12, [0.10] * 1000, 0.06)[1] > 0.12 / math.sqrt(1 + 1 / TABLE_WORTH) - 1e-3
    assert taught(0.10, 0.05, [0.10] * 1000, 0.06)[1] == 0.06


def test_a_food_nobody_published_is_known_by_its_tests_alone():
    middle, spread = taught(None, None, [0.2, 0.3], 0.06)
    assert middle == pytest.approx(math.sqrt(0.06))
    assert spread > 0.1
    with pytest.raises(ValueError, match="nothing"):
        taught(None, None, [], 0.06)


def test_what_tests_teach_by_hand():
    """The table's 10 % count as three tests: with three of 14 %, six. The next purchase is one more, and was one
    more beside the three before: the spread is 12 % × √((1 + 1/6) / (1 + 1/3)). A test that is as doubtful as
    purchases differ counts half."""
    middle, spread = taught(0.10, 0.12, [0.14] * 3, 0.06)
    assert (middle, spread) == (pytest.approx(math.sqrt(0.014)), pytest.approx(0.12 * math.sqrt(7 / 6 / (4 / 3))))
    middle, spread = taught(0.10, 0.12, [0.14, 0.14], 0.06, [0.0, 0.12])
    assert middle == pytest.approx(math.exp((3 * math.log(0.10) + 1.5 * math.log(0.14)) / 4.5))
    assert spread == pytest.approx(0.12 * math.sqrt((1 + 1 / 4.5) / (4 / 3)))
    # nothing published: purchases differ by a tenth
    middle, spread = taught(None, None, [0.2, 0.4], 0.06, [0.0, 0.1])
    assert middle == pytest.approx(math.exp((math.log(0.2) + 0.5 * math.log(0.4)) / 1.5))
    assert spread == pytest.approx(0.1 * math.sqrt(1 + 1 / 1.5))


def test_a_table_without_a_spread_or_a_spread_without_a_table_is_no_table():
    for usual, spread in ((0.10, None), (None, 0.12)):
        assert taught(usual, spread, [0.14], 0.06) == (pytest.approx(0.14), pytest.approx(0.1 * math.sqrt(2.0)))
        with pytest.raises(ValueError, match="nothing"):
            taught(usual, spread, [], 0.06)


def test_the_spread_of_a_test_by_hand():
    """Two in a hundred beside what is rounded away: a step is off by its twelfth root."""
    assert sd_of_test(2.0, 0.5) == pytest.approx(math.hypot(0.02, 0.25 / math.sqrt(12.0)))
