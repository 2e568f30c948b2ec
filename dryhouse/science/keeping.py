"""How long dried food keeps its quality, reckoned over where it has really been.

The life L(T) at a temperature comes from published points. Between two points log L is a straight line in
T (a constant factor for each degree); colder than the coldest point the published life stands and is never
exceeded; hotter than the hottest it shortens at least by a published rule of thumb, and never lengthens.
Where only a limit is published for a kind of place (room, refrigerator, freezer), as for meat and fish, the limit
of the next warmer kind of place holds: a step and no line, and hotter than the last one there is no life at all.
Of several rules the shortest life counts, and where one has none there is none.

Life used is Σ Δt / L(T) over the stretches of a history; the food is kept by the moment it reaches 1.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.values import Basis, Fact, Figure, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind

DAY_S = 86400.0
FREEZING_C = 0.0
"""A refrigerator's limit holds down to here and is no longer for being colder: below it food is frozen."""


@dataclass(frozen=True, slots=True)
class LifePoint:
    """A published life, in days, at a temperature in °C."""

    temperature_c: float
    life: Fact


@dataclass(frozen=True, slots=True)
class Line:
    """The points of one rule, coldest first, and how it speaks between and beyond them."""

    name: str
    points: tuple[LifePoint, ...]
    steps: bool = False
    only_between: bool = False
    """A general rule beside a more special one: it says nothing outside its own points."""
    halving: Fact | None = None
    """Hotter than the hottest point the life halves at least every so many degrees Fahrenheit."""
    carried_c: float = -math.inf
    """How hot the last limit of a step, or less, is still reckoned with where food has been or is carried (°C)."""


@dataclass(frozen=True, slots=True)
class Life:
    """A life in days at one temperature, how it was found, and from which facts."""

    days: float
    how: Step
    facts: tuple[Fact, ...]
    assumed: Told | None = None
    """What was assumed beyond the published points."""


def life_at(lines: Iterable[Line], celsius: float) -> Life | None:
    """The shortest life any of the rules gives at this temperature; None where none is published."""
    return _shortest((line, _life(line, celsius)) for line in lines)


def life_on_the_way(lines: Iterable[Line], celsius: float) -> Life | None:
    """The same for food that has been this warm or is carried so: in the heat, the last limit of meat or less is
    reckoned with, and said to be an assumption. It is never told as a time that food keeps."""
    return _shortest((line, _life(line, celsius) or _carried(line, celsius)) for line in lines)


def _shortest(found: Iterable[tuple[Line, Life | None]]) -> Life | None:
    lives = []
    for line, life in found:
        if life is not None:
            lives.append(life)
        elif not line.only_between:
            return None
    return min(lives, key=lambda life: life.days, default=None)


def _carried(line: Line, celsius: float) -> Life | None:
    if not line.steps or not line.points[-1].temperature_c < celsius <= line.carried_c + 1e-9:
        return None
    return replace(_hotter(line, celsius), assumed=Told.ROOM_LIMIT_IN_HEAT)


def _life(line: Line, celsius: float) -> Life | None:
    points = line.points
    coldest, hottest = points[0], points[-1]
    if line.only_between and not coldest.temperature_c - 1e-9 <= celsius <= hottest.temperature_c + 1e-9:
        return None
    if celsius > hottest.temperature_c + 1e-9:
        return None if line.steps else _hotter(line, celsius)
    if celsius <= coldest.temperature_c + 1e-9:
        if celsius > coldest.temperature_c - 1e-9:
            return _published(Kind.LIFE_PUBLISHED, coldest)
        same_place = line.steps and coldest.temperature_c > FREEZING_C < celsius
        return _published(Kind.LIFE_NEXT_WARMER if same_place else Kind.LIFE_COLDEST, coldest)
    warmer = next(i for i, p in enumerate(points) if celsius <= p.temperature_c + 1e-9)
    a, b = points[warmer - 1], points[warmer]
    if abs(celsius - b.temperature_c) <= 1e-9:
        return _published(Kind.LIFE_PUBLISHED, b)
    if line.steps:
        return _published(Kind.LIFE_NEXT_WARMER, b)
    share = (celsius - a.temperature_c) / (b.temperature_c - a.temperature_c)
    days = a.life.value * (b.life.value / a.life.value) ** share
    how = step(
        Kind.LIFE_BETWEEN,
        (days, "day"),
        temperature=(celsius, "degC"),
        cool=a.life,
        cool_at=(a.temperature_c, "degC"),
        warm=b.life,
        warm_at=(b.temperature_c, "degC"),
    )
    return Life(days, how, (a.life, b.life))


def _hotter(line: Line, celsius: float) -> Life:
    """Shorter by the steeper of two slopes: that of the last two points, and the halving rule."""
    hottest, halving = line.points[-1], line.halving
    beyond = celsius - hottest.temperature_c
    halved = 0.0 if halving is None else beyond * 1.8 / halving.value * math.log(2.0)
    at = (hottest.temperature_c, "degC")
    if len(line.points) > 1 and not line.steps:
        before = line.points[-2]
        slope = math.log(before.life.value / hottest.life.value) / (hottest.temperature_c - before.temperature_c)
        if slope * beyond >= halved:
            days = hottest.life.value * math.exp(-slope * beyond)
            how = step(
                Kind.LIFE_HOTTER,
                (days, "day"),
                temperature=(celsius, "degC"),
                cool=before.life,
                cool_at=(before.temperature_c, "degC"),
                hottest=hottest.life,
                hottest_at=at,
            )
            return Life(days, how, (before.life, hottest.life))
    if halving is None:
        return _published(Kind.LIFE_NEXT_WARMER, hottest)
    days = hottest.life.value * math.exp(-halved)
    how = step(
        Kind.LIFE_HALVED,
        (days, "day"),
        temperature=(celsius, "degC"),
        hottest=hottest.life,
        hottest_at=at,
        each=f"{halving.value:g} °F ({halving.value / 1.8:.0f} °C)",
        rule=halving.basis.source,
        factor=days / hottest.life.value,
    )
    return Life(days, how, (hottest.life, halving))


