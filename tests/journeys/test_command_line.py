"""A season by script: the console entry run as another program would run it, in processes of its own where that is
the point, else in this one."""

from __future__ import annotations

import contextlib
import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from dryhouse.cli import main
from tests.warm import AS_MODULE, started

ROOT = Path(__file__).parents[2]
CORN = ("log", "--food", "sweet corn", "--form", "kernels", "--hours", "9h30", "--temp", "125 F")


class Script:
    """Someone who has only the command line, and one journal."""

    def __init__(self, folder: Path) -> None:
        self.journal = folder / "galley.dryhouse"
        self.told = ""
        self._around = {**os.environ, "PYTHONPATH": str(ROOT), "XDG_DATA_HOME": str(folder / "data"), "TZ": "UTC"}

    def run(self, *words: str, code: int = 0, **around: str) -> str:
        """What is said on standard output; what is said on standard error is kept in `told`."""
        command = (AS_MODULE, "dryhouse", "--journal", self.journal, *words)
        program = started(*command, environment={**self._around, **around})
        said, self.told = program.communicate()
        assert program.returncode == code, self.told
        return said

    def run_cold(self, *words: str, **around: str) -> str:
        """The same by a Python of its own."""
        done = subprocess.run(
            [sys.executable, "-m", "dryhouse", "--journal", str(self.journal), *words],
            capture_output=True,
            env={**self._around, **around},
            check=False,
            timeout=60,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout.decode(around["PYTHONIOENCODING"])

    def here(self, *words: str) -> str:
        """The same in this process, which knows the handbook already."""
        said, told = io.StringIO(), io.StringIO()
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(told):
            code = main(["--journal", str(self.journal), *words])
        assert code == 0, told.getvalue()
        return said.getvalue()

    def ask_here(self, *words: str) -> dict:
        return json.loads(self.here(*words, "--json"))

    def ask(self, *words: str, **around: str) -> dict:
        return json.loads(self.run(*words, "--json", **around))


@pytest.fixture
def script(tmp_path):
    return Script(tmp_path)


def test_a_season_of_three_batches_is_logged_asked_about_moved_and_restored(script, tmp_path):
    before = script.ask_here("yields", "sweet corn", "--fresh", "1 kg", "--form", "kernels")
    assert not script.journal.exists()
    assert {b["kind"] for b in before["basis"]} == {"handbook"}

    for fresh, dried, start in (
        ("2 lb 3 oz", "7.7 oz", "2025-08-01 18:00"),
        ("2 lb", "7.1 oz", "2025-08-03 18:00"),
    ):
        script.here(*CORN, "--fresh", fresh, "--dried", dried, "--start", start)
    logged = script.ask_here(
        "log", "--food", "ground beef", "--fresh", "500 g", "--dried", "210 g", "--precook", "71 C",
        "--precook-measured", "thermometer", "--start", "2025-08-05 9:00", "--hours", "7",
        "--notes", "für die Bucht 🛶",
    )  # fmt: skip
    assert (logged["batch"], logged["value"], logged["unit"]) == (3, pytest.approx(42.0), "%")
    script.run("weigh", "1", "1 lb 4 oz", "--at", "2025-08-01 20:00")

    after = script.ask("yields", "sweet corn", "--fresh", "1 kg", "--form", "kernels")
    assert after["n_own"] == 2
    assert 0.22 < after["value"] < before["value"]
    assert after["high"] - after["low"] < before["high"] - before["low"]

    batches = script.ask_here("batches")
    assert [b["id"] for b in batches["items"]] == [3, 2, 1]
    assert script.ask_here("cautions", "--batch", "3")["food"] == "ground-beef"
    raw = script.ask_here("cautions", "ground", "beef")
    assert "stop" in {c["severity"] for c in raw["cautions"]}

    script.here("export", str(tmp_path / "season.json"))
    other = Script(tmp_path / "elsewhere")
    other.journal.parent.mkdir()
    assert other.ask_here("import", str(tmp_path / "season.json"))["added"] == 4
    assert other.ask_here("batches") == batches
    assert other.ask_here("cautions", "--batch", "3") == script.ask_here("cautions", "--batch", "3")

    backup = script.ask_here("backup")["file"]
    script.here("log", "--food", "apple", "--fresh", "3 lb", "--dried", "8 oz")
    assert script.ask_here("restore", backup)["former"]
    assert script.ask_here("batches") == batches
    assert script.ask_here("check") == {"whole": True, "faults": [], "schema": 2}


def test_what_cannot_be_used_changes_nothing_and_what_cannot_be_shown_is_no_accident(script):
    assert script.run("log", "--food", "nosuchfood", "--fresh", "1 lb", "--dried", "3 oz", code=2) == ""
    assert script.told.count("\n") == 1
    assert not script.journal.exists()

    text = script.run_cold("yields", "sweet corn", "--fresh", "¾ cup", PYTHONIOENCODING="ascii")
    assert text.startswith("Dried from ? cup of sweet corn: ")
    figure = script.ask("yields", "sweet corn", "--fresh", "¾ cup", PYTHONIOENCODING="ascii")
    assert any("×" in line for line in figure["workings"])


def test_nothing_but_the_answer_comes_of_weighings_closer_than_a_scale_can_settle(script, tmp_path):
    run = tmp_path / "run.csv"
    run.write_text("hours,grams\n0,2\n1,1\n2,1\n3,1\n4,1\n1e-310,1\n", encoding="utf-8")
    answer = script.ask("curve", str(run), "--start-moisture", "50")
    assert script.told == ""
    assert any("less than half a second apart" in line for line in answer["workings"])
