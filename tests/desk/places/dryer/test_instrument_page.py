"""Setting an instrument to follow a batch, with a preview of what it sends."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QSettings

from dryhouse.desk.places.dryer.instrument_page import InstrumentPage
from dryhouse.kitchen.dryer.drying import weighings_of
from tests.desk.places.dryer.sitting import Sitting, drying


@pytest.fixture
def page(qtbot, hands, tmp_path) -> InstrumentPage:
    sitting = Sitting(qtbot, hands)
    sitting.session.start_instruments(QSettings(str(tmp_path / "s.ini"), QSettings.Format.IniFormat))
    drying(sitting)
    sitting.place.open_beside(sitting.place.instrument, sitting.place.current)
    yield sitting.place.instrument
    sitting.session.instruments.stop()


def test_the_preview_says_how_each_line_is_read_and_what_is_wrong_with_a_pattern(page, tmp_path) -> None:
    path = tmp_path / "scale.txt"
    path.write_text("ST,GS, 860.5 g\nUS,GS, 700 g\n")
    page.source.set_value(str(path))
    page.look()
    assert page.preview.text() == "Nothing has come yet."
    with path.open("a") as file:
        file.write("ST,GS, 859.5 g\nUS,GS, 700 g\n")
    page.look()
    assert page.preview.text().splitlines() == [
        "ST,GS, 859.5 g   →   860 g",
        "US,GS, 700 g   →   no steady weight",
    ]
    page.pattern.set_value("(?P<mass>")
    page.look()
    assert "cannot be read" in page.preview.text()


def test_following_begins_by_a_button_and_what_is_read_shows_on_the_strip(page, hands, tmp_path) -> None:
    path = tmp_path / "scale.txt"
    path.write_text("")
    page.source.set_value(str(path))
    page.follow()
    instruments = page.session.instruments
    assert [f.instrument.batch for f in instruments.all] == [1]
    for _ in range(20):
        hands.wait(1 / 3600)
        with path.open("a") as file:
            file.write("ST,GS, 990.5 g\n")
        instruments.look()
    assert [w.net_g for w in weighings_of(hands.kitchen, 1)] == [990.5]
    page.stop_following()
    assert instruments.all == []


def test_without_a_source_it_is_asked_for(page) -> None:
    page.source.set_value("")
    page.follow()
    assert "Choose the port" in page.preview.text()
