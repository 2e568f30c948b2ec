"""Taking off: the stop for meat nobody heated, and what is packed from the page afterwards."""

from __future__ import annotations

from PySide6.QtCore import Qt

from dryhouse.kitchen.dryer.drying import CameOff, take_off
from dryhouse.kitchen.shelf.packing import Package, pack
from dryhouse.science.quantities import Mass
from tests.desk.places.dryer.sitting import Sitting


def test_meat_without_a_recorded_precook_says_stop_on_its_strip_and_when_taken_off(qtbot, with_turkey) -> None:
    batch = with_turkey.start(1000.0, food="turkey")
    sitting = Sitting(qtbot, with_turkey)
    view = sitting.place.strips[batch].cautions
    assert view.isVisible()
    assert view.cautions == sitting.place.runs[batch].cautions
    assert any(c.severity == "stop" for c in view.shown)
    assert all(row.isVisible() for row in view.rows)
    sitting.ctrl(Qt.Key.Key_T)
    assert sitting.place.take_off.cautions.cautions == sitting.place.runs[batch].cautions
    assert sitting.place.take_off.cautions.y() < sitting.place.take_off.mass.y()
    run = sitting.place.runs[batch]
    for figure in (run.moisture, run.moisture_ratio, run.moisture_dry_basis, run.target_mass):
        assert any(c.severity == "stop" for c in figure.cautions)


def test_what_came_off_the_dryer_is_packed_from_its_page_until_all_of_it_is(sitting, hands) -> None:
    hands.start(1000.0)
    hands.wait(9)
    take_off(hands.kitchen, 1, CameOff(Mass(180.0)))
    sitting.place.show_record("batch", 1)
    button = sitting.place.detail.pack
    assert button.isVisible()
    asked = []
    sitting.session.open_asked.connect(lambda *where: asked.append(where))
    button.click()
    assert asked == [("shelf", "batch", 1)]
    sitting.session.act(pack, 1, [Package(mass=Mass(180.0))])
    sitting.place.show_record("batch", 1)
    assert not sitting.place.detail.pack.isVisible()
