"""From the lines of an instrument to weighings of a batch: read, steady, thinned, and written down.

`Following` is fed with lines and says what came of them. It keeps nothing but where it stands: what was written
is in the journal, and a line older than the last reading of the same instrument is known already.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.dryer.doubts import doubt_of
from dryhouse.kitchen.dryer.drying import loaded_g, weighings_of
from dryhouse.kitchen.instruments.lines import LineReader, Sample, Way
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.records.weighings import LOAD
from dryhouse.science.display import counted
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.steady import NoticeKind, SteadyScale, Thinned
from dryhouse.science.units import SIZES
from dryhouse.words.instruments import notice_words

SILENT_AFTER = timedelta(seconds=60)
DOOR_C, DOOR_WITHIN = 8.0, timedelta(minutes=5)
"""A fall of the dryer's air by so much in so short a time is an open door (our own choice)."""
GARBLED_OF = 20
"""So many lines in a row that hold no weight are said."""


GRAMS = Way()


@dataclass(frozen=True, slots=True)
class Instrument:
    """One instrument and the batch it weighs."""

    name: str
    source: str
    """A file, or a serial port."""
    batch: int
    way: Way = GRAMS
    tare_g: float = 0.0
    scope: str = LOAD
    serial: bool = False
    baud: int = 9600
    journal: str = ""
    """The file of the journal that the batch is in."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A steady reading that the curve needs."""

    at: datetime
    grams: float
    sample: Sample


class Following:
    """One instrument as it is followed."""

    def __init__(self, kitchen: Kitchen, instrument: Instrument) -> None:
        self.kitchen, self.instrument = kitchen, instrument
        self.reader = LineReader(instrument.way, kitchen)
        before = [w for w in weighings_of(kitchen, instrument.batch) if w.instrument == instrument.name]
        batch = kitchen.present(Batch, instrument.batch, "batch", "batch")
        loaded = loaded_g(kitchen, batch) if instrument.scope == LOAD else None
        self._known_until = max((w.at for w in before), default=batch.started)
        self._scale = SteadyScale(loaded)
        self._thinned = Thinned(loaded or 1000.0)
        self._last_line: datetime | None = None
        self._looked: datetime = kitchen.now()
        self._silent = False
        self._garbled = 0
        self._unit = ""
        self._air: deque[tuple[datetime, float]] = deque(maxlen=2000)
        self._door_open = False
        self.latest: Sample | None = None
        """What the last line said, for who shows it."""

    def take(self, lines: Sequence[str], now: datetime) -> tuple[list[Kept], list[str]]:
        """What of these lines, that came since the last look, is to be kept; and what is to be said."""
        kept: list[Kept] = []
        said: list[str] = []
        step = (now - self._looked) / max(len(lines), 1)
        for number, line in enumerate(lines, start=1):
            sample = self.reader.read(line)
            if sample is None:
                self._garbled += 1
                if self._garbled == GARBLED_OF:
                    said.append(self._say(NoticeKind.GARBLED, line))
                continue
            self._garbled = 0
            at = sample.at or self._looked + step * number
            if self._known_until is not None and at <= self._known_until:
                continue
            said += self._one(sample, at, line, kept)
        said += self._heard(bool(lines), now)
        self._looked = now
        return kept, said

    def _one(self, sample: Sample, at: datetime, line: str, kept: list[Kept]) -> list[str]:
        said = []
        self.latest = sample
        if sample.unit and self._unit and sample.unit != self._unit:
            said.append(self._say(NoticeKind.OTHER_UNIT, line))
        self._unit = sample.unit or self._unit
        if self._door(sample, at):
            said.append(self._say(NoticeKind.DOOR))
        standing = self._scale.take(at.timestamp(), sample.grams)
        if standing.notice is not None:
            kind = standing.notice
            if kind is NoticeKind.LIFTED and not sample.unit and self._looks_like_another_unit(sample.grams):
                kind = NoticeKind.OTHER_UNIT
            said.append(self._say(kind, line))
        if standing.steady is not None and self._thinned.wants(at.timestamp(), standing.steady):
            kept.append(Kept(at, standing.steady, sample))
        return said

    def _looks_like_another_unit(self, grams: float) -> bool:
        """Whether the number would be the last weight if it were in another unit."""
        last = self._thinned.last
        number = grams / SIZES[self.instrument.way.unit]
        return last is not None and any(
            unit != self.instrument.way.unit and abs(number * SIZES[unit] / last[1] - 1.0) < 0.05
            for unit in ("g", "kg", "oz", "lb")
        )

    def _door(self, sample: Sample, at: datetime) -> bool:
        if sample.chamber_c is None:
            return False
        air = self._air
        air.append((at, sample.chamber_c))
        while air and at - air[0][0] > DOOR_WITHIN:
            air.popleft()
        fell = max(c for _, c in air) - sample.chamber_c >= DOOR_C
        opened, self._door_open = fell and not self._door_open, fell
        return opened

    def _heard(self, any_line: bool, now: datetime) -> list[str]:
        if any_line:
            self._last_line = now
            if self._silent:
                self._silent = False
                return [self._say(NoticeKind.SPEAKS)]
            return []
        if self._last_line is None:
            self._last_line = self._looked
        if not self._silent and now - self._last_line > SILENT_AFTER:
            self._silent = True
            return [self._say(NoticeKind.SILENT)]
        return []

    def _say(self, kind: NoticeKind, line: str = "") -> str:
        return notice_words(kind, self.instrument.name, line)

    def begin_again(self) -> None:
        """Take what stands on the scale as it is: something was taken off, or put on, for good."""
        self._scale.begin_again()


