"""What places read before they are first shown, once the window has been usable for a while."""

from __future__ import annotations

import importlib
from collections.abc import Iterable
from contextlib import suppress
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer

from dryhouse.science.errors import WorldProblem

if TYPE_CHECKING:
    from dryhouse.desk.place import PlaceSpec
    from dryhouse.desk.session import Session

LATER_MS = 1500


def read_ahead_later(session: Session, specs: Iterable[PlaceSpec]) -> QTimer:
    """After a while, let every place whose spec names a reader in `preload` begin reading, off the window's thread.
    The timer belongs to the session and ends with it."""
    timer = QTimer(session, singleShot=True, interval=LATER_MS)
    timer.timeout.connect(lambda: read_ahead(session, specs))
    timer.start()
    return timer


def read_ahead(session: Session, specs: Iterable[PlaceSpec]) -> None:
    """Let them begin now."""
    for spec in specs:
        if spec.preload:
            module, name = spec.preload.split(":")
            with suppress(WorldProblem):  # a journal that was closed meanwhile is not read ahead for
                getattr(importlib.import_module(module), name)(session)
