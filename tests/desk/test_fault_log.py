"""What went wrong is in a file that can be sent."""

import os
import subprocess
import sys

import pytest

from dryhouse.desk import fault_log


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(fault_log, "user_log_path", lambda *a, **k: tmp_path / "log")
    fault_log._log.cache_clear()
    yield tmp_path / "log"
    for handler in fault_log._log().handlers[:]:
        fault_log._log().removeHandler(handler)
        handler.close()
    fault_log._log.cache_clear()


def test_faults_are_added_to_the_file_and_the_person_is_told_where(folder):
    assert fault_log.where() == (
        f"Nothing has gone wrong so far. If something does, it will be written in the folder {folder}."
    )
    fault_log.write("Dryhouse 1\nZeroDivisionError: in the middle")
    fault_log.write("another")
    text = (folder / "dryhouse.log").read_text(encoding="utf-8")
    assert "ZeroDivisionError: in the middle" in text
    assert text.rstrip().endswith("another")
    assert str(folder) in fault_log.where()
    assert "written in the folder" in fault_log.where()


def test_the_file_is_begun_anew_before_it_grows_large(folder):
    for _ in range(30):
        fault_log.write("x" * 20_000)
    sizes = [path.stat().st_size for path in folder.iterdir()]
    assert len(sizes) == 2
    assert max(sizes) < 250_000


def test_a_log_that_cannot_be_written_stops_nothing(folder):
    folder.parent.joinpath("log").write_text("a file where the folder should be")
    fault_log.write("lost")
    fault_log.note_breaks()
    folder.unlink()


def test_a_program_that_breaks_leaves_the_place_it_broke_at(tmp_path):
    broken = "from dryhouse.desk import fault_log; fault_log.note_breaks(); import ctypes; ctypes.string_at(0)"
    around = os.environ | {"XDG_STATE_HOME": str(tmp_path), "PYTHONPATH": os.getcwd()}
    ended = subprocess.run([sys.executable, "-c", broken], env=around, capture_output=True, timeout=60)
    assert ended.returncode != 0
    (report,) = tmp_path.rglob("ended.log")
    assert "Segmentation fault" in report.read_text()
