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
        ("corn 2026-1-5 pear", "corn pear", date(2026, 1, 5), date(2026, 1, 6)),
        ("31 december 2026", "", date(2026, 12, 31), date(2027, 1, 1)),
        ("Oct 14 2026", "", date(2026, 10, 14), date(2026, 10, 15)),
        ("corn may 2026 ears", "corn ears", date(2026, 5, 1), date(2026, 6, 1)),
        ("Sept 2026", "", date(2026, 9, 1), date(2026, 10, 1)),
        ("9 september 2026", "", date(2026, 9, 9), date(2026, 9, 10)),
        ("jan 1999", "", date(1999, 1, 1), date(1999, 2, 1)),
        ("corn 2099", "corn", date(2099, 1, 1), date(2100, 1, 1)),
        ("31 feb 2026", "31", date(2026, 2, 1), date(2026, 3, 1)),
    ],
)
def test_a_time_is_read_out_of_a_search(text, left, first, after):
    assert days_in(text) == (left, first, after)


@pytest.mark.parametrize(
    "text", ["may", "corn", "march mushrooms", "batch 12", "135", "lot 1202", "corn 1899", "corn 2100", ""]
)
def test_words_stay_words(text):
    assert days_in(text) == (text, None, None)


def test_a_day_that_does_not_exist_is_no_day():
    assert days_in("2026-02-31") == ("-02-31", date(2026, 1, 1), date(2027, 1, 1))
