"""The program once more beside itself, from Python and where it is installed as one folder."""

from __future__ import annotations

import os
import subprocess
import sys

from dryhouse.desk.beside import LIST_FONTS, beside


def test_it_is_asked_for_through_python_where_there_is_one_and_by_itself_where_not(monkeypatch) -> None:
    assert beside("watch", "--once") == (sys.executable, ["-m", "dryhouse", "watch", "--once"])
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    monkeypatch.setattr(sys, "executable", "/usr/lib/dryhouse/dryhouse")
    assert beside("watch", "--once") == ("/usr/lib/dryhouse/dryhouse", ["watch", "--once"])


def test_the_fonts_are_listed_and_nothing_is_opened(tmp_path) -> None:
    program, arguments = beside(LIST_FONTS)
    home = {"HOME": str(tmp_path), "MPLCONFIGDIR": str(tmp_path), "PYTHONPATH": os.getcwd()}
    done = subprocess.run([program, *arguments], env=home, capture_output=True, text=True, timeout=120)
    assert (done.returncode, done.stdout) == (0, "")
    assert list(tmp_path.glob("fontlist-v*.json"))
    assert not list(tmp_path.rglob("*.dryhouse"))
