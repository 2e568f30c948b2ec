"""Meals and trips on paper and on the clipboard: simple pages in black on white."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from itertools import groupby

from dryhouse.desk.cautions import cautions_html, more_words
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.sheet import MealSheet, cooking_line
from dryhouse.kitchen.trips.household import hours_words
from dryhouse.kitchen.trips.lists import Bag
from dryhouse.kitchen.trips.plan_rows import buy_rows, run_rows
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.science.display import Style
from dryhouse.science.values import Caution, Figure
from dryhouse.words.dates import long_day, weekday_clock
from dryhouse.words.trip_plans import NO_LOADS

BOX, TICKED = "☐", "☑"
ON_CARD = "on its card in Dryhouse"
"""Where the cautions stand that a list only counts."""


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table of plain text."""
    top = "".join(f"<th>{escape(cell)}</th>" for cell in head)
    lines = ("".join(f"<td>{escape(cell)}</td>" for cell in line) for line in rows)
    return f"<table>{f'<tr>{top}</tr>' if top else ''}{''.join(f'<tr>{line}</tr>' for line in lines)}</table>"


def shown(style: Style, figure: Figure | None) -> str:
    """A figure with its interval, or a dash."""
    if figure is None:
        return "—"
    between = style.interval(figure)
    return style.figure(figure) + (f" (likely {between})" if between else "")


def named_stops_html(named: Iterable[tuple[str, Iterable[Caution]]]) -> str:
    """Each stop once with the names it concerns, and how many other cautions the names have."""
    concerned: dict[tuple[str, str], tuple[Caution, dict[str, None]]] = {}
    others: set[tuple[str, str]] = set()
    for name, cautions in named:
        for c in cautions:
            if c.severity == "stop":
                concerned.setdefault((c.rule, c.text), (c, {}))[1][name] = None
            else:
                others.add((c.rule, c.text))
    said = [
        f"<p><b>Stop, {escape(', '.join(names))}:</b> {escape(c.text)} "
        f"<span class='small'>[{escape(c.source)}]</span></p>"
        for c, names in concerned.values()
    ]
    if others:
        said.append(f"<p class='small'>{more_words(len(others), len(said))} {ON_CARD}.</p>")
    return "".join(said)


def meal_page(sheet: MealSheet, style: Style) -> str:
    """The card of a meal."""
    meal, bag, one = sheet.meal, sheet.bag, sheet.serving
    rows = [
        (
            line.part.name,
            "—" if line.grams is None else style.mass(line.grams),
            "—" if line.ml is None else style.volume(line.ml),
        )
        for line in sheet.parts
    ]
    sums = [
        ("Dry mass", shown(style, bag.dry_mass), shown(style, one.dry_mass)),
        ("Energy", shown(style, bag.energy), shown(style, one.energy)),
        ("Energy per gram", shown(style, bag.energy_per_gram), ""),
        ("Protein", shown(style, bag.protein), shown(style, one.protein)),
        ("Fat", shown(style, bag.fat), shown(style, one.fat)),
        ("Carbohydrate", shown(style, bag.carbohydrate), shown(style, one.carbohydrate)),
        ("Sodium", shown(style, bag.sodium), shown(style, one.sodium)),
    ]
    method = f"<p>{escape(meal.method)}</p>" if meal.method else ""
    remarks = "".join(f"<p>{escape(remark)}</p>" for remark in sheet.remarks)
    return (
        f"<h1>{escape(meal.name)}</h1><p>{style.number(sheet.servings)} servings; {escape(meal.cooking)}, "
        f"{escape(meal.liquid)}</p>"
        f"<p><b>Water {escape(shown(style, bag.water))}</b>. {escape(cooking_line(sheet))}.</p>{method}"
        f"{table(('Ingredient', 'Dry weight', 'Measure'), rows)}"
        f"<h2>Totals</h2>{table(('', 'Bag', 'One serving'), sums)}{remarks}"
        f"{'<h2>Cautions</h2>' if sheet.cautions else ''}{_for_the_pot(sheet)}"
    )


