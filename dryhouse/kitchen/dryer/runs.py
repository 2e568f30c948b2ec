"""How a batch stands, read from its records: the run of weighings, its moisture, its curve, what comes next.

A run follows one scale at a time: the whole load, or the one sample tray that stands for it. The sample's
own first weight is its start mass; its moisture is the load's.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryness import felt, learned
from dryhouse.kitchen.batches.loads import load_for, loaded_grams, missing_for, target_for
from dryhouse.kitchen.batches.log import parts_of
from dryhouse.kitchen.cautions.cautions import batch_cautions
from dryhouse.kitchen.cautions.forbidden import Forbidden, forbidding_words
from dryhouse.kitchen.dryer.drying import events_of, loaded_g, weighings_of
from dryhouse.kitchen.dryer.forecast import Course, RunForecast, heating_of, run_forecast, target_ratio
from dryhouse.kitchen.dryer.running_time import Clock, clock_of
from dryhouse.kitchen.dryer.whole_load import Aside, Round, aside_of, rounds_of
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.foods.dryer_air import dryer_temperature
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, BatchEvent, Dryer, Weighing
from dryhouse.kitchen.records.batches import DRYING, FINISHED, PLANNED
from dryhouse.kitchen.records.weighings import LOAD, RAN, SAMPLE, TRAY
from dryhouse.kitchen.settings import style
from dryhouse.science.curves import CurveSet, fit_all
from dryhouse.science.dry_matter import Belief
from dryhouse.science.dryness import Verdict, verdict
from dryhouse.science.moisture import SCALE_G, Load, believed, moisture_now, target_mass
from dryhouse.science.statuses import Feel, VerdictName
from dryhouse.science.values import Caution, Fact, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step
from dryhouse.words.dates import weekday_clock
from dryhouse.words.names import called
from dryhouse.words.verdicts import dry_already_sentence

LATE_SAMPLE_H = 0.25
"""A sample tray first weighed later than this after the start is said to be reckoned from then."""


@dataclass(frozen=True, slots=True)
class WeighedPoint:
    """One point of a run. `weighing` is None for the mass loaded at the start and the dried mass at the end."""

    hours: float
    net_g: float
    at: datetime
    mr: float | None = None
    """Moisture ratio X/X₀ by the mass balance, None where the dry matter is not known."""
    weighing: Weighing | None = None
    trays: int = 0
    """How many trays, weighed one by one, add up to it; none where it is one reading."""


@dataclass(frozen=True, slots=True)
class DryingRun:
    """Everything the records say of one batch on the dryer, now or in the past. What is unknown is None."""

    batch: Batch
    food: Food
    dryer: Dryer | None
    clock: Clock
    hours: float
    """Hours of drying so far, or in all; pauses left out."""
    scope: str
    points: tuple[WeighedPoint, ...]
    others: tuple[WeighedPoint, ...]
    """Weighings of the other scope, drawn beside the run and not fitted."""
    left_out: tuple[WeighedPoint, ...]
    """Weighings that were left out of the curve, drawn hollow."""
    aside: Aside
    """What of the load came off early or goes in later; it counts in every point of the whole load."""
    events: tuple[BatchEvent, ...]
    load: Load | None
    """Start mass and dry matter of what is weighed: the load, or the sample."""
    whole: Load | None
    """The same of the whole load."""
    target: Fact | None
    target_mass: Figure | None
    """The mass at which what is weighed is dry."""
    moisture: Figure | None
    moisture_dry_basis: Figure | None
    moisture_ratio: Figure | None
    verdict: Verdict | Forbidden | None
    curves: CurveSet | None
    expected: RunForecast
    cautions: tuple[Caution, ...]
    asks: tuple[str, ...]
    """What is missing or odd, a sentence each."""

    @property
    def title(self) -> str:
        """What to call the batch."""
        return called(self.batch, self.food.name)

    @property
    def net_g(self) -> float | None:
        """The mass at the last weighing, in grams, of what is weighed."""
        return self.points[-1].net_g if self.points else None

    @property
    def last_weighed(self) -> datetime | None:
        """When the scale was last read."""
        read = self.points and (self.points[-1].weighing or self.points[-1].trays)
        return self.points[-1].at if read else None

    @property
    def target_ratio(self) -> float | None:
        """The moisture ratio at which the target is reached."""
        if self.load is None or self.target is None or not 0 <= self.target.value < 100:
            return None
        return target_ratio(self.load, self.target)


NOTHING_ASIDE = Aside()
_PROMISES = frozenset({VerdictName.DRY_ENOUGH, VerdictName.PROBABLY_DRY})


def running(kitchen: Kitchen) -> tuple[DryingRun, ...]:
    """Every batch on a dryer, the one started first first."""
    ids = kitchen.journal.batch_ids(BatchQuery(states=(DRYING,), descending=False))
    return tuple(run_of(kitchen, id) for id in ids)


def planned(kitchen: Kitchen) -> tuple[Batch, ...]:
    """Batches that wait to be started, the one planned first first."""
    ids = kitchen.journal.batch_ids(BatchQuery(states=(PLANNED,), descending=False))
    return tuple(b for id in ids if (b := kitchen.journal.get(Batch, id)) is not None)


def run_of(kitchen: Kitchen, batch: int) -> DryingRun:
    """The run of one batch. Raises InputProblem where there is no such batch."""
    return run_as(kitchen, kitchen.present(Batch, batch, "batch", "batch"))


def run_as(kitchen: Kitchen, record: Batch) -> DryingRun:
    """The run of a batch as this record has it; the rest is as the journal has it."""
    food = find_food(kitchen, record.food)
    parts = parts_of(kitchen, record.id)
    everything, events = weighings_of(kitchen, record.id), events_of(kitchen, record.id)
    weighings = tuple(w for w in everything if not w.left_out)
    started = record.started or (weighings[0].at if weighings else kitchen.now())
    clock = clock_of(started, events)
    aside = aside_of(record, weighings, events)
    rounds = rounds_of(record, weighings, aside)
    scope = scope_of(weighings, rounds)
    whole = load_for(kitchen, record, parts, food=food)
    grams = loaded_grams(food, record) if scope == LOAD else None
    mine = same_scale(weighings, scope)
    if grams is None and (mine or rounds):
        grams = min([(w.at, w.net_g + aside.grams(w.at)) for w in mine] + [(r.at, r.net_g) for r in rounds])[1]
    load = load_for(kitchen, record, parts, grams=grams, food=food) if grams is not None else whole
    points = weighed_points(clock, mine, load, grams if scope == LOAD else None, aside, rounds)
    points = with_dried_mass(points, record, clock, load, scope)
    followed = {w.id for w in mine}
    others = weighed_points(clock, [w for w in weighings if w.id not in followed], None, None)
    left_out = weighed_points(clock, [w for w in everything if w.left_out], None, None)
    target = target_for(kitchen, record, food)
    net = points[-1].net_g if points else None
    cautions = batch_cautions(kitchen, record, parts)
    expected = run_forecast(kitchen, record, food, load, target, _course(record, food, points, clock, events))
    weighed = net is not None and (bool(mine or rounds) or len(points) > 1)
    off = record.state == FINISHED
    feel, taught = (felt(record), learned(record)) if off else (None, expected.learned)
    judged, at, sampled = load, net, scope != LOAD
    if off and record.dried_mass is not None and whole is not None:
        judged, at, sampled, weighed = whole, record.dried_mass.si, False, True
    now = moisture_now(judged, at, taught, feel) if judged is not None and at is not None else None
    standing = None
    if judged is not None and at is not None and target is not None and weighed:
        standing = verdict(judged, at, target, taught, feel)
        standing = replace(standing, of_sample=sampled, on_dryer=record.state == DRYING)
    curves = curves_of(points) if load is not None else None
    return DryingRun(
        batch=record,
        food=food,
        dryer=kitchen.journal.get(Dryer, record.dryer) if record.dryer is not None else None,
        clock=clock,
        hours=clock.hours(record.ended or kitchen.now()),
        scope=scope,
        points=points,
        others=others,
        left_out=left_out,
        aside=aside,
        events=events,
        load=load,
        whole=whole,
        target=target,
        target_mass=_with(cautions, _target(load, net if weighed else None, target, taught, feel)),
        moisture=_with(cautions, now),
        moisture_dry_basis=_with(cautions, _dry_basis(judged, at, now)),
        moisture_ratio=_with(cautions, _ratio(judged, at, now)),
        verdict=_judged(standing, cautions),
        curves=curves,
        expected=expected,
        cautions=cautions,
        asks=(
            *missing_for(kitchen, record, parts, food),
            *_oddities(scope, points),
            *_dry_already(kitchen, record, whole, target),
            *_heavy(kitchen, record, weighings, standing),
        ),
    )


def _judged(verdict: Verdict | None, cautions: Sequence[Caution]) -> Verdict | Forbidden | None:
    """The verdict; but what must not be eaten is never called dry enough."""
    forbidden = forbidding_words(cautions)
    promises = verdict is not None and verdict.name in _PROMISES
    return Forbidden(forbidden) if forbidden and promises else verdict


def _course(
    batch: Batch, food: Food, points: Sequence[WeighedPoint], clock: Clock, events: Sequence[BatchEvent]
) -> Course:
    """The run on its own clock; of two readings in one drying instant the last counts."""
    once = {p.hours: p.net_g for p in points}
    heat = dryer_temperature(batch, events)
    if not once:
        return Course((), (), heat)
    hours = sorted(once)
    return Course(
        [h - hours[0] for h in hours],
        [once[h] for h in hours],
        heat,
        heating_of(batch, food, events, clock, hours[0]),
        [clock.hours(e.at) - hours[0] for e in events if e.kind == RAN],
    )


def scope_of(weighings: Sequence[Weighing], rounds: Sequence[Round] = ()) -> str:
    """The scale a run follows: the one read more often; the whole load where both were read alike. Trays weighed in
    rounds are the whole load; one that was weighed alone stands for it as a sample does."""
    sample = sum(w.scope == SAMPLE for w in weighings)
    load = sum(w.scope == LOAD for w in weighings) + len(rounds)
    single = 0 if rounds else len(same_scale(weighings, TRAY))
    return SAMPLE if sample > max(load, single) else TRAY if single > load else LOAD


def same_scale(weighings: Sequence[Weighing], scope: str) -> list[Weighing]:
    """The weighings of a scope; of single trays those of the one weighed most."""
    found = [w for w in weighings if w.scope == scope]
    if scope != TRAY or not found:
        return found
    often = Counter(w.vessel for w in found)
    most = max(often, key=lambda vessel: often[vessel])
    return [w for w in found if w.vessel == most]


def weighed_points(
    clock: Clock,
    weighings: Sequence[Weighing],
    load: Load | None,
    loaded_g: float | None,
    aside: Aside = NOTHING_ASIDE,
    rounds: Sequence[Round] = (),
) -> tuple[WeighedPoint, ...]:
    """Weighings as points of the run, led by the mass loaded where it was recorded apart. Readings of the whole
    load count with what is off the dryer."""
    first = load.grams if load is not None else None

    def ratio(net: float) -> float | None:
        return moisture_ratio(load, net) if load is not None and first else None

    points = [
        WeighedPoint(clock.hours(w.at), net, w.at, ratio(net), w)
        for w in weighings
        for net in (w.net_g + (aside.grams(w.at) if w.scope == LOAD else 0.0),)
    ]
    for found in rounds if loaded_g is not None or any(w.scope == LOAD for w in weighings) or not weighings else ():
        net = found.net_g + aside.grams(found.at)
        points.append(WeighedPoint(clock.hours(found.at), net, found.at, ratio(net), trays=found.trays))
    points.sort(key=lambda p: p.at)
    if loaded_g is not None and (not points or points[0].hours > 0.02):
        points.insert(0, WeighedPoint(0.0, loaded_g, clock.started, ratio(loaded_g)))
    return tuple(points)


def with_dried_mass(
    points: tuple[WeighedPoint, ...], batch: Batch, clock: Clock, load: Load | None, scope: str
) -> tuple[WeighedPoint, ...]:
    """The run of a finished load ends with its dried mass, where that was weighed apart."""
    if scope != LOAD or batch.dried_mass is None or batch.ended is None or batch.state != FINISHED:
        return points
    hours, net = clock.hours(batch.ended), batch.dried_mass.si
    if points and points[-1].hours >= hours - 0.02:
        return points
    return (*points, WeighedPoint(hours, net, batch.ended, moisture_ratio(load, net) if load is not None else None))


def moisture_ratio(load: Load, net_g: float) -> float:
    """X/X₀ = (m − S)/(m₀ − S): the share of the water that is still there."""
    return (net_g - load.solids) / (load.grams - load.solids)


def curves_of(points: Sequence[WeighedPoint]) -> CurveSet | None:
    """The curves through the points. Two readings in one drying instant (during a pause) count once, the last."""
    once = {p.hours: p.mr for p in points if p.mr is not None}
    if not once:
        return None
    hours = sorted(once)
    return _fitted(tuple(h - hours[0] for h in hours), tuple(once[h] for h in hours))


@lru_cache(maxsize=64)
def _fitted(hours: tuple[float, ...], mr: tuple[float | None, ...]) -> CurveSet:
    return fit_all(hours, [float(v) for v in mr if v is not None])


def _with(cautions: tuple[Caution, ...], figure: Figure | None) -> Figure | None:
    return figure.with_cautions(cautions) if figure is not None else None


def _target(
    load: Load | None, net: float | None, target: Fact | None, learned: Belief | None, feel: Feel | None
) -> Figure | None:
    """The mass at which it is dry, by the same dry matter as the moisture."""
    if load is None or target is None:
        return None
    return target_mass(load, target, None if net is None else believed(load, net, learned, feel))


def _dry_basis(load: Load | None, net: float | None, now: Figure | None) -> Figure | None:
    """Water for 1 of dry matter, by the same dry matter as the moisture (`now`, % wet basis)."""
    if load is None or net is None or now is None:
        return None
    solids = net * (1.0 - now.value / 100.0)
    line = step(Kind.DRY_BASIS, (net / solids - 1.0, "g/g"), water=(net - solids, "g"), solids=(solids, "g"))
    low, high = (None if m is None else m / (100.0 - m) for m in (now.low, now.high))
    return Figure(net / solids - 1.0, "g/g", low, high, basis=now.basis, workings=(*load.workings, line))


def _ratio(load: Load | None, net: float | None, now: Figure | None) -> Figure | None:
    """X/X₀ by the same dry matter as the moisture."""
    if load is None or net is None or now is None:
        return None
    solids = min(net * (1.0 - now.value / 100.0), 0.999 * load.grams)
    water = load.grams - solids
    value = (net - solids) / water
    line = step(Kind.MOISTURE_RATIO, value, mass=(net, "g"), solids=(solids, "g"), water=(water, "g"))
    return Figure(value, "", basis=now.basis, workings=(*load.workings, line))


def _oddities(scope: str, points: Sequence[WeighedPoint]) -> tuple[str, ...]:
    if scope != LOAD and points and points[0].hours > LATE_SAMPLE_H:
        return (
            f"The sample tray was first weighed {points[0].hours:.1f} h after the start; what it had lost by "
            "then is not known, so the food is drier than the moisture shown here.",
        )
    return ()


def _dry_already(kitchen: Kitchen, batch: Batch, load: Load | None, target: Fact | None) -> tuple[str, ...]:
    """Of a load on the dryer that had nothing to lose."""
    if load is None or target is None or batch.state == FINISHED:
        return ()
    return tuple(filter(None, [dry_already_sentence(load, target, style(kitchen))]))


def _heavy(
    kitchen: Kitchen, batch: Batch, weighings: Sequence[Weighing], standing: Verdict | None
) -> tuple[str, ...]:
    """Readings heavier than what was loaded: nothing on a dryer gains weight. The verdict comes first."""
    loaded = loaded_g(kitchen, batch)
    over = [w for w in weighings if loaded is not None and w.net_g > loaded + SCALE_G]
    mismatch_said = standing is not None and standing.name == VerdictName.MISMATCH
    if loaded is None or len(over) <= mismatch_said:
        return ()
    notation = style(kitchen)
    first = over[0]
    many = "One weighing is" if len(over) == 1 else f"{len(over)} weighings are"
    meant = " the tare is missing, or the unit is another"
    if first.scope != LOAD:
        meant += ", or it was the whole load, not the sample tray"
    return (
        f"Weights don't add up: {many} more than the {notation.mass(loaded)} that was loaded (first "
        f"{notation.mass(first.net_g)}, {weekday_clock(kitchen.local(first.at))}). Perhaps{meant}; correct it.",
    )
