"""The drying calendar of a trip: as a list or week by week, with what is still missing and the way to it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QSizePolicy, QTextBrowser, QWidget

from dryhouse.desk.places.meals.trips.hours_form import HoursForm
from dryhouse.desk.places.meals.trips.weeks import weeks_page
from dryhouse.desk.places.meals.wording import drying_page
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, calling, column, empty, text_label
from dryhouse.desk.widgets.fields import ChoiceField
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.records import Trip
from dryhouse.kitchen.trips.calendar_file import ENDING, write_calendar
from dryhouse.kitchen.trips.household import hours_words
from dryhouse.kitchen.trips.provisioning import Plan
from dryhouse.kitchen.trips.shortfall import DRYER, LOT, PLACE, TRAY_AREA

LIST, WEEKS = "list", "weeks"
_WAYS: Mapping[str, tuple[str, str, str]] = {
    DRYER: ("Add a dryer", "journal", "dryers"),
    TRAY_AREA: ("Give the tray area", "journal", "dryers"),
    PLACE: ("Add a place", "shelf", "places"),
    LOT: ("Add to the shelf", "shelf", "bought"),
}
"""What a next step's button says, and where it leads."""


class CalendarPage(QWidget):
    """The hours she keeps above, the calendar below; `html()` is what is printed."""

    def __init__(self, session: Session, trip: Callable[[], Trip | None], style_sheet: str) -> None:
        super().__init__()
        self.session = session
        self.plan: Plan | None = None
        self.hours_line = text_label("", "small")
        self.change = button("Change the ho&urs", self._change, name="Change the hours you keep")
        self.show_as = ChoiceField(session, "Show as", ((LIST, "a list"), (WEEKS, "weeks")), name="show_as")
        self.show_as.label.hide()
        self.show_as.sentence.hide()
        self.file = button("To a &calendar", self.write, hint="Write a file that other calendars read (.ics)")
        self.form = HoursForm(session, trip)
        self.form.hide()
        self.form.left.connect(self._left)
        self.next = QWidget()
        self._steps = QHBoxLayout(self.next)
        self._steps.setContentsMargins(0, 0, 0, 0)
        self.browser = QTextBrowser()
        self.browser.setAccessibleName("Drying calendar")
        self.browser.setOpenLinks(False)
        self.browser.document().setDefaultStyleSheet(style_sheet)
        inside = column(self, space=6)
        self.hours_line.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        inside.addLayout(Wrapping(self.hours_line, self.change, self.show_as, self.file))
        inside.addWidget(self.form)
        inside.addWidget(self.next)
        inside.addWidget(self.browser, 1)
        self.show_as.changed.connect(self._fill)

    def show_plan(self, plan: Plan | None) -> None:
        """Show the calendar of a plan, or nothing."""
        self.plan = plan
        self.hours_line.setText("" if plan is None else self._hours(plan))
        self.file.setEnabled(plan is not None and bool(plan.calendar.runs))
        empty(self._steps)
        for step in () if plan is None else plan.next_steps:
            said, place, kind = _WAYS[step.what]
            role = "primary" if step.what in (DRYER, TRAY_AREA) else ""
            go = button(said, calling(self.session.open, place, kind), role, name=step.sentence)
            go.setToolTip(step.sentence)
            self._steps.addWidget(go)
        self._steps.addStretch(1)
        self.next.setVisible(plan is not None and bool(plan.next_steps))
        self._fill()

    def html(self) -> str:
        """The page as it is shown and printed."""
        if self.plan is None:
            return ""
        page = weeks_page if self.show_as.value() == WEEKS else drying_page
        return page(self.plan, self.session.style, self.session.kitchen)

    def write(self) -> None:
        """Write the calendar to a file that other calendars read."""
        if self.plan is None:
            return
        name, _ = QFileDialog.getSaveFileName(
            self, "Write the drying calendar", self.plan.trip.name + ENDING, f"Calendars (*{ENDING})"
        )
        if name and self.session.attempt(write_calendar, self.session.kitchen, self.plan, Path(name)) is not None:
            self.session.say(f"The drying calendar is written to {Path(name).name}; open it with your calendar.")

    def _hours(self, plan: Plan) -> str:
        assumed = "Assumed, as you have not said: " if plan.hours.assumed else ""
        said = hours_words(plan.hours)
        return f"{assumed}{said if assumed else said[:1].upper() + said[1:]}."

    def _fill(self) -> None:
        self.browser.setHtml(self.html())

    def _change(self) -> None:
        self.form.show()
        self.form.begin_with_what_is_kept()

    def _left(self) -> None:
        self.form.hide()
        self.change.setFocus()
