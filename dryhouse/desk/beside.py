"""This program once more beside itself: for what would hold the window up, or take memory that is not needed again.

Where it is installed as one folder there is no Python to ask, only the program.
"""

from __future__ import annotations

import sys

LIST_FONTS = "--list-fonts"
"""Asks `dryhouse.__main__` to go through the fonts of this machine for matplotlib, once, and to end."""


def beside(*arguments: str) -> tuple[str, list[str]]:
    """The program to start and its arguments."""
    alone = getattr(sys, "frozen", False)
    return sys.executable, [*([] if alone else ["-m", "dryhouse"]), *arguments]
