"""How long the window takes to appear and to be usable, against an empty Qt window in the same run.

    python tests/benchmarks/startup.py [--rounds 9] [--journal FILE]

Both programs are started in turn, each in a process of its own; the medians and their ratios are printed as
one JSON object. Both start from compiled modules, as an installed program does, whatever the environment says
about writing them. Without a display it runs offscreen. A large journal is made by `sample_data/large.py`.
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

EMPTY = """
import sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
from dryhouse.desk.milestones import Milestones

class Empty(QMainWindow):
    def paintEvent(self, event):
        super().paintEvent(event)
        QTimer.singleShot(0, painted)

def painted():
    marks.reach("first_paint")
    window.close()

marks = Milestones(0.0)
app = QApplication([])
window = Empty()
window.resize(1280, 800)
window.show()
app.exec()
import json
print(json.dumps(marks.reached))
"""


def started(arguments: list[str], environment: dict[str, str]) -> dict[str, float]:
    """The milestones one start printed."""
    done = subprocess.run(
        [sys.executable, *arguments], env=environment, capture_output=True, text=True, check=True, timeout=120
    )
    return json.loads(done.stdout.splitlines()[-1])


def main() -> None:
    """Start both in turn and print the ratios."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--rounds", type=int, default=9)
    asked.add_argument("--journal", type=Path, help="a journal to open instead of the sample")
    given = asked.parse_args()
    desk = ["-m", "dryhouse", *(["--journal", str(given.journal)] if given.journal else ["--sample"])]
    with tempfile.TemporaryDirectory() as folder:
        environment = {**os.environ, "DRYHOUSE_SETTINGS": f"{folder}/settings.ini", "XDG_DATA_HOME": folder}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        environment["PYTHONPYCACHEPREFIX"] = f"{folder}/compiled"
        if not (environment.get("DISPLAY") or environment.get("WAYLAND_DISPLAY")):
            environment.setdefault("QT_QPA_PLATFORM", "offscreen")
        runs: dict[str, list[float]] = {"empty": [], "first_paint": [], "usable": []}
        started(["-c", EMPTY], environment)
        started([*desk, "--timings", "--quit-when-ready"], environment)
        for _ in range(given.rounds):
            runs["empty"].append(started(["-c", EMPTY], environment)["first_paint"])
            ours = started([*desk, "--timings", "--quit-when-ready"], environment)
            runs["first_paint"].append(ours["first_paint"])
            runs["usable"].append(ours["journal_usable"])
    middle = {name: statistics.median(times) for name, times in runs.items()}
    print(
        json.dumps(
            {
                "seconds": {name: round(time, 3) for name, time in middle.items()},
                "first_paint_ratio": round(middle["first_paint"] / middle["empty"], 2),
                "usable_ratio": round(middle["usable"] / middle["empty"], 2),
            }
        )
    )


if __name__ == "__main__":
    main()
