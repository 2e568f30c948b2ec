"""A run in words and as JSON: the same sentences for the strip on the desk and for the command line."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import datetime
from typing import Any

from dryhouse.kitchen.cautions.forbidden import verdict_words
from dryhouse.kitchen.dryer.by_now import ahead_of_the_scale, by_now_words, now_json, now_words
from dryhouse.kitchen.dryer.questions import questions_of
from dryhouse.kitchen.dryer.run_moments import by_the_clock, clock_words, moment_of, rounded
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.dryer.scale_style import scale_style
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import BatchEvent
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.records.weighings import LOAD, MOVED, SAMPLE
from dryhouse.kitchen.settings import style
from dryhouse.science.display import Style, counted, duration
from dryhouse.science.dryness import Verdict
from dryhouse.science.statuses import VerdictName
from dryhouse.science.values import Figure
from dryhouse.words.cautions import cautions_json
from dryhouse.words.curves import curve_lines
from dryhouse.words.figures import figure_json, moisture_json
from dryhouse.words.forecasts import (
    MORE_LIKELY_THAN_NOT,
    QUARTER_HOUR,
    bands_sentence,
    finish_sentence,
    likely_sentence,
)
from dryhouse.words.messages import message_words


def run_lines(kitchen: Kitchen, run: DryingRun, style: Style) -> Iterator[str]:
    """Where the batch stands, a sentence a line; which model the curve is, only the curves say."""
    yield f"On the dryer for {duration(run.hours * 3600)}" + paused_words(kitchen, run)
    if run.net_g is not None:
        yield last_words(kitchen, run, style)
    if run.verdict is not None:
        yield judged_words(run, style)
    elif run.moisture is not None:
        yield f"Moisture: {moisture_words(run, style)}"
    if run.batch.state == DRYING:
        yield from _ahead_lines(kitchen, run, style)
    if run.expected.slow_day is not None:
        yield message_words(run.expected.slow_day, style)
    if run.curves is not None:
        yield from curve_lines(run.curves, style)[1:]
    yield from run.asks
    yield from filter(None, (left_out_words(run), aside_words(kitchen, run, style)))


def _ahead_lines(kitchen: Kitchen, run: DryingRun, style: Style) -> Iterator[str]:
    """What is to be expected of a batch on the dryer, and what is asked about it."""
    yield from filter(None, [now_words(kitchen, run, style)])
    yield from (asked.with_answers for asked in questions_of(kitchen, run, style))
    yield finish_words(kitchen, run)
    yield from filter(None, [again_words(kitchen, run)])


def judged_words(run: DryingRun, style: Style) -> str:
    """How dry it is by its last weighing, in the unit of her scale; nothing where no weight says."""
    return verdict_words(run.verdict, scale_style(run, style)) if run.verdict else ""


def last_words(kitchen: Kitchen, run: DryingRun, style: Style) -> str:
    """What was weighed last, with its time, and what it weighs when dry: `Load 512 g at 13:00, dry at 180 g`."""
    if run.net_g is None:
        return "Not weighed yet"
    style = scale_style(run, style)
    what = "Sample tray" if run.scope == SAMPLE else "Load"
    read = f"Loaded {style.mass(run.net_g)}"
    if run.last_weighed is not None:
        read = f"{what} {style.mass(run.net_g)} at {clock_words(kitchen, run.last_weighed)}"
    return read + (f", dry at {style.mass(run.target_mass.value)}" if run.target_mass else "")


def state_words(kitchen: Kitchen, run: DryingRun, style: Style) -> str:
    """How far it is at this minute: by the scale where it was read just now, else by the curve."""
    ahead = ahead_of_the_scale(kitchen, run)
    style = scale_style(run, style)
    if ahead is not None:
        wet = style.percent(float(ahead[1].median[0]), 0)
        return f"{by_now_words(kitchen, run, style)}. {wet} moisture."
    said = last_words(kitchen, run, style)
    if run.moisture is not None and (run.verdict is None or run.verdict.name != VerdictName.MISMATCH):
        said += f". Moisture {moisture_words(run, style)}"
    return f"{said}."


def how_words(kitchen: Kitchen, run: DryingRun, style: Style) -> str:
    """`Started 13:00 in the box dryer, 6 trays, 135 °F`: how a running batch is dried."""
    where = f" in the {run.dryer.name}" if run.dryer else ""
    began = f"Started {clock_words(kitchen, run.clock.started)}{where}"
    trays = counted(run.batch.trays, "tray") if run.batch.trays else ""
    heat = style.temperature(run.batch.set_temperature.si) if run.batch.set_temperature else ""
    return ", ".join(part for part in (began, trays, *moved_words(run), heat) if part)


def left_out_words(run: DryingRun) -> str:
    """How many weighings are kept and don't count, or nothing."""
    count = len(run.left_out)
    return f"{counted(count, 'weighing')} left out of the curve." if count else ""


def event_words(event: BatchEvent, style: Style) -> str:
    """What happened, with what was noted of it: `tray taken off early: tray 3, 88 g`."""
    more = [
        counted(event.trays, "tray") if event.trays is not None and event.trays > 1 else "",
        f"to the {event.note}" if event.kind == MOVED else event.note,
        style.show(event.mass, "") if event.mass is not None else "",
        style.temperature(event.temperature.si) if event.temperature is not None else "",
    ]
    said = ", ".join(filter(None, more))
    return f"{event.kind}: {said}" if said else event.kind


def moved_words(run: DryingRun) -> list[str]:
    """`2 of them in the box dryer`, where trays were moved: the load is split over two dryers."""
    return [f"{e.trays or 1} of them in the {e.note}" for e in run.events if e.kind == MOVED]


