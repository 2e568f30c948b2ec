"""A window over a kitchen in memory, closed again after each test with nothing left behind."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from datetime import timedelta
from itertools import count

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from dryhouse.desk.opening import Opening
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.desk.window import DeskWindow
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.science.quantities import Mass, Temperature
from tests.builders import NOW, a_kitchen
from tests.windows import read_for_windows

SHELF = Dryer("shelf dryer", 6, id=1)
BOX = Dryer("box dryer", 10, id=2)


def a_batch(id: int, food: str = "corn", **more) -> Batch:
    """A finished batch of an everyday kind, a day apart from its neighbours."""
    started = NOW - timedelta(days=id + 1)
    usual = {
        "dryer": 1,
        "trays": 4,
        "form": "kernels",
        "started": started,
        "ended": started + timedelta(hours=8),
        "set_temperature": Temperature(57.22222222222222, "135 F"),
        "prepared_mass": Mass(992.2333, "35 oz"),
        "dried_mass": Mass(255.1457, "9 oz"),
        "felt": "brittle",
    }
    return Batch(food, id=id, **(usual | more))


@pytest.fixture
def kitchen() -> Kitchen:
    return a_kitchen(SHELF, BOX, a_batch(1), a_batch(2, "apple", form="slices"), a_batch(3, "turkey", dryer=2))


@pytest.fixture
def theme(qapp: QApplication) -> Iterator[Theme]:
    made = Theme(qapp, "light")
    yield made
    made.deleteLater()


@pytest.fixture
def settings(tmp_path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def session(kitchen: Kitchen, theme: Theme) -> Session:
    return Session(kitchen, theme)


@pytest.fixture
def window(qtbot, kitchen: Kitchen, theme: Theme, settings: QSettings) -> Iterator[DeskWindow]:
    made = DeskWindow(theme, settings)
    opening = Opening(made)
    made.resize(1280, 800)
    made.show()
    qtbot.waitExposed(made)
    opening.open(lambda: kitchen)
    yield made
    made.close()
    made.deleteLater()


@pytest.fixture(scope="session", autouse=True)
def charts_at_once() -> None:
    """Charts are drawn where they are seen, without the wait of a first start."""
    read_for_windows()


_TESTS, _OFTEN = count(1), 25
"""What has come to stay since (tables, fonts) is left alone too, now and then: no window is open then."""


@pytest.fixture(autouse=True)
def nothing_left(qapp: QApplication) -> Iterator[None]:
    """No window outlives its test."""
    before = {id(w) for w in qapp.topLevelWidgets()}
    yield
    for _ in range(3):
        qapp.processEvents()
        qapp.sendPostedEvents(None, 52)  # deferred deletions
    gc.collect()
    if not next(_TESTS) % _OFTEN:
        gc.freeze()
    left = [w for w in qapp.topLevelWidgets() if id(w) not in before and w.isVisible()]
    for widget in left:
        widget.close()
    assert not left
