"""The whole trip on paper, and the evening after it."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPageSize, QPdfWriter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk.places.meals.trips.whole_trip import sections_of
from dryhouse.desk.widgets.paged import LETTER, Layout
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import AfterTrip, Dryer, Meal, MealPart, Trip, TripMeal, TripPerson
from dryhouse.kitchen.trips.plan_rows import buy_rows, run_rows
from dryhouse.science.quantities import Area, Mass, Temperature
from tests.fakes import FakeJournal

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 9, 20)
DAYS = 9


@pytest.fixture
def kitchen() -> Kitchen:
    """Nine days of stew with turkey and of couscous, for two."""
    parts = [(1, "corn", ""), (1, "onion", ""), (1, "turkey", ""), (2, "carrot", ""), (2, "", "couscous")]
    placed = [
        TripMeal(1, meal, DAY + timedelta(days=n), slot, id=2 * n + meal)
        for n in range(DAYS)
        for meal, slot in ((1, "dinner"), (2, "lunch"))
    ]
    journal = FakeJournal(
        Dryer("shelf dryer", 6, Area(1000.0), id=1),
        Meal("turkey stew", 1.0, id=1),
        Meal("carrot couscous", 1.0, id=2),
        *(
            MealPart(meal, n, food or staple, food, staple, mass=Mass(30.0), id=n + 1)
            for n, (meal, food, staple) in enumerate(parts)
        ),
        Trip("lakes 2026", DAY, DAY + timedelta(days=DAYS - 1), 2, temperature=Temperature(18.0), id=1),
        *placed,
        TripPerson(1, "bow", 120.0, "meat", id=1),
    )
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def printed(trips, tmp_path) -> dict[str, str]:
    writer = QPdfWriter(str(tmp_path / "x.pdf"))
    writer.setPageSize(QPageSize(LETTER))
    pages: dict[str, str] = {}
    for page in Layout(sections_of(trips.session, trips.plan_view.plan), writer).pages:
        pages[page.title] = pages.get(page.title, "") + "\n".join(made.toPlainText() for _, made in page.pieces)
    return pages


def test_everything_a_trip_asks_for_stands_on_its_pages(trips, tmp_path) -> None:
    plan, style = trips.plan_view.plan, trips.session.style
    pages = printed(trips, tmp_path)
    assert list(pages) == ["Menu", "Drying", "Shopping", "Packing", "Cautions", "Bag labels"]
    assert pages["Menu"].count("turkey stew, 2.2") == DAYS
    assert "Bow: 120 % of a usual appetite, does not eat meat." in pages["Menu"]
    assert "Bow does not eat turkey" in pages["Menu"]
    for run in run_rows(trips.session.kitchen, plan, style):
        assert run.when in pages["Drying"]
        assert all(load.amount in pages["Drying"] for load in run.loads)
    for _, rows in buy_rows(plan, style):
        assert all(f"{row.name}\n{row.amount}" in pages["Shopping"] for row in rows)
    assert pages["Packing"].count("Contains wheat.") == DAYS
    assert "Sun 20 Sep dinner: turkey stew for 2.2" in pages["Packing"]
    assert "print this again once its heating is recorded" in pages["Packing"]


def test_every_stop_stands_in_full_once_and_in_brief_at_each_bag(trips, tmp_path) -> None:
    plan, pages = trips.plan_view.plan, printed(trips, tmp_path)
    stops = {c.text: c.brief for bag in plan.bags for c in bag.cautions if c.severity == "stop"}
    assert stops
    for text, brief in stops.items():
        assert pages["Cautions"].count(text) == 1
        assert pages["Packing"].count(brief.rstrip(".")) >= DAYS
    at_the_pot = {c.text for bag in plan.bags for c in bag.cautions if c.moment == "pot"}
    assert all(text in pages["Cautions"] for text in at_the_pot)
    drying = {c.text for item in plan.items for c in item.cautions if c.severity == "stop"}
    assert all(text in pages["Drying"] for text in drying)


def test_it_is_saved_as_a_pdf_and_what_goes_wrong_is_said(trips, tmp_path, monkeypatch) -> None:
    file = tmp_path / "lakes.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), "PDF, A4 (*.pdf)"))
    trips.plan_view.save_whole()
    assert file.read_bytes().startswith(b"%PDF")
    assert b"595" in file.read_bytes()
    said = []
    trips.session.messages.posted.connect(lambda message: said.append(message.text))
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "no" / "lakes.pdf"), ""))
    trips.plan_view.save_whole()
    assert "Choose another folder" in said[-1]


def after(trips):
    trips.plan_view.tabs.setCurrentWidget(trips.plan_view.after)
    return trips.plan_view.after


def test_the_evening_after_is_typed_line_by_line_and_saved_as_one(trips) -> None:
    page = after(trips)
    assert [page.table.item(n, 1).text() for n in range(2)] == ["19.8 in 9 bags", "19.8 in 9 bags"]
    assert page.next_line.text() == "Nothing is noted yet of how it was."
    page.table.item(0, 2).setText("4.4")
    page.table.item(1, 4).setText("more oil")
    page.save()
    kept = trips.session.kitchen.journal.where(AfterTrip)
    assert [(note.meal, note.uneaten, note.change) for note in kept] == [(2, 4.4, ""), (1, 0.0, "more oil")]
    assert page.next_line.text() == "The next one takes carrot couscous 1.75 servings a bag in place of 2.2."
    assert "19.8 servings went, 4.4 came back" in page.next_line.toolTip()
    trips.session.undo()
    assert trips.session.kitchen.journal.where(AfterTrip) == ()
    assert page.table.item(0, 2).text() == ""


def test_what_is_no_number_is_said_and_stays_as_typed(trips) -> None:
    page = after(trips)
    page.table.item(0, 2).setText("some")
    page.save()
    assert page.table.item(0, 2).text() == "some"
    assert trips.session.kitchen.journal.where(AfterTrip) == ()
    trips.refresh()
    assert page.table.item(0, 2).text() == "some"


def test_the_next_trip_is_planned_from_it_and_comes_into_view(trips) -> None:
    page = after(trips)
    page.table.item(0, 2).setText("4.4")
    assert (page.starts.text(), page.name.text()) == ("2027-09-19", "lakes 2027")
    QTest.keyClick(page.name.edit, Qt.Key.Key_Return)
    assert trips.trip.name == "lakes 2027"
    assert "After lakes 2026: carrot couscous 1.75 servings" in trips.summary.text()
    served = {m.meal: m.servings for m in trips.session.kitchen.journal.where(TripMeal, trip=trips.trip.id)}
    assert served == {1: None, 2: 1.75}
    assert trips.plan_view.tabs.currentIndex() == 0
    trips.session.undo()
    assert [t.name for t in trips.session.kitchen.journal.where(Trip)] == ["lakes 2026"]


def test_the_form_scrolls_where_people_make_it_long_and_nothing_stands_on_anything(qtbot, trips) -> None:
    trips.new()
    qtbot.wait(20)
    trips.resize(1000, 560)
    for _ in range(3):
        trips.form.people_table.add.click()
    qtbot.wait(20)
    form = trips.form
    entries = [field.edit for field in (form.name, form.energy, form.spare)]
    tops = [w.mapTo(form, w.rect().topLeft()).y() for w in (*entries, form.people_table.table)]
    ends = [w.mapTo(form, w.rect().bottomLeft()).y() for w in entries]
    assert all(end < top for end, top in zip(ends, tops[1:], strict=True))
    assert form.height() > trips.form_area.viewport().height()
