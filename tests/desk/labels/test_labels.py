"""Labels: never cut, stops always there, at the millimetre."""

from __future__ import annotations

import re
import subprocess
from shutil import which

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtGui import QImage

from dryhouse.desk.labels.layout import MORE, SMALLEST_PT, fit, pieces_of, used_height
from dryhouse.desk.labels.paper import LabelJob, preview, write_pdf
from dryhouse.desk.labels.sheets import label_sheets, sheet_named
from dryhouse.kitchen.shelf.labels import Label, lot_labels
from dryhouse.science.display import Style
from dryhouse.science.values import Caution
from tests.kitchen.shelf_room import FREEZER, PANTRY, a_batch, a_shelf, packed

STOP = Caution("stop", "A grave thing must be said here in full, and it is never left off.", "a source")
WARN = Caution("warn", "Something to take care of.", "a source")
sizes = st.sampled_from([sheet.label_mm for sheet in label_sheets()])
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
        used, there = used_height(one, size, paper)
        lone = len(one.pieces) <= 2
        assert used <= there + 1 or (one.points == SMALLEST_PT and lone)


def test_other_cautions_follow_while_there_is_room_and_the_label_says_where_the_rest_is(paper):
    many = Label("corn", ("Dried", "8 oz"), tuple(Caution("warn", f"Care number {n}.", "s") for n in range(30)))
    small = fit(many, (66.7, 25.4), paper)
    assert len(small) == 1
    assert small[0].pieces[-1].text == MORE
    large = fit(Label("corn", ("Dried",), (WARN,)), (105.0, 74.0), paper)
    assert large[0].pieces[-1].text == WARN.text


def test_stops_stand_right_under_the_title():
    kinds = [piece.kind for piece in pieces_of(Label("turkey", ("Dried",), (WARN, STOP)))]
    assert kinds == ["title", "stop", "line", "caution"]


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
    picture, pages = preview(job, 1)
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
