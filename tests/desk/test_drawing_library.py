"""matplotlib is read in the pauses, and the fonts of a first start are gone through by a process of its own."""

import json
import os
import runpy
import subprocess
import sys
from pathlib import Path

import matplotlib
import pytest

from dryhouse.desk.beside import LIST_FONTS
from dryhouse.desk.drawing_library import _fonts_listed

FIRST_CHART = """
import json, sys, threading
from time import monotonic
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

app = QApplication([])
from dryhouse.desk.drawing_library import DrawingLibrary, loaded

line = QLineEdit()
line.show()
library = DrawingLibrary(line)
told = {"before": loaded()}
library.ready.connect(app.quit)
library.begin()
library.begin()
began = monotonic()
while monotonic() - began < 1.0:
    QTest.keyClick(line, Qt.Key.Key_A)
    QTest.qWait(50)
told["while typing"] = "matplotlib" in sys.modules
QTimer.singleShot(100_000, lambda: app.exit(1))
told["code"] = app.exec()
told |= {"after": loaded(), "threads": threading.active_count()}
print(json.dumps(told))
"""


def test_a_first_chart_waits_for_the_typing_and_for_no_thread(tmp_path):
    around = os.environ | {
        "HOME": str(tmp_path),
        "XDG_CACHE_HOME": str(tmp_path / "cache"),
        "PYTHONPATH": os.getcwd(),
    }
    around.pop("MPLCONFIGDIR", None)
    done = subprocess.run(
        [sys.executable, "-c", FIRST_CHART], env=around, capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout.splitlines()[-1])
    assert told == {"before": False, "while typing": False, "code": 0, "after": True, "threads": 1}
    assert list(tmp_path.glob("cache/matplotlib/fontlist-v*.json"))


def test_the_list_of_fonts_is_looked_for_where_modules_are_no_files(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(matplotlib, "__file__", "/in/an/archive/matplotlib/__init__.py")
    monkeypatch.setattr(matplotlib, "get_cachedir", lambda: "/no/lists/here")
    assert not _fonts_listed()


def test_a_list_from_before_an_update_is_not_waited_for_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(matplotlib, "get_cachedir", lambda: str(tmp_path))
    made = tmp_path / "fontlist-v1.json"
    made.touch()
    os.utime(made, (1.0, 1.0))
    assert not _fonts_listed()
    monkeypatch.setattr(sys, "argv", ["dryhouse", LIST_FONTS])
    runpy.run_module("dryhouse", run_name="__main__")
    assert _fonts_listed()