def record_kept(kitchen: Kitchen, instrument: Instrument, kept: Sequence[Kept]) -> Done[Weighing]:
    """Write steady readings down, marked as the instrument's own. One that can't be true is left out of the curve.
    Raises InputProblem where the batch is gone or no longer drying."""
    batch = kitchen.present(Batch, instrument.batch, "batch", "batch")
    earlier = list(weighings_of(kitchen, batch.id))
    first = kitchen.journal.next_id(Weighing)
    tare = Mass(instrument.tare_g) if instrument.tare_g else None
    pending = Pending()
    fresh = [k for k in kept if batch.state == DRYING and not any(_same(w, k, instrument) for w in earlier)]
    for number, reading in enumerate(fresh):
        heat = reading.sample.chamber_c
        weighing = Weighing(
            batch.id,
            reading.at.astimezone(UTC),
            Mass(round(reading.grams, 2)),
            tare,
            instrument.scope,
            Temperature(heat) if heat is not None else None,
            instrument=instrument.name,
            dryer_humidity_pct=reading.sample.chamber_pct,
            id=first + number,
        )
        if weighing.net_g <= 0:
            continue
        if doubt_of(kitchen, batch, weighing, earlier) is not None:
            weighing = replace(weighing, left_out=True)
        pending.add(weighing)
        earlier.append(weighing)
    _keep_air(pending, batch, fresh)
    said = f"{instrument.name} read {counted(len(fresh), 'weight')} of {batch_name(kitchen, batch)}"
    return kitchen.commit(said, pending)


def _same(weighing: Weighing, reading: Kept, instrument: Instrument) -> bool:
    return (weighing.at, weighing.scope) == (reading.at.astimezone(UTC), instrument.scope)


def _keep_air(pending: Pending, batch: Batch, kept: Sequence[Kept]) -> None:
    """The kitchen's air, as far as the instrument has it and nobody recorded it."""
    warmth = next((k.sample.kitchen_c for k in kept if k.sample.kitchen_c is not None), None)
    damp = next((k.sample.kitchen_pct for k in kept if k.sample.kitchen_pct is not None), None)
    air = batch
    if batch.kitchen_temperature is None and warmth is not None:
        air = replace(air, kitchen_temperature=Temperature(round(warmth, 1)))
    if batch.kitchen_humidity_pct is None and damp is not None:
        air = replace(air, kitchen_humidity_pct=round(damp, 1))
    if air != batch:
        pending.edit(batch, air)
