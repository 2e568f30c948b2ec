"""The log file a person can send: our own mistakes with where they happened, and how the program ended if it broke.

It lies where the system keeps logs, is begun anew when it grows, and holds nothing of her journal's records.
"""

from __future__ import annotations

import contextlib
import faulthandler
import traceback
from functools import cache
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, TextIO

from platformdirs import user_log_path

if TYPE_CHECKING:
    import logging

_LARGEST_BYTES = 200_000
_broken: TextIO | None = None


def log_file() -> Path:
    """Where faults are written."""
    return user_log_path("dryhouse", appauthor=False) / "dryhouse.log"


def write(text: str) -> None:
    """Add a fault to the log. Where that cannot be written, the window's message is all there is."""
    with contextlib.suppress(OSError):
        _log().error(text)


def note_breaks() -> None:
    """From now on, have the system's own report written beside the log if the program should end by a fault."""
    global _broken
    with contextlib.suppress(OSError):
        path = log_file().with_name("ended.log")
        path.parent.mkdir(parents=True, exist_ok=True)
        _broken = path.open("a", encoding="utf-8")
        faulthandler.enable(_broken)


def where() -> str:
    """One sentence for a person who wants to send it."""
    path = log_file()
    if path.exists() or any(p.stat().st_size for p in path.parent.glob("ended.log")):
        return f"What went wrong so far is written in the folder {path.parent}; you can send what is in it."
    return f"Nothing has gone wrong so far. If something does, it will be written in the folder {path.parent}."


@cache
def _log() -> logging.Logger:
    import logging
    from logging.handlers import RotatingFileHandler

    path = log_file()
    path.parent.mkdir(parents=True, exist_ok=True)
    handler = RotatingFileHandler(path, maxBytes=_LARGEST_BYTES, backupCount=1, encoding="utf-8")
    handler.setFormatter(logging.Formatter("%(asctime)s %(message)s"))
    logger = logging.getLogger("dryhouse.desk")
    logger.propagate = False
    logger.addHandler(handler)
    return logger


def details(kind: type[BaseException], problem: BaseException, trace: TracebackType | None) -> str:
    """What a person can copy and send: versions and the trace, nothing of her journal's records."""
    import platform

    from dryhouse import __version__

    details_text = "".join(traceback.format_exception(kind, problem, trace))
    return f"Dryhouse {__version__}, Python {platform.python_version()}, {platform.platform()}\n\n{details_text}"
