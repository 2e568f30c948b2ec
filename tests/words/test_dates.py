"""Days and times in English, whatever language the machine is set to."""

from datetime import UTC, date, datetime

from dryhouse.words.dates import clock_words, day_words, weekday_words


def test_days_and_times_are_written_as_people_write_them():
    assert day_words(date(2027, 8, 6)) == "6 Aug 2027"
    assert weekday_words(date(2027, 8, 6)) == "Fri 6 Aug"
    assert clock_words(datetime(2027, 8, 6, 7, 5, tzinfo=UTC)) == "07:05"
