"""The list of batches: its columns, and the line and choices that narrow it."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from dryhouse.desk.models.paged import Column
from dryhouse.desk.places.batches.not_to_eat import NotToEat
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.choices import ANY, choice_box, offer
from dryhouse.desk.widgets.filter_bar import FilterBar
from dryhouse.desk.widgets.narrowed_list import NarrowedList
from dryhouse.desk.widgets.paged_table import PagedTable
from dryhouse.desk.widgets.status_delegate import StatusDelegate
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.ports import BatchQuery, BatchRow
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.batches import BATCH_STATES, FINISHED
from dryhouse.kitchen.search_days import days_in
from dryhouse.science.display import duration
from dryhouse.science.statuses import Status
from dryhouse.words.dates import day_words
from dryhouse.words.names import capital

_LOOK_AHEAD = 50
_FOOD = 1
DO_NOT_EAT = capital(Status.DO_NOT_EAT)


class BatchListing(NarrowedList):
    """The batches of the journal, narrowed by dryer, time and state."""

    def __init__(self, session: Session) -> None:
        super().__init__(session, sort="started", descending=True)
        self.dryer, self.period, self.state = boxes = choice_box("Dryer"), choice_box("When"), choice_box("Status")
        self.build(
            PagedTable("Batches", self._columns(), session.kitchen.journal.batch_rows, _number),
            FilterBar("Find batches", "corn 2025", *boxes, by="food, cut, notes, dryer or date"),
            boxes,
            picture="journal",
            none_fits="No batch found",
        )
        self.not_to_eat = NotToEat(session, self.table.rows.forget, self.table)
        self.table.setItemDelegateForColumn(_FOOD, StatusDelegate(session, self.table, DO_NOT_EAT))
        session.theme.changed.connect(self.table.viewport().update)

    # --- reading ---------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Read the choices and the list again."""
        journal = self.session.kitchen.journal
        self.not_to_eat.forget()
        offer(
            self.dryer, [("Any dryer", ANY), *((d.name, d.id) for d in dryers(self.session.kitchen, retired=True))]
        )
        oldest = journal.batch_ids(BatchQuery(descending=False))
        first = journal.get(Batch, oldest[0]) if len(oldest) else None
        offer(self.period, [("Any time", ANY), *self._periods(first)])
        offer(self.state, [("Any status", ANY), *((s.capitalize(), s) for s in BATCH_STATES)])
        first_time = self.table.current_id is None
        self.list_again(same_list=True)
        if first_time:
            self._choose_past_plans()

    def _choose_past_plans(self) -> None:
        """What was last dried is of more interest than what is planned."""
        rows = self.table.rows
        for line in range(min(len(rows.ids), _LOOK_AHEAD)):
            row = rows.row_at(line)
            if row is not None and row.batch.state == FINISHED:
                self.table.choose(row.batch.id)
                return

    def list_again(self, *, same_list: bool = False) -> None:
        """Read which batches the filter leaves."""
        ids = self.session.kitchen.journal.batch_ids(self.query())
        self.table.set_ids(ids, same_list=same_list)
        self.pages.show_fitting(bool(len(ids)))
        number = f"{len(ids):,}".replace(",", " ")
        self.count.setText(f"{number} {'batch' if len(ids) == 1 else 'batches'}")
        self.counted.emit(len(ids), self.query() != BatchQuery(sort=self._sort, descending=self._descending))

    def query(self) -> BatchQuery:
        """What the filter asks for."""
        since, until = self.period.currentData() or (None, None)
        text, first, after = days_in(self.filter.text())
        if first is not None and after is not None:
            since, until = self._midnight(first), self._midnight(after)
        state = self.state.currentData()
        return BatchQuery(
            text=text,
            dryer=self.dryer.currentData() or None,
            states=(state,) if state else (),
            since=since,
            until=until,
            sort=self._sort,
            descending=self._descending,
        )

    # --- inside ----------------------------------------------------------------------------------------

    def _periods(self, first: Batch | None) -> list[tuple[str, Any]]:
        kitchen = self.session.kitchen
        now = kitchen.now()
        this_year = kitchen.local(now).year
        oldest = kitchen.local(first.started).year if first and first.started else this_year
        months = (now - timedelta(days=30), None)
        return [
            ("Last 30 days", months),
            *(
                (str(y), (self._midnight(date(y, 1, 1)), self._midnight(date(y + 1, 1, 1))))
                for y in range(this_year, oldest - 1, -1)
            ),
        ]

    def _midnight(self, day: date) -> datetime:
        zone = self.session.kitchen.zone
        here = datetime.combine(day, time(), zone) if zone else datetime.combine(day, time()).astimezone()
        return here.astimezone(UTC)

    def _columns(self) -> tuple[Column, ...]:
        session = self.session

        def shown(quantity: Any) -> str:
            return session.style.show(quantity, "")

        return (
            Column("Started", self._started, "started", width=132),
            Column("Food", self._food, "food", width=220, stretch=True),
            Column("Dryer", lambda r: r.dryer_name, "dryer", width=104, spare=3),
            Column("Loaded", lambda r: shown(r.batch.prepared_mass), "fresh", right=True, width=100, spare=2),
            Column("Dried", lambda r: shown(r.batch.dried_mass), "dried", right=True, width=86),
            Column("Yield", self._yield, "yield", right=True, width=64, spare=1),
            Column("Drying time", self._took, right=True, width=104, usual=False),
            Column("Heat", lambda r: shown(r.batch.set_temperature), right=True, width=76, usual=False),
            Column("Trays", lambda r: str(r.batch.trays or ""), right=True, width=64, usual=False),
            Column("Rating", lambda r: f"{r.batch.rating} of 5" if r.batch.rating else "", width=80, usual=False),
        )

    def _started(self, row: BatchRow) -> str:
        if row.batch.started is None and row.batch.ended is not None:
            return f"by {day_words(self.session.kitchen.local(row.batch.ended))}"
        return day_words(self.session.kitchen.local(row.batch.started)) if row.batch.started is not None else ""

    def _food(self, row: BatchRow) -> str:
        batch = row.batch
        name = capital(batch_name(self.session.kitchen, batch))
        more = ", ".join(part for part in (batch.form, "" if batch.state == FINISHED else batch.state) if part)
        said = f"{name} ({more})" if more else name
        return f"{DO_NOT_EAT}: {said}" if self.not_to_eat.of(batch) else said

    def _took(self, row: BatchRow) -> str:
        started, ended = row.batch.started, row.batch.ended
        return duration((ended - started).total_seconds()) if started and ended else ""

    def _yield(self, row: BatchRow) -> str:
        loaded, dried = row.batch.prepared_mass, row.batch.dried_mass
        return self.session.style.percent(100 * dried.si / loaded.si, 0) if loaded and dried and loaded.si else ""


def _number(row: BatchRow) -> int:
    return row.batch.id
