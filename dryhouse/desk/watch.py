"""Alarms and instruments while no window is open: Qt's core and nothing of its widgets.

While a window has the same journal open it does all of this itself, and here everything is let go: neither shuts
the other out.
"""

from __future__ import annotations

import json
import signal
import sys
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, QProcess, QTimer

from dryhouse.desk.beside import beside
from dryhouse.desk.instruments import Instruments
from dryhouse.desk.notices import DesktopNotices
from dryhouse.desk.one_window import address, is_answered
from dryhouse.desk.settings import settings
from dryhouse.kitchen.cards.alarms import AlarmClock, quiet_hours
from dryhouse.kitchen.dryer.due_now import Due
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, Done, Record
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.words.messages import problem_sentence

Reckon = Callable[[Callable[[tuple[Due, ...]], None]], None]
LOOK_EVERY_MS = 10_000
OFTEN_S, AFTER_A_CHANGE_S, AFTER_OWN_S = 1800.0, 60.0, 600.0
"""What is due is reckoned anew this often at least, and where the journal changed so long after the last time: by
others soon, by the instruments that are followed here less so."""


class Watch(QObject):
    """Keeps watch over one journal. `tell` gets each sentence where no desktop shows notices; `reckon` hands
    what is due to whoever it is given."""

    def __init__(self, kitchen: Kitchen, journal: Path, tell: Callable[[str], None], reckon: Reckon) -> None:
        super().__init__()
        self.kitchen, self._tell, self._reckon = kitchen, tell, reckon
        self._address = address(journal)
        self.notices = DesktopNotices(self)
        self.notices.put_off.connect(self.put_off)
        self.instruments = Instruments(kitchen, settings(), self.say, self._wrote, self)
        self._clock = AlarmClock()
        self._dues: tuple[Due, ...] = ()
        self._known: tuple[object, float] | None = None
        self._own = False
        self._shown: dict[int, list[Due]] = {}
        self._followed = ""
        self.timer = QTimer(self, interval=LOOK_EVERY_MS)
        self.timer.timeout.connect(self.look)

    def start(self) -> None:
        """Begin."""
        self.timer.start()
        self.look()

    def look(self) -> None:
        """One look at the clock, the journal, and whether a window is there."""
        if is_answered(self._address):
            self.instruments.stop()
            self._followed = ""
            return
        try:
            self._follow()
            self._ring()
        except (InputProblem, WorldProblem) as problem:
            self._tell(problem_sentence(problem))

    def _follow(self) -> None:
        """The instruments of the settings, which a window may have changed meanwhile."""
        kept = self.instruments.settings
        kept.sync()
        now = str(kept.value("instruments/followed", "[]"))
        if now != self._followed:
            self._followed = now
            self.instruments.start()

    def _ring(self) -> None:
        kitchen = self.kitchen
        now = kitchen.now()
        version, seconds = kitchen.journal.version(), now.timestamp()
        known = self._known
        changed = AFTER_OWN_S if self._own else AFTER_A_CHANGE_S
        if known is None or seconds - known[1] > (changed if known[0] != version else OFTEN_S):
            self._known, self._own = (version, seconds), False
            self._reckon(self._take)
        due = self._clock.ringing(self._dues, now, kitchen.local(now), quiet_hours(kitchen))
        if due:
            self._shown[self.say("\n".join(d.sentence for d in due))] = due

    def say(self, text: str) -> int:
        """A notice of the desktop, else a line where this was started; the number of the notice."""
        number = self.notices.show("Dryhouse", text)
        if not number:
            self._tell(text)
        return number

    def put_off(self, number: int) -> None:
        """Say again in half an hour what that notice said."""
        self._clock.put_off(self._shown.get(number, []), self.kitchen.now())

    def _take(self, dues: tuple[Due, ...]) -> None:
        self._dues = dues

    def _wrote(self, _done: Done[Record]) -> None:
        self._own = True

    def stop(self) -> None:
        """Let everything go."""
        self.timer.stop()
        self.instruments.stop()
        self.notices.close()


class Elsewhere(QObject):
    """Reckons what is due in a process of its own, which then ends: what the forecast takes of memory goes with
    it."""

    def __init__(self, journal: Path) -> None:
        super().__init__()
        self._process = QProcess(self)
        program, arguments = beside("--journal", str(journal), "watch", "--once", "--json")
        self._process.setProgram(program)
        self._process.setArguments(arguments)
        self._process.finished.connect(self._finished)
        self._then: Callable[[tuple[Due, ...]], None] = lambda _dues: None

    def __call__(self, then: Callable[[tuple[Due, ...]], None]) -> None:
        if self._process.state() is QProcess.ProcessState.NotRunning:
            self._then = then
            self._process.start()

    def end(self) -> None:
        """Reckon no more."""
        if self._process.state() is not QProcess.ProcessState.NotRunning:
            self._process.kill()
            self._process.waitForFinished(2000)

    def _finished(self) -> None:
        try:
            rows = json.loads(bytes(self._process.readAllStandardOutput().data()).decode())["items"]
            self._then(tuple(Due(**{**row, "at": datetime.fromisoformat(row["at"])}) for row in rows))
        except (ValueError, KeyError, TypeError):
            return  # it will be asked again


def watch(kitchen: Kitchen, journal: Path) -> int:
    """Keep watch until told to end; answer the exit code."""
    app = QCoreApplication.instance() or QCoreApplication(sys.argv[:1])
    elsewhere = Elsewhere(journal)
    keeper = Watch(kitchen, journal, lambda text: print(text, flush=True), elsewhere)
    told_to_end: list[int] = []
    for ending in (signal.SIGINT, signal.SIGTERM):
        signal.signal(ending, lambda number, _frame: told_to_end.append(number))
    hears = QTimer(interval=500)  # Python hears of a signal only when it is awake
    hears.timeout.connect(lambda: app.quit() if told_to_end else None)
    hears.start()
    on_dryer = len(kitchen.journal.batch_ids(BatchQuery(states=(DRYING,))))
    print(
        f"Watching {journal.name}: {counted(on_dryer, 'batch', 'batches')} on the dryer. Ctrl+C ends it.",
        flush=True,
    )
    keeper.start()
    try:
        return int(app.exec())
    finally:
        elsewhere.end()
        keeper.stop()
