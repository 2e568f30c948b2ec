"""Work that takes a while, beside the window: it says how far it is, can be stopped, and fails with a sentence."""

from __future__ import annotations

from collections.abc import Callable
from queue import SimpleQueue
from threading import Event
from typing import Any, TypeVar

from PySide6.QtCore import QObject, QTimer

from dryhouse.desk.background import in_thread
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.words.messages import problem_sentence

R = TypeVar("R")
Report = Callable[[str, float | None], None]
"""Told what has been done in words, or how much of it from 0 to 1. Raises `Stopped` once nobody waits any more."""

_LOOK_MS = 50


class Stopped(Exception):
    """She does not want it any more; whoever works leaves everything as it was."""


def work_beside(
    owner: QObject,
    work: Callable[[Report], R],
    *,
    told: Callable[[str, float | None], None],
    done: Callable[[R], None],
    failed: Callable[[str], None],
    name: str,
) -> Callable[[], None]:
    """Do the work in a thread; answers what stops it. All that is told comes on the window's thread, while `owner`
    lives; nothing is told once it is stopped. The work must hold nothing of Qt."""
    news: SimpleQueue[tuple[str, Any]] = SimpleQueue()
    stop = Event()

    def report(words: str, share: float | None) -> None:
        if stop.is_set():
            raise Stopped
        news.put(("told", (words, share)))

    def run() -> None:
        try:
            news.put(("done", work(report)))
        except Stopped:
            news.put(("stopped", None))
        except (InputProblem, WorldProblem) as problem:
            news.put(("failed", problem_sentence(problem)))

    def look() -> None:
        latest: tuple[str, Any] | None = None
        while not news.empty():
            latest = news.get()
            if latest[0] != "told":
                timer.stop()
                timer.deleteLater()
                break
        if latest is None or stop.is_set():
            return
        what, value = latest
        if what == "told":
            told(*value)
        elif what != "stopped":
            (done if what == "done" else failed)(value)

    timer = QTimer(owner, interval=_LOOK_MS)
    timer.timeout.connect(look)
    timer.start()
    owner.destroyed.connect(stop.set)
    in_thread(run, name)
    return stop.set
