"""The clock is told as the system's locale has it."""

import pytest
from PySide6.QtCore import QLocale

from dryhouse.desk.app import twelve_hours


@pytest.mark.parametrize(
    ("locale", "twelve"), [("en_US", True), ("en_AU", True), ("de_DE", False), ("en_GB", False), ("sv_SE", False)]
)
def test_twelve_or_twenty_four_hours(locale, twelve):
    assert twelve_hours(QLocale(locale)) is twelve
