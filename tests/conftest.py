"""Tests draw off the screen unless somebody asks for another way; in CI properties are tried on the same cases, and
on half as many of them as elsewhere.

A person's own data stay out of it: journals and the built sample lie in a folder of the run, which its
workers share.

Python's cyclic collector runs between tests, on the thread of the tests, and never by itself: as in the program, a
widget that it let go on a reading thread would end everything without a word.
"""

import gc
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

settings.register_profile("the same cases", derandomize=True, deadline=None, max_examples=50)
settings.register_profile("other cases", derandomize=False, deadline=None, print_blob=True)
settings.load_profile("the same cases" if os.environ.get("CI") else "other cases")

_OWN = "dryhouse-tests-"
if "PYTEST_XDIST_WORKER" not in os.environ:
    os.environ.setdefault("MPLCONFIGDIR", str(Path.home() / ".cache" / "matplotlib"))
    run = tempfile.mkdtemp(prefix=_OWN)
    os.environ |= {"XDG_DATA_HOME": f"{run}/data", "XDG_CACHE_HOME": f"{run}/cache"}


def pytest_unconfigure() -> None:
    """The run is over. What lies on the clipboard goes first: without a screen Qt lets it go once Python has ended,
    and that ends in a segmentation fault."""
    if (gui := sys.modules.get("PySide6.QtGui")) is not None and gui.QGuiApplication.instance() is not None:
        gui.QGuiApplication.clipboard().clear()
    folder = Path(os.environ["XDG_DATA_HOME"]).parent
    if "PYTEST_XDIST_WORKER" not in os.environ and folder.name.startswith(_OWN):
        shutil.rmtree(folder, ignore_errors=True)


gc.disable()


_TESTS, _OFTEN = count(1), 25
"""What tests without a window leave in cycles is little: it goes now and then."""


@pytest.fixture(autouse=True)
def collected(request: pytest.FixtureRequest) -> Iterator[None]:
    """What a test of a window left in cycles goes before the next one; those of the desk see to it themselves."""
    yield
    if "qapp" not in request.fixturenames:
        if not next(_TESTS) % _OFTEN:
            gc.collect(1)
    elif "nothing_left" not in request.fixturenames:
        gc.collect()
