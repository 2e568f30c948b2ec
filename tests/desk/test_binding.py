"""The Qt binding keeps its count of references: a long sitting does not end the program."""

import subprocess
import sys


def test_a_hundred_thousand_calls_that_answer_none_do_no_harm():
    program = (
        "from PySide6.QtGui import QFont\n"
        "font = QFont()\n"
        "for _ in range(100_000): font.setPointSizeF(9)\n"
        "print('still here')\n"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=120)
    assert (run.returncode, run.stdout.strip()) == (0, "still here"), run.stderr


def test_a_hundred_thousand_signals_do_no_harm():
    program = (
        "from PySide6.QtCore import QObject, Signal\n"
        "class Bell(QObject):\n"
        "    rung = Signal()\n"
        "bell = Bell()\n"
        "for _ in range(100_000): bell.rung.emit()\n"
        "print('still here')\n"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=120)
    assert (run.returncode, run.stdout.strip()) == (0, "still here"), run.stderr
