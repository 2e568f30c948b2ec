"""Backups are thinned by age: the newest, then one a day, a week, a month, a year; never none."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from dryhouse.journal.thinning import DAYS, MONTHS, WEEKS, kept

NOW = datetime(2026, 11, 26, 18, tzinfo=UTC)


def test_an_afternoon_of_backups_pushes_no_earlier_day_out() -> None:
    evenings = [NOW - timedelta(days=n) for n in range(1, 10)]
    afternoon = [NOW - timedelta(minutes=n) for n in range(40)]
    left = kept([*evenings, *afternoon], NOW, 5)
    assert set(evenings) <= left
    assert set(afternoon) & left == set(afternoon[:5])


def test_a_decade_of_daily_backups_leaves_days_weeks_months_and_years() -> None:
    daily = [NOW - timedelta(days=n) for n in range(3650)]
    left = sorted(kept(daily, NOW, 5), reverse=True)
    assert left[:DAYS] == daily[:DAYS]
    assert len({at.isocalendar()[:2] for at in left}) >= WEEKS
    months = {(at.year, at.month) for at in left}
    assert all(
        ((NOW - timedelta(days=30 * n)).year, (NOW - timedelta(days=30 * n)).month) in months for n in range(20)
    )
    assert {at.year for at in left} == set(range(2016, 2027))
    assert len(left) <= 5 + DAYS + WEEKS + MONTHS + 11


def test_one_made_while_the_clock_was_ahead_takes_no_other_one_s_place() -> None:
    ahead = [NOW + timedelta(days=1500 + n) for n in range(4)]
    made = [NOW - timedelta(hours=n) for n in range(4)]
    left = kept([*ahead, *made], NOW, 3)
    assert set(made[:3]) <= left
    assert len(set(ahead) & left) == 3


def test_of_each_period_the_newest_stays_and_of_the_oldest_one_a_year() -> None:
    daily = [NOW - timedelta(days=n) for n in range(1500)]
    left = kept(daily, NOW, 1)
    weeks = sorted({at.isocalendar()[:2] for at in daily}, reverse=True)[:8]
    by_day = set(daily[:14])
    by_week = {max(at for at in daily if at.isocalendar()[:2] == week) for week in weeks}
    months = sorted({(at.year, at.month) for at in daily}, reverse=True)[:24]
    by_month = {max(at for at in daily if (at.year, at.month) == month) for month in months}
    by_year = {max(at for at in daily if at.year == year) for year in {at.year for at in daily}}
    assert left == by_day | by_week | by_month | by_year
    assert kept([*daily, NOW + timedelta(microseconds=1)], NOW, 1) == left | {NOW + timedelta(microseconds=1)}


@given(
    st.lists(st.integers(-9000 * 24, 4000 * 24).map(lambda hours: NOW + timedelta(hours=hours)), min_size=1),
    st.integers(1, 5),
)
def test_the_newest_always_stays_and_thinning_again_takes_nothing_more(made: list[datetime], newest: int) -> None:
    left = kept(made, NOW, newest)
    assert left
    past = [at for at in made if at <= NOW]
    assert not past or max(past) in left
    assert kept(left, NOW, newest) == left
