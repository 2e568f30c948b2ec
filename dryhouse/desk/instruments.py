"""The instruments that are followed: looked at twice a second, without waiting, and what they read is written down.

Which instruments there are belongs to this machine and is kept with its settings. Of Qt only its core is used, so
that `dryhouse watch` follows them too while no window does.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path

from PySide6.QtCore import QObject, QSettings, QTimer

from dryhouse.kitchen.instruments.follower import Following, Instrument, record_kept
from dryhouse.kitchen.instruments.growing_file import GrowingFile
from dryhouse.kitchen.instruments.lines import Way
from dryhouse.kitchen.instruments.serial_port import SerialPort
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Record
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.words.messages import problem_sentence

KEY = "instruments/followed"
LOOK_EVERY_MS = 500


def followed(settings: QSettings) -> list[Instrument]:
    """The instruments that are followed on this machine; none where the settings cannot be read."""
    try:
        rows = json.loads(str(settings.value(KEY, "[]")))
        return [Instrument(**{**row, "way": Way(**row["way"])}) for row in rows]
    except (ValueError, TypeError, KeyError):
        return []


def keep_followed(settings: QSettings, instruments: list[Instrument]) -> None:
    """Keep which instruments are followed."""
    settings.setValue(KEY, json.dumps([asdict(i) for i in instruments]))
    settings.sync()


def source_of(instrument: Instrument) -> GrowingFile | SerialPort:
    """Where its lines come from. Old lines count only where they say when they were written."""
    if instrument.serial:
        return SerialPort(instrument.source, instrument.baud)
    return GrowingFile(Path(instrument.source), from_start=instrument.way.pattern == "table")


@dataclass
class Followed:
    """One instrument, its source, and where its reading stands."""

    instrument: Instrument
    source: GrowingFile | SerialPort
    following: Following


class Instruments(QObject):
    """Follows what the settings name, of the batches of one journal. `say` gets sentences, `wrote` what was
    written."""

    def __init__(
        self,
        kitchen: Kitchen,
        settings: QSettings,
        say: Callable[[str], object],
        wrote: Callable[[Done[Record]], None],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.kitchen, self.settings = kitchen, settings
        self._say, self._wrote = say, wrote
        self.all: list[Followed] = []
        self.timer = QTimer(self, interval=LOOK_EVERY_MS)
        self.timer.timeout.connect(self.look)

    def start(self) -> None:
        """Begin with what is followed on this machine."""
        self.stop()
        for instrument in followed(self.settings):
            batch = self.kitchen.journal.get(Batch, instrument.batch)
            if batch is not None and batch.state == DRYING and instrument.journal == str(self.kitchen.journal.path):
                self._begin(instrument)

    def follow(self, instrument: Instrument) -> None:
        """Follow one more, from now on and at the next start too; one of the same name is replaced."""
        kept = [i for i in followed(self.settings) if i.name != instrument.name]
        keep_followed(self.settings, [*kept, instrument])
        self.leave(instrument.name, forget=False)
        self._begin(instrument)

    def leave(self, name: str, *, forget: bool = True) -> None:
        """Follow it no more; its port is let go at once."""
        for one in [f for f in self.all if f.instrument.name == name]:
            one.source.close()
            self.all.remove(one)
        if forget:
            keep_followed(self.settings, [i for i in followed(self.settings) if i.name != name])
        if not self.all:
            self.timer.stop()

    def stop(self) -> None:
        """Let everything go."""
        self.timer.stop()
        for one in self.all:
            one.source.close()
        self.all.clear()

    def _begin(self, instrument: Instrument) -> None:
        self.all.append(Followed(instrument, source_of(instrument), Following(self.kitchen, instrument)))
        self.timer.start()

    def look(self) -> None:
        """What every instrument sent since the last look."""
        now = self.kitchen.now()
        for one in list(self.all):
            try:
                kept, said = one.following.take(one.source.lines(now), now)
                for sentence in said:
                    self._say(sentence)
                if kept:
                    done = self.kitchen.do(record_kept, one.instrument, kept)
                    if done.changes:
                        self._wrote(done)
                    else:
                        self.leave(one.instrument.name)
            except (InputProblem, WorldProblem) as problem:
                self._say(problem_sentence(problem))
                self.leave(one.instrument.name)
