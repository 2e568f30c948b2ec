"""Reading off the window's thread. The only place of the desk where a thread begins, and none of it knows Qt.

What Qt made must be let go on the window's thread, or the program may end without a word. So the work is given
plain values, what it found waits in a queue, and a timer on the window's thread fetches it from there.
"""

from __future__ import annotations

from collections.abc import Callable
from queue import SimpleQueue
from threading import Thread
from typing import TypeVar

from PySide6.QtCore import QObject, QTimer

from dryhouse.science.errors import WorldProblem

R = TypeVar("R")

_LOOK_MS = 20


def in_thread(work: Callable[[], object], name: str) -> Thread:
    """Begin the work beside the window. `work` must hold nothing of Qt: no widget, no session, no signal."""
    thread = Thread(target=work, name=name, daemon=True)
    thread.start()
    return thread


def read_beside(owner: QObject, work: Callable[[], R], then: Callable[[R], None], name: str) -> None:
    """Do the work in a thread, and hand what it answers to `then` on the window's thread, while `owner` lives.

    Where the journal was closed meanwhile, or the world failed, there is nobody to read for: `then` is not called.
    """
    answers: SimpleQueue[R | None] = SimpleQueue()

    def read() -> None:
        try:
            answers.put(work())
        except (WorldProblem, RuntimeError):
            answers.put(None)

    def look() -> None:
        if answers.empty():
            return
        timer.stop()
        timer.deleteLater()
        found = answers.get()
        if found is not None:
            then(found)

    timer = QTimer(owner, interval=_LOOK_MS)
    timer.timeout.connect(look)
    timer.start()
    in_thread(read, name)
