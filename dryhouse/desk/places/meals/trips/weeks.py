"""The drying calendar week by week: what goes on and what comes off each day."""

from __future__ import annotations

from datetime import date, timedelta
from html import escape

from dryhouse.desk.places.meals.wording import hours_html, named_stops_html
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.trips.plan_rows import RunRow, run_rows
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.science.display import Style
from dryhouse.words.dates import WEEKDAYS, clock, day_words, short_day
from dryhouse.words.trip_plans import NO_LOADS

_WEEK = 7


def weeks_page(plan: Plan, style: Style, kitchen: Kitchen) -> str:
    """A row a week, Monday to Sunday; weeks in which no dryer runs are left out."""
    runs = run_rows(kitchen, plan, style)
    parts = [f"<h1>Drying for {escape(plan.trip.name)}, week by week</h1>"]
    if not runs and not plan.items:
        return f"{parts[0]}<p>{NO_LOADS}</p>"
    if plan.shortfall is not None:
        parts += [f"<p>{escape(line)}</p>" for line in (*plan.shortfall.first, *plan.shortfall.reasons)]
    parts.append(hours_html(plan))
    head = "".join(f"<th width='13%'>{day[:3]}</th>" for day in WEEKDAYS)
    rows = "".join(_week(monday, runs) for monday in _weeks(runs))
    parts.append(f"<table border='1' cellspacing='0' cellpadding='4' width='100%'><tr>{head}</tr>{rows}</table>")
    parts.append(named_stops_html((item.name, item.cautions) for item in plan.items))
    return "".join(parts)


def _weeks(runs: tuple[RunRow, ...]) -> list[date]:
    """The Mondays of the weeks in which something begins or ends."""
    days = {moment.date() for run in runs for moment in (run.start, run.end)}
    return sorted({day - timedelta(days=day.weekday()) for day in days})


def _week(monday: date, runs: tuple[RunRow, ...]) -> str:
    cells = (_day(monday + timedelta(days=n), runs) for n in range(_WEEK))
    return f"<tr>{''.join(f'<td valign=top>{cell}</td>' for cell in cells)}</tr>"


def _day(day: date, runs: tuple[RunRow, ...]) -> str:
    said = [f"<b>{short_day(day) if day.weekday() else day_words(day)}</b>"]
    for run in runs:
        foods = ", ".join(load.line for load in run.loads)
        if run.start.date() == day:
            until = f" to {clock(run.end)}" if run.end.date() == day else ""
            said.append(f"{clock(run.start)}{until} {escape(run.where)}: {escape(foods)}")
        elif run.end.date() == day:
            said.append(f"{clock(run.end)} off: {escape(', '.join(load.name for load in run.loads))}")
        said += [f"{escape(load.name)} is conditioned" for load in run.loads if load.ready == day]
    return "<br>".join(said)
