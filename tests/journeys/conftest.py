"""The real window over a real journal file, driven by keys alone."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from dryhouse.desk.opening import Opening
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.desk.window import DeskWindow
from dryhouse.house import Journals
from tests.windows import read_for_windows

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
            typed_into = QApplication.activePopupWidget() or QApplication.focusWidget()
            assert typed_into is not None, f"Nothing has the focus, and “{letter}” of “{text}” goes nowhere."
            QTest.keyClicks(typed_into, letter)
        QApplication.processEvents()


@pytest.fixture(scope="session")
def built_once() -> Path:
    """The folder of kept things that the whole run shares: the sample is built in it by whoever comes first."""
    read_for_windows()
    return Path(os.environ["XDG_CACHE_HOME"])


def data_in(folder: Path, kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let a person's data be in this folder."""
    monkeypatch.setenv("XDG_DATA_HOME", str(folder / "data"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(kept))


@pytest.fixture
def own_folder(tmp_path, built_once, monkeypatch):
    """A person's data folder of its own."""
    data_in(tmp_path, built_once, monkeypatch)
    return tmp_path


@contextmanager
def at_the_sample(app: QApplication, folder: Path) -> Iterator[Person]:
    """Someone at a window of her own that shows the sample journal."""
    settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
    theme = Theme(app, "light")
    window = DeskWindow(theme, settings)
    opening = Opening(window, Journals())
    window.resize(1280, 800)
    window.show()
    assert QTest.qWaitForWindowExposed(window)
    window.activateWindow()
    opening.open_sample()
    QApplication.processEvents()  # the menu bar comes with the journal; its keys are heard once it is laid out
    yield Person(window, opening)
    window.close()
    window.deleteLater()
    theme.deleteLater()


@pytest.fixture
def person(qapp, own_folder) -> Iterator[Person]:
    """At the sample journal."""
    with at_the_sample(qapp, own_folder) as someone:
        yield someone


@pytest.fixture(scope="module")
def one_person(qapp, tmp_path_factory, built_once) -> Iterator[Person]:
    """At the sample journal, and the same window for all tests of the module: for those that only look."""
    folder = tmp_path_factory.mktemp("one")
    with pytest.MonkeyPatch.context() as monkeypatch:
        data_in(folder, built_once, monkeypatch)
        with at_the_sample(qapp, folder) as someone:
            yield someone
