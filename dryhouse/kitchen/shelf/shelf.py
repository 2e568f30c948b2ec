"""The shelf: what stands where, what is left, what is still good and what to use first."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from dryhouse.handbook.keeping_table import keeping_lines
from dryhouse.handbook.staples import STAPLE
from dryhouse.kitchen.calendar import end_of_day, start_of, today
from dryhouse.kitchen.cautions.cautions import cautions_for, facts_of_food, food_cautions, goes_by_its_date
from dryhouse.kitchen.cautions.forbidden import refuse_what_no_record_lifts
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.history import with_trip
from dryhouse.kitchen.shelf.lines import ShelfLine, in_order
from dryhouse.kitchen.shelf.status import Standing, forbidding, status_reasons
from dryhouse.science.errors import InputProblem
from dryhouse.science.keeping import life_at
from dryhouse.science.statuses import Status
from dryhouse.science.units import both_scales
from dryhouse.science.values import Basis, Caution, Figure, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step

GOOD = (Status.KEEPING, Status.USE_SOON)
"""The standings in which a lot may be planned for."""


def shelf(
    kitchen: Kitchen, on: date | None = None, *, gone: bool = False, book: ShelfBook | None = None
) -> tuple[ShelfLine, ...]:
    """Every lot on the shelf at the end of a day (today), gravest standing first, with what to use first.

    Lots that are used up or thrown out are left out unless asked for with `gone`.
    """
    book = book or ShelfBook.read(kitchen)
    day = on or today(kitchen)
    moment = end_of_day(kitchen, day)
    lines = [book.line(lot, day, moment) for lot in book.lots.values() if lot.packed_on <= day]
    if not gone:
        lines = [line for line in lines if line.standing not in (Status.USED_UP, Status.THROWN_OUT)]
    ordered = in_order(lines)
    good = sorted(
        (n for n, line in enumerate(ordered) if line.standing in GOOD), key=lambda n: ordered[n].keep_by or date.max
    )
    for rank, n in enumerate(good, start=1):
        ordered[n] = replace(ordered[n], first=rank)
    return tuple(ordered)


def standing_on(
    kitchen: Kitchen,
    lot: Lot,
    on: date,
    *,
    leaves: date | None = None,
    temperature_c: float | None = None,
    book: ShelfBook | None = None,
) -> tuple[Standing, date | None]:
    """The standing of a lot on a day and its keep-by, if it travels from `leaves` on at `temperature_c`.

    Without `leaves` it stays where it is. With `leaves` and no temperature nothing is known of the way, and
    the lot is one to check first. Pass a `book` where many lots are asked about.
    """
    book = book or ShelfBook.read(kitchen, lot.id)
    moment = end_of_day(kitchen, on)
    keep_by, missing = book.keep_by(lot)
    if leaves is not None and leaves <= on and not goes_by_its_date(lot):
        history = with_trip(book.history(lot), start_of(kitchen, leaves), temperature_c)
        keep_by, missing = book.kept_through(lot, history)
    warmth = book.temperature_at(book.place_at(lot.id, moment), moment)
    if leaves is not None and leaves <= on:
        warmth = temperature_c
    found = book.standing(lot, on, warmth, keep_by, missing)
    return found, None if found.name == Status.DO_NOT_EAT else keep_by


def keep_by_figure(
    kitchen: Kitchen, lot: Lot, moment: datetime | None = None, *, book: ShelfBook | None = None
) -> Figure | None:
    """Days left of a lot's life at a moment, with a line of arithmetic for each stretch of its history.

    None where a temperature, a place or a published life is missing, where it is not to be eaten, and for bought
    food still closed, whose date is printed on its package.
    """
    book = book or ShelfBook.read(kitchen, lot.id)
    at = moment or kitchen.now()
    chosen = book.lines(lot)
    silent = goes_by_its_date(lot) or bool(forbidding(status_reasons(book.facts(lot, at))))
    figure = None if silent else book.keeping(lot, at).left(at)
    if figure is None:
        return None
    supposed = tuple(Basis("assumption", s) for s in chosen.supposed)
    return replace(figure, basis=merge_bases(supposed, figure.basis)).with_cautions(
        cautions_for(book.facts(lot, at))
    )


class NothingPublished(InputProblem):
    """There is no keeping time to tell. The food's cautions are said all the same."""

    def __init__(self, sentence: str, cautions: tuple[Caution, ...]) -> None:
        super().__init__(sentence)
        self.cautions = cautions


def keeps(kitchen: Kitchen, text: str, celsius: float, package: str = "jar") -> Figure:
    """How many days a dried food keeps at one temperature in a closed package.

    Raises InputProblem where the food is not known or nothing is published of it, and NothingPublished, with its
    cautions, where nothing is published at this temperature: a missing figure stays missing.
    """
    known = food(kitchen, text)
    cautions = food_cautions(kitchen, known)
    if STAPLE not in known.traits:
        refuse_what_no_record_lifts(known.name, cautions)
    chosen = keeping_lines(known.slug, facts_of_food(known))
    life = life_at(chosen.lines, celsius)
    if life is None and STAPLE in known.traits:
        said = (
            f"No keeping time is published here for {known.name}, which is bought: go by the date on its package."
        )
        raise NothingPublished(said, cautions)
    if life is None and not chosen.lines:
        raise InputProblem(
            f"No keeping time is published for {known.name} dried at home; its cautions say what is."
        )
    if life is None:
        said = f"No keeping time is published for {known.name} dried at home at {both_scales(celsius)}"
        raise NothingPublished(f"{said}: refrigerate or freeze it.", food_cautions(kitchen, known))
    if package == "open container":
        raise InputProblem(
            "Published keeping times are for airtight packages; for an open container there is none.", "package"
        )
    supposed = tuple(Basis("assumption", s) for s in chosen.supposed)
    notes = tuple(step(Kind.KEEPING_RULE, fact, rule=fact.note) for fact in life.facts if fact.note)
    return Figure(
        life.days,
        "day",
        basis=merge_bases(supposed, (fact.basis for fact in life.facts)),
        workings=(
            *(step(Kind.SUPPOSED, what=s) for s in chosen.supposed),
            *notes,
            life.how,
            step(Kind.IN_PACKAGE, (life.days, "day"), temperature=(celsius, "degC"), package=package),
            step(Kind.NO_SPREAD),
        ),
        cautions=cautions,
    )
