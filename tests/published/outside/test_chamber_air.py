"""Air warmed in the dryer, against textbook examples and a table. Sources stand beside each."""

from __future__ import annotations

import pytest

from dryhouse.science.chamber import warmed


def test_ratio_of_steam_table_pressures():
    """Saturation pressures from memory of any steam table: 2.645 kPa at 22 °C, 17.34 kPa at 57 °C."""
    assert warmed(22, 50, 57).relative_humidity_pct == pytest.approx(50 * 2.645 / 17.34, abs=0.03)


@pytest.mark.parametrize(
    ("dew_point_c", "dry_bulb_c", "printed_rh", "tolerance"),
    [
        (31.5, 55.0, 29.6, 0.3),  # Treybal, Illustration 7.6
        (16.85, 54.85, 12.13, 0.2),  # Narayanan & Lakshmikutty, Example 8.11
    ],
)
def test_textbook_humidity_at_a_dew_point(dew_point_c, dry_bulb_c, printed_rh, tolerance):
    assert warmed(dew_point_c, 100, dry_bulb_c).relative_humidity_pct == pytest.approx(printed_rh, abs=tolerance)


def test_textbook_dew_point_of_air_heated_to_86_c():
    """Himmelblau & Riggs, Example 29.2: 38 °C and 49 %, heated to 86 °C at constant humidity: dew point 24.8 °C."""
    assert warmed(38, 49, 86).dew_point_c == pytest.approx(24.8, abs=0.7)