def _published(kind: Kind, point: LifePoint) -> Life:
    return Life(point.life.value, step(kind, point.life, at=(point.temperature_c, "degC")), (point.life,))


@dataclass(frozen=True, slots=True)
class Stretch:
    """Some time in one place at one temperature. The last stretch of a history has no end."""

    place: str
    start: datetime
    end: datetime | None
    temperature_c: float | None
    assumed: str = ""
    """Why this temperature was supposed, where it was not recorded."""


@dataclass(frozen=True, slots=True)
class Keeping:
    """What a history leaves of a life: the moment it is used up, and the arithmetic."""

    until: datetime | None
    """None where a temperature or a published life is missing; `missing` says which."""
    used: float
    """Of the whole life, up to the moment asked about."""
    missing: Message | None = None
    workings: Workings = ()
    basis: tuple[Basis, ...] = ()

    def left(self, moment: datetime) -> Figure | None:
        """Days from a moment until the life is used up: negative where it is past."""
        if self.until is None:
            return None
        days = (self.until - moment).total_seconds() / DAY_S
        return Figure(days, "day", basis=self.basis, workings=self.workings)


def used_up(
    history: Sequence[Stretch],
    lines: Sequence[Line],
    life_of: Callable[[Sequence[Line], float], Life | None] = life_on_the_way,
) -> tuple[datetime | None, Message | None]:
    """When the life is used up, without workings; or None and what is missing. The last stretch is open.

    `life_of` stands in for `life_on_the_way` where many histories are asked about and lives are remembered.
    """
    until, missing, _ = _end_of_life(history, lines, life_of)
    return until, missing


def is_a_least(
    history: Sequence[Stretch],
    lines: Sequence[Line],
    life_of: Callable[[Sequence[Line], float], Life | None] = life_on_the_way,
) -> bool:
    """Whether the life is used up where it is colder than anything published: then it lasts at least so long."""
    life = _end_of_life(history, lines, life_of)[2]
    return life is not None and life.how.kind == Kind.LIFE_COLDEST


def _end_of_life(
    history: Sequence[Stretch],
    lines: Sequence[Line],
    life_of: Callable[[Sequence[Line], float], Life | None],
) -> tuple[datetime | None, Message | None, Life | None]:
    """When the life is used up and the life it ended by, or what is missing."""
    used = 0.0
    for stretch in history:
        if stretch.temperature_c is None:
            return None, message(Told.PLACE_TEMPERATURE_MISSING, place=stretch.place), None
        life = life_of(lines, stretch.temperature_c)
        if life is None:
            return None, nothing_published(lines, stretch.temperature_c), None
        left = timedelta(days=(1.0 - used) * life.days)
        if stretch.end is None or stretch.start + left <= stretch.end:
            return stretch.start + left, None, life
        used += (stretch.end - stretch.start).total_seconds() / DAY_S / life.days
    return None, message(Told.NO_PLACE), None


def nothing_published(lines: Sequence[Line], celsius: float) -> Message:
    """What is told where there is no life: of the food, or of the food this warm."""
    if not lines:
        return message(Told.NO_KEEPING_TIME)
    return message(Told.NO_KEEPING_TIME_AT, warmth=(celsius, "degC"))


def keeping(history: Sequence[Stretch], lines: Sequence[Line], moment: datetime) -> Keeping:
    """Life used and left over a history, with a line of arithmetic for each stretch.

    Stretches follow one another; the last is open and is reckoned on until the life is used up, so that
    what is planned (a trip) counts as well as what has been.
    """
    until, missing = used_up(history, lines)
    used, at_moment = 0.0, 0.0
    workings: list[Step] = []
    facts: list[Basis] = []
    for stretch in history:
        if stretch.assumed:
            facts.append(Basis("assumption", stretch.assumed))
            workings.append(step(Kind.SUPPOSED, what=stretch.assumed))
        life = None if stretch.temperature_c is None else life_on_the_way(lines, stretch.temperature_c)
        if life is None or stretch.temperature_c is None:
            known = stretch.temperature_c is not None
            kind = Kind.NO_LIFE_PUBLISHED if known else Kind.PLACE_TEMPERATURE_MISSING
            workings.append(step(kind, about=stretch.place))
            break
        facts += [fact.basis for fact in life.facts]
        if life.assumed:
            facts.append(Basis("assumption", said=message(life.assumed)))
            workings.append(step(Kind.SUPPOSED, what=life.assumed))
        workings.append(replace(life.how, about=stretch.place))
        there = {"temperature": (stretch.temperature_c, "degC"), "life": (life.days, "day")}
        if at_moment == used and moment >= stretch.start:
            at_moment = used + _days(stretch.start, min(stretch.end or moment, moment)) / life.days
        if stretch.end is None or (until is not None and until <= stretch.end):
            rest = (1.0 - used) * life.days
            workings.append(step(Kind.STRETCH_LEFT, (rest, "day"), about=stretch.place, used=used, **there))
            break
        days = _days(stretch.start, stretch.end)
        part = days / life.days
        used += part
        workings.append(step(Kind.STRETCH_USED, part, about=stretch.place, spent=(days, "day"), **there))
        at_moment = used if moment >= stretch.end else at_moment
    return Keeping(until, at_moment, missing, tuple(workings), merge_bases(facts))


def _days(start: datetime, end: datetime) -> float:
    return (end - start).total_seconds() / DAY_S
