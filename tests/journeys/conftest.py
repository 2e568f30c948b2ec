"""The real window over a real journal file, driven by keys alone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from dryhouse.desk.opening import Opening
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.desk.window import DeskWindow
from dryhouse.house import Journals

CTRL = Qt.KeyboardModifier.ControlModifier


@dataclass
class Person:
    """Someone at the keyboard: what she types goes where the window system would send it."""

    window: DeskWindow
    opening: Opening
    entries: int = field(default=0)

    @property
    def session(self) -> Session:
        return self.opening.session

    def press(self, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        target = QApplication.activePopupWidget() or QApplication.focusWidget() or self.window
        QTest.keyClick(target, key, modifier)
        QApplication.processEvents()

    def type(self, text: str) -> None:
        """One entry."""
        self.entries += 1
        for letter in text:
            QTest.keyClicks(QApplication.activePopupWidget() or QApplication.focusWidget(), letter)
        QApplication.processEvents()


@pytest.fixture
def own_folder(tmp_path, monkeypatch):
    """A person's data folder of its own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path


@pytest.fixture
def person(qtbot, qapp, own_folder) -> Iterator[Person]:
    """At the sample journal."""
    settings = QSettings(str(own_folder / "settings.ini"), QSettings.Format.IniFormat)
    theme = Theme(qapp, "light")
    window = DeskWindow(theme, settings)
    opening = Opening(window, Journals())
    window.resize(1280, 800)
    window.show()
    qtbot.waitExposed(window)
    window.activateWindow()
    opening.open_sample()
    yield Person(window, opening)
    window.close()
    window.deleteLater()
    theme.deleteLater()
