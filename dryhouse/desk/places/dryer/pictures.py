"""From a run to its picture: the numbers a chart shows, read off the records."""

from __future__ import annotations

import numpy as np

from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records.weighings import HEAT_CHANGED, MOVED, NOTED, SAMPLE, TRAY_IN, TRAY_OFF, TURNED
from dryhouse.plots.curve_picture import Band, RunPicture
from dryhouse.science.display import Style

_CURVE_POINTS = 120


def picture_of(
    kitchen: Kitchen, run: DryingRun, style: Style, *, name: str = "", with_forecast: bool = True
) -> RunPicture:
    """The run as a chart shows it; without a forecast nothing past the last weighing is drawn."""
    load, points = run.load, run.points
    first = points[0].hours if points else 0.0
    hours, grams = tuple(p.hours for p in points), tuple(p.net_g for p in points)
    chosen = run.curves.chosen if run.curves else None
    curve_hours: tuple[float, ...] = ()
    curve_grams: tuple[float, ...] = ()
    residuals: tuple[float, ...] = ()
    if chosen is not None and load is not None and run.curves is not None:
        water = load.grams - load.solids
        along = np.linspace(0.0, chosen.last_hour, _CURVE_POINTS)
        curve_hours = tuple((along + first).tolist())
        curve_grams = tuple((load.solids + water * chosen.at(along)).tolist())
        if len(run.curves.hours) == len(points):
            fitted = load.solids + water * chosen.at(run.curves.hours)
            residuals = tuple((np.asarray(grams) - fitted).tolist())
    forecast = run.expected.forecast if with_forecast else None
    band = finish = None
    if forecast is not None:
        mass = forecast.mass
        rows = (mass.low80, mass.low50, mass.median, mass.high50, mass.high80)
        band = Band(_row(mass.hours + first), *(_row(r) for r in rows))
        f = forecast.finish
        if forecast.reached_at is None:
            finish = (
                f.low80 + first, f.low50 + first, f.median + first, f.high50 + first, f.high80 + first
            )  # fmt: skip
    return RunPicture(
        name=name or run.title,
        hours=hours,
        grams=grams,
        solids_g=_dry_matter(run),
        start_g=load.grams if load else None,
        started=kitchen.local(run.clock.started),
        pauses=tuple(
            (run.clock.hours(begin), (end - begin).total_seconds() / 3600) for begin, end in run.clock.pauses if end
        ),
        curve_name=chosen.name if chosen else "",
        curve_hours=curve_hours,
        curve_grams=curve_grams,
        residual_grams=residuals,
        band=band,
        finish=finish,
        target_g=run.target_mass.value if run.target_mass else None,
        now=run.hours if with_forecast and run.batch.ended is None else None,
        **_others(run),
        left_out=(tuple(p.hours for p in run.left_out), tuple(p.net_g for p in run.left_out)),
        air=_air(run),
        marks=_marks(run, style),
    )


def _dry_matter(run: DryingRun) -> float | None:
    """The dry matter that the axis of moisture goes by: the one the target weight was worked out with, so that its
    line stands at the target."""
    if run.load is None or run.target_mass is None or run.target is None:
        return run.load.solids if run.load else None
    return run.target_mass.value * (1.0 - run.target.value / 100.0)


def _row(values: np.ndarray) -> tuple[float, ...]:
    return tuple(np.asarray(values, dtype=float).tolist())


def _air(run: DryingRun) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """What the air in the dryer was read at, with the weighings."""
    every = sorted((*run.points, *run.others), key=lambda p: p.at)
    read = [
        (p.hours, p.weighing.dryer_temperature.si) for p in every if p.weighing and p.weighing.dryer_temperature
    ]
    return tuple(hours for hours, _ in read), tuple(degrees for _, degrees in read)


def _others(run: DryingRun) -> dict[str, tuple[float, ...]]:
    """Weighings of the other scope, scaled to this one's start where the load was recorded."""
    if not run.others or run.load is None:
        return {}
    start = run.others[0].net_g if run.scope != SAMPLE else (run.whole.grams if run.whole else run.others[0].net_g)
    scale = run.load.grams / start
    return {
        "other_hours": tuple(p.hours for p in run.others),
        "other_grams": tuple(p.net_g * scale for p in run.others),
    }


_MARKED = {TURNED: "turned", TRAY_OFF: "tray off", TRAY_IN: "tray in", MOVED: "moved", NOTED: "note"}


def _marks(run: DryingRun, style: Style) -> tuple[tuple[float, str], ...]:
    said = []
    for event in run.events:
        if event.kind in _MARKED:
            said.append((run.clock.hours(event.at), _MARKED[event.kind]))
        elif event.kind == HEAT_CHANGED:
            said.append((run.clock.hours(event.at), style.show(event.temperature, "heat changed")))
    for begin, end in run.clock.pauses:
        if end is not None:
            said.append((run.clock.hours(begin), "paused"))
    return tuple(said)
