"""A whole trip on paper: menu, drying calendar, shopping, packing bag by bag, cautions, labels to cut out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from html import escape
from itertools import groupby
from pathlib import Path

from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout, QPageSize
from PySide6.QtWidgets import QFileDialog, QWidget

from dryhouse.desk.cautions import SAID, more_words, stops_in_brief
from dryhouse.desk.labels.paper import cut_outs
from dryhouse.desk.places.meals.wording import (
    DRYING_HEAD,
    ON_CARD,
    bag_html,
    buy_cells,
    drying_cells,
    hours_html,
    named_stops_html,
    waits_for_records,
)
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.paged import A4, LETTER, Block, Section, Table, print_sections, write_sections
from dryhouse.desk.widgets.printing import preview
from dryhouse.kitchen.records import TripPerson
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.fuel import fuel_words
from dryhouse.kitchen.trips.plan_rows import buy_rows
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.kitchen.trips.sheet import DaySheet
from dryhouse.kitchen.trips.trips import SLOTS
from dryhouse.science.display import METRIC, calories, counted, duration
from dryhouse.science.values import Caution, gravest_first
from dryhouse.words.dates import full_day, long_day, weekday_words
from dryhouse.words.sums import at_least, energy_words, not_known_for
from dryhouse.words.trip_plans import NO_LOADS

_PACKED = (4, 34, 12, 14, 36)
"""Shares of the page: the box, what it is, weight, measure, where it comes from."""
_PAPERS = {"PDF, Letter (*.pdf)": LETTER, "PDF, A4 (*.pdf)": A4}


def sections_of(session: Session, plan: Plan) -> list[Section]:
    """Everything a trip asks for, each on pages of its own."""
    made = [
        Section("Menu", list(_menu(session, plan))),
        Section("Drying", list(_drying(session, plan))),
        Section("Shopping", list(_shopping(session, plan))),
        Section("Packing", list(_packing(session, plan))),
    ]
    cautions = list(_cautions(plan))
    if cautions:
        made.append(Section("Cautions", cautions))
    if plan.bags:
        labels = bag_labels(plan, session.style)
        made.append(Section("Bag labels", painted=partial(cut_outs, labels)))
    return made


def print_trip(parent: QWidget, session: Session, plan: Plan) -> None:
    """Show the pages as they will be printed, with the printer one click away."""
    from PySide6.QtPrintSupport import QPrinter

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageSize(QPageSize(_usual(session)))
    printer.setPageMargins(QMarginsF(0, 0, 0, 0), QPageLayout.Unit.Millimeter)
    sections = sections_of(session, plan)
    preview(parent, printer, lambda paper: print_sections(sections, paper, plan.trip.name))


def save_trip_pdf(parent: QWidget, session: Session, plan: Plan) -> None:
    """Ask where to, on Letter or A4, and write the pages there."""
    names = list(_PAPERS) if _usual(session) == LETTER else list(reversed(_PAPERS))
    name, chosen = QFileDialog.getSaveFileName(
        parent, "Save the whole trip", f"{plan.trip.name}.pdf", ";;".join(names)
    )
    if name:
        write_trip(session, plan, Path(name), _PAPERS.get(chosen, _usual(session)))


def write_trip(session: Session, plan: Plan, path: Path, size: QPageSize.PageSizeId) -> bool:
    """Write the pages to a PDF file; a failure is said."""
    try:
        pages = write_sections(sections_of(session, plan), path, plan.trip.name, size)
    except OSError as problem:
        why = problem.strerror or problem
        session.say(f"The trip was not saved: {why}. Choose another folder.", "world")
        return False
    session.say(f"Saved {counted(pages, 'page')} to {path}", "done")
    return True


def _usual(session: Session) -> QPageSize.PageSizeId:
    return A4 if session.style.system == METRIC else LETTER


# --- the menu ------------------------------------------------------------------------------------------------


def _menu(session: Session, plan: Plan) -> Iterator[Block]:
    style, trip, sheet = session.style, plan.trip, plan.sheet
    days = f"{weekday_words(trip.starts_on)} to {full_day(trip.ends_on)}"
    energy = sheet.energy_per_person_day
    wish = trip.energy_kcal_per_person_day
    facts = [
        f"{style.load(sheet.grams_per_person_day.value)} of dry food for each person and day",
        "" if energy is None else energy_words(energy.value, sheet.energy_lacks, wish),
        f"{style.figure(sheet.water)} of water and {duration(sheet.flame_minutes * 60)} on the stove in all",
        fuel_words(plan.fuel, style),
    ]
    said = "; ".join(fact for fact in facts if fact)
    people = "".join(f"<br>{escape(_person(one))}" for one in plan.people)
    yield (
        f"<h1>{escape(trip.name)}</h1><p>{days}, {counted(trip.people, 'person', 'people')}.{people}</p>"
        f"<p>{escape(said)}.</p>"
    )
    slots = [*SLOTS, *sorted({b.slot for b in plan.bags} - set(SLOTS))]
    used = [slot for slot in slots if any(bag.slot == slot for bag in plan.bags)]
    share = 56 // max(1, len(used))
    head = ("Day", *(slot.capitalize() for slot in used), "kcal each", "Carried each")
    rows = [_day(session, plan, day, used) for day in sheet.days]
    yield Table(head, rows, (14, *([share] * len(used)), 72 - share * len(used), 14))
    told = [line for line in plan.remarks if line not in plan.lots_left_out]
    yield from _headed("Mind", [f"<p>{escape(line)}</p>" for line in told])


def _headed(heading: str, lines: Sequence[str]) -> Iterator[Block]:
    """Lines under a heading that stays with the first of them."""
    for n, line in enumerate(lines):
        yield line if n else f"<h2>{heading}</h2>{line}"


def _person(one: TripPerson) -> str:
    told = [
        *([f"{one.appetite_pct:g} % of a usual appetite"] if one.appetite_pct != 100 else []),
        *([f"does not eat {one.avoids}"] if one.avoids else []),
        *(["falls ill more easily"] if one.at_risk else []),
    ]
    return f"{one.name[:1].upper()}{one.name[1:]}{': ' if told else ''}{', '.join(told)}."


def _day(session: Session, plan: Plan, day: DaySheet, slots: Sequence[str]) -> tuple[str, ...]:
    style = session.style
    kind = "<br><i>spare</i>" if day.spare else "<br><i>layover</i>" if day.layover else ""
    bags = [bag for bag in plan.bags if bag.day == day.day]
    cells = []
    for slot in slots:
        here = [f"{escape(b.name)}, {style.number(b.servings)}" for b in bags if b.slot == slot]
        cells.append("<br>".join(here) or "—")
    return (
        f"<b>{weekday_words(day.day)}</b>{kind}",
        *cells,
        "—" if day.energy_per_person is None else _kcal(day.energy_per_person.value, day.energy_lacks),
        style.load(day.carried_per_person) if day.carried_per_person else "—",
    )


def _kcal(kcal: float, lacking: Sequence[str]) -> str:
    left_out = f"<br><i>{escape(not_known_for(lacking))}</i>" if lacking else ""
    return f"{at_least(calories(kcal), lacking)}{left_out}"


# --- drying, shopping ----------------------------------------------------------------------------------------


def _drying(session: Session, plan: Plan) -> Iterator[Block]:
    rows = drying_cells(plan, session.style, session.kitchen)
    yield f"<h1>Drying for {escape(plan.trip.name)}</h1>{hours_html(plan) if rows else ''}"
    short = plan.shortfall
    if short is not None:
        yield "".join(f"<p>{escape(line)}</p>" for line in short.first)
    if rows:
        yield Table(DRYING_HEAD, [tuple(map(escape, row)) for row in rows], (3, 17, 12, 14, 14, 14, 11, 15))
    elif not plan.items:
        yield f"<p>{NO_LOADS}</p>"
    if short is not None and (short.reasons or short.lacking):
        missing = [f"<p>{escape(line)}</p>" for line in (*short.reasons, *short.lacking)]
        yield from _headed("What cannot be ready", missing)
    if plan.kwh is not None:
        yield f"<p>Power at most {session.style.number(plan.kwh, 0)} kWh.</p>"
    yield from (f"<p>{escape(step.sentence)}</p>" for step in plan.next_steps)
    stops = named_stops_html((item.name, item.cautions) for item in plan.items)
    if stops:
        yield from _paragraphs(stops)


def _shopping(session: Session, plan: Plan) -> Iterator[Block]:
    yield f"<h1>Shopping for {escape(plan.trip.name)}</h1>"
    if not plan.shopping:
        yield "<p>Nothing to buy.</p>"
    for aisle, rows in buy_rows(plan, session.style):
        cells = [tuple(map(escape, buy_cells(row))) for row in rows]
        yield Table(("",) * 4, cells, (4, 36, 22, 38), f"<h2>{escape(aisle)}</h2>")
        stops = stops_in_brief(caution for row in rows for caution in row.buy.cautions)
        if stops:
            yield f"<p><b>{escape(stops)}</b></p>"


def _paragraphs(html: str) -> Iterator[str]:
    """Each paragraph by itself, so that a page may end between them."""
    return (f"{part}</p>" for part in html.split("</p>") if part)


# --- packing, cautions ---------------------------------------------------------------------------------------


def _packing(session: Session, plan: Plan) -> Iterator[Block]:
    yield f"<h1>Packing for {escape(plan.trip.name)}</h1>{waits_for_records(plan)}"
    if not plan.bags:
        yield "<p>No meal is on any day yet.</p>"
    for day, bags in groupby(plan.bags, key=lambda bag: bag.day):
        for n, bag in enumerate(bags):
            heading = "" if n else f"<h2>{long_day(day)}</h2>"
            stops = stops_in_brief(bag.cautions)
            told = f"<p><b>{escape(stops)}</b></p>" if stops else ""
            yield f"{heading}{bag_html(bag, session.style, _PACKED, weekday_words(day))}{told}"


def _cautions(plan: Plan) -> Iterator[Block]:
    """Every stop and all that matters at the pot, once each, with the meals it concerns."""
    concerned: dict[tuple[str, str], tuple[Caution, dict[str, None]]] = {}
    for bag in plan.bags:
        for caution in bag.cautions:
            concerned.setdefault((caution.rule, caution.text), (caution, {}))[1][bag.name] = None
    every = gravest_first(caution for caution, _ in concerned.values())
    shown = [c for c in every if c.severity == "stop" or c.moment == "pot"]
    if not every:
        return
    yield f"<h1>Cautions for {escape(plan.trip.name)}</h1>"
    for caution in shown:
        names = ", ".join(concerned[(caution.rule, caution.text)][1])
        yield (
            f"<p><b>{SAID[caution.severity]}, {escape(names)}:</b> {escape(caution.text)} "
            f"<span class='small'>[{escape(caution.source)}]</span></p>"
        )
    if len(every) > len(shown):
        yield f"<p class='small'>{more_words(len(every) - len(shown), len(shown))} {ON_CARD}.</p>"
