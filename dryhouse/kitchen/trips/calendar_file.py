"""The drying calendar as a file other calendars read (iCalendar, RFC 5545): a run each, and the end of
conditioning."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.trips.plan_rows import RunRow, run_rows
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.words.trip_plans import in_calendar, jars_are_conditioned

if TYPE_CHECKING:
    from icalendar import Event

ENDING = ".ics"
_REMIND = timedelta(minutes=30)


def calendar_text(kitchen: Kitchen, plan: Plan) -> bytes:
    """The calendar of a plan. A run keeps its identity from one writing to the next, so that a new file takes the
    place of the old entries. Raises InputProblem where there is no run."""
    from icalendar import Calendar

    rows = run_rows(kitchen, plan, style(kitchen))
    if not rows:
        raise InputProblem(f"There is no load to dry for {plan.trip.name}, and so nothing to put into a calendar.")
    made = Calendar()
    made.add("prodid", "-//Dryhouse//drying calendar//EN")
    made.add("version", "2.0")
    for number, row in enumerate(rows, 1):
        made.add_component(_run(kitchen, plan, row, number))
        for load in row.loads:
            if load.ready is not None:
                made.add_component(_conditioned(kitchen, plan, load.name, row, number, load.food))
    return bytes(made.to_ical())


def write_calendar(kitchen: Kitchen, plan: Plan, path: Path) -> Path:
    """Write the calendar to a file. Raises InputProblem, or WorldProblem where the file cannot be written."""
    text = calendar_text(kitchen, plan)
    try:
        path.write_bytes(text)
    except OSError as fault:
        raise WorldProblem(f"The calendar could not be written to {path}: {fault.strerror}.") from fault
    return path


def _run(kitchen: Kitchen, plan: Plan, row: RunRow, number: int) -> Event:
    from icalendar import Alarm

    summary, description = in_calendar(
        plan.trip.name,
        row.where,
        [load.name for load in row.loads],
        [f"{load.line}{f' ({load.takes})' if load.takes else ''}" for load in row.loads],
        [f"{load.name}: {load.after}" for load in row.loads if load.after],
        [c.brief for load in row.loads for c in load.cautions if c.severity == "stop"],
    )
    event = _event(kitchen, f"{plan.trip.id}-{number}", summary)
    event.add("dtstart", row.begins)
    event.add("dtend", row.ends)
    event.add("description", description)
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", summary)
    alarm.add("trigger", -_REMIND)
    event.add_component(alarm)
    return event


def _conditioned(kitchen: Kitchen, plan: Plan, name: str, row: RunRow, number: int, food: str) -> Event:
    load = next(load for load in row.loads if load.food == food)
    assert load.ready is not None
    event = _event(kitchen, f"{plan.trip.id}-{number}-{food}", jars_are_conditioned(name))
    event.add("dtstart", load.ready)
    event.add("dtend", load.ready + timedelta(days=1))
    return event


def _event(kitchen: Kitchen, id: str, summary: str) -> Event:
    from icalendar import Event

    event = Event()
    event.add("uid", f"trip-{id}@dryhouse")
    event.add("dtstamp", kitchen.now())
    event.add("summary", summary)
    return event
