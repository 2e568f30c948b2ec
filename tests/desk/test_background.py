"""What is read beside the window arrives on the window's thread, and no thread knows Qt."""

import ast
import threading
from pathlib import Path

from PySide6.QtCore import QObject

from dryhouse.desk.background import read_beside
from dryhouse.science.errors import WorldProblem

DESK = Path(__file__).parents[2] / "dryhouse" / "desk"


def test_the_work_is_done_in_a_thread_and_its_answer_taken_on_the_windows_own(qtbot, qapp):
    owner, where, taken = QObject(), [], []
    read_beside(owner, lambda: where.append(threading.current_thread().name) or 42, taken.append, "reader")
    read_beside(owner, lambda: 7, lambda _: where.append(threading.current_thread().name), "other")
    qtbot.waitUntil(lambda: taken == [42] and len(where) == 2)
    assert set(where) == {"reader", threading.main_thread().name}


def test_a_reading_that_failed_or_whose_owner_is_gone_is_not_taken(qtbot, qapp):
    def fail():
        raise WorldProblem("The journal is closed.")

    owner, gone, taken = QObject(), QObject(), []
    done = threading.Event()
    read_beside(owner, fail, taken.append, "fails")
    read_beside(gone, lambda: done.wait(5), taken.append, "late")
    gone.deleteLater()
    qtbot.wait(50)
    done.set()
    qtbot.wait(100)
    assert taken == []


def test_threads_begin_in_one_module_of_the_desk_and_in_no_other():
    begun = set()
    for path in DESK.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
                if name in {
                    "Thread",
                    "QThread",
                    "QThreadPool",
                    "ThreadPoolExecutor",
                    "globalInstance",
                    "moveToThread",
                }:
                    begun.add(path.name)
    assert begun == {"background.py"}
