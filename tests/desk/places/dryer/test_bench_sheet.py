"""The sheet for the kitchen clipboard."""

from datetime import timedelta

import pytest

from dryhouse.desk.places.dryer.bench_sheet import LINES, bench_sheet
from dryhouse.desk.session import Session
from dryhouse.kitchen.dryer.drying import add_weighing
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.scale_style import scale_style
from dryhouse.kitchen.dryer.typed_readings import Reading
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.display import US
from dryhouse.science.quantities import Mass, parse
from tests.builders import NOW, a_kitchen
from tests.desk.conftest import SHELF, a_batch


@pytest.fixture
def kitchen() -> Kitchen:
    started = NOW - timedelta(hours=3)
    return a_kitchen(SHELF, a_batch(1, state="drying", started=started, ended=None, dried_mass=None))


def weigh(session: Session, gross: str, tare: str) -> None:
    add_weighing(
        session.kitchen, 1, Reading(parse(gross, Mass, default_unit="g"), tare=parse(tare, Mass, default_unit="g"))
    )


def text(session: Session) -> str:
    return bench_sheet(session, run_of(session.kitchen, 1)).toPlainText()


def test_it_has_the_food_what_it_weighs_when_dry_and_blanks_to_write_in(session):
    said = text(session)
    assert said.startswith("Sweet corn, batch 1")
    assert "Dry at " in said
    assert "Tray or tare: ____" in said
    page = bench_sheet(session, run_of(session.kitchen, 1))
    root = page.rootFrame()
    assert [(table.rows(), table.columns()) for table in root.childFrames()] == [(LINES + 1, 5)]


def test_a_gram_scale_is_told_in_grams_and_with_its_tray(session):
    weigh(session, "1100 g", "250 g")
    run = run_of(session.kitchen, 1)
    assert session.style.system == US
    style = scale_style(run, session.style)
    dry = run.target_mass.value
    assert f"Dry at {dry:.0f} g; the scale then shows {style.mass(dry + 250)} with the tray" in text(session)
    assert "Tray or tare: 250 g" in text(session)
    assert " oz" not in text(session).replace("412 g", "")


def test_what_is_written_on_it_is_read_at_the_scale_entry(session, qtbot):
    from dryhouse.desk.places.dryer.strip import Strip

    strip = Strip(session, run_of(session.kitchen, 1))
    qtbot.addWidget(strip)
    strip.reading.edit.setText("900 g")
    strip.weigh()
    strip.show_run(run_of(session.kitchen, 1))
    assert strip.state.text().startswith("Load 900 g at ")
    assert " oz" not in strip.state.text()
