"""Tests draw off the screen unless somebody asks for another way; in CI properties are tried on the same cases.

Python's cyclic collector runs between tests, on the thread of the tests, and never by itself: as in the program, a
widget that it let go on a reading thread would end everything without a word.
"""

import gc
import os
import sys
from collections.abc import Iterator

import pytest
from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

settings.register_profile("the same cases", derandomize=True, deadline=None)
settings.register_profile("other cases", derandomize=False, deadline=None, print_blob=True)
settings.load_profile("the same cases" if os.environ.get("CI") else "other cases")


gc.disable()
_WINDOWS = ("tests/journeys/", "tests/faults/")
"""Where windows are opened; those of tests/desk are collected by their own conftest."""


@pytest.fixture(autouse=True)
def collected(request: pytest.FixtureRequest) -> Iterator[None]:
    """What a test left in cycles goes before the next one."""
    yield
    windows = "PySide6.QtWidgets" in sys.modules and any(part in request.node.path.as_posix() for part in _WINDOWS)
    gc.collect(2 if windows else 1)