def aside_words(kitchen: Kitchen, run: DryingRun, style: Style) -> str:
    """What of the load is off the dryer, and what the scale shows when the rest is dry; or nothing."""
    off = run.aside.grams(kitchen.now())
    if off <= 0 or run.scope != LOAD:
        return ""
    style = scale_style(run, style)
    said = f"{style.mass(off)} of the load is off the dryer and counts with it"
    if run.aside.supposed:
        said += ", as the share of its trays: it was not weighed"
    if run.target_mass is None or run.target_mass.value <= off:
        return f"{said}."
    return f"{said}; what is left is dry at {style.mass(run.target_mass.value - off)} on the scale."


def moisture_words(run: DryingRun, style: Style) -> str:
    """`54 %` of the weight, no finer than it is known."""
    return "not known" if run.moisture is None else style.figure(run.moisture)


def paused_words(kitchen: Kitchen, run: DryingRun) -> str:
    """What pauses did to the clock, or nothing."""
    since = run.clock.paused_since
    if since is not None:
        return f", paused since {clock_words(kitchen, since)}"
    still = run.clock.paused_hours
    return f", {duration(still * 3600)} of pauses not counted" if still > 0 else ""


def finish_words(kitchen: Kitchen, run: DryingRun) -> str:
    """When it will likely be dry, with both bands; or why that cannot be said."""
    if run.verdict is not None and run.verdict.name == VerdictName.MISMATCH:
        return "No forecast while the weights don't add up."
    found = run.expected.forecast
    if found is None:
        return f"No forecast yet: {run.expected.why_none}" if run.expected.why_none else "No forecast."
    passed = (
        math.isfinite(found.finish.median)
        and moment_of(kitchen, run, found.finish.median) <= kitchen.now()
        and run.clock.paused_since is None
    )
    likely = run.verdict.probability if isinstance(run.verdict, Verdict) else None
    doubted = likely is not None and likely < MORE_LIKELY_THAN_NOT
    return finish_sentence(found, by_the_clock(kitchen, run), passed=passed, doubted=doubted, likely=likely)


def bands_words(kitchen: Kitchen, run: DryingRun) -> str:
    """`Even odds: between 18:00 and 20:30. 80 %: between 16:30 and 22:00.`; nothing where none is told."""
    found = run.expected.forecast
    said = "" if found is None else bands_sentence(found, by_the_clock(kitchen, run))
    return said if finish_words(kitchen, run).endswith(said) else ""


def likely_words(kitchen: Kitchen, run: DryingRun) -> str:
    """`Likely 16:30 to 22:00.`, or `Likely by 22:00.` once that has begun; nothing where no band is told."""
    found = run.expected.forecast
    if found is None or not bands_words(kitchen, run):
        return ""
    now = run.clock.hours(kitchen.now()) - run.points[0].hours
    return likely_sentence(found, by_the_clock(kitchen, run), now)


def again_words(kitchen: Kitchen, run: DryingRun) -> str:
    """When the next weighing tells most, or nothing."""
    moment = weigh_again_moment(kitchen, run)
    if moment is None:
        return ""
    if moment <= kitchen.now():
        return "Weigh now."
    return f"Weigh again about {clock_words(kitchen, rounded(kitchen, moment, QUARTER_HOUR))}."


def weigh_again_moment(kitchen: Kitchen, run: DryingRun) -> datetime | None:
    """The moment of the most useful next weighing."""
    found = run.expected.forecast
    return None if found is None or found.weigh_again_at is None else moment_of(kitchen, run, found.weigh_again_at)


def finish_moment(kitchen: Kitchen, run: DryingRun) -> datetime | None:
    """The median finish as a moment, or None."""
    found = run.expected.forecast
    if found is None or not math.isfinite(found.finish.median):
        return None
    return moment_of(kitchen, run, found.finish.median)


def run_json(kitchen: Kitchen, run: DryingRun) -> dict[str, Any]:
    """A run with the keys every command uses. The moisture now is the answer's own figure."""
    found, notation = run.expected.forecast, style(kitchen)
    empty: dict[str, Any] = {
        "value": None, "low": None, "high": None, "unit": "%", "measure": None,
        "basis": [], "workings": [], "cautions": cautions_json(run.cautions),
    }  # fmt: skip
    finish = finish_moment(kitchen, run)
    again = weigh_again_moment(kitchen, run)
    forbidden = any(c.forbids_eating for c in run.cautions)
    return {
        **(figure_json(run.moisture, notation) if run.moisture else empty),
        "food": run.food.slug,
        "state": run.batch.state,
        "scope": run.scope,
        "hours": run.hours,
        "mass": run.net_g,
        "target_mass": _json(run.target_mass, notation),
        "moisture_dry_basis": _json(run.moisture_dry_basis, notation),
        "moisture_ratio": _json(run.moisture_ratio, notation),
        "verdict": run.verdict.name if run.verdict and not forbidden else None,
        "moisture": moisture_json(run.moisture),
        "dry_enough_probability": run.verdict.probability if isinstance(run.verdict, Verdict) else None,
        "sentence": judged_words(run, notation) or None,
        "chosen": run.curves.chosen.name if run.curves and run.curves.chosen else None,
        "finish": dict(found.finish.as_json()) if found else None,
        "finish_at": finish.isoformat() if finish else None,
        "weigh_again_at": again.isoformat() if again else None,
        "water_activity": _json(run.expected.water_activity, notation),
        "slow_day": None if run.expected.slow_day is None else message_words(run.expected.slow_day, notation),
        "now": now_json(kitchen, run),
        "asks": [*run.asks, *(asked.with_answers for asked in questions_of(kitchen, run, notation))],
    }


def _json(figure: Figure | None, notation: Style) -> dict[str, Any] | None:
    return figure_json(figure, notation) if figure is not None else None
