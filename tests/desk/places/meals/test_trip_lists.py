"""The calendar and the shopping list of a trip on the screen."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QFileDialog

from dryhouse.desk.places.meals.trips.calendar_page import WEEKS
from dryhouse.desk.places.meals.trips.shopping_page import FORM
from dryhouse.desk.places.meals.trips.trips_page import TripsPage
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Dryer, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.trips.household import drying_hours
from dryhouse.science.quantities import Area, Mass, Temperature
from tests.fakes import FakeJournal

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY = date(2026, 9, 20)
DRYER = Dryer("shelf dryer", 6, Area(1000.0), id=1)


@pytest.fixture
def dryers() -> tuple[Dryer, ...]:
    return (DRYER,)


@pytest.fixture
def kitchen(dryers: tuple[Dryer, ...]) -> Kitchen:
    journal = FakeJournal(
        *dryers,
        Meal("stew", 1.0, id=1),
        *(
            MealPart(1, n, food, food, mass=Mass(30.0), id=n + 1)
            for n, food in enumerate(("corn", "onion", "turkey"))
        ),
        Trip("lakes", DAY, DAY + timedelta(days=4), 2, temperature=Temperature(18.0), id=1),
        TripMeal(1, 1, DAY, id=1),
    )
    return Kitchen(journal, handbook(), lambda: NOW, UTC)


def lines(trips: TripsPage) -> dict[str, int]:
    table = trips.plan_view.shopping.table
    return {item.text(): n for n in range(table.rowCount()) if (item := table.item(n, 1)) is not None}


def test_the_calendar_says_that_its_hours_are_assumed_until_she_keeps_her_own(trips) -> None:
    page = trips.plan_view.calendar
    trips.plan_view.tabs.setCurrentIndex(1)
    assert page.hours_line.text().startswith("Assumed, as you have not said: up 7:00 to 22:00")
    page.change.click()
    assert page.form.isVisible()
    page.form.days.set_value("weekends")
    page.form.begin.set_value("September")
    QTest.keyClick(page.form.days.edit, Qt.Key.Key_Return)
    assert not page.form.isVisible()
    assert drying_hours(trips.session.kitchen).days == (5, 6)
    assert trips.session.kitchen.journal.where(Trip)[0].dry_from == date(2026, 9, 1)
    assert page.hours_line.text().startswith("Up 7:00 to 22:00")
    assert all(run.start.weekday() >= 5 for run in trips.plan_view.plan.calendar.runs)


def test_hours_that_cannot_be_are_said_at_their_entry_and_kept_as_typed(trips) -> None:
    trips.plan_view.tabs.setCurrentIndex(1)
    form = trips.plan_view.calendar.form
    trips.plan_view.calendar.change.click()
    form.days.set_value("someday")
    form.save()
    assert form.isVisible()
    assert "names no days" in form.days.sentence.text()
    assert form.days.text() == "someday"
    assert drying_hours(trips.session.kitchen).assumed


def test_the_weeks_show_what_goes_on_and_comes_off_each_day(trips) -> None:
    page = trips.plan_view.calendar
    page.show_as.set_value(WEEKS)
    told = page.browser.toPlainText()
    assert "week by week" in told
    run = trips.plan_view.plan.calendar.runs[0]
    assert f"{run.start:%H:%M}" in told
    assert "Stop, turkey" in told
    assert trips.plan_view.printout() is not None


def test_the_calendar_is_written_for_other_calendars(trips, tmp_path, monkeypatch) -> None:
    file = tmp_path / "lakes.ics"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))
    trips.plan_view.calendar.file.click()
    assert b"BEGIN:VEVENT" in file.read_bytes()


def test_a_line_is_ticked_with_the_keyboard_and_prints_ticked(trips) -> None:
    trips.plan_view.tabs.setCurrentIndex(2)
    table = trips.plan_view.shopping.table
    at = lines(trips)["onion"]
    table.setFocus()
    table.setCurrentCell(at, 0)
    QTest.keyClick(table, Qt.Key.Key_Space)
    assert table.item(lines(trips)["onion"], 0).checkState() == Qt.CheckState.Checked
    assert {line.name for line in trips.plan_view.plan.shopping if line.ticked} == {"onion"}
    assert "☑" in trips.plan_view._html("Shopping list")
    trips.session.undo()
    assert not any(line.ticked for line in trips.plan_view.plan.shopping)


def test_the_form_a_food_is_bought_in_is_chosen_on_its_line(trips) -> None:
    table = trips.plan_view.shopping.table
    box = table.cellWidget(lines(trips)["sweet corn"], FORM)
    assert isinstance(box, QComboBox)
    assert [box.itemText(n) for n in range(2)] == ["on the cob, in the husk", "kernels"]
    box.setCurrentIndex(box.findData("frozen"))
    box.activated.emit(box.currentIndex())
    assert "sweet corn, frozen" in lines(trips)


def test_the_list_on_the_screen_says_its_stops(trips) -> None:
    shown = {c.rule for c in trips.plan_view.shopping.cautions.cautions if c.severity == "stop"}
    assert "heat-poultry-missing" in shown


class TestWithoutADryer:
    @pytest.fixture
    def dryers(self) -> tuple[Dryer, ...]:
        return ()

    def test_each_next_step_has_its_button(self, qtbot, trips) -> None:
        page = trips.plan_view.calendar
        trips.plan_view.tabs.setCurrentIndex(1)
        buttons = [page._steps.itemAt(n).widget() for n in range(page._steps.count() - 1)]
        assert [b.text() for b in buttons] == ["Add a dryer", "Add a place", "Add to the shelf"]
        assert "Nothing has to be dried" not in page.browser.toPlainText()
        with qtbot.waitSignal(trips.session.open_asked) as asked:
            buttons[0].click()
        assert asked.args == ["journal", "dryers", 0]


def test_who_goes_is_typed_in_the_form_of_the_trip(qtbot, trips) -> None:
    trips.change()
    table = trips.form.people_table
    assert not table.table.isVisible()
    table.add.click()
    for n, text in ((0, "bow"), (1, "120 %"), (2, "onion")):
        table.table.item(0, n).setText(text)
    table.table.item(0, 3).setCheckState(Qt.CheckState.Checked)
    trips.form.fuel.set_value(Mass(9.0))
    trips.form.layovers.set_value("2, 3")
    trips.form.save()
    (who,) = trips.plan_view.plan.people
    assert (who.name, who.appetite_pct, who.avoids, who.at_risk) == ("bow", 120.0, "onion", True)
    assert ", 0.28 oz of fuel." in trips.summary.text()
    assert "of fuel, by what you weighed" in trips.summary.toolTip()
    assert "bow " in trips.grid.item(0, 4).toolTip()
    assert "each of the others" in trips.grid.item(0, 4).toolTip()
    assert trips.grid.verticalHeaderItem(1).text().endswith("layover")
    assert any("Bow does not eat" in line for line in trips.plan_view.plan.remarks)
    trips.change()
    table.table.item(0, 1).setText("much")
    trips.form.save()
    assert trips.form.isVisible()
    assert trips.plan_view.plan.people[0].appetite_pct == 120.0


def test_a_trip_without_a_meal_says_who_goes_and_nothing_of_nothing(trips) -> None:
    assert " of dry food" in trips.summary.text()
    trips.grid.setCurrentCell(0, 2)
    trips.grid.taken_off.emit(1)
    assert trips.summary.text() == "2 people, 5 days."


def test_the_days_have_a_menu_for_the_mouse(trips) -> None:
    grid = trips.grid
    place = next((r, c) for (r, c), placed in grid._placed.items() if placed)
    grid.setCurrentCell(*place)
    said = {a.text().split("\t")[0].replace("&", ""): a for a in grid.menu().actions()}
    assert list(said) == ["Put the chosen meal here", "More servings", "Fewer servings", "Take it off"]
    said["More servings"].trigger()
    assert trips.session.kitchen.journal.get(TripMeal, 1).servings == 3
    grid.setCurrentCell(*place)
    said = {a.text().split("\t")[0].replace("&", ""): a for a in grid.menu().actions()}
    said["Take it off"].trigger()
    assert not trips.session.kitchen.journal.where(TripMeal)
    assert [a.text().split("\t")[0] for a in grid.menu().actions()] == ["&Put the chosen meal here"]


def test_a_bag_that_must_not_be_eaten_stands_out_among_the_days_in_every_look(trips) -> None:
    item, theme = trips.grid.item(0, 2), trips.session.theme
    assert item.text().startswith("Do not eat")
    for look in ("dark", "contrast", "light"):
        theme.choose(look)
        ink = item.foreground().color().name().upper()
        assert (look, item.font().bold(), ink) == (look, True, theme.tokens.tint("stop").ink.upper())
    assert not item.icon().isNull()
    assert trips.grid.item(0, 5).text() == "no water\nno flame"
