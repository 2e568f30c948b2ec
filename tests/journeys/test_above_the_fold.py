"""On a small screen the card of a batch says what one came for without scrolling."""

import pytest
from PySide6.QtCore import QPoint

from dryhouse.kitchen.ports import BatchQuery


@pytest.mark.parametrize("food", ["carrot", "apple", "ground-turkey"])
def test_verdict_moisture_keep_by_and_water_need_no_scrolling(person, qtbot, food):
    person.window.resize(1280, 800)
    journal = person.window.go("journal")
    batch = person.session.kitchen.journal.batch_ids(BatchQuery(foods=(food,), states=("finished",)))[0]
    journal.show_record("batch", batch)
    panel = journal.panel
    qtbot.waitUntil(lambda: panel.batch is not None and panel.batch.id == batch)
    card, viewport = panel.card, panel._area.viewport()
    wanted = [card.status, *(v for v in card.figures if not v.isHidden() and v.title.startswith(
        ("Moisture now", "Water", "Keeps")))]  # fmt: skip
    assert {v.title.split()[0] for v in wanted[1:]} == {"Moisture", "Water", "Keeps"}
    qtbot.waitUntil(lambda: card.figures[0].height() > 0)
    for widget in wanted:
        foot = widget.mapTo(viewport, QPoint(0, widget.height())).y()
        assert foot <= viewport.height(), (widget.accessibleName(), foot, viewport.height())
