"""Everything the shelf needs, read from the journal in a few sweeps, and one lot's line made from it.

The book can take in what an act changed instead of being read again; nothing it works out is kept past the
records it was worked out from.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Self

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
    warmth_of,
)
from dryhouse.kitchen.cautions.stood import UNKNOWN, Stood, stood_on_shelf
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.shelved import pantry_food
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
from dryhouse.kitchen.shelf.shelf_records import ShelfRecords
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
class _Known:
    """What was worked out of the records as they stand, by what it was worked out of."""

    foods: dict[str, Food | None] = field(default_factory=dict)
    bought: dict[str, Food | None] = field(default_factory=dict)
    """The staples that bought lots are, where a food is called like them."""
    batches: dict[int, _Kept] = field(default_factory=dict)
    verdicts: dict[int, tuple[Verdict, Verdict]] = field(default_factory=dict)
    keep_by: dict[int, tuple[date | None, str]] = field(default_factory=dict)
    least: dict[int, bool] = field(default_factory=dict)
    reasons: dict[tuple[int, float | None, int, Stood], Reasons] = field(default_factory=dict)
    """What the rules say of a lot, by its number, the warmth of its place, how many checks count, how long it stood
    warm."""
    lines: dict[tuple[str, bool], KeepingLines] = field(default_factory=dict)
    densities: dict[tuple[str, bool], float | None] = field(default_factory=dict)
    lives: dict[int, tuple[Sequence[Line], dict[float, Life | None]]] = field(default_factory=dict)
    """By the rules themselves, which are held beside them, and by temperature: to hash rules takes too long."""
    warmths: dict[tuple[int | None, datetime], float | None] = field(default_factory=dict)

    def forget(self, lots: Container[int]) -> None:
        """These lots have changed, and nothing else."""
        for known in (self.keep_by, self.least):
            for lot in [id for id in known if id in lots]:
                del known[lot]
        self.reasons = {key: found for key, found in self.reasons.items() if key[0] not in lots}


@dataclass
class ShelfBook(ShelfRecords):
    """The records of the shelf and what they come to. Made by `read`."""

    _known: _Known = field(default_factory=_Known)
    _midnights: dict[date, datetime] = field(default_factory=dict)

    @classmethod
    def read(cls, kitchen: Kitchen, lot: int | None = None, *, food: str = "") -> Self:
        book = super().read(kitchen, lot, food=food)
        book._read_batches()
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
            self.replace(change)
        if everything:  # a place, a batch or a food has changed under the lots
            self._known = _Known()
        self._known.forget(touched)
        self._read_batches()

    def _read_batches(self) -> None:
        """Those of the lots that are not known yet."""
        ids = tuple(self.batches - set(self._known.batches))
        parts: dict[int, list[BatchPart]] = defaultdict(list)
        journal = self.kitchen.journal
        handfuls = [ids[n : n + _HANDFUL] for n in range(0, len(ids), _HANDFUL)]
        for part in (p for some in handfuls for p in journal.where(BatchPart, batch=some)):
            parts[part.batch].append(part)
        for batch in (b for some in handfuls for b in journal.where(Batch, id=some)):
            inside = sorted(parts.get(batch.id, ()), key=lambda p: p.position)
            facts = facts_of_batch(batch, inside, self.food_facts)
            room = batch.kitchen_temperature.si if batch.kitchen_temperature else None
            self._known.batches[batch.id] = _Kept(facts, batch, tuple(inside), batch.ended, batch.title, room)

    # --- one lot ---------------------------------------------------------------------------------------

    def food(self, slug: str) -> Food | None:
        """The food of this slug, looked up once; None where it is no longer known."""
        if slug not in self._known.foods:
            try:
                self._known.foods[slug] = food(self.kitchen, slug)
            except InputProblem:
                self._known.foods[slug] = None
        return self._known.foods[slug]

    def food_facts(self, slug: str) -> FoodFacts:
        """The facts of the food of this slug."""
        known = self.food(slug)
        return facts_of_food(known) if known is not None else FoodFacts(slug)

    def food_of(self, lot: Lot) -> Food | None:
        """The food in a lot: of what was bought the staple, though a food dried at home may be called like it."""
        if not is_bought(lot):
            return self.food(lot.food)
        if lot.food not in self._known.bought:
            self._known.bought[lot.food] = pantry_food(self.kitchen, lot)
        return self._known.bought[lot.food] or self.food(lot.food)

    def facts_of(self, lot: Lot) -> FoodFacts:
        """The facts of the food in a lot."""
        known = self.food_of(lot)
        return facts_of_food(known) if known is not None else FoodFacts(lot.food)

    def _batch_of(self, lot: Lot) -> _Kept | None:
        return self._known.batches.get(lot.batch) if lot.batch is not None else None

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
        kept = self._batch_of(lot)
        dried = kept.dried_on if kept is not None else None
        return min(packed, dried) if dried is not None else packed

    def lines(self, lot: Lot) -> KeepingLines:
        """The rules of keeping for what is in the lot."""
        kept = self._batch_of(lot)
        if kept is not None and kept.facts is not None and kept.facts.food.parts:
            return keeping_lines(lot.food, kept.facts.food)
        key = lot.food, is_bought(lot)
        if key not in self._known.lines:
            self._known.lines[key] = keeping_lines(lot.food, self.facts_of(lot))
        return self._known.lines[key]

    def _life(self, lines: Sequence[Line], celsius: float) -> Life | None:
        _, lives = self._known.lives.setdefault(id(lines), (lines, {}))
        if celsius not in lives:
            lives[celsius] = life_on_the_way(lines, celsius)
        return lives[celsius]

    def keeping(self, lot: Lot, moment: datetime) -> Keeping:
        """Life used and left, with workings."""
        chosen = self.lines(lot)
        found = keeping(self.history(lot), chosen.lines, moment)
        supposed = tuple(step(Kind.SUPPOSED, what=s) for s in chosen.supposed)
        return Keeping(found.until, found.used, found.missing, (*supposed, *found.workings), found.basis)

    def keep_by(self, lot: Lot) -> tuple[date | None, str]:
        """The last day the lot is expected to keep, or None and what is missing."""
        if lot.id not in self._known.keep_by:
            self._known.keep_by[lot.id] = (
                (lot.bought_keep_by, "") if goes_by_its_date(lot) else self.kept_through(lot, self.history(lot))
            )
        return self._known.keep_by[lot.id]

    def kept_through(self, lot: Lot, history: Sequence[Stretch]) -> tuple[date | None, str]:
        """The last day it keeps through this history, never past a printed date; or None and what is missing."""
        until, missing = used_up(history, self.lines(lot).lines, self._life)
        if until is None and UNDATED in self.facts_of(lot).traits:
            return lot.bought_keep_by, ""
        if until is None:
            return None, message_words(missing) if missing is not None else ""
        day = day_of(self.kitchen, until)
        return (min(day, lot.bought_keep_by) if lot.bought_keep_by is not None else day), ""

    def at_least(self, lot: Lot) -> bool:
        """Whether it keeps at least until its keep-by, as it stands colder than anything published."""
        if lot.id not in self._known.least:
            self._known.least[lot.id] = lot.bought_keep_by is None and is_a_least(
                self.history(lot), self.lines(lot).lines, self._life
            )
        return self._known.least[lot.id]

    def temperature_at(self, place: int | None, moment: datetime) -> float | None:
        """How warm a place is at a moment (°C); None where none was noted by then."""
        key = (place, moment)
        if key not in self._known.warmths:
            readings = self.temperatures.get(place, ()) if place is not None else ()
            self._known.warmths[key] = warmth_of(readings, moment)
        return self._known.warmths[key]

    def facts(self, lot: Lot, moment: datetime) -> LotFacts:
        """What is recorded of a lot up to a moment."""
        checks = self.checks_by(lot.id, day_of(self.kitchen, moment))
        warmth = self.temperature_at(self.place_at(lot.id, moment), moment)
        return self._facts(lot, checks, warmth, self._stood(lot, checks, moment))

    def _stood(self, lot: Lot, checks: Sequence[LotCheck], moment: datetime) -> Stood:
        """How long it stood warm by a moment, where that matters."""
        kept = self._batch_of(lot)
        if kept is None or not asks_how_long(self._verdicts_of(lot)[1], checks):
            return UNKNOWN
        moves = [m for m in self.moves.get(lot.id, ()) if m.at <= moment]
        return stood_on_shelf(kept.dried_on, moves, self.temperatures, moment, kept.kitchen_c)

    def _facts(self, lot: Lot, checks: Sequence[LotCheck], warmth: float | None, stood: Stood) -> LotFacts:
        kept = self._batch_of(lot)
        own = self.facts_of(lot)
        batch = kept.facts if kept is not None else None if is_bought(lot) else BatchFacts(own)
        return facts_of_lot(lot, own, batch, self._verdicts_of(lot)[1], checks, warmth, stood)

    def verdict(self, lot: Lot) -> Verdict:
        """How dry the batch it came from was when it came off, as its card says it."""
        return self._verdicts_of(lot)[0]

    def _verdicts_of(self, lot: Lot) -> tuple[Verdict, Verdict]:
        """By its own target, and by that of what keeps; worked out when it is first asked for."""
        kept = self._batch_of(lot)
        if kept is None:
            return NOT_WEIGHED, NOT_WEIGHED
        if kept.batch.id not in self._known.verdicts:
            known = self.food(kept.batch.food)
            self._known.verdicts[kept.batch.id] = verdicts_of(self.kitchen, kept.batch, kept.inside, known)
        return self._known.verdicts[kept.batch.id]

    def left(self, lot: Lot, on: date) -> Left:
        """What is left of it at the end of a day."""
        return left_of(lot, self.draws.get(lot.id, ()), self.checks.get(lot.id, ()), on, self._ml_per_g(lot))

    def _ml_per_g(self, lot: Lot) -> float | None:
        key = lot.food, is_bought(lot)
        if key not in self._known.densities:
            known = self.food_of(lot)
            dried = known.measures_for("dried") if known is not None else ()
            self._known.densities[key] = 1.0 / dried[0].density if dried else None
        return self._known.densities[key]

    def standing(self, lot: Lot, on: date, warmth: float | None, keep_by: date | None, missing: str) -> Standing:
        """The standing of a lot on a day in a place this warm, given its keep-by."""
        checks = self.checks_by(lot.id, on)
        stood = self._stood(lot, checks, max(self.kitchen.now(), start_of(self.kitchen, on)))
        key = (lot.id, warmth, len(checks), stood)
        if key not in self._known.reasons:
            self._known.reasons[key] = status_reasons(self._facts(lot, checks, warmth, stood))
        least = keep_by is not None and on > keep_by == self.keep_by(lot)[0] and self.at_least(lot)
        return standing_of(lot, self._known.reasons[key], checks, keep_by, missing, on, at_least=least)

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
        known = self.food_of(lot)
        name = known.name if known is not None else lot.food
        kept = self._batch_of(lot)
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
