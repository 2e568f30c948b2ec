"""The list of lots: its columns, the line and choices that narrow it, and the order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from dryhouse.desk.models.paged import Column
from dryhouse.desk.places.shelf.state import ShelfState
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.choices import ANY, choice_box, offer
from dryhouse.desk.widgets.filter_bar import FilterBar
from dryhouse.desk.widgets.narrowed_list import NarrowedList
from dryhouse.desk.widgets.paged_table import PagedTable
from dryhouse.desk.widgets.status_delegate import StatusDelegate
from dryhouse.kitchen.search_days import days_in
from dryhouse.kitchen.search_words import split_words
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.science.statuses import Status
from dryhouse.words.dates import day_words

_STANDING_COLUMN = 1
_FAR = date.max


class LotListing(NarrowedList):
    """The lots of the shelf, narrowed by status and place."""

    def __init__(self, session: Session, state: ShelfState) -> None:
        super().__init__(session, sort="standing")
        self.state = state
        self.standing, self.place = boxes = choice_box("Status"), choice_box("Place")
        self.build(
            PagedTable("Lots", self._columns(), self._fetch, lambda line: line.lot.id),
            FilterBar("Find lots", "apple cellar", *boxes, by="food, name, place, notes or date"),
            boxes,
            picture="shelf",
            none_fits="No lot fits",
        )
        self.table.setItemDelegateForColumn(_STANDING_COLUMN, StatusDelegate(session, self.table))
        session.theme.changed.connect(self.table.viewport().update)

    def selected(self) -> list[int]:
        """The numbers of the chosen lots: one, or many chosen with Shift or Ctrl."""
        return self.table.chosen_ids

    def refresh(self) -> None:
        """Offer the choices and list again."""
        standings = [s for s in Status if self.state.gone or s not in (Status.THROWN_OUT, Status.USED_UP)]
        offer(self.standing, [("Any status", ANY), *((s.capitalize(), s.value) for s in standings)])
        names = sorted({p.name for p in self.state.book.places.values()}, key=str.casefold)
        offer(self.place, [("Any place", ANY), *((n[:1].upper() + n[1:], n) for n in names)])
        self.list_again()

    def list_again(self) -> None:
        """List what the filter leaves, in the chosen order."""
        lines = self.state.lines()
        left = self._left(lines.values())
        key = _KEYS[self._sort]
        if self._sort != "standing":
            left.sort(key=lambda line: (*key(line), line.lot.id), reverse=self._descending)
        elif self._descending:
            left.reverse()
        self.table.set_ids([line.lot.id for line in left])
        self.pages.show_fitting(bool(left) or not self._narrowed())
        self.count.setText(f"{len(left)} {'lot' if len(left) == 1 else 'lots'}")
        self.counted.emit(len(left), (bool(lines) and len(left) < len(lines)) or self._narrowed())

    # --- inside ----------------------------------------------------------------------------------------

    def _narrowed(self) -> bool:
        return bool(self.filter.text() or self.standing.currentData() or self.place.currentData())

    def _left(self, lines: Iterable[ShelfLine]) -> list[ShelfLine]:
        """What the filter leaves, in the order given."""
        standing, place = self.standing.currentData(), self.place.currentData()
        text, first, after = days_in(self.filter.text())
        wanted = split_words(text)
        return [
            line
            for line in lines
            if (not standing or line.standing == standing)
            and (not place or line.place == place)
            and (first is None or after is None or first <= line.lot.packed_on < after)
            and (not wanted or self._told(line, wanted))
        ]

    def _told(self, line: ShelfLine, wanted: list[str]) -> bool:
        """Whether each of the words begins one of the lot's."""
        lot = line.lot
        known = self.state.book.food_of(lot)
        names = " ".join(known.other_names) if known is not None else ""
        held = f"{line.title} {line.food_name} {names} {line.place} {lot.package} {lot.notes} {lot.id}"
        known_as = split_words(held)
        return all(any(word.startswith(start) for word in known_as) for start in wanted)

    def _fetch(self, ids: Sequence[int]) -> list[ShelfLine]:
        lines = self.state.lines()
        return [lines[id] for id in ids if id in lines]

    def _columns(self) -> tuple[Column, ...]:
        return (
            Column("Food", lot_name, "food", width=204, stretch=True),
            Column("Status", lambda line: line.standing.capitalize(), "standing", width=128),
            Column("Keep-by", _keep_by, "keep_by", width=124),
            Column("Use", self._first, "keep_by", right=True, width=60, spare=3),
            Column("Left", self._mass, "mass", right=True, width=76, spare=1),
            Column("Volume", self._measure, right=True, width=100, spare=4),
            Column("Place", lambda line: line.place or "not recorded", "place", width=116, spare=2),
        )

    def _first(self, line: ShelfLine) -> str:
        return "" if line.first is None else "first" if line.first == 1 else f"{line.first}."

    def _mass(self, line: ShelfLine) -> str:
        return "—" if line.mass_left_g is None else self.session.style.mass(line.mass_left_g)

    def _measure(self, line: ShelfLine) -> str:
        return "" if line.volume_left_ml is None else self.session.style.volume(line.volume_left_ml)


def _keep_by(line: ShelfLine) -> str:
    """`20 May 2027`, with a plus where it keeps at least so long."""
    return "—" if line.keep_by is None else day_words(line.keep_by) + ("+" if line.at_least else "")


def lot_name(line: ShelfLine) -> str:
    """What the shelf calls a lot: its number, and its name or its food's."""
    return f"{line.lot.id} · {line.title}"


_KEYS: dict[str, Any] = {
    "standing": lambda line: (),
    "food": lambda line: (line.title.casefold(),),
    "keep_by": lambda line: (line.keep_by or _FAR,),
    "mass": lambda line: (line.mass_left_g is None, line.mass_left_g or 0.0),
    "place": lambda line: (line.place.casefold(), line.keep_by or _FAR),
}
