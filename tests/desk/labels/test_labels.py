"""Labels: never cut, stops always there, at the millimetre."""

from __future__ import annotations

import re
import subprocess
from datetime import timedelta
from shutil import which

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtGui import QImage

from dryhouse.desk.labels.layout import SMALLEST_PT, document_of, fit, more_words, pieces_of
from dryhouse.desk.labels.paper import LabelJob, label_preview, write_pdf
from dryhouse.desk.labels.sheets import label_sheets, sheet_named, usual_sheet
from dryhouse.kitchen.records import Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.shelf.labels import Label, lot_labels
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.display import Style
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.values import Caution
from tests.kitchen.shelf_room import FREEZER, HEATED, PANTRY, TODAY, a_batch, a_shelf, packed

STOP = Caution("stop", "A grave thing must be said here in full, and it is never left off.", "a source")
WARN = Caution("warn", "Something to take care of.", "a source")
sizes = st.sampled_from([sheet.label_mm for sheet in label_sheets()])
MARGIN_MM = 2.0
"""Free of words on each side of a label."""

words = st.text(st.characters(codec="latin-1", categories=("L", "N", "P", "Zs")), min_size=1, max_size=90)
labels = st.builds(
    Label,
    words,
    st.lists(words, max_size=6).map(tuple),
    st.lists(st.sampled_from([STOP, WARN]), max_size=3).map(tuple),
)


@pytest.fixture
def paper(qapp) -> QImage:
    image = QImage(10, 10, QImage.Format.Format_RGB32)
    image.setDotsPerMeterX(round(300 / 0.0254))
    image.setDotsPerMeterY(round(300 / 0.0254))
    return image


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(labels, sizes)
def test_every_word_and_every_stop_stands_on_paper_and_none_is_cut(paper, label, size):
    fitted = fit(label, size, paper)
    shown = [piece.text for one in fitted for piece in one.pieces]
    assert all(text in shown for text in (label.title, *label.lines, *label.stops))
    for one in fitted:
        width, there = ((side - 2 * MARGIN_MM) * 300 / 25.4 for side in size)
        used = document_of(one.pieces, one.points, width, paper).size().height()
        lone = len(one.pieces) <= 2
        assert used <= there + 1 or (one.points == SMALLEST_PT and lone)


def test_other_cautions_follow_while_there_is_room_and_the_label_says_where_the_rest_is(paper):
    many = Label("corn", ("Dried", "8 oz"), tuple(Caution("warn", f"Care number {n}.", "s") for n in range(30)))
    small = fit(many, (66.7, 25.4), paper)
    assert len(small) == 1
    said = sum(piece.text.startswith("Care number") for piece in small[0].pieces)
    assert small[0].pieces[-1].text == more_words(30 - said)
    large = fit(Label("corn", ("Dried",), (WARN,)), (105.0, 74.0), paper)
    assert large[0].pieces[-1].text == WARN.text


def test_stops_stand_right_under_the_title():
    kinds = [piece.kind for piece in pieces_of(Label("turkey", ("Dried",), (WARN, STOP)))]
    assert kinds == ["title", "stop", "line", "further"]


def test_sheets_fit_their_pages():
    for sheet in label_sheets():
        x, y = sheet.place_mm(sheet.count - 1)
        assert x + sheet.label_mm[0] <= sheet.page_mm[0] + 1e-6, sheet.id
        assert y + sheet.label_mm[1] <= sheet.page_mm[1] + 1e-6, sheet.id
        assert sheet.step_mm[0] >= sheet.label_mm[0]
        assert sheet.step_mm[1] >= sheet.label_mm[1]
    assert sheet_named("no such sheet") is label_sheets()[0]


def test_a_label_says_what_when_how_much_keep_by_water_and_its_stops():
    kitchen = a_shelf(a_batch(), a_batch("turkey", 2))
    corn, turkey = packed(kitchen, 1, PANTRY), packed(kitchen, 2, FREEZER)
    one, other = lot_labels(kitchen, [corn.id, turkey.id], Style())
    told = "\n".join(one.lines)
    assert one.title == "Sweet corn"
    assert f"Dried 26 Oct 2026 · lot {corn.id}" in told
    assert re.search(r"8\.5 oz · .*cup", told)
    assert "Keep-by 4 Mar 2027 in the pantry" in told
    assert "Water" in told
    assert any("No record of heating to 165 °F" in stop for stop in other.stops)
    assert lot_labels(kitchen, [99], Style()) == ()


