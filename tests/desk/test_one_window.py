"""A second start brings the window that is open to the front."""

from __future__ import annotations

import os
import socket
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread

import pytest

from dryhouse.desk.one_window import OneWindow, address, brought_to_front
from dryhouse.desk.window import DeskWindow


@pytest.fixture(autouse=True)
def own_runtime_folder(monkeypatch):
    """As short as the one of a person: the whole address of a socket has room in some hundred letters."""
    with TemporaryDirectory(prefix="dh") as folder:
        monkeypatch.setenv("XDG_RUNTIME_DIR", folder)
        yield


@pytest.fixture
def window(qtbot, theme, settings):
    made = DeskWindow(theme, settings)
    made.show()
    qtbot.waitExposed(made)
    yield made
    made.close()
    made.deleteLater()


def asked(qtbot, journal: Path) -> bool:
    """What a second start is answered while the window goes on living."""
    answers: list[bool] = []
    asking = Thread(target=lambda: answers.append(brought_to_front(journal)))
    asking.start()
    qtbot.waitUntil(lambda: bool(answers), timeout=10_000)
    asking.join()
    return answers[0]


def test_a_second_start_raises_the_window_that_has_the_journal(qtbot, window, tmp_path):
    ones = OneWindow(window)
    ones.answer_for(tmp_path / "journal.dryhouse")
    window.showMinimized()
    assert asked(qtbot, tmp_path / "journal.dryhouse")
    assert not window.isMinimized()
    assert not asked(qtbot, tmp_path / "other.dryhouse")
    ones.close()
    assert not asked(qtbot, tmp_path / "journal.dryhouse")


def test_another_journal_in_the_same_window_is_answered_for_instead(qtbot, window, tmp_path):
    ones = OneWindow(window)
    ones.answer_for(tmp_path / "a.dryhouse")
    ones.answer_for(tmp_path / "b.dryhouse")
    assert asked(qtbot, tmp_path / "b.dryhouse")
    assert not asked(qtbot, tmp_path / "a.dryhouse")
    ones.close()


def test_a_link_leads_to_the_same_window(tmp_path):
    (tmp_path / "journal.dryhouse").touch()
    (tmp_path / "link.dryhouse").symlink_to(tmp_path / "journal.dryhouse")
    assert address(tmp_path / "link.dryhouse") == address(tmp_path / "journal.dryhouse")
    assert address(tmp_path / "other.dryhouse") != address(tmp_path / "journal.dryhouse")


def test_what_a_killed_window_left_stops_nobody(qtbot, window, tmp_path):
    journal = tmp_path / "journal.dryhouse"
    left = socket.socket(socket.AF_UNIX)
    left.bind(address(journal))
    left.close()
    assert not brought_to_front(journal)
    ones = OneWindow(window)
    ones.answer_for(journal)
    assert asked(qtbot, journal)
    ones.close()


def test_a_second_window_leaves_the_first_one_answering(qtbot, window, theme, settings, tmp_path):
    other = DeskWindow(theme, settings)
    first, second = OneWindow(window), OneWindow(other)
    first.answer_for(tmp_path / "journal.dryhouse")
    second.answer_for(tmp_path / "journal.dryhouse")
    second.close()
    window.showMinimized()
    assert asked(qtbot, tmp_path / "journal.dryhouse")
    assert not window.isMinimized()
    first.close()
    other.deleteLater()


def test_asking_imports_nothing_of_qt(tmp_path):
    import subprocess

    code = (
        "import sys; from pathlib import Path; from dryhouse.desk.one_window import brought_to_front;"
        "print(brought_to_front(Path('j.dryhouse')), any('PySide' in name for name in sys.modules))"
    )
    said = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, env=dict(os.environ), check=True
    )
    assert said.stdout.split() == ["False", "False"]
