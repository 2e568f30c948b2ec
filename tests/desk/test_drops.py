"""Files dropped on the window."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication

from dryhouse.desk.drops import Drops


def drop(window, path: Path) -> None:
    held = QMimeData()
    held.setUrls([QUrl.fromLocalFile(str(path))])
    event = QDropEvent(
        QPointF(20, 20),
        Qt.DropAction.CopyAction,
        held,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    enter = QDragEnterEvent(
        QPoint(20, 20), Qt.DropAction.CopyAction, held, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    )
    QApplication.sendEvent(window, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(window, event)


def test_a_journal_dropped_is_opened(window, tmp_path):
    opened = []
    window.findChild(Drops)._open_journal = opened.append
    drop(window, tmp_path / "club.dryhouse")
    assert opened == [tmp_path / "club.dryhouse"]


def test_an_export_dropped_is_imported_and_a_meal_is_not_taken_for_one(window, tmp_path):
    brought, drops = [], window.findChild(Drops)
    drops._bring_in = brought.append
    drop(window, tmp_path / "club.json")
    assert brought == [tmp_path / "club.json"]
    drop(window, tmp_path / "chili.meal.json")
    assert window.here == "meals"
    assert brought == [tmp_path / "club.json"]


def test_weighings_dropped_go_to_the_dryer(window, tmp_path):
    sheet = tmp_path / "run.csv"
    sheet.write_text("hours,grams\n0,500\n1,400\n")
    drop(window, sheet)
    assert window.here == "drying"
    assert "Start the batch first" in window.session.messages.latest.text


@pytest.mark.parametrize("name", ["holiday.png", "letter.docx"])
def test_another_file_is_refused_with_what_would_be_right(window, tmp_path, name):
    drop(window, tmp_path / name)
    assert window.here == "journal"
    assert ".dryhouse" in window.session.messages.latest.text
