"""Quiet hours are set in the preferences, kept with the journal, and refused with an example."""

from __future__ import annotations

from PySide6.QtCore import QSettings

from dryhouse.desk.preferences import show_preferences
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.desk.window import DeskWindow
from dryhouse.kitchen.cards.alarms import QuietHours, quiet_hours
from tests.kitchen.drying_room import Hands


def test_quiet_hours_are_kept_and_what_cannot_be_read_is_not(qtbot, qapp, tmp_path) -> None:
    hands = Hands()
    theme = Theme(qapp, "light")
    window = DeskWindow(theme, QSettings(str(tmp_path / "s.ini"), QSettings.Format.IniFormat))
    qtbot.addWidget(window)
    session = Session(hands.kitchen, theme)
    page = show_preferences(window, session)
    page.quiet.edit.setText("22:00-7:00")
    page.quiet.edit.editingFinished.emit()
    kept = quiet_hours(hands.kitchen)
    assert (kept.begin.hour, kept.end.hour) == (22, 7)
    page.quiet.edit.setText("late")
    page.quiet.edit.editingFinished.emit()
    assert quiet_hours(hands.kitchen) == kept
    page.quiet.edit.setText("")
    page.quiet.edit.editingFinished.emit()
    assert quiet_hours(hands.kitchen) == QuietHours()
    page.close()
