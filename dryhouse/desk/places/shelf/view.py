"""The Shelf: lots by standing and keep-by, what is left, what to use first, and what is done with them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeySequence, QShortcut, QTextDocument
from PySide6.QtWidgets import QWidget

from dryhouse.desk.list_place import ListPlace
from dryhouse.desk.places.shelf.acts import ActForm
from dryhouse.desk.places.shelf.day_bar import DayBar
from dryhouse.desk.places.shelf.listing import LotListing, lot_name
from dryhouse.desk.places.shelf.lot_panel import ACTS, RUN, LotPanel
from dryhouse.desk.places.shelf.state import state_of
from dryhouse.desk.places.shelf.timeline import Timeline, TimelineAhead
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages, button, calling, column, text_label
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.widgets.paged_table import choose_also
from dryhouse.desk.widgets.table_menu import TableMenu
from dryhouse.desk.widgets.wrapping import Wrapping, headed
from dryhouse.kitchen.records import (
    Batch,
    BatchPart,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    OwnFigure,
    OwnFood,
    Place,
    PlaceTemperature,
    Trip,
)
from dryhouse.kitchen.shelf.conditioning import conditioning_words, end_conditioning, start_conditioning
from dryhouse.kitchen.shelf.lots import remove_lot

if TYPE_CHECKING:
    from dryhouse.desk.labels.page import LabelsPage
    from dryhouse.desk.places.shelf.bought_form import BoughtForm
    from dryhouse.desk.places.shelf.pack_form import PackForm
    from dryhouse.desk.places.shelf.places_page import PlacesPage

_SETTLE_MS = 40
_MANY = frozenset({"move", "throw_out", "labels"})
"""What can be done with many lots at once."""


class ShelfPlace(ListPlace):
    """The list at the left, the chosen lot or a form at the right; or the picture along time in their place."""

    watches = frozenset(
        {Lot, LotMove, LotDraw, LotCheck, Place, PlaceTemperature, Batch, BatchPart, OwnFood, OwnFigure, Trip}
    )
    shortcuts = (
        ("Ctrl+N", "pack a batch"),
        ("Ctrl+F", "find lots"),
        ("Ctrl+Shift+T", "the timeline"),
        ("Ctrl+G", "show the shelf on a day"),
        ("Ctrl+L", "labels for the chosen lots"),
        *((key, f"in the list: {text.strip(' …').replace('&', '').lower()}") for _act, text, key in ACTS),
        (RUN[1], "in the list: conditioning begins today, or ends today"),
    )

    def __init__(self, session: Session) -> None:
        state = state_of(session)  # before the place itself: the book takes an act in before anything asks it
        super().__init__(session)
        self.state = state
        self.listing = LotListing(session, self.state)
        self.panel = LotPanel(session, self.state, self.ask)
        self.form = ActForm(session)
        self.day = DayBar(session, state)
        self.today_said = text_label("")
        """What conditioning asks for today; hidden where it asks for nothing."""
        self._timeline: Timeline | None = None
        self._ahead = TimelineAhead(session, state, self)
        self._pack: PackForm | None = None
        self._bought: BoughtForm | None = None
        self._places: PlacesPage | None = None
        self._labels: LabelsPage | None = None
        self._asked_places: PackForm | BoughtForm | None = None
        self._settle = QTimer(self, singleShot=True, interval=_SETTLE_MS)
        self._settle.timeout.connect(self._show_chosen)
        self._settle.timeout.connect(self._ahead.begin)
        self.empty_state = EmptyState(
            session.theme,
            "shelf",
            "Nothing on the shelf yet",
            "Pack a finished batch into jars and bags, or add dried food you bought.",
            ("Pack a batch", self.pack),
            ("Add bought food", self.shelve),
            ("Places", self.show_places),
        )
        self.nothing_to_pack = EmptyState(
            session.theme,
            "shelf",
            "Nothing to pack yet",
            "Every finished batch is packed, or none is finished. Log one when it comes off the dryer.",
            ("Log a batch", lambda: session.open("journal", "new")),
            ("Back to the shelf", self.show_list),
        )
        self._build()
        self._connect()

    def _build(self) -> None:
        self.pack_button = button("&Pack a batch", self.pack, "primary", hint="Ctrl+N")
        self.time_button = button("T&imeline", self.toggle_timeline, hint="Ctrl+Shift+T")
        self.time_button.setCheckable(True)
        head = headed(
            "Shelf", 1,
            button("Pl&aces", self.show_places), button("Add bo&ught food", self.shelve),
            self.time_button, self.pack_button,
        )  # fmt: skip
        self.beside = Pages()
        for page in (self.panel, self.form):
            self.beside.addWidget(page)
        self.both = side_by_side(self.listing, self.beside, sizes=(688, 366), least=(400, 330))
        self.beside.currentChanged.connect(
            lambda _page: self.both.give_way(self.beside.currentWidget() is self.form)
        )
        self.lists = QWidget()
        inside = column(self.lists, space=12)
        inside.addLayout(head)
        inside.addLayout(Wrapping(self.listing.filter, self.day, space=16))
        inside.addWidget(self.today_said)
        self.middle = Pages()
        self.middle.addWidget(self.both)
        inside.addWidget(self.middle, 1)
        self.stack_pages()
        self.pages.addWidget(self.nothing_to_pack)

    def _connect(self) -> None:
        self.listing.chosen.connect(lambda _id: self._settle.start())
        self.listing.table.selectionModel().selectionChanged.connect(lambda *_a: self._settle.start())
        self.listing.opened.connect(lambda _id: self.panel.keep_by.setFocus())
        self.listing.counted.connect(self.count)
        self.form.left.connect(self._left_form)
        self.day.changed.connect(self._look_at)
        for keys, act in (
            ("Ctrl+N", self.pack),
            ("Ctrl+Shift+T", self.toggle_timeline),
            ("Ctrl+G", self.day.ask),
            ("Ctrl+L", lambda: self.ask("labels")),
        ):
            QShortcut(QKeySequence(keys), self, act)
        self.table_menu = TableMenu(self.session, self.listing.table, "Lots", self._acts)
        for asked, key in (*((act, key) for act, _text, key in ACTS), RUN):
            made = QShortcut(QKeySequence(key), self.listing.table, calling(self.ask, asked))
            made.setContext(Qt.ShortcutContext.WidgetShortcut)

    # --- the place -----------------------------------------------------------------------------------------

    def refresh(self) -> None:
        self.day.offer_trips()
        self.listing.refresh()
        said = conditioning_words(self.session.kitchen, self.state.book)
        self.today_said.setText(said)
        self.today_said.setVisible(bool(said))
        self._settle.start()
        if self._places is not None and self.pages.currentWidget() is self._places:
            self._places.refresh()
        if self._timeline is not None and self.middle.currentWidget() is self._timeline:
            self._timeline.show_state()

    def show_record(self, kind: str, id: int | str) -> None:
        if kind == "lot":
            self.show_list()
            self._show_both()
            self.listing.show_row(int(id))
            self.panel.show_lot(int(id))
        elif kind == "batch":
            self.pack(int(id))
        elif kind == "places":
            self.show_places()
        elif kind == "bought":
            self.shelve()

    def printout(self) -> QTextDocument | None:
        from dryhouse.desk.places.shelf.page import shelf_page

        return shelf_page(self.session, self.state) if self.state.lines() else None

    def _acts(self) -> list[tuple[str, Callable[[], None]]]:
        """What can be done with the chosen lots."""
        many = len(self.listing.selected()) > 1
        return [(f"{text}\t{key}", calling(self.ask, act)) for act, text, key in ACTS if not many or act in _MANY]

    # --- acts ---------------------------------------------------------------------------------------------------

    def ask(self, act: str) -> None:
        """Begin an act with the chosen lots."""
        lots = self.listing.selected()
        if not lots and self.panel.line is not None:
            lots = [self.panel.line.lot.id]
        if not lots:
            self.session.say("Choose a lot first.")
            return
        if act == "labels":
            self.show_labels(lots)
        elif act in ("remove", RUN[0]):
            if self._settle.isActive():
                self._settle.stop()
                self._show_chosen()
            lot = self.panel.line.lot if self.panel.line is not None else None
            if lot is not None:
                _at_once(self, act, lot)
            self.listing.table.setFocus()
        else:
            if act not in _MANY:
                lots = [self.panel.line.lot.id if self.panel.line is not None else lots[0]]
            line = self.state.line(lots[0])
            title = f"{len(lots)} lots" if len(lots) > 1 else lot_name(line) if line is not None else ""
            self.form.begin(act, lots, title)
            self._show_both()
            self.beside.setCurrentWidget(self.form)

    def pack(self, batch: int | None = None) -> None:
        """Open the form that packs a batch."""
        if self._pack is None:
            from dryhouse.desk.places.shelf.pack_form import PackForm

            self._pack = PackForm(self.session)
            self._pack.packed.connect(self._packed)
            self._pack.left.connect(self.show_list)
            self._pack.places_asked.connect(lambda: self.show_places(self._pack))
            self.pages.addWidget(self._pack)
        self._pack.begin(batch)
        if not self._pack.has_batches():
            self.pages.setCurrentWidget(self.nothing_to_pack)
            self.nothing_to_pack.buttons[0].setFocus()
            return
        self.pages.setCurrentWidget(self._pack)
        self._pack.setFocus()

    def shelve(self) -> None:
        """Open the form for bought food."""
        if self._bought is None:
            from dryhouse.desk.places.shelf.bought_form import BoughtForm

            self._bought = BoughtForm(self.session)
            self._bought.shelved.connect(lambda id: self._packed([id]))
            self._bought.left.connect(self.show_list)
            self._bought.places_asked.connect(lambda: self.show_places(self._bought))
            self.pages.addWidget(self._bought)
        self.pages.setCurrentWidget(self._bought)
        self._bought.begin()

    def show_places(self, asked_by: PackForm | BoughtForm | None = None) -> None:
        """The places of this kitchen; the way back leads to the form that asked for them."""
        if self._places is None:
            from dryhouse.desk.places.shelf.places_page import PlacesPage

            self._places = PlacesPage(self.session)
            self._places.left.connect(self._left_places)
            self.pages.addWidget(self._places)
        self._asked_places = asked_by
        self._places.back.setText("&Back to the form" if asked_by else "&Back to the shelf")
        self._places.refresh()
        self.pages.setCurrentWidget(self._places)
        (self._places.list if self._places.list.count() else self._places.name_).setFocus()

    def show_labels(self, lots: list[int]) -> None:
        """Labels for these lots: preview, print, save."""
        from dryhouse.kitchen.shelf.labels import lot_labels

        if self._labels is None:
            from dryhouse.desk.labels.page import LabelsPage

            self._labels = LabelsPage(self.session)
            self._labels.left.connect(self.show_list)
            self.pages.addWidget(self._labels)
        self._labels.show_labels(lot_labels(self.session.kitchen, lots, self.session.style))
        self.pages.setCurrentWidget(self._labels)
        self._labels.setFocus()

    def toggle_timeline(self) -> None:
        """Timeline of the shelf in place of the list, or back."""
        if self._timeline is None:
            self._timeline = Timeline(self.session, self.state)
            self.middle.addWidget(self._timeline)
        self.show_list()
        there = self.middle.currentWidget() is self._timeline
        self.middle.setCurrentWidget(self.both if there else self._timeline)
        self.time_button.setChecked(not there)
        if not there:
            self._timeline.show_state()

    def is_bare(self, number: int, narrowed: bool) -> bool:
        return super().is_bare(number, narrowed) and self.state.on is None

    # --- inside -------------------------------------------------------------------------------------------------

    def _show_both(self) -> None:
        """The list and what is beside it, not the picture along time."""
        self.middle.setCurrentWidget(self.both)
        self.time_button.setChecked(False)

    def _show_chosen(self) -> None:
        self.panel.show_lot(self.listing.table.current_id)

    def _left_places(self) -> None:
        form = self._asked_places
        if form is None:
            self.show_list()
            return
        form.offer_places()
        self.pages.setCurrentWidget(form)
        form.setFocus()

    def _left_form(self) -> None:
        self.beside.setCurrentWidget(self.panel)
        self.listing.table.setFocus()

    def _packed(self, lots: list[int]) -> None:
        self.show_list()
        self._show_both()
        self.freshen()
        self.listing.show_row(lots[0])
        choose_also(self.listing.table, lots[1:])
        self.panel.show_lot(lots[0])

    def _look_at(self) -> None:
        self.listing.list_again()
        self._settle.start()
        if self._timeline is not None and self.middle.currentWidget() is self._timeline:
            self._timeline.show_state()


def _at_once(place: ShelfPlace, act: str, lot: Lot) -> None:
    """What needs no form: removed from the record, or conditioning begun or ended today."""
    if act == "remove":
        place.session.act(remove_lot, lot.id)
    elif place.panel.run_button.isHidden() or place.panel.conditioning.isHidden():
        place.session.say("There is no conditioning of this lot to begin or to end.")
    else:
        begun = lot.conditioned_from is not None and lot.conditioned_to is None
        place.session.act(end_conditioning if begun else start_conditioning, lot.id)
