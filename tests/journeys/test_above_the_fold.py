"""On a small screen the card of a batch says what one came for without scrolling, and the rest is one key away."""

import pytest
from PySide6.QtCore import QPoint, Qt

from dryhouse.kitchen.ports import BatchQuery


def open_batch(person, qtbot, food):
    person.window.resize(1280, 800)
    journal = person.window.go("journal")
    batch = person.session.kitchen.journal.batch_ids(BatchQuery(foods=(food,), states=("finished",)))[0]
    journal.show_record("batch", batch)
    qtbot.waitUntil(lambda: journal.panel.batch is not None and journal.panel.batch.id == batch)
    return journal.panel


@pytest.mark.parametrize("food", ["carrot", "apple", "ground-turkey"])
def test_verdict_moisture_keep_by_and_water_need_no_scrolling(person, qtbot, food):
    panel = open_batch(person, qtbot, food)
    card, viewport = panel.card, panel._area.viewport()
    assert "moisture" in card.status.sentence()
    wanted = [card.status, *(v for v in card.figures if v.title.startswith(("Water", "Keeps")))]
    assert {v.title.split()[0] for v in wanted[1:]} == {"Water", "Keeps"}
    qtbot.waitUntil(lambda: wanted[-1].height() > 0)
    for widget in wanted:
        foot = widget.mapTo(viewport, QPoint(0, widget.height())).y()
        assert foot <= viewport.height(), (widget.accessibleName(), foot, viewport.height())


def test_the_rest_of_a_batch_is_one_key_away_and_stays_open(person, qtbot):
    panel = open_batch(person, qtbot, "carrot")
    folded = {"Yield by weight", "Moisture now", "Target weight"}
    assert folded.isdisjoint(v.title for v in panel.card.figures if v.isVisible())
    assert not panel.facts.isVisible()
    panel.card.details.fold.setFocus()
    person.press(Qt.Key.Key_Return)
    assert folded <= {v.title for v in panel.card.figures if v.isVisible()}
    assert panel.facts.isVisible()
    open_batch(person, qtbot, "apple")
    assert panel.facts.isVisible()
    person.press(Qt.Key.Key_Return)
    assert not panel.facts.isVisible()
