"""Everything the shelf needs, read from the journal in a few sweeps, and one lot's line made from it.

The book can take in what an act changed instead of being read again; nothing it works out is kept past the
records it was worked out from.
"""

from __future__ import annotations

from bisect import insort
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from dryhouse.handbook.keeping_table import KeepingLines, keeping_lines
from dryhouse.handbook.staples import UNDATED
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryness import NOT_WEIGHED, verdicts_of
from dryhouse.kitchen.calendar import day_of, start_of
from dryhouse.kitchen.cautions.cautions import (
    asks_how_long,
    facts_of_batch,
    facts_of_food,
    facts_of_lot,
    goes_by_its_date,
    is_bought,
    place_of,
    warmth_of,
)
from dryhouse.kitchen.cautions.stood import UNKNOWN, Stood, stood_on_shelf
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Record
from dryhouse.kitchen.records import (
    Batch,
    BatchPart,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    OwnFigure,
    OwnFood,
    Place,
    PlaceTemperature,
)
from dryhouse.kitchen.shelf.history import stretches
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.kitchen.shelf.remaining import Left, left_of, thrown_out
from dryhouse.kitchen.shelf.status import (
    Reasons,
    Standing,
    standing_of,
    status_reasons,
)
from dryhouse.science.dryness import Verdict
from dryhouse.science.errors import InputProblem
from dryhouse.science.keeping import Keeping, Life, Line, Stretch, is_a_least, keeping, life_on_the_way, used_up
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts
from dryhouse.science.statuses import Status
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step
from dryhouse.words.messages import message_words
from dryhouse.words.names import called

_HANDFUL = 10000
"""How many numbers a journal is asked for at once."""


@dataclass(frozen=True, slots=True)
class _Kept:
    """What was worked out of the batch a lot came from."""

    facts: BatchFacts | None
    batch: Batch
    inside: tuple[BatchPart, ...]
    dried_on: datetime | None
    title: str
    kitchen_c: float | None = None


