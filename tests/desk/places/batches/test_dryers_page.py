"""The dryers: added, changed, put away."""

import pytest

from dryhouse.desk.places.batches.dryers_page import DryersPage
from dryhouse.kitchen.records import Dryer


@pytest.fixture
def page(session, qtbot):
    made = DryersPage(session)
    qtbot.addWidget(made)
    made.show()
    made.refresh()
    return made


def dryers(page):
    return {d.name: d for d in page.session.kitchen.journal.where(Dryer)}


def test_the_first_dryer_is_shown(page):
    assert page.heading.text() == "shelf dryer"
    assert page.fields["trays"].text() == "6"


def test_a_dryer_is_added(page):
    page.new()
    page.fields["name"].edit.setText("porch dryer")
    page.fields["trays"].edit.setText("3")
    page.fields["tray_area"].edit.setText("30 x 40 cm")
    page.fields["watts"].edit.setText("450")
    page.save()
    added = dryers(page)["porch dryer"]
    assert (added.trays, added.tray_area.si, added.watts) == (3, 1200.0, 450.0)
    assert page.list.currentItem().text() == "porch dryer, 3 trays"


def test_a_dryer_is_changed_and_that_can_be_undone(page):
    page.fields["trays"].edit.setText("5")
    page.save()
    assert dryers(page)["shelf dryer"].trays == 5
    page.session.undo()
    assert dryers(page)["shelf dryer"].trays == 6


@pytest.mark.parametrize(
    ("name", "trays", "wrong"), [("", "3", "name"), ("box dryer", "3", "name"), ("new", "", "trays")]
)
def test_what_is_missing_or_taken_is_said_at_the_entry(page, name, trays, wrong):
    page.new()
    page.fields["name"].edit.setText(name)
    page.fields["trays"].edit.setText(trays)
    page.save()
    assert page.fields[wrong].edit.property("wrong") == "true"
    assert len(dryers(page)) == 2


def test_a_dryer_that_was_used_is_put_away_and_keeps_its_name(page):
    page.remove()
    assert dryers(page)["shelf dryer"].retired
    assert [page.list.item(i).text() for i in range(page.list.count())] == ["box dryer, 10 trays"]
