"""A file of weighings, looked at before it is brought in."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from dryhouse.kitchen.dryer.drying import weighings_of
from tests.desk.places.dryer.sitting import drying


def test_a_file_is_previewed_put_right_and_brought_in(sitting, hands, tmp_path, monkeypatch) -> None:
    batch = drying(sitting)
    hands.wait(20)
    path = tmp_path / "weighings.csv"
    path.write_text("hours,grams\n1,810\n2,about 600\n4,412\n")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *a, **k: (str(path), ""))
    sitting.ctrl(Qt.Key.Key_I)
    page = sitting.place.file
    assert sitting.place.side.currentWidget() is page
    assert page.summary.text() == "2 weighings can be imported; 1 line cannot be read and would be left out."
    assert page.table.item(1, 3).text().startswith("“about 600”")
    assert weighings_of(hands.kitchen, batch) == ()
    page.unit.set_value("oz")
    assert [row.gross.si for row in page.mapped.rows] == [pytest.approx(412 * 28.349523125)]
    assert "number and its unit" in page.table.item(0, 3).text()
    page.unit.set_value("g")
    page.go.setFocus()
    sitting.press(Qt.Key.Key_Space)
    assert [w.net_g for w in weighings_of(hands.kitchen, batch)] == [810, 412]
    assert sitting.place.side.currentWidget() is sitting.place.detail
    sitting.session.undo()
    assert weighings_of(hands.kitchen, batch) == ()