def _for_the_pot(sheet: MealSheet) -> str:
    """What a card on paper says of its cautions: every stop, all that matters at the pot, and how many more."""
    most = sum(c.severity != "stop" and c.moment == "pot" for c in sheet.cautions)
    return cautions_html(sheet.cautions, most, ON_CARD, "pot")


def shopping_page(plan: Plan, style: Style) -> str:
    """The shopping list, aisle by aisle, to be ticked off."""
    parts = [f"<h1>Shopping for {escape(plan.trip.name)}</h1>"]
    for aisle, rows in buy_rows(plan, style):
        cells = [(TICKED if row.buy.ticked else BOX, row.name, row.amount, row.note) for row in rows]
        stops = named_stops_html((row.name, row.buy.cautions) for row in rows)
        parts.append(f"<h2>{escape(aisle)}</h2>{table((), cells)}{stops}")
    if not plan.shopping:
        parts.append("<p>Nothing to buy.</p>")
    return "".join(parts)


def packing_page(plan: Plan, style: Style) -> str:
    """The packing list, day by day, with the stops of each bag by what goes into it."""
    parts = [f"<h1>Packing for {escape(plan.trip.name)}</h1>"]
    for day, bags in groupby(plan.bags, key=lambda b: b.day):
        parts.append(f"<h2>{long_day(day)}</h2>")
        for bag in bags:
            parts += [bag_html(bag, style), cautions_html(bag.cautions, 0, ON_CARD)]
    if not plan.bags:
        parts.append("<p>No meal is on any day yet.</p>")
    return "".join(parts)


def bag_html(bag: Bag, style: Style) -> str:
    """One bag: its label's line, then what goes into it and from where."""
    rows = [
        (
            BOX,
            part.name,
            "—" if part.grams is None else style.mass(part.grams),
            "" if part.ml is None else style.volume(part.ml),
            part.source,
        )
        for part in bag.parts
    ]
    pot = "do not eat" if bag.water is None else f"water {style.volume(bag.water.value)}. {bag.cooking}"
    return (
        f"<p><b>{escape(bag.slot.capitalize())}: {escape(bag.name)}</b> for {style.number(bag.servings)}; "
        f"{escape(pot)}.</p>{table((), rows)}"
    )


def hours_html(plan: Plan) -> str:
    """The hours a calendar is made for, and whether they are assumed."""
    assumed = "assumed: " if plan.hours.assumed else ""
    return f"<p class='small'>For the hours you keep ({assumed}{escape(hours_words(plan.hours))}).</p>"


def drying_page(plan: Plan, style: Style, kitchen: Kitchen) -> str:
    """The drying calendar, what each run takes, and what would help."""
    parts = [f"<h1>Drying for {escape(plan.trip.name)}</h1>"]
    short = plan.shortfall
    if short is not None:
        why = () if plan.calendar.runs else short.reasons
        parts.append(f"<p><b>{escape(short.first[0])}</b></p>")
        parts += [f"<p>{escape(line)}</p>" for line in (*why, *short.first[1:])]
    runs = run_rows(kitchen, plan, style)
    rows = [
        (
            BOX,
            run.when if n == 0 else "",
            (weekday_clock(run.latest) if run.latest != run.start else "") if n == 0 else "",
            run.where if n == 0 else "",
            load.name,
            load.amount,
            load.takes,
            load.after,
        )
        for run in runs
        for n, load in enumerate(run.loads)
    ]
    parts.append(hours_html(plan) if rows else "")
    head = ("", "On the dryer", "Start by", "Dryer", "Food", "Prepared", "Takes", "After")
    parts.append(table(head, rows) if rows else "" if plan.items else f"<p>{NO_LOADS}</p>")
    parts.append(named_stops_html((item.name, item.cautions) for item in plan.items))
    if plan.kwh is not None:
        parts.append(f"<p>Power at most {style.number(plan.kwh)} kWh.</p>")
    if short is not None and (short.lacking or plan.calendar.runs):
        missing = (*(short.reasons if plan.calendar.runs else ()), *short.lacking)
        parts.append("<h2>What cannot be ready</h2>" + "".join(f"<p>{escape(line)}</p>" for line in missing))
    if plan.remarks:
        parts.append("<h2>Notes</h2>" + "".join(f"<p>{escape(line)}</p>" for line in plan.remarks))
    return "".join(parts)
