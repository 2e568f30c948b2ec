"""Meals and trips on paper and on the clipboard: simple pages in black on white."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from itertools import groupby

from dryhouse.desk.cautions import cautions_html, more_words
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.sheet import MealSheet, Sums, cooking_line
from dryhouse.kitchen.trips.household import hours_words
from dryhouse.kitchen.trips.lists import Bag
from dryhouse.kitchen.trips.plan_rows import BuyRow, buy_rows, run_rows
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.science.display import Style
from dryhouse.science.values import Caution, Figure
from dryhouse.words.cooking_ways import about_if
from dryhouse.words.dates import long_day, weekday_clock
from dryhouse.words.sums import at_least_title, bracketed
from dryhouse.words.trip_plans import NO_LOADS

BOX, TICKED = "☐", "☑"
ON_CARD = "in Dryhouse"
"""Where the cautions stand that a list only counts."""


def table(head: Sequence[str], rows: Iterable[Sequence[str]], widths: Sequence[int] = ()) -> str:
    """A table of plain text; `widths`, in percent of the page, where tables below each other are to line up."""

    def line(tag: str, cells: Sequence[str]) -> str:
        shares = [f" width='{share}%'" for share in widths] or [""] * len(cells)
        each = zip(cells, shares, strict=True)
        return f"<tr>{''.join(f'<{tag}{share}>{escape(cell)}</{tag}>' for cell, share in each)}</tr>"

    top = line("th", head) if head else ""
    return f"<table{' width=100%' if widths else ''}>{top}{''.join(line('td', row) for row in rows)}</table>"


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


def _sum(title: str, bag: Sums) -> str:
    """`Energy, at least (not known for nori)` where it leaves something out."""
    name = title.casefold().replace(" ", "_")
    lacks = () if getattr(bag, name) is None else bag.without(name)
    return f"{at_least_title(title, lacks)}{bracketed(lacks)}"


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
        (_sum("Energy", bag), shown(style, bag.energy), shown(style, one.energy)),
        (_sum("Energy per gram", bag), shown(style, bag.energy_per_gram), ""),
        (_sum("Protein", bag), shown(style, bag.protein), shown(style, one.protein)),
        (_sum("Fat", bag), shown(style, bag.fat), shown(style, one.fat)),
        (_sum("Carbohydrate", bag), shown(style, bag.carbohydrate), shown(style, one.carbohydrate)),
        (_sum("Sodium", bag), shown(style, bag.sodium), shown(style, one.sodium)),
    ]
    poured = about_if(shown(style, bag.water), bool(sheet.to_dry))
    water = f"<b>Water {escape(poured)}</b>. " if sheet.needs_water else ""
    if sheet.unweighed:
        water = f"<b>Water not known: {escape(sheet.weigh)}</b>. "
    method = f"<p>{escape(meal.method)}</p>" if meal.method else ""
    remarks = "".join(f"<p>{escape(remark)}</p>" for remark in sheet.remarks)
    count = style.number(sheet.servings)
    servings = f"{count} serving{'' if count == '1' else 's'}"
    head = f"<h1>{escape(meal.name)}</h1><p>{servings}; {escape(meal.cooking)}, {escape(meal.liquid)}</p>"
    cautions = f"{'<h2>Cautions</h2>' if sheet.cautions else ''}{_for_the_pot(sheet)}"
    if not sheet.parts:
        return f"{head}<p>No ingredients yet.</p>{method}{cautions}"
    return (
        f"{head}"
        f"<p>{water}{escape(cooking_line(sheet))}.</p>{method}"
        f"{table(('Ingredient', 'Dry weight', 'Measure'), rows)}"
        f"<h2>Totals</h2>{table(('', 'Bag', 'One serving'), sums)}{remarks}"
        f"{cautions}"
    )


def _for_the_pot(sheet: MealSheet) -> str:
    """What a card on paper says of its cautions: every stop, all that matters at the pot, and how many more."""
    most = sum(c.severity != "stop" and c.moment == "pot" for c in sheet.cautions)
    return cautions_html(sheet.cautions, most, ON_CARD, "pot")


def shopping_page(plan: Plan, style: Style) -> str:
    """The shopping list, aisle by aisle, to be ticked off."""
    parts = [f"<h1>Shopping for {escape(plan.trip.name)}</h1>"]
    for aisle, rows in buy_rows(plan, style):
        stops = named_stops_html((row.name, row.buy.cautions) for row in rows)
        parts.append(f"<h2>{escape(aisle)}</h2>{table((), map(buy_cells, rows))}{stops}")
    if not plan.shopping:
        parts.append("<p>Nothing to buy.</p>")
    return "".join(parts)


def buy_cells(row: BuyRow) -> tuple[str, ...]:
    """A line of the shopping list: its box, what and how much, and what the shop is asked for."""
    return (TICKED if row.buy.ticked else BOX, row.name, row.amount, row.note)


def packing_page(plan: Plan, style: Style) -> str:
    """The packing list, day by day, with the stops of each bag by what goes into it."""
    parts = [f"<h1>Packing for {escape(plan.trip.name)}</h1>{waits_for_records(plan)}"]
    for day, bags in groupby(plan.bags, key=lambda b: b.day):
        parts.append(f"<h2>{long_day(day)}</h2>")
        for bag in bags:
            parts += [bag_html(bag, style), cautions_html(bag.cautions, 0, ON_CARD)]
    if not plan.bags:
        parts.append("<p>No meal is on any day yet.</p>")
    return "".join(parts)


TO_BE_DRIED = "“Do not eat” marks food still to be dried: print this again once its heating is recorded."


def waits_for_records(plan: Plan) -> str:
    """Why some bags say neither water nor minutes yet; empty where none waits."""
    waits = any(bag.forbidden and any("to be dried" in part.source for part in bag.parts) for bag in plan.bags)
    return f"<p>{TO_BE_DRIED}</p>" if waits else ""


def bag_html(bag: Bag, style: Style, widths: Sequence[int] = (), when: str = "") -> str:
    """One bag: its label's line, then what goes into it and from where; `when` it is eaten, where no day stands
    above it."""
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
    lacking = f"{bag.to_weigh}. " if bag.to_weigh else ""
    water = lacking if bag.water is None else f"water {style.figure(bag.water)}. "
    pot = "do not eat" if bag.forbidden else f"{water}{bag.cooking}"
    inside = "".join(f"<br>{escape(line)}" for line in bag.inside)
    name = f"{f'{when} {bag.slot}' if when else bag.slot.capitalize()}: {bag.name}"
    return (
        f"<p><b>{escape(name)}</b> for {style.number(bag.servings)}; "
        f"{escape(pot.rstrip('.'))}.<span class='small'>{inside}</span></p>{table((), rows, widths)}"
    )


def hours_html(plan: Plan) -> str:
    """The hours a calendar is made for, and whether they are assumed."""
    assumed = "assumed: " if plan.hours.assumed else ""
    return f"<p class='small'>For the hours you keep ({assumed}{escape(hours_words(plan.hours))}).</p>"


DRYING_HEAD = ("", "On the dryer", "Start by", "Dryer", "Food", "Prepared", "Takes", "After")


def drying_cells(plan: Plan, style: Style, kitchen: Kitchen) -> list[tuple[str, ...]]:
    """The lines of the drying calendar; what runs together says its time and dryer once."""
    return [
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
        for run in run_rows(kitchen, plan, style)
        for n, load in enumerate(run.loads)
    ]


def drying_page(plan: Plan, style: Style, kitchen: Kitchen) -> str:
    """The drying calendar, what each run takes, and what would help."""
    parts = [f"<h1>Drying for {escape(plan.trip.name)}</h1>"]
    short = plan.shortfall
    if short is not None:
        why = () if plan.calendar.runs else short.reasons
        parts.append(f"<p><b>{escape(short.first[0])}</b></p>")
        parts += [f"<p>{escape(line)}</p>" for line in (*why, *short.first[1:])]
    rows = drying_cells(plan, style, kitchen)
    parts.append(hours_html(plan) if rows else "")
    parts.append(table(DRYING_HEAD, rows) if rows else "" if plan.items else f"<p>{NO_LOADS}</p>")
    parts.append(named_stops_html((item.name, item.cautions) for item in plan.items))
    if plan.kwh is not None:
        parts.append(f"<p>Power at most {style.number(plan.kwh, 0)} kWh.</p>")
    if short is not None and (short.lacking or plan.calendar.runs):
        missing = (*(short.reasons if plan.calendar.runs else ()), *short.lacking)
        parts.append("<h2>What cannot be ready</h2>" + "".join(f"<p>{escape(line)}</p>" for line in missing))
    if plan.remarks:
        parts.append("<h2>Notes</h2>" + "".join(f"<p>{escape(line)}</p>" for line in plan.remarks))
    return "".join(parts)
