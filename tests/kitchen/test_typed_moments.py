"""Moments as people type them."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.typed_moments import read_moment
from dryhouse.science.errors import InputProblem
from tests.builders import a_kitchen
from tests.rows import every_row
from tests.told import told


@every_row(
    ("text", "moment"),
    [
        ("2026-11-20 18:00", (2026, 11, 20, 18, 0)),
        ("2026-11-20T18:00", (2026, 11, 20, 18, 0)),
        ("2026-11-20T18:00:00+02:00", (2026, 11, 20, 16, 0)),
        ("yesterday 18:00", (2026, 11, 24, 18, 0)),
        ("today 8.15", (2026, 11, 25, 8, 15)),
        ("8:30", (2026, 11, 25, 8, 30)),
        ("18:00", (2026, 11, 24, 18, 0)),
        ("7 am", (2026, 11, 25, 7, 0)),
        ("20 Nov 7:30", (2026, 11, 20, 7, 30)),
        ("Nov 20 at 7:30 pm", (2026, 11, 20, 19, 30)),
        ("24 Dec 2025 12:00", (2025, 12, 24, 12, 0)),
        ("24 Dec 12:00", (2025, 12, 24, 12, 0)),
        ("friday 6pm", (2026, 11, 20, 18, 0)),
        ("now", (2026, 11, 25, 9, 0)),
    ],
)
def test_a_moment_is_understood(text, moment):
    assert read_moment(a_kitchen(), text) == datetime(*moment, tzinfo=UTC)


@every_row(
    "text",
    [
        "",
        "2026-11-20",
        "25:00",
        "2026-13-01 10:00",
        "soonish",
        "yesterday",
        "8",
        "13 pm",
        "0001-01-01 00:00",
        "1066-10-14 9:00",
        "0001-01-01 00:00+14:00",
        "999999999 days ago",
    ],
)
def test_what_is_no_moment_gets_a_sentence_with_an_example(text):
    with told(InputProblem, "write it like"):
        read_moment(a_kitchen(), text)


def test_a_batch_across_the_autumn_clock_change_counts_the_hour_that_comes_twice():
    base = a_kitchen()
    there = Kitchen(base.journal, base.handbook, base.now, ZoneInfo("Europe/Stockholm"))
    start, end = read_moment(there, "2026-10-24 22:00"), read_moment(there, "2026-10-25 06:00")
    assert (end - start).total_seconds() == 9 * 3600
