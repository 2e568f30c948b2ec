"""The days of a trip, and what it asks for: to dry, to buy, to pack, and the lots it eats; each a page to print."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtGui import QGuiApplication, QTextDocument
from PySide6.QtWidgets import QMenu, QSizePolicy, QTabWidget, QTextBrowser, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.places.meals.trips.after_page import AfterPage
from dryhouse.desk.places.meals.trips.calendar_page import CalendarPage
from dryhouse.desk.places.meals.trips.lots_table import LotsTable
from dryhouse.desk.places.meals.trips.shopping_page import ShoppingPage
from dryhouse.desk.places.meals.wording import packing_page, shopping_page
from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.moment_field import show_moment
from dryhouse.desk.widgets.printing import document, preview_print
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.records import Trip
from dryhouse.kitchen.trips.provisioning import Plan

PAGE_STYLE = "h1 { font-size: 14pt; } h2 { font-size: 11pt; } td, th { padding: 2px 16px 2px 0; text-align: left; }"
PAGES = ("Drying calendar", "Shopping list", "Packing list", "Lots", "Afterwards")


DAYS = "Days"
_LISTS_HIGH = 440
"""Pixels, at our usual text, in which a list can be read; where the window is lower the page scrolls."""


class PlanView(QWidget):
    """Tabs over one plan, its days first. The lists show what will be printed."""

    def __init__(
        self,
        session: Session,
        days: QWidget,
        write_batches: Callable[[], object],
        labels: Callable[[], object],
    ) -> None:
        super().__init__()
        self.session = session
        self.plan: Plan | None = None
        self.says = text_label("", "label")
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName("Days and lists of the trip")
        self.tabs.setDocumentMode(True)
        set_role(self.tabs, "tight")
        self.tabs.addTab(days, DAYS)
        self.calendar = CalendarPage(session, self._trip, PAGE_STYLE)
        self.shopping = ShoppingPage(session)
        self.packing = QTextBrowser()
        self.packing.setAccessibleName(PAGES[2])
        self.packing.setOpenLinks(False)
        self.packing.document().setDefaultStyleSheet(PAGE_STYLE)
        for page, title in zip((self.calendar, self.shopping, self.packing), PAGES, strict=False):
            self.tabs.addTab(page, title)
        self.lots = LotsTable(session)
        self.tabs.addTab(self.lots, PAGES[3])
        self.after = AfterPage(session)
        self.tabs.addTab(self.after, PAGES[4])
        hint = "Put these loads among the planned batches; they wait in Drying now"
        self.batches = button("Plan these &batches", write_batches, "primary", hint=hint)
        self.labels = button("Bag &labels", labels)
        self.copy = button("Copy", self.copy_page, name="Copy this list")
        self.print = button("&Print", self.print_page, name="Print this list", hint="Ctrl+P")
        self.whole = button("&Whole trip", lambda: None, name="Print or save the whole trip")
        menu = QMenu(self.whole)
        menu.addAction("Preview and print…", self.print_whole)
        menu.addAction("Save as PDF…", self.save_whole)
        self.whole.setMenu(menu)
        inside = column(self, space=8)
        self.says.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        inside.addLayout(Wrapping(self.says, self.copy, self.print, self.whole, self.labels, self.batches))
        strut = QWidget()  # a least height of the tabs' own would stand for that of what is in them
        hold(strut, most_wide=1, least_high=_LISTS_HIGH)
        inside.addLayout(row(strut, self.tabs, space=0), 1)

    def show_plan(self, plan: Plan | None) -> None:
        """Show a plan, or nothing."""
        self.plan = plan
        for piece in (self.batches, self.labels, self.copy, self.print, self.whole):
            piece.setEnabled(plan is not None)
        self.calendar.show_plan(plan)
        self.shopping.show_plan(plan)
        self.packing.setHtml("" if plan is None else self._html(PAGES[2]))
        self.lots.show_plan(plan)
        self.after.show_trip(None if plan is None else plan.trip)
        self.says.setText("" if plan is None else self._summary(plan))
        if plan is not None:
            self.batches.setEnabled(bool(plan.calendar.runs))
            self.labels.setEnabled(bool(plan.bags))

    def _summary(self, plan: Plan) -> str:
        if not plan.bags:
            return "No meal is on any day yet."
        if plan.alternatives:
            return "This plan cannot be met; the drying calendar shows what to change."
        if not plan.items:
            return "The shelf covers this trip."
        latest = plan.latest_start
        number = len(plan.items)
        said = f"{number} {'food' if number == 1 else 'foods'} to dry"
        if latest is None:
            return said
        first = plan.calendar.runs[0].start
        if first == latest:
            return f"{said}. Start by {show_moment(self.session, latest)}"
        at_first, at_last = show_moment(self.session, first), show_moment(self.session, latest)
        return f"{said}. First load {at_first}; at the latest {at_last}"

    def _trip(self) -> Trip | None:
        return None if self.plan is None else self.plan.trip

    def _html(self, title: str) -> str:
        assert self.plan is not None
        style = self.session.style
        if title == PAGES[0]:
            return self.calendar.html()
        return shopping_page(self.plan, style) if title == PAGES[1] else packing_page(self.plan, style)

    def printout(self) -> QTextDocument | None:
        """The list in front; the days and the lots print as the packing list, which goes by day."""
        if self.plan is None:
            return None
        front = self.tabs.tabText(self.tabs.currentIndex())
        title = front if front in PAGES[:3] else PAGES[2]
        return document(f"{self.plan.trip.name}, {title.lower()}", self._html(title))

    def print_page(self) -> None:
        """Show the page as it will be printed."""
        page = self.printout()
        if page is not None:
            preview_print(self, page)

    def print_whole(self) -> None:
        """Show the whole trip as it will be printed."""
        if self.plan is not None:
            from dryhouse.desk.places.meals.trips.whole_trip import print_trip

            print_trip(self, self.session, self.plan)

    def save_whole(self) -> None:
        """Write the whole trip to a PDF file."""
        if self.plan is not None:
            from dryhouse.desk.places.meals.trips.whole_trip import save_trip_pdf

            save_trip_pdf(self, self.session, self.plan)

    def copy_page(self) -> None:
        """Put the page on the clipboard as plain text."""
        page = self.printout()
        if page is not None:
            QGuiApplication.clipboard().setText(page.toPlainText())
            self.session.say("The list is on the clipboard.")
