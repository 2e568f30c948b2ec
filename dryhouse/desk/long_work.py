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
_ENDS = ("done", "stopped", "failed")


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

    hear: dict[str, Callable[[Any], None]] = {
        "told": lambda news: told(*news), "done": done, "failed": failed, "stopped": lambda _: None,
    }  # fmt: skip

    def look() -> None:
        what, value = _latest(news)
        if what in _ENDS:
            timer.stop()
            timer.deleteLater()
        if what and not stop.is_set():
            hear[what](value)

    timer = QTimer(owner, interval=_LOOK_MS)
    timer.timeout.connect(look)
    timer.start()
    owner.destroyed.connect(stop.set)
    in_thread(lambda: news.put(_outcome(work, report)), name)
    return stop.set


def _outcome(work: Callable[[Report], R], report: Report) -> tuple[str, Any]:
    """How the work ended, and with what."""
    try:
        return "done", work(report)
    except Stopped:
        return "stopped", None
    except (InputProblem, WorldProblem) as problem:
        return "failed", problem_sentence(problem)


def _latest(news: SimpleQueue[tuple[str, Any]]) -> tuple[str, Any]:
    """The end where it has come, else the last that was told; nothing where there is no news. What comes meanwhile
    waits, or work that tells faster than this hears would never let go of the window."""
    latest: tuple[str, Any] = "", None
    for _ in range(news.qsize()):
        latest = news.get()
    return latest
