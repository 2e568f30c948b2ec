"""Unit sizes against NIST Handbook 44, appendix C, and NIST SP 811, appendix B (exact definitions, recalled)."""

import pytest

from dryhouse.science.quantities import Area, Length, Mass, Temperature, Volume, parse
from tests.rows import every_row


@every_row(
    ("text", "kind", "stored"),
    [
        ("1 lb", Mass, 453.59237),  # international avoirdupois pound, exact
        ("1 oz", Mass, 28.349523125),  # one sixteenth of a pound, exact
        ("16 oz", Mass, 453.59237),
        ("1 gal", Volume, 3785.411784),  # 231 cubic inches, exact
        ("1 qt", Volume, 946.352946),
        ("1 pt", Volume, 473.176473),
        ("1 cup", Volume, 236.5882365),
        ("1 fl oz", Volume, 29.5735295625),
        ("1 tbsp", Volume, 14.78676478125),
        ("1 tsp", Volume, 4.92892159375),
        ("1 in", Length, 25.4),  # exact
        ("1 ft", Length, 304.8),
        ("1 sq in", Area, 6.4516),
        ("1 sq ft", Area, 929.0304),
        ("32 F", Temperature, 0.0),
        ("212 F", Temperature, 100.0),
        ("-40 F", Temperature, -40.0),
    ],
)
def test_a_unit_has_its_defined_size(text, kind, stored):
    assert parse(text, kind).si == pytest.approx(stored, rel=1e-12, abs=1e-9)
