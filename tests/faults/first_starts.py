"""First starts of the real program, each with an empty home, driven at once through all places.

    python tests/faults/first_starts.py [--times 200] [--together 2] [--seed 1]

Each start is a process of its own under `faulthandler`, every other one with the sample; whichever ended by a
fault, or said anything on standard error, is printed with what it left. Exit code 1 where there was one.
"""

from __future__ import annotations

import argparse
import os
import random
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from itertools import repeat
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtCore import Qt

ROOT = Path(__file__).parents[2]
STEPS = 60
"""Half of them before charts can be drawn, half after; each half goes through all six places."""
_LONGEST_S = 600
_QUIET = "This plugin does not support"


def one_start(seed: int, steps: int = STEPS, cache: Path | None = None) -> str:
    """Start the program and drive it with this seed; what went wrong, empty where nothing did."""
    with tempfile.TemporaryDirectory(prefix="first-start-", ignore_cleanup_errors=True) as home:
        kept = {
            name: value for name, value in os.environ.items() if not name.startswith(("XDG_", "DRYHOUSE_", "MPL"))
        }
        around = kept | {"HOME": home, "PYTHONPATH": str(ROOT), "QT_QPA_PLATFORM": "offscreen"}
        around |= {"XDG_CACHE_HOME": str(cache)} if cache else {}
        command = [sys.executable, "-X", "faulthandler", __file__, "--drive", str(seed), "--steps", str(steps)]
        try:
            ended = subprocess.run(
                command, env=around, cwd=home, capture_output=True, text=True, timeout=_LONGEST_S + 60, check=False
            )
        except subprocess.TimeoutExpired:
            return f"seed {seed}: did not end in {_LONGEST_S + 60} s"
        said = "\n".join(line for line in ended.stderr.splitlines() if line and not line.startswith(_QUIET))
        left = "".join(path.read_text(encoding="utf-8") for path in Path(home).rglob("*.log"))
        if ended.returncode == 0 and not said and not left:
            return ""
        return f"seed {seed}: ended with {ended.returncode}\n{said}\n{left}"


def drive(seed: int, steps: int) -> int:
    """Be that program: open the desk as a first start does, and press keys as soon as there is a window.

    Half-way there is a pause until charts can be drawn: the other half is driven with charts.
    """
    from PySide6.QtCore import Qt, QTimer
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication, QLineEdit

    from dryhouse.cli import main
    from dryhouse.desk.drawing_library import loaded
    from dryhouse.desk.window import DeskWindow

    app = QApplication(["dryhouse"])
    rng = random.Random(seed)
    keys = keys_of_places(rng, steps)
    done = 0

    def step() -> None:
        nonlocal done
        window = next((w for w in app.topLevelWidgets() if isinstance(w, DeskWindow)), None)
        if window is None or getattr(window, "session", None) is None:
            timer.start(5)
            return
        if done == steps // 2 and not loaded():
            timer.start(50)
            return
        done += 1
        if done > steps:
            window.close()
            return
        if done == 1 and seed % 2 == 0:
            window.doors.open_sample()
        if key := keys[done - 1]:
            QTest.keyClick(window, key, Qt.KeyboardModifier.ControlModifier)
        else:
            act(window)
        timer.start(rng.choice((0, 0, 1, 5, 20, 60)))

    def act(window: DeskWindow) -> None:
        focus = QApplication.focusWidget() or window
        control = Qt.KeyboardModifier.ControlModifier
        chance = rng.random()
        if chance < 0.3:
            QTest.keyClick(window, rng.choice((Qt.Key.Key_N, Qt.Key.Key_F, Qt.Key.Key_R)), control)
        elif chance < 0.6 and isinstance(focus, QLineEdit):
            QTest.keyClicks(focus, rng.choice(("corn 1 cup", "apple", "2 lb", "125 F", "turkey 3 oz dried")))
        elif chance < 0.8:
            QTest.keyClick(focus, rng.choice((Qt.Key.Key_Tab, Qt.Key.Key_Escape, Qt.Key.Key_Down)))
        elif chance < 0.9:
            window.theme.choose(rng.choice(("light", "dark")))
        else:
            window.resize(rng.randint(900, 1600), rng.randint(600, 1000))

    def late() -> None:
        print(f"not through after {_LONGEST_S} s, in step {done}", file=sys.stderr)
        app.exit(3)

    timer = QTimer(singleShot=True)
    timer.timeout.connect(step)
    timer.start(0)
    QTimer.singleShot(_LONGEST_S * 1000, late)
    return main([])


def keys_of_places(rng: random.Random, steps: int) -> list[Qt.Key | None]:
    """The key of each step that goes to a place: first the quickest way to a chart and a form, and in each half all
    places, in any order. None where something else is done."""
    from PySide6.QtCore import Qt

    first = [Qt.Key.Key_3, Qt.Key.Key_1, Qt.Key.Key_N]
    others = [Qt.Key.Key_2, Qt.Key.Key_4, Qt.Key.Key_5, Qt.Key.Key_6]
    before: list[Qt.Key | None] = [*others, *[None] * (steps // 2 - len(first + others))]
    after = [*first[:2], *others, *[None] * (steps - steps // 2 - len(first[:2] + others))]
    rng.shuffle(before)
    rng.shuffle(after)
    return [*first, *before, *after]


def first_starts(
    times: int, together: int, seed: int, steps: int = STEPS, cache: Path | None = None
) -> Iterator[str]:
    """Start so many times, some at the same time: of each what went wrong, empty where nothing did.

    With a folder for what can be made again (the list of fonts, the built sample) only those that start before it
    is there make it.
    """
    with ThreadPoolExecutor(together) as pool:
        yield from pool.map(one_start, range(seed, seed + times), repeat(steps), repeat(cache))


def run() -> int:
    """The script."""
    asked = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    asked.add_argument("--times", type=int, default=200)
    asked.add_argument("--together", type=int, default=2)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--drive", type=int, metavar="SEED", help="be one such start, with the home there is")
    asked.add_argument("--steps", type=int, default=STEPS, help="keys pressed in each")
    given = asked.parse_args()
    if given.drive is not None:
        return drive(given.drive, given.steps)
    wrong = 0
    for count, told in enumerate(first_starts(given.times, given.together, given.seed, given.steps), 1):
        wrong += bool(told)
        print(told or f"{count} first starts, {wrong} of them went wrong", flush=True)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(run())
