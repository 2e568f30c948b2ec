"""Quiet hours are set in the preferences, kept with the journal, and refused with an example."""

from __future__ import annotations

from dryhouse.desk.preferences import show_preferences
from dryhouse.kitchen.cards.alarms import QuietHours, quiet_hours


def test_quiet_hours_are_kept_and_what_cannot_be_read_is_not(window) -> None:
    kitchen = window.session.kitchen
    page = show_preferences(window, window.session)
    page.quiet.edit.setText("22:00-7:00")
    page.quiet.accepted.emit()
    kept = quiet_hours(kitchen)
    assert (kept.begin.hour, kept.end.hour) == (22, 7)
    page.quiet.edit.setText("late")
    page.quiet.accepted.emit()
    assert quiet_hours(kitchen) == kept
    page.quiet.edit.setText("")
    page.accept()
    assert quiet_hours(kitchen) == QuietHours()
