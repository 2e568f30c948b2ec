"""The Journal: every batch, what each one tells, and the form that logs another."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtGui import QKeySequence, QShortcut, QTextDocument
from PySide6.QtWidgets import QWidget

from dryhouse.desk.list_place import ListPlace
from dryhouse.desk.places.batches.batch_panel import BatchPanel
from dryhouse.desk.places.batches.drafts import Drafts
from dryhouse.desk.places.batches.listing import BatchListing
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.desk.widgets.wrapping import headed
from dryhouse.kitchen.ports import Done, Record
from dryhouse.kitchen.records import Batch, BatchPart, Dryer, OwnFigure, OwnFood, Weighing

if TYPE_CHECKING:
    from dryhouse.desk.places.batches.dryers_page import DryersPage
    from dryhouse.desk.places.batches.form import LogForm

_SETTLE_MS = 80


class JournalPlace(ListPlace):
    """The list at the left, the chosen batch at the right; the form takes their place while logging."""

    watches = frozenset({Batch, BatchPart, Dryer, OwnFigure, OwnFood, Weighing})
    shortcuts = (
        ("Ctrl+N", "log a batch"),
        ("Ctrl+F", "find batches"),
        ("Ctrl+E", "change the chosen batch"),
        ("Del", "remove the chosen batch"),
        ("Ctrl+D", "dryers"),
    )

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.listing = BatchListing(session)
        self.panel = BatchPanel(session)
        self._form: LogForm | None = None
        self._dryers: DryersPage | None = None
        self._settle = QTimer(self, singleShot=True, interval=_SETTLE_MS)
        self._settle.timeout.connect(lambda: _show_chosen(self))
        self.empty_state = EmptyState(
            session.theme,
            "journal",
            "No batches yet",
            "When a batch comes off the dryer, write down what went in and what came out.",
            ("Log a batch", self.log),
        )
        self.log_button = button("&Log a batch", self.log, "primary", hint="Ctrl+N")
        self._build()
        self.listing.chosen.connect(lambda _id: self._settle.start())
        self.listing.opened.connect(self.edit)
        self.listing.counted.connect(self.count)
        self.panel.edit_asked.connect(self.edit)
        self.panel.delete_asked.connect(self.delete)
        for keys, act in (
            ("Ctrl+N", self.log),
            ("Ctrl+E", lambda: self.edit(self.listing.table.current_id)),
            ("Ctrl+D", self.show_dryers),
        ):
            QShortcut(QKeySequence(keys), self, act)
        QShortcut(QKeySequence("Del"), self.listing.table, self.delete)
        self.table_menu = TableMenu(session, self.listing.table, "Batches", lambda: chosen_acts(self))
        self._drafts = Drafts(session)
        session.drafts.watch(self, self._keep_draft)

    def _build(self) -> None:
        self.both = side_by_side(self.listing, self.panel, sizes=(620, 436), least=(360, 320))
        self.lists = QWidget()
        inside = column(self.lists, space=12)
        dryers = button("&Dryers", self.show_dryers, hint="Ctrl+D")
        inside.addLayout(headed("Journal", 1, dryers, self.log_button))
        inside.addWidget(self.listing.filter)
        inside.addWidget(self.both, 1)
        self.stack_pages()

    @property
    def form(self) -> LogForm:
        """The log form, made when first wanted."""
        if self._form is None:
            from dryhouse.desk.places.batches.form import LogForm

            self._form = LogForm(self.session)
            self._form.saved.connect(self._saved)
            self._form.left.connect(self._left_form)
            self._form.offer.taken.connect(self._go_on)
            self._form.offer.forgotten.connect(self._forget)
            self.pages.addWidget(self._form)
        return self._form

    @property
    def dryers(self) -> DryersPage:
        """The page of dryers, made when first wanted."""
        if self._dryers is None:
            from dryhouse.desk.places.batches.dryers_page import DryersPage

            self._dryers = DryersPage(self.session)
            self._dryers.left.connect(self.show_list)
            self.pages.addWidget(self._dryers)
        return self._dryers

    # --- the place --------------------------------------------------------------------------------------------

    def refresh(self) -> None:
        self.listing.refresh()
        self._settle.start()
        if self._dryers is not None and self.pages.currentWidget() is self._dryers:
            self._dryers.refresh()

    def note_change(self, done: Done[Record]) -> None:
        """What came back by undo is the batch she wants to see."""
        super().note_change(done)
        back = [c.after.id for c in done.changes if isinstance(c.after, Batch) and c.before is None]
        if len(back) == 1 and self.isVisible() and self.pages.currentWidget() is self.lists:
            self.listing.table.choose(back[0])

    def show_record(self, kind: str, id: int | str) -> None:
        if kind == "new":
            self.log()
        elif kind == "batch":
            self.show_list()
            self.listing.show_row(int(id))
            self.panel.show_batch(int(id))
        elif kind == "dryers":
            self.show_dryers()

    def printout(self) -> QTextDocument | None:
        batch, card = self.panel.batch, self.panel.card.card
        if batch is None or card is None:
            return None
        from dryhouse.desk.places.batches.page import batch_page

        return batch_page(self.session, batch, card)

    def leave(self) -> None:
        self._keep_draft()

    # --- acts ---------------------------------------------------------------------------------------------------

    def log(self) -> None:
        """Open the form for a new batch; one that was begun and left is offered above it."""
        if self.pages.currentWidget() is not self.form or self.form.editing is not None:
            self.form.new()
            self._offer_draft()
        self.pages.setCurrentWidget(self.form)
        self.form.entries.food.setFocus()

    def _offer_draft(self) -> None:
        from dryhouse.desk.places.batches.entries import described, from_text

        newest = self._drafts.newest
        self.form.offer.offer(described(self.session.kitchen, from_text(newest)) if newest else "")

    def _go_on(self) -> None:
        """Put the draft that was left into the form. What was typed in the meantime is kept in its place."""
        from dryhouse.desk.places.batches.entries import from_text

        newest = self._drafts.take()
        self._drafts.put(self._begun())
        self.form.new(from_text(newest))
        self.form.entries.food.setFocus()

    def _forget(self) -> None:
        self._drafts.take()
        self._drafts.save()
        self._offer_draft()
        self.form.entries.food.setFocus()

    def edit(self, id: int | None) -> None:
        """Open the form for a recorded batch."""
        batch = None if id is None else self.session.kitchen.journal.get(Batch, id)
        if batch is not None:
            self.form.edit(batch)
            self.pages.setCurrentWidget(self.form)
            self.form.entries.fields["fresh"].setFocus()

    def delete(self, *ids: int) -> None:
        """Remove these batches, or the chosen ones; the message offers to take it back."""
        from dryhouse.kitchen.batches.log import delete_batch

        ids = ids or tuple(self.listing.table.chosen_ids)
        if ids:
            self.session.act(delete_batch, *ids)

    def show_dryers(self) -> None:
        """The dryers of this kitchen."""
        self.dryers.refresh()
        self.pages.setCurrentWidget(self.dryers)
        (self.dryers.list if self.dryers.list.count() else self.dryers.fields["name"]).setFocus()

    # --- inside ---------------------------------------------------------------------------------------------------

    def _saved(self, id: int) -> None:
        self._drafts.save()
        self.show_list()
        self.listing.show_row(id)
        self.panel.show_batch(id)
        self.listing.table.setFocus()

    def _left_form(self) -> None:
        self._drafts.put(self._begun())
        self._drafts.save()
        self.show_list()

    def _keep_draft(self) -> None:
        """Remember a new batch that was begun, also across sittings; it goes on standing in the form."""
        self._drafts.save(self._begun())

    def _begun(self) -> str:
        """What stands in the form, where it is a new batch; else nothing."""
        from dryhouse.desk.places.batches.entries import to_text

        form = self._form
        begun = form is not None and self.pages.currentWidget() is form and form.editing is None
        return to_text(form.typed()) if form is not None and begun and not form.is_blank() else ""


def chosen_acts(place: JournalPlace) -> list[tuple[str, Callable[[], None]]]:
    """What can be done with the batches chosen in the list."""
    chosen = place.listing.table.chosen_ids
    if not chosen:
        return []
    if len(chosen) > 1:
        return [(f"&Remove {len(chosen)} batches\tDel", place.delete)]
    return [
        ("&Edit…\tCtrl+E", lambda: place.edit(chosen[0])),
        ("Drying c&hart", lambda: place.session.open("drying", "batch", chosen[0])),
        ("&Pack…", lambda: place.session.open("shelf", "batch", chosen[0])),
        ("&Remove\tDel", place.delete),
    ]


def _show_chosen(place: JournalPlace) -> None:
    """What is known of the chosen batch; where none fits the list has the whole width."""
    chosen = place.listing.table.current_id
    place.panel.setVisible(chosen is not None)
    place.panel.show_batch(chosen)
