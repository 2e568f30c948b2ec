"""What belongs to this machine and not to the journal: the window's size, the last place, the look."""

from __future__ import annotations

import os

from PySide6.QtCore import QSettings


def settings() -> QSettings:
    """The settings of this person on this machine; `DRYHOUSE_SETTINGS` names another file."""
    other = os.environ.get("DRYHOUSE_SETTINGS")
    return QSettings(other, QSettings.Format.IniFormat) if other else QSettings("dryhouse", "dryhouse")
