"""The window outlives a Qt binding that does not count its references to None."""

import subprocess
import sys


def test_a_hundred_thousand_calls_that_answer_none_do_no_harm():
    program = (
        "import dryhouse.desk\n"
        "from PySide6.QtGui import QFont\n"
        "font = QFont()\n"
        "for _ in range(100_000): font.setPointSizeF(9)\n"
        "print('still here')\n"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=120)
    assert (run.returncode, run.stdout.strip()) == (0, "still here"), run.stderr