def test_copies_used_labels_and_pages(paper):
    sheet = sheet_named("a4-105x74")
    job = LabelJob((Label("corn", ("Dried",)),), sheet, copies=9, skip=3)
    fitted = job.fitted(paper)
    assert len(fitted) == 9
    assert job.pages(fitted) == 2
    picture, pages = label_preview(job, 1)
    assert pages == 2
    assert not picture.isNull()


@pytest.mark.parametrize("sheet", label_sheets(), ids=lambda s: s.id)
def test_the_pdf_has_the_size_of_its_sheet_and_every_stop(qapp, tmp_path, sheet):
    kitchen = a_shelf(a_batch(), a_batch("turkey", 2))
    ids = [packed(kitchen, n, PANTRY).id for n in (1, 2)]
    file = tmp_path / "labels.pdf"
    pages = write_pdf(LabelJob(lot_labels(kitchen, ids, Style()), sheet), file)
    boxes = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", file.read_bytes())
    assert len(boxes) == pages
    for width, height in boxes:
        assert float(width) / 72 * 25.4 == pytest.approx(sheet.page_mm[0], abs=0.6)
        assert float(height) / 72 * 25.4 == pytest.approx(sheet.page_mm[1], abs=0.6)
    if which("pdftotext"):
        told = subprocess.run(["pdftotext", str(file), "-"], capture_output=True, text=True, check=True).stdout
        flat = " ".join(told.split())
        assert "No record of heating to 165 °F" in flat
        assert "Room temperature: 14 days at most" in flat
        assert "lot 2" in flat


def turkey_soup(paper):
    """The bag of a heated turkey soup that travels warm."""
    starts = TODAY + timedelta(days=2)
    kitchen = a_shelf(
        a_batch("turkey", **HEATED), a_batch("rice-wild", 2),
        Meal("turkey and wild rice soup", liquid="soup", id=1),
        MealPart(1, 0, "turkey", "turkey", mass=Mass(50.0), id=1),
        MealPart(1, 1, "wild rice", "rice-wild", mass=Mass(60.0), id=2),
        Trip("lakes", starts, starts + timedelta(days=8), 4, temperature=Temperature(27.0), id=1),
        TripMeal(1, 1, starts, id=1),
    )  # fmt: skip
    for batch in (1, 2):
        packed(kitchen, batch, FREEZER)
    return bag_labels(plan(kitchen, 1), Style())


@pytest.mark.parametrize("sheet", label_sheets(), ids=lambda s: s.id)
def test_a_turkey_soup_bag_says_its_stop_165_two_hours_and_who_is_at_risk_in_type_one_can_read(paper, sheet):
    (label,) = turkey_soup(paper)
    fitted = fit(label, sheet.label_mm, paper)
    said = [piece.text for one in fitted for piece in one.pieces]
    stop, heat, hours, risk = (
        next(n for n, text in enumerate(said) if word in text)
        for word in ("14 days at most", "Heat to 165 °F", "within 2 h", "Higher risk")
    )
    assert stop < heat < hours < risk
    assert risk < min((n for n, text in enumerate(said) if text in label.others), default=len(said))
    assert all(one.points >= 6.0 for one in fitted)
    assert not any("journal" in text for text in said)


def test_where_a_second_label_is_needed_the_next_size_that_takes_one_is_proposed(paper):
    labels = turkey_soup(paper)
    small = LabelJob(labels, sheet_named("letter-66.7x25.4"))
    assert len(small.fitted(paper)) == 2
    assert small.roomier(paper) == sheet_named("letter-101.6x50.8")
    assert LabelJob(labels, sheet_named("letter-101.6x50.8")).roomier(paper) is None
    assert LabelJob((Label("corn", ("Dried",)),), sheet_named("letter-66.7x25.4")).roomier(paper) is None


def test_a_jar_that_must_not_be_eaten_carries_no_keep_by_and_no_water():
    kitchen = a_shelf(a_batch("turkey"), a_batch("turkey", 2, **HEATED))
    cold, heated = lot_labels(kitchen, [packed(kitchen, n, FREEZER).id for n in (1, 2)], Style())
    assert not re.search("Keep-by|Water", "\n".join(cold.lines))
    assert re.search("Keep-by .*Water", "\n".join(heated.lines), re.DOTALL)


def test_the_paper_of_the_kitchen_is_offered_first():
    assert usual_sheet("us").page == "Letter"
    assert usual_sheet("metric").page == "A4"
