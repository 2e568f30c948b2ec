"""Starting: quick, in the right order, and plain about what is missing."""

import json
import os
import subprocess
import sys

import pytest

from dryhouse.desk.app import LIBRARIES, missing_libraries
from dryhouse.house import sample_file

SLOW = (
    "matplotlib", "scipy", "alembic", "pint", "psychrolib", "sqlalchemy", "numpy", "rapidfuzz", "hashlib", "socket",
)  # fmt: skip
LATER = ("dryhouse.desk.instruments", "dryhouse.kitchen.cards.batch_card", "dryhouse.kitchen.cautions.cautions")
"""What the first card beside the list, the instruments and notices need: nobody waits for them."""
BEFORE_PAINT = {
    "dryhouse", "dryhouse.cli", "dryhouse.cli.no_screen", "dryhouse.house", "dryhouse.desk", "dryhouse.desk.app",
    "dryhouse.desk.faults", "dryhouse.desk.milestones", "dryhouse.desk.one_window", "dryhouse.desk.settings",
    "dryhouse.desk.theme", "dryhouse.desk.window", "dryhouse.plots", "dryhouse.plots.tokens", "dryhouse.science",
    "dryhouse.science.errors", "dryhouse.science.statuses",
}  # fmt: skip
"""All of ours that is read before the window is seen."""

STARTING = """
import gc, json, sys
from dryhouse.cli import main
from dryhouse.desk.milestones import Milestones
reach, at_paint = Milestones.reach, []
def noted(marks, name):
    reach(marks, name)
    if name == "first_paint":
        at_paint.extend(sys.modules)
Milestones.reach = noted
code = main(["--sample", "--timings", "--quit-when-ready"])
told = {"code": code, "loaded": sorted(sys.modules), "at paint": at_paint}
print(json.dumps(told | {"collects by itself": gc.isenabled()}))
"""


@pytest.fixture(scope="module")
def started(tmp_path_factory):
    folder = tmp_path_factory.mktemp("started")
    environment = os.environ | {
        "QT_QPA_PLATFORM": "offscreen",
        "DRYHOUSE_SETTINGS": str(folder / "settings.ini"),
        "XDG_DATA_HOME": str(folder),
    }
    with pytest.MonkeyPatch.context() as monkeypatch:
        monkeypatch.setenv("XDG_DATA_HOME", str(folder))
        sample_file()  # as an earlier start has left it
    command = [sys.executable, "-c", STARTING]
    return subprocess.run(command, env=environment, capture_output=True, text=True, timeout=120)


def test_the_window_opens_the_sample_and_leaves_when_it_is_ready(started):
    assert started.returncode == 0, started.stderr
    assert json.loads(started.stdout.splitlines()[-1])["code"] == 0


def test_opening_the_window_loads_nothing_slow(started):
    loaded = set(json.loads(started.stdout.splitlines()[-1])["loaded"])
    assert loaded.isdisjoint(SLOW), loaded & set(SLOW)
    assert loaded.isdisjoint(LATER), loaded & set(LATER)


def test_hardly_anything_is_read_before_the_window_is_seen(started):
    loaded = json.loads(started.stdout.splitlines()[-1])["at paint"]
    assert {name for name in loaded if name.startswith("dryhouse")} <= BEFORE_PAINT
    assert not {"hashlib", "dataclasses", "socket"} & set(loaded)


def test_python_does_not_collect_by_itself_on_whatever_thread(started):
    assert json.loads(started.stdout.splitlines()[-1])["collects by itself"] is False


def test_milestones_come_in_order_and_the_window_is_painted_before_the_journal_is_read(started):
    marks = json.loads(started.stdout.splitlines()[0])
    order = ["process_start", "program_start", "qt_imported", "window_made", "first_paint", "furnished"]
    order.append("journal_usable")
    assert list(marks) == order
    assert list(marks.values()) == sorted(marks.values())


def test_nothing_is_printed_that_nobody_asked_for(started):
    assert started.stderr.replace("This plugin does not support propagateSizeHints()\n", "") == ""


def test_missing_graphics_libraries_are_named_in_one_sentence(tmp_path):
    package = tmp_path / "PySide6"
    package.mkdir()
    (package / "__init__.py").write_text("")
    (package / "QtWidgets.py").write_text("raise ImportError('libEGL.so.1: cannot open shared object file')")
    told = subprocess.run(
        [sys.executable, "-c", "import sys; from dryhouse.cli import main; sys.exit(main([]))"],
        env=os.environ | {"PYTHONPATH": f"{tmp_path}{os.pathsep}{os.getcwd()}"},
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert told.returncode == 1
    assert "libEGL.so.1" in told.stderr
    assert LIBRARIES in told.stderr
    assert "Traceback" not in told.stderr


def test_the_sentence_names_what_was_missing():
    assert "libGL.so.1" in missing_libraries(ImportError("libGL.so.1: cannot open shared object file"))
