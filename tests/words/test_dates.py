"""Days and times in English, whatever language the machine is set to."""

import re
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from dryhouse.words import dates
from tests.rows import every_row

DAY, MOMENT = date(2027, 8, 6), datetime(2027, 8, 6, 7, 5, tzinfo=UTC)
PACKAGE = Path(dates.__file__).parents[1]


@every_row(
    ("say", "said"),
    [
        (dates.weekday, "Friday"),
        (dates.month, "Aug"),
        (dates.day_words, "6 Aug 2027"),
        (dates.month_words, "Aug 2027"),
        (dates.short_day, "6 Aug"),
        (dates.weekday_words, "Fri 6 Aug"),
        (dates.full_day, "Fri 6 Aug 2027"),
        (dates.long_day, "Friday 6 August"),
    ],
    ids=lambda value: getattr(value, "__name__", value),
)
def test_a_day_is_written_as_people_write_it(say, said):
    assert say(DAY) == said


def test_a_moment_is_written_with_its_clock_time():
    assert dates.clock(MOMENT) == "07:05"
    assert dates.clock(MOMENT.replace(second=9), seconds=True) == "07:05:09"
    assert dates.weekday_clock(MOMENT) == "Fri 6 Aug 07:05"
    assert dates.full_moment(MOMENT) == "Fri 6 Aug 2027, 07:05"


def test_every_day_of_a_week_and_every_month_has_its_own_name():
    days = [DAY + timedelta(days=n) for n in range(7)]
    assert [dates.weekday(day)[:3] for day in days] == ["Fri", "Sat", "Sun", "Mon", "Tue", "Wed", "Thu"]
    named = [dates.month(date(2027, n, 1)) for n in range(1, 13)]
    assert (named[0], named[-1]) == ("Jan", "Dec")
    assert len(set(named)) == 12


NAMES_BY_THE_MACHINE = re.compile(r"%-?[aAbBcxXph]\b|\bday_name\b|\bmonth_name\b|\bsetlocale\b")


@every_row("path", sorted(PACKAGE.rglob("*.py")), ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_no_name_of_a_day_or_a_month_is_left_to_the_machine(path):
    """The C locale would put the names of another language into an English sentence."""
    assert not NAMES_BY_THE_MACHINE.search(path.read_text(encoding="utf-8"))


def test_a_moment_of_these_days_is_said_by_its_distance():
    now = datetime(2026, 11, 26, 12, 0, tzinfo=UTC).astimezone().replace(hour=20)
    assert dates.day_and_clock(now.replace(hour=18, minute=5), now) == "today 18:05"
    assert dates.day_and_clock(now.replace(hour=9, minute=30) - timedelta(days=1), now) == "yesterday 09:30"
    assert dates.day_and_clock(now.replace(minute=5, second=9), now, seconds=True) == "today 20:05:09"
    assert dates.day_and_clock(now - timedelta(days=20), now) == "6 Nov 2026 20:00"
    assert dates.day_and_clock(now + timedelta(days=1), now) == "27 Nov 2026 20:00"


@every_row(
    ("hour", "said"),
    [(0, "12:05 am"), (1, "1:05 am"), (11, "11:05 am"), (12, "12:05 pm"), (13, "1:05 pm"), (23, "11:05 pm")],
)
def test_a_clock_of_twelve_hours_begins_again_at_noon(hour, said):
    dates.tell_twelve_hours(True)
    try:
        assert dates.clock(MOMENT.replace(hour=hour)) == said
    finally:
        dates.tell_twelve_hours(False)
