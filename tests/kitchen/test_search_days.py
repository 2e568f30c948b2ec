"""A day, a month or a year in a search is a time; everything else stays words."""

from datetime import date

import pytest

from dryhouse.kitchen.search_days import days_in


@pytest.mark.parametrize(
    ("text", "left", "first", "after"),
    [
        ("corn 2025", "corn", date(2025, 1, 1), date(2026, 1, 1)),
        ("2025 corn", "corn", date(2025, 1, 1), date(2026, 1, 1)),
        ("apple oct 2026", "apple", date(2026, 10, 1), date(2026, 11, 1)),
        ("December 2026", "", date(2026, 12, 1), date(2027, 1, 1)),
        ("14 oct 2026", "", date(2026, 10, 14), date(2026, 10, 15)),
        ("October 14, 2026 pear", "pear", date(2026, 10, 14), date(2026, 10, 15)),
        ("corn 2026-10-14", "corn", date(2026, 10, 14), date(2026, 10, 15)),
    ],
)
def test_a_time_is_read_out_of_a_search(text, left, first, after):
    assert days_in(text) == (left, first, after)


@pytest.mark.parametrize("text", ["may", "corn", "march mushrooms", "batch 12", "135", "lot 1202", ""])
def test_words_stay_words(text):
    assert days_in(text) == (text, None, None)


def test_a_day_that_does_not_exist_is_no_day():
    assert days_in("2026-02-31")[1] in (None, date(2026, 1, 1))
