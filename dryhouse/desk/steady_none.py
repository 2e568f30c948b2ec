"""Keeps None alive under a Qt binding that counts on it never dying.

From Python 3.12 on None is immortal (PEP 683), and PySide6 6.12.0 answers None without counting a reference
to it. On Python 3.11 every such call uses one up, and after some ten thousand of them the interpreter stops
with “deallocating None”. Here None is given more references than any sitting can use up; where the
interpreter keeps its count elsewhere, nothing is touched.
"""

from __future__ import annotations

import sys

_PLENTY = 1 << 60


def steady_none() -> None:
    """Give None references to spare, once; nothing to do from Python 3.12 on."""
    if sys.version_info >= (3, 12) or sys.implementation.name != "cpython" or sys.getrefcount(None) >= _PLENTY:
        return
    import ctypes

    count = ctypes.c_ssize_t.from_address(id(None))
    if abs(count.value - sys.getrefcount(None)) <= 8:
        count.value += _PLENTY
