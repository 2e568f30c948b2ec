"""Cycles are collected, and on the window's thread only."""

import gc
import threading
import weakref

import pytest
from PySide6.QtCore import QObject

from dryhouse.desk.collector import Collector


class Knot:
    def __init__(self):
        self.me = self


@pytest.fixture
def collector(qapp):
    was = gc.isenabled()
    parent = QObject()
    yield Collector(parent)
    parent.deleteLater()
    gc.unfreeze()
    (gc.enable if was else gc.disable)()


def many():
    knots = [Knot() for _ in range(2 * gc.get_threshold()[0])]
    return weakref.ref(knots[0])


def test_what_many_objects_leave_behind_is_collected_by_the_timer(collector, qtbot):
    gone = many()
    assert gone() is not None
    qtbot.waitUntil(lambda: gone() is None, timeout=10_000)


def test_no_thread_collects_whatever_it_makes(collector):
    left = []
    thread = threading.Thread(target=lambda: left.extend(many() for _ in range(20)))
    thread.start()
    thread.join()
    assert all(ref() is not None for ref in left)
