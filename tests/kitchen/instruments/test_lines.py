"""What one line of an instrument says."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from dryhouse.kitchen.instruments.lines import LineReader, Way
from tests.kitchen.dryer.test_typed_readings import WALL, Clock
from tests.rows import every_row


@every_row(
    ("line", "pattern", "grams"),
    [
        ("ST,GS,+  860.5 g", "unit", 860.5),
        ("ST,GS,+0860.5g", "unit", 860.5),
        ("  860.5 g S", "unit", 860.5),
        ("30.33 oz", "unit", 859.841),
        ("+   0.8605 kg", "unit", 860.5),
        ("1.897 lb", "unit", 860.465),
        ("N  860,5 g", "unit", 860.5),
        ("\x02  860.5 g\x03", "unit", 860.5),
        ("- 3.2 g", "unit", -3.2),
        ("860.5", "last", 860.5),
        ("2026-11-25 13:00:00 860.5", "last", 860.5),
        ("ch1: 860.5 ch2: 12", "first", None),
        ("860.5 12 33", "first", 860.5),
        ("w=860.5;t=57", r"w=(?P<mass>[\d.]+)", 860.5),
        ("US,GS,+  860.5 g", "unit", None),
        ("860.5 g ?", "unit", None),
        ("OL", "unit", None),
        ("hello", "unit", None),
        ("", "unit", None),
        ("9999999999 g", "unit", None),
        ("\xff\x00\x01", "last", None),
    ],
)
def test_the_weight_of_a_line(line, pattern, grams) -> None:
    found = LineReader(Way(pattern), WALL).read(line)
    if pattern == "first" and grams is None:
        assert found is not None
        assert found.grams == 1
        return
    assert (found is None) == (grams is None)
    assert found is None or found.grams == pytest.approx(grams, abs=1e-3)


def test_a_table_is_read_by_its_headings_with_the_air_and_its_units() -> None:
    reader = LineReader(Way("table"), WALL)
    assert reader.read("Time;Weight (oz);Dryer temp °F;Dryer RH %;Kitchen temperature C;Room humidity") is None
    found = reader.read("2026-11-25T13:00:00Z;30,33;135;12,5;21,5;48")
    assert found.at == datetime(2026, 11, 25, 13, 0, tzinfo=UTC)
    assert found.grams == pytest.approx(859.84, abs=0.01)
    assert found.chamber_c == pytest.approx(57.22, abs=0.01)
    assert (found.chamber_pct, found.kitchen_c, found.kitchen_pct) == (12.5, 21.5, 48)
    assert reader.read("2026-11-25T13:00:00Z;;135;;;") is None
    assert reader.read("no time;30;135;;;") is None


def test_a_table_without_headings_is_time_and_weight_and_knows_seconds_since_1970() -> None:
    reader = LineReader(Way("table"), WALL)
    assert reader.read("1795611600, 860.5").at == datetime(2026, 11, 25, 13, 0, tzinfo=UTC)
    assert reader.read("2026-11-25 13:00:01, 860.1").grams == 860.1


def test_a_pattern_of_one_s_own_has_to_name_the_weight() -> None:
    assert "(?P<mass>…)" in Way(r"w=[\d.]+").problem()
    assert "cannot be read" in Way(r"(?P<mass>").problem()
    assert Way(r"w=(?P<mass>[\d.]+)").problem() == Way("table").problem() == ""


@every_row(
    ("heading", "cell", "name", "value"),
    [
        ("dryer temp C", "57", "chamber_c", 57.0),
        ("dryer °F", "135", "chamber_c", 57.2222),
        ("temperature", "57", "chamber_c", 57.0),
        ("t", "57", "chamber_c", 57.0),
        ("inside c", "57", "chamber_c", 57.0),
        ("° c", "57", "chamber_c", 57.0),
        ("ambient f", "70", "kitchen_c", 21.1111),
        ("outside temperature", "21.5", "kitchen_c", 21.5),
        ("room humidity", "48", "kitchen_pct", 48.0),
        ("rh", "17.5", "chamber_pct", 17.5),
        ("hum", "100", "chamber_pct", 100.0),
        ("hum", "100.1", "chamber_pct", None),
        ("kitchen rh", "100", "kitchen_pct", None),
        ("kitchen temp", "60", "kitchen_c", 60.0),
        ("kitchen temp", "60.5", "kitchen_c", None),
        ("dryer temp", "150", "chamber_c", 150.0),
        ("dryer temp", "151", "chamber_c", None),
        ("dryer temp", "-30", "chamber_c", -30.0),
        ("dryer temp", "-31", "chamber_c", None),
        ("hum", "0", "chamber_pct", 0.0),
        ("dryer", "57", "chamber_c", None),
        ("air", "57", "chamber_c", None),
        ("c", "57", "chamber_c", None),
        ("kitchen", "57", "kitchen_c", None),
        ("remarks", "57", "chamber_c", None),
    ],
)
def test_a_heading_says_what_its_column_is_and_what_no_sensor_can_say_is_not_believed(
    heading, cell, name, value
) -> None:
    reader = LineReader(Way("table"), WALL)
    assert reader.read(f"time,grams,{heading}") is None
    found = reader.read(f"2026-11-25T13:00:00Z,860,{cell}")
    assert found.grams == 860
    assert getattr(found, name) == (None if value is None else pytest.approx(value, abs=1e-3))
    others = {"chamber_c", "chamber_pct", "kitchen_c", "kitchen_pct"} - {name}
    assert {getattr(found, other) for other in others} == {None}


@every_row(
    ("heading", "cell", "grams"),
    [("oz", "30", 850.486), ("Weight (kg)", "0.86", 860.0), ("load", "860", 860.0), ("scale lb", "2", 907.185)],
)
def test_the_weight_of_a_table_is_in_the_unit_of_its_heading(heading, cell, grams) -> None:
    reader = LineReader(Way("table"), WALL)
    reader.read(f"when,{heading}")
    assert reader.read(f"2026-11-25T13:00:00Z,{cell}").grams == pytest.approx(grams, abs=1e-3)


@every_row(
    ("written", "read"),
    [
        ("2026-11-25T13:00:00+02:00", datetime(2026, 11, 25, 11, 0, tzinfo=UTC)),
        ("1795611600", datetime(2026, 11, 25, 13, 0, tzinfo=UTC)),
        ("yesterday 13:00", WALL.now().replace(hour=13, minute=0, second=0, microsecond=0) - timedelta(days=1)),
        ("soon", None),
    ],
)
def test_a_moment_is_read_as_loggers_and_people_write_it(written, read) -> None:
    found = LineReader(Way("table"), WALL).read(f"{written},860.5")
    assert (found.at if found else None) == read


def test_one_column_is_the_weight_and_first_of_two_alike_counts() -> None:
    assert LineReader(Way("table"), WALL).read("860.5").grams == 860.5
    reader = LineReader(Way("table"), WALL)
    reader.read("weight,load")
    assert reader.read("860,900").grams == 860


@every_row(
    ("line", "grams"),
    [("199999 g", 199_999.0), ("200000 g", None), ("-199999 g", -199_999.0), ("-200000 g", None)],
)
def test_more_than_any_scale_shows_is_noise(line, grams) -> None:
    found = LineReader(Way("unit"), WALL).read(line)
    assert (found.grams if found else None) == grams


def test_a_line_says_its_unit_or_takes_that_of_the_instrument() -> None:
    assert LineReader(Way("unit", "g"), WALL).read("2 LB").unit == "lb"
    bare = LineReader(Way("last", "oz"), WALL).read("30")
    assert (bare.unit, bare.grams) == ("", pytest.approx(850.486, abs=1e-3))


def test_a_time_without_a_zone_is_of_the_clock_on_the_wall() -> None:
    far = Clock(ZoneInfo("America/Chicago"))
    assert LineReader(Way("table"), far).read("2026-11-25 13:00:00,860.5").at == datetime(
        2026, 11, 25, 19, 0, tzinfo=UTC
    )