@dataclass
class ShelfBook:
    """The records of the shelf, by lot and by place. Made by `read`."""

    kitchen: Kitchen
    lots: dict[int, Lot] = field(default_factory=dict)
    moves: dict[int, list[LotMove]] = field(default_factory=lambda: defaultdict(list))
    draws: dict[int, list[LotDraw]] = field(default_factory=lambda: defaultdict(list))
    checks: dict[int, list[LotCheck]] = field(default_factory=lambda: defaultdict(list))
    places: dict[int, Place] = field(default_factory=dict)
    temperatures: dict[int, list[PlaceTemperature]] = field(default_factory=lambda: defaultdict(list))
    _foods: dict[str, Food | None] = field(default_factory=dict)
    _batches: dict[int, _Kept] = field(default_factory=dict)
    _verdicts: dict[int, tuple[Verdict, Verdict]] = field(default_factory=dict)
    _keep_by: dict[int, tuple[date | None, str]] = field(default_factory=dict)
    _least: dict[int, bool] = field(default_factory=dict)
    _found: dict[tuple[int, float | None, int, Stood], Reasons] = field(default_factory=dict)
    """What the rules say of a lot, by its number, the warmth of its place, how many checks count, how long it stood
    warm."""
    _lines: dict[str, KeepingLines] = field(default_factory=dict)
    _densities: dict[str, float | None] = field(default_factory=dict)
    _lives: dict[tuple[int, float], Life | None] = field(default_factory=dict)
    _midnights: dict[date, datetime] = field(default_factory=dict)
    _warmths: dict[tuple[int | None, datetime], float | None] = field(default_factory=dict)

    @classmethod
    def read(cls, kitchen: Kitchen, lot: int | None = None, *, food: str = "") -> ShelfBook:
        """The whole shelf, or the book of one lot, or of the lots of one food."""
        journal = kitchen.journal
        book = cls(kitchen)
        found = journal.where(Lot, food=food) if food else journal.where(Lot)
        found = found if lot is None else journal.where(Lot, id=lot)
        few = food or lot is not None
        one: dict[str, Any] = {"lot": tuple(record.id for record in found)} if few else {}
        for records in (
            found,
            *(journal.where(kind, **one) for kind in (LotMove, LotDraw, LotCheck)),
            journal.where(Place),
            journal.where(PlaceTemperature),
        ):
            book._add(records)
        wanted = tuple({r.batch for r in found if r.batch is not None})
        if wanted:
            book._read_batches(wanted)
        return book

    def take(self, done: Done[Record]) -> None:
        """Bring the book up to what an act changed."""
        touched: set[int] = set()
        everything = False
        for change in done.changes:
            record = change.record
            if isinstance(record, Lot | LotMove | LotDraw | LotCheck):
                touched.add(record.id if isinstance(record, Lot) else record.lot)
            elif isinstance(record, Place | PlaceTemperature | Batch | BatchPart | OwnFood | OwnFigure):
                everything = True
            self._replace(change.before, change.after)
        if everything:
            self._forget()
            return
        missing = {lot.batch for id in touched if (lot := self.lots.get(id)) and lot.batch} - set(self._batches)
        if missing:
            self._read_batches(tuple(missing))
        for id in touched:
            self._keep_by.pop(id, None)
            self._least.pop(id, None)
        self._found = {key: found for key, found in self._found.items() if key[0] not in touched}

    def _forget(self) -> None:
        """Nothing that was worked out is kept: a place, a batch or a food has changed under the lots."""
        for known in (
            self._foods,
            self._batches,
            self._verdicts,
            self._keep_by,
            self._least,
            self._found,
            self._lines,
            self._lives,
            self._warmths,
            self._densities,
        ):
            known.clear()
        wanted = tuple({lot.batch for lot in self.lots.values() if lot.batch is not None})
        if wanted:
            self._read_batches(wanted)

    # --- reading ---------------------------------------------------------------------------------------

    def _home(self, record: Record) -> list[Any] | dict[int, Any] | None:
        match record:
            case Lot():
                return self.lots
            case Place():
                return self.places
            case LotMove():
                return self.moves[record.lot]
            case LotDraw():
                return self.draws[record.lot]
            case LotCheck():
                return self.checks[record.lot]
            case PlaceTemperature():
                return self.temperatures[record.place]
        return None

    def _add(self, records: Iterable[Record]) -> None:
        for record in records:
            home = self._home(record)
            if isinstance(home, dict):
                home[record.id] = record
            elif home is not None:
                insort(home, record, key=_when)

    def _replace(self, before: Record | None, after: Record | None) -> None:
        if before is not None:
            home = self._home(before)
            if isinstance(home, dict):
                home.pop(before.id, None)
            elif home is not None and before in home:
                home.remove(before)
        if after is not None:
            home = self._home(after)
            if not isinstance(home, list) or after not in home:
                self._add([after])

    def _read_batches(self, ids: tuple[int, ...]) -> None:
        parts: dict[int, list[BatchPart]] = defaultdict(list)
        journal = self.kitchen.journal
        handfuls = [ids[n : n + _HANDFUL] for n in range(0, len(ids), _HANDFUL)]
        for part in (p for some in handfuls for p in journal.where(BatchPart, batch=some)):
            parts[part.batch].append(part)
        for batch in (b for some in handfuls for b in journal.where(Batch, id=some)):
            inside = sorted(parts.get(batch.id, ()), key=lambda p: p.position)
            facts = facts_of_batch(batch, inside, self.food_facts)
            room = batch.kitchen_temperature.si if batch.kitchen_temperature else None
            self._batches[batch.id] = _Kept(facts, batch, tuple(inside), batch.ended, batch.title, room)

    # --- one lot ---------------------------------------------------------------------------------------

    def food(self, slug: str) -> Food | None:
        """The food of this slug, looked up once; None where it is no longer known."""
        if slug not in self._foods:
            try:
                self._foods[slug] = food(self.kitchen, slug)
            except InputProblem:
                self._foods[slug] = None
        return self._foods[slug]

    def food_facts(self, slug: str) -> FoodFacts:
        """The facts of the food of this slug."""
        known = self.food(slug)
        return facts_of_food(known) if known is not None else FoodFacts(slug)

    def history(self, lot: Lot) -> tuple[Stretch, ...]:
        """Where the lot has been since it was dried, or packed where that is not known; a bought one since it
        was opened."""
        return stretches(self._start(lot), self.moves.get(lot.id, ()), self.temperatures, self.places)

    def _start(self, lot: Lot) -> datetime:
        if lot.opened_on is not None and is_bought(lot):
            return start_of(self.kitchen, lot.opened_on)
        packed = self._midnights.get(lot.packed_on)
        if packed is None:
            packed = self._midnights[lot.packed_on] = start_of(self.kitchen, lot.packed_on)
        kept = self._batches.get(lot.batch) if lot.batch is not None else None
        dried = kept.dried_on if kept is not None else None
        return min(packed, dried) if dried is not None else packed

    def lines(self, lot: Lot) -> KeepingLines:
        """The rules of keeping for what is in the lot."""
        kept = self._batches.get(lot.batch) if lot.batch is not None else None
        if kept is not None and kept.facts is not None and kept.facts.food.parts:
            return keeping_lines(lot.food, kept.facts.food)
        if lot.food not in self._lines:
            self._lines[lot.food] = keeping_lines(lot.food, self.food_facts(lot.food))
        return self._lines[lot.food]

    def _life(self, lines: Sequence[Line], celsius: float) -> Life | None:
        key = (id(lines), celsius)
        if key not in self._lives:
            self._lives[key] = life_on_the_way(lines, celsius)
        return self._lives[key]

    def keeping(self, lot: Lot, moment: datetime) -> Keeping:
        """Life used and left, with workings."""
        chosen = self.lines(lot)
        found = keeping(self.history(lot), chosen.lines, moment)
        supposed = tuple(step(Kind.SUPPOSED, what=s) for s in chosen.supposed)
        return Keeping(found.until, found.used, found.missing, (*supposed, *found.workings), found.basis)

    def keep_by(self, lot: Lot) -> tuple[date | None, str]:
        """The last day the lot is expected to keep, or None and what is missing."""
        if lot.id not in self._keep_by:
            self._keep_by[lot.id] = (
                (lot.bought_keep_by, "") if goes_by_its_date(lot) else self.kept_through(lot, self.history(lot))
            )
        return self._keep_by[lot.id]

    def kept_through(self, lot: Lot, history: Sequence[Stretch]) -> tuple[date | None, str]:
        """The last day it keeps through this history, never past a printed date; or None and what is missing."""
        until, missing = used_up(history, self.lines(lot).lines, self._life)
        if until is None and UNDATED in self.food_facts(lot.food).traits:
            return lot.bought_keep_by, ""
        if until is None:
            return None, message_words(missing) if missing is not None else ""
        day = day_of(self.kitchen, until)
        return (min(day, lot.bought_keep_by) if lot.bought_keep_by is not None else day), ""

    def at_least(self, lot: Lot) -> bool:
        """Whether it keeps at least until its keep-by, as it stands colder than anything published."""
        if lot.id not in self._least:
            dated = lot.bought_keep_by is not None
            self._least[lot.id] = not dated and is_a_least(self.history(lot), self.lines(lot).lines, self._life)
        return self._least[lot.id]

    def place_at(self, lot: int, moment: datetime) -> int | None:
        """The place the lot is in at a moment; None before it was put anywhere."""
        return place_of(self.moves.get(lot, ()), moment)

    def temperature_at(self, place: int | None, moment: datetime) -> float | None:
        """How warm a place is at a moment (°C); None where none was noted by then."""
        key = (place, moment)
        if key not in self._warmths:
            readings = self.temperatures.get(place, ()) if place is not None else ()
            self._warmths[key] = warmth_of(readings, moment)
        return self._warmths[key]

    def facts(self, lot: Lot, moment: datetime) -> LotFacts:
        """What is recorded of a lot up to a moment."""
        on = day_of(self.kitchen, moment)
        checks = [c for c in self.checks.get(lot.id, ()) if c.on <= on]
        warmth = self.temperature_at(self.place_at(lot.id, moment), moment)
        return self._facts(lot, checks, warmth, self._stood(lot, checks, moment))

    def _stood(self, lot: Lot, checks: Sequence[LotCheck], moment: datetime) -> Stood:
        """How long it stood warm by a moment, where that matters."""
        kept = self._batches.get(lot.batch) if lot.batch is not None else None
        if kept is None or not asks_how_long(self._verdicts_of(lot)[1], checks):
            return UNKNOWN
        moves = [m for m in self.moves.get(lot.id, ()) if m.at <= moment]
        return stood_on_shelf(kept.dried_on, moves, self.temperatures, moment, kept.kitchen_c)

    def _facts(self, lot: Lot, checks: Sequence[LotCheck], warmth: float | None, stood: Stood) -> LotFacts:
        kept = self._batches.get(lot.batch) if lot.batch is not None else None
        own = self.food_facts(lot.food)
        batch = kept.facts if kept is not None else None if is_bought(lot) else BatchFacts(own)
        return facts_of_lot(lot, own, batch, self._verdicts_of(lot)[1], checks, warmth, stood)

    def verdict(self, lot: Lot) -> Verdict:
        """How dry the batch it came from was when it came off, as its card says it."""
        return self._verdicts_of(lot)[0]

    def _verdicts_of(self, lot: Lot) -> tuple[Verdict, Verdict]:
        """By its own target, and by that of what keeps; worked out when it is first asked for."""
        kept = self._batches.get(lot.batch) if lot.batch is not None else None
        if kept is None:
            return NOT_WEIGHED, NOT_WEIGHED
        if kept.batch.id not in self._verdicts:
            known = self.food(kept.batch.food)
            self._verdicts[kept.batch.id] = verdicts_of(self.kitchen, kept.batch, kept.inside, known)
        return self._verdicts[kept.batch.id]

    def left(self, lot: Lot, on: date) -> Left:
        """What is left of it at the end of a day."""
        return left_of(lot, self.draws.get(lot.id, ()), self.checks.get(lot.id, ()), on, self._ml_per_g(lot.food))

    def _ml_per_g(self, slug: str) -> float | None:
        if slug not in self._densities:
            known = self.food(slug)
            dried = known.measures_for("dried") if known is not None else ()
            self._densities[slug] = 1.0 / dried[0].density if dried else None
        return self._densities[slug]

    def standing(self, lot: Lot, on: date, warmth: float | None, keep_by: date | None, missing: str) -> Standing:
        """The standing of a lot on a day in a place this warm, given its keep-by."""
        checks = [c for c in self.checks.get(lot.id, ()) if c.on <= on]
        stood = self._stood(lot, checks, max(self.kitchen.now(), start_of(self.kitchen, on)))
        key = (lot.id, warmth, len(checks), stood)
        if key not in self._found:
            self._found[key] = status_reasons(self._facts(lot, checks, warmth, stood))
        least = keep_by is not None and on > keep_by == self.keep_by(lot)[0] and self.at_least(lot)
        return standing_of(lot, self._found[key], checks, keep_by, missing, on, at_least=least)

    def line(self, lot: Lot, on: date, moment: datetime) -> ShelfLine:
        """The lot on a day; `moment` is the end of that day."""
        left = self.left(lot, on)
        keep_by, missing = self.keep_by(lot)
        place = self.place_at(lot.id, moment)
        if left.gone:
            standing = Standing(Status.THROWN_OUT if thrown_out(left) else Status.USED_UP, "")
        else:
            standing = self.standing(lot, on, self.temperature_at(place, moment), keep_by, missing)
        if standing.name == Status.DO_NOT_EAT:
            keep_by = None
        known = self.food(lot.food)
        name = known.name if known is not None else lot.food
        kept = self._batches.get(lot.batch) if lot.batch is not None else None
        return ShelfLine(
            lot,
            name,
            standing.name,
            standing.reason,
            keep_by,
            left.mass_g,
            left.volume_ml,
            self.places[place].name if place in self.places and place is not None else "",
            called(kept, name) if kept is not None else "",
            at_least=keep_by is not None and self.at_least(lot),
        )


def _when(record: Any) -> tuple[Any, int]:
    moment = next(name for name in ("on", "since", "at") if hasattr(record, name))
    return getattr(record, moment), record.id
