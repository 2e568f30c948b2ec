"""Starting the desk: the window is painted first, then the journal is opened in it."""

from __future__ import annotations

import gc
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from dryhouse.desk.milestones import Milestones

if TYPE_CHECKING:
    from PySide6.QtCore import QLocale

    from dryhouse.desk.journal_access import JournalAccess, Opener

_ANSWER_MS = 300
"""How long after the window can be used it begins to answer a second start: what that needs is not waited for."""
LIBRARIES = (
    "libglib2.0-0 libgl1 libegl1 libxkbcommon-x11-0 libdbus-1-3 libfontconfig1 libxcb-cursor0 libxcb-icccm4 "
    "libxcb-keysyms1 libxcb-shape0 fonts-dejavu-core"
)


def run(
    opener: Opener,
    *,
    timings: bool = False,
    quit_when_ready: bool = False,
    began: float = 0.0,
    journals: JournalAccess | None = None,
) -> int:
    """Show the window, open the journal, and stay until it is closed; answer the exit code.

    `began` is a reading of `time.perf_counter` taken as early as the program could. With `timings` the
    milestones are printed as one JSON object, in seconds since the process started.
    """
    marks = Milestones(began)
    gc.disable()  # nothing made while starting is garbage; from then on the window's own collector looks for it
    try:
        from PySide6.QtWidgets import QApplication
    except ImportError as problem:
        print(missing_libraries(problem), file=sys.stderr)
        return 1
    marks.reach("qt_imported")
    running = QApplication.instance()
    app = running if isinstance(running, QApplication) else QApplication(sys.argv[:1])
    app.setApplicationName("dryhouse")
    app.setApplicationDisplayName("Dryhouse")
    app.setOrganizationName("dryhouse")
    QApplication.setDesktopFileName("app.dryhouse.Dryhouse")
    from dryhouse.desk.faults import watch
    from dryhouse.desk.settings import settings
    from dryhouse.desk.theme import theme_of
    from dryhouse.desk.window import DeskWindow

    kept = settings()
    window = DeskWindow(theme_of(app, kept), kept)
    watch(window)
    marks.reach("window_made")

    def painted() -> None:
        marks.reach("first_paint")
        window.furnish()
        app.processEvents()
        marks.reach("furnished")
        from PySide6.QtCore import QLocale, QTimer
        from PySide6.QtGui import QIcon

        from dryhouse.words.dates import tell_twelve_hours

        tell_twelve_hours(twelve_hours(QLocale.system()))
        window.setWindowIcon(QIcon(str(Path(__file__).parents[1] / "share" / "dryhouse.svg")))
        from dryhouse.desk.opening import Opening

        opening = Opening(window, journals)
        opening.opened.connect(ready)
        if journals is not None and not (timings or quit_when_ready):
            opening.opened.connect(lambda: QTimer.singleShot(_ANSWER_MS, opening.answer_second_starts))
        opening.open(opener)

    def ready() -> None:
        if "journal_usable" in marks.reached:
            return
        from PySide6.QtCore import QEventLoop

        app.processEvents(QEventLoop.ProcessEventsFlag.X11ExcludeTimers)  # what is to come later is not waited for
        marks.reach("journal_usable")
        from dryhouse.desk.collector import Collector
        from dryhouse.desk.fault_log import note_breaks

        Collector(window)
        note_breaks()
        if timings:
            print(json.dumps(marks.reached), flush=True)
        if quit_when_ready:
            window.close()

    window.painted.connect(painted)
    window.show()
    return int(app.exec())


def twelve_hours(locale: QLocale) -> bool:
    """Whether this locale tells the hours from 1 to 12."""
    return "a" in locale.timeFormat(locale.FormatType.ShortFormat).lower()


def missing_libraries(problem: ImportError) -> str:
    """One sentence for a system on which Qt finds no graphics libraries."""
    first = str(problem).split(":")[0]
    return (
        f"The window needs system libraries that are not installed here ({first}). "
        f"On Debian or Ubuntu: sudo apt-get install {LIBRARIES}"
    )
