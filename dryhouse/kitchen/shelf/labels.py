"""What goes on a label: words only. How they are laid out on paper is the desk's business."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from dryhouse.handbook.rehydration_table import published_water
from dryhouse.handbook.safety_table import short_text
from dryhouse.handbook.staples import staples
from dryhouse.kitchen.calendar import day_of, end_of_day, today
from dryhouse.kitchen.cautions.cautions import cautions_for, goes_by_its_date, is_bought
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.shelved import pantry_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, Lot
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.kitchen.shelf.portions import portion_of
from dryhouse.kitchen.shelf.remaining import amount_words
from dryhouse.kitchen.yields.jar_water import batch_of, staple_water, takes_up
from dryhouse.science.display import Style, duration
from dryhouse.science.statuses import Status
from dryhouse.science.values import Caution, Figure, Moment, gravest_first
from dryhouse.science.workings import Step, Workings
from dryhouse.words.dates import day_words

ALWAYS = ("heat-to-165", "danger-zone", "risk-people")
"""Of food that must be heated through, these stand on every label, in this order, however small it is."""


@dataclass(frozen=True, slots=True)
class Label:
    """One label: a title, a few lines, and its cautions. For a jar as well as for a meal's bag."""

    title: str
    lines: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    moment: Moment = "now"
    """What it is read for: a jar now, a bag for the pot."""

    @property
    def stops(self) -> tuple[str, ...]:
        """The short words of every stop: these are always printed."""
        return _short(c for c in gravest_first(self.cautions) if c.severity == "stop")

    @property
    def musts(self) -> tuple[str, ...]:
        """The short words of what is always printed under the lines, of food that must be heated through."""
        by_rule = {c.rule: c for c in self.cautions if c.severity != "stop"}
        return _short(by_rule[rule] for rule in ALWAYS if rule in by_rule) if ALWAYS[0] in by_rule else ()

    @property
    def others(self) -> tuple[str, ...]:
        """The short words of the other cautions, those of its moment first: printed while there is room."""
        said = {*self.stops, *self.musts}
        rest = sorted(
            (c for c in gravest_first(self.cautions) if c.severity != "stop"),
            key=lambda c: c.moment != self.moment,
        )
        return tuple(short for short in _short(rest) if short not in said)


def _short(cautions: Iterable[Caution]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(short_text(c) for c in cautions))


def lot_labels(kitchen: Kitchen, lots: Sequence[int], style: Style) -> tuple[Label, ...]:
    """A label for each of these lots, in the order given; lots that are gone are left out."""
    book = ShelfBook.read(kitchen)
    return tuple(_lot_label(kitchen, book, book.lots[id], style) for id in lots if id in book.lots)


def lot_workings(kitchen: Kitchen, lots: Sequence[int]) -> Workings:
    """How keep-by and water of these lots were worked out; nothing of what must not be eaten."""
    book, on = ShelfBook.read(kitchen), today(kitchen)
    moment = end_of_day(kitchen, on)
    steps: list[Step] = []
    for line in (book.line(book.lots[id], on, moment) for id in lots if id in book.lots):
        if line.standing != Status.DO_NOT_EAT:
            water = lot_water(kitchen, line)
            steps += [*book.keeping(line.lot, moment).workings, *(water.workings if water else ())]
    return tuple(steps)


def _lot_label(kitchen: Kitchen, book: ShelfBook, lot: Lot, style: Style) -> Label:
    on = today(kitchen)
    moment = end_of_day(kitchen, on)
    line = book.line(lot, on, moment)
    forbidden = line.standing == Status.DO_NOT_EAT
    portion = portion_of(kitchen, lot, line.mass_left_g)
    amount = amount_words(line.mass_left_g, line.volume_left_ml, style)
    if portion is not None:
        amount = portion.sentence(style, forbidden=forbidden)
    lines = [f"{_origin(kitchen, lot)} · lot {lot.id}", amount]
    if not forbidden:
        lines += [_keep_by(line), _water(kitchen, line, style) if portion is None else ""]
    cautions = cautions_for(book.facts(lot, moment))
    stops = [short_text(c) for c in cautions if c.severity == "stop"]
    if line.standing == Status.CHECK_FIRST and not any(stop in line.reason for stop in stops):
        lines.append(f"Check first: {line.reason}")
    return Label(line.title, tuple(text for text in lines if text), cautions)


def _origin(kitchen: Kitchen, lot: Lot) -> str:
    batch = kitchen.journal.get(Batch, lot.batch) if lot.batch is not None else None
    if batch is not None and batch.ended is not None:
        return f"Dried {day_words(day_of(kitchen, batch.ended))}"
    return f"{'Bought' if is_bought(lot) else 'Packed'} {day_words(lot.packed_on)}"


def _keep_by(line: ShelfLine) -> str:
    if line.keep_by is None:
        return "Keep-by not known"
    where = f" in the {line.place}" if line.place and not goes_by_its_date(line.lot) else ""
    return f"Keep-by {line.keeps_until}{where}"


def lot_water(kitchen: Kitchen, line: ShelfLine) -> Figure | None:
    """The water that brings back what is left of a lot; None where its mass or its water is not known, and for what
    is not to be eaten."""
    if not line.mass_left_g or line.standing == Status.DO_NOT_EAT:
        return None
    if pantry_food(kitchen, line.lot) is not None:
        return staple_water(staples()[line.lot.food], line.mass_left_g)
    return takes_up(kitchen, food(kitchen, line.lot.food), batch_of(kitchen, line.lot)).water(line.mass_left_g)


def _water(kitchen: Kitchen, line: ShelfLine, style: Style) -> str:
    """Water that brings it back, and how long it soaks; nothing where that is not known."""
    figure = lot_water(kitchen, line)
    if figure is None:
        return ""
    if pantry_food(kitchen, line.lot) is not None:
        return f"Water {style.volume(figure.value)}"
    soaks = [row.soak_hours_low for row in published_water(line.lot.food) if row.soak_hours_low]
    soak = f", soak at least {duration(max(soaks) * 3600)}" if soaks else ""
    return f"Water {style.volume(figure.value)}{soak}"
